package main

import (
	"encoding/csv"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/shading/study"
)

func crewOf(t *testing.T, args ...string) (string, error) {
	t.Helper()
	lot := filepath.Join("..", "..", "examples", "alder-row", "site.yaml")
	var out strings.Builder
	app := application()
	app.Writer, app.ErrWriter = &out, &out
	err := app.Run(flagsFirst(append([]string{"southyard", "crew", lot}, args...), commands()))
	return out.String(), err
}

func TestCrewListSaysWhereAndWhoAndWhat(t *testing.T) {
	text, err := crewOf(t, "--plan", "front pair")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1. T1", "2. T2", "south-west corner", "line-clearance crew only", "811", "taller than 30 ft", "ANSI Z133", "codes"} {
		if !strings.Contains(text, want) {
			t.Errorf("the list does not say %q:\n%s", want, text)
		}
	}
}

func TestCrewListComesAsTableAndAsJSON(t *testing.T) {
	text, err := crewOf(t, "--plan", "front pair", "--csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	text, err = crewOf(t, "--json")
	if err != nil {
		t.Fatal(err)
	}
	var list study.CrewList
	if err := json.Unmarshal([]byte(text), &list); err != nil || len(list.Jobs) == 0 || !strings.Contains(list.Plan, "best set") {
		t.Errorf("%v: %+v", err, list)
	}
}

func TestCrewRefusesAPlanThatIsNotThere(t *testing.T) {
	if _, err := crewOf(t, "--plan", "back yard"); err == nil || !strings.Contains(err.Error(), "front pair") {
		t.Errorf("error %v does not name the plans there are", err)
	}
}

func TestDrawsMustGiveARange(t *testing.T) {
	for n, fine := range map[int]bool{0: true, 8: false, 9: true, -1: false, 5000: true, 5001: false} {
		if err := checkDraws(n); (err == nil) != fine {
			t.Errorf("--draws %d: %v", n, err)
		}
	}
}
