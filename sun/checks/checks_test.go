package checks

import (
	"flag"
	"math"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "write the table of checks")

const page = "../CHECKS.md"

func all(t *testing.T) []Check {
	t.Helper()
	checks, err := All()
	if err != nil {
		t.Fatal(err)
	}
	return checks
}

func TestEveryCheckPasses(t *testing.T) {
	groups := map[string]int{}
	for _, c := range all(t) {
		groups[c.Group]++
		if math.IsNaN(c.Ours) || !(c.Within > 0) {
			t.Errorf("%s, %s: ours %g within %g", c.Group, c.What, c.Ours, c.Within)
		}
		if c.What == "" || c.Source == "" || c.Status == "" {
			t.Errorf("%+v lacks its source", c)
		}
		if !c.Passes() {
			t.Errorf("%s, %s (%s): %g, expected %g within %g", c.Group, c.What, c.Source, c.Ours, c.Expected, c.Within)
		}
	}
	t.Log(groups)
	if len(groups) < 7 {
		t.Errorf("groups: %v", groups)
	}
}

func TestTableOfChecksIsUpToDate(t *testing.T) {
	want := Markdown(all(t))
	if *update {
		if err := os.WriteFile(page, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("%s is out of date: run go test ./sun/checks -update", page)
	}
}

func TestPassingIsWithinTheBound(t *testing.T) {
	for _, c := range []struct {
		check Check
		want  bool
	}{
		{Check{Expected: 1, Ours: 1.1, Within: 0.11}, true},
		{Check{Expected: 1, Ours: 1.2, Within: 0.11}, false},
		{Check{Expected: 1, Ours: math.NaN(), Within: 0.11}, false},
	} {
		if got := c.check.Passes(); got != c.want {
			t.Errorf("%+v: %v", c.check, got)
		}
	}
}
