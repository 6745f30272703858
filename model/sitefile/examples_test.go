package sitefile

import (
	"os"
	"path/filepath"
	"testing"
)

func TestExamplesHaveNoFaults(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*", "site.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatal("no examples found", err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if _, faults := Read(f, data); len(faults) > 0 {
			t.Errorf("%v", faults)
		}
	}
}

func TestStarterHasNoFaults(t *testing.T) {
	if _, faults := Read("starter.yaml", Starter()); len(faults) > 0 {
		t.Error(faults)
	}
}
