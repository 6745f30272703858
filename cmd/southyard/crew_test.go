package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/shading/study"
)

// crewLot has two trees before the south wall, one of them at a wire.
const crewLot = `name: 5 Pump Street
units: feet
place: {latitude: 41.52, longitude: -82.94, time zone: America/New_York}
lot: [[0, 0], [40, 0], [40, 90], [0, 90]]
house:
  footprint: [[8, 40], [28, 40], [28, 60], [8, 60]]
  wall height: 9 ft
  roof: {kind: flat}
  windows: [{id: W1, wall: south, left: 4 ft, sill: 3 ft, width: 3 ft, height: 5 ft}]
wires: [{id: service drop, line: [[10, -6], [8, 40]], height: 17 ft, note: electric service}]
trees:
  - {id: T1, species: red maple, at: [12, 20], height: 38 ft, spread: 20 ft, cost: $900, notes: ["service drop within 10 ft: line-clearance crew only"]}
  - {id: T2, species: Norway spruce, at: [24, 26], height: 41 ft, spread: 16 ft, cost: $700}
plans: [{name: front pair, remove: [T1, T2]}]
`

func crewOf(t *testing.T, args ...string) (string, error) {
	t.Helper()
	lot := filepath.Join(t.TempDir(), "lot.yaml")
	if err := os.WriteFile(lot, []byte(crewLot), 0o644); err != nil {
		t.Fatal(err)
	}
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
