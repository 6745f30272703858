package study

import (
	"encoding/csv"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// crewLot is an invented lot 60 by 100 ft with a plain house of 24 by 28 ft.
func crewLot(trees ...model.Tree) *Study {
	const ft = 0.3048
	ring := func(x0, y0, x1, y1 float64) orb.Ring {
		return orb.Ring{{x0 * ft, y0 * ft}, {x1 * ft, y0 * ft}, {x1 * ft, y1 * ft}, {x0 * ft, y1 * ft}, {x0 * ft, y0 * ft}}
	}
	site := &model.Site{
		Name: "crew", Lot: ring(0, 0, 60, 100), Trees: trees,
		House: model.Building{ID: "house", Parts: []model.Part{{ID: "main", Footprint: ring(20, 50, 44, 78), WallHeight: 4, Roof: model.Roof{Kind: model.Gable, Overhang: ft}}}},
		Wires: []model.Wire{{ID: "service drop", Line: orb.LineString{{0, 0}, {0, 100 * ft}}, Height: 5}},
	}
	return &Study{Site: site, Plans: []Plan{{Name: "all", Steps: stepsFor(trees)}}}
}

func stepsFor(trees []model.Tree) []model.Step {
	var out []model.Step
	for _, t := range trees {
		out = append(out, model.Step{Kind: model.Remove, Tree: t.ID})
	}
	return out
}

func treeAt(id string, xFeet, yFeet, heightFeet, spreadFeet float64) model.Tree {
	const ft = 0.3048
	return model.Tree{ID: id, Species: "red maple", At: orb.Point{xFeet * ft, yFeet * ft}, Height: heightFeet * ft, SpreadX: spreadFeet * ft, SpreadY: spreadFeet * ft,
		Trunk: 0.4, Owner: model.OwnerLot, Removable: true, Cost: 1000}
}

// 3-4-5: a tree 32 ft south of the south wall and 24 ft east of its west end
// (the whole wall) is 40 ft from the south-west corner and 32 ft from the
// south-east corner.
func TestTapeDistancesAreThoseOfTheRightTriangle(t *testing.T) {
	st := crewLot(treeAt("T1", 44, 18, 20, 10))
	list, err := st.CrewList("all")
	if err != nil {
		t.Fatal(err)
	}
	ties := list.Jobs[0].Ties
	if len(ties) != 2 || list.Jobs[0].Side != "south" {
		t.Fatalf("ties %+v, side %q", ties, list.Jobs[0].Side)
	}
	want := map[string]float64{"house south-west corner": 40 * 0.3048, "house south-east corner": 32 * 0.3048}
	for _, tie := range ties {
		if w, ok := want[tie.Corner]; !ok || math.Abs(tie.Distance-w) > 0.006 {
			t.Errorf("%s: %.4f m, want %.4f", tie.Corner, tie.Distance, w)
		}
	}
	var b strings.Builder
	list.Text(&b)
	if !strings.Contains(b.String(), "40 ft from the house south-west corner") {
		t.Errorf("the list does not say 40 ft from the south-west corner:\n%s", b.String())
	}
}

// Wherever a tree stands, two tapes and the side give its place back, and no
// tape runs through the house.
func TestTwoTapesAndTheSideGiveThePlaceBack(t *testing.T) {
	normal := map[string]orb.Point{"north": {0, 1}, "south": {0, -1}, "east": {1, 0}, "west": {-1, 0}}
	for x := 2.0; x < 60; x += 7 {
		for y := 2.0; y < 100; y += 7 {
			if x > 19 && x < 45 && y > 49 && y < 79 {
				continue
			}
			st := crewLot(treeAt("T", x, y, 20, 10))
			at := st.Site.Trees[0].At
			ties, side := st.ties(at)
			if len(ties) != 2 {
				t.Fatalf("tree at %v, %v: %d ties", x, y, len(ties))
			}
			for _, tie := range ties {
				if st.throughHouse(tie.at, at) {
					t.Errorf("tree at %v, %v: the tape to the %s runs through the house", x, y, tie.Corner)
				}
			}
			n, ok := normal[side]
			if !ok {
				t.Errorf("tree at %v, %v: side %q is not square to a wall", x, y, side)
				continue
			}
			// Intersect the two circles and take the point on the stated side.
			a, b := ties[0].at, ties[1].at
			d := math.Hypot(b[0]-a[0], b[1]-a[1])
			along := (ties[0].Distance*ties[0].Distance - ties[1].Distance*ties[1].Distance + d*d) / (2 * d)
			off := math.Sqrt(max(0, ties[0].Distance*ties[0].Distance-along*along))
			found := orb.Point{a[0] + along*(b[0]-a[0])/d + off*n[0], a[1] + along*(b[1]-a[1])/d + off*n[1]}
			if math.Hypot(found[0]-at[0], found[1]-at[1]) > 1e-6 {
				t.Errorf("tree at %v, %v: the tapes lead to %v, the tree stands at %v", x, y, found, at)
			}
		}
	}
}

func TestHazardsAreNotedByDistance(t *testing.T) {
	neighbours := treeAt("N", 70, 40, 20, 10)
	neighbours.Owner = model.OwnerNeighbour
	street := treeAt("S", 30, -5, 40, 20)
	street.Owner = model.OwnerStreet
	for _, c := range []struct {
		name            string
		tree            model.Tree
		hazard, trainee string
		agree           string
	}{
		{"crown edge 9 ft from the wire", treeAt("T", 14, 20, 12, 10), "nearer than 10 ft", "line-clearance crew only", "owner of the lot"},
		{"wire only within falling distance", treeAt("T", 24, 20, 28, 10), "service drop is within falling distance", "can fall on service drop", "owner of the lot"},
		{"limbs over the roof", treeAt("T", 49, 60, 25, 14), "over the roof of the house", "limbs over a roof", "owner of the lot"},
		{"taller than 30 ft", treeAt("T", 50, 20, 31, 10), "lot line", "taller than 30 ft", "owner of the lot"},
		{"trunk on the lot line", treeAt("T", 60, 20, 15, 6), "trunk on or at the lot line", "", "both owners"},
		{"crown over the lot line", treeAt("T", 56, 20, 15, 12), "crown reaches over the lot line", "", "owner across the line is told"},
		{"own tree past the lot line", treeAt("T", 66, 20, 15, 6), "outside the lot", "", "owner of the land it stands on"},
		{"neighbour's tree", neighbours, "outside the lot", "", "neighbour it belongs to"},
		{"street tree", street, "right-of-way", "taller than 30 ft", "forester's permit"},
	} {
		st := crewLot(c.tree)
		list, err := st.CrewList("ALL") // capitals do not matter
		if err != nil {
			t.Fatal(err)
		}
		j := list.Jobs[0]
		for what, pair := range map[string][2]string{
			"hazards": {strings.Join(j.Hazards, "; "), c.hazard}, "trainees": {strings.Join(j.NotForTrainees, "; "), c.trainee}, "agree": {strings.Join(j.Agree, "; "), c.agree},
		} {
			if !strings.Contains(pair[0], pair[1]) || pair[1] == "" && pair[0] != "" {
				t.Errorf("%s: %s are %q, want %q in them", c.name, what, pair[0], pair[1])
			}
		}
		if !strings.Contains(strings.Join(j.Call, ";"), "811") {
			t.Errorf("%s: nobody is told to call 811", c.name)
		}
	}
	small := crewLot(treeAt("T", 30, 24, 15, 8))
	list, _ := small.CrewList("all")
	if len(list.Jobs[0].NotForTrainees) != 0 {
		t.Errorf("a small tree in the open is kept from trainees: %v", list.Jobs[0].NotForTrainees)
	}
}

func TestCrewListNamesThePlansItHas(t *testing.T) {
	_, err := crewLot(treeAt("T1", 44, 18, 20, 10)).CrewList("front")
	if err == nil || !strings.Contains(err.Error(), `"all"`) {
		t.Errorf("error %v does not name the plan there is", err)
	}
}

func TestCrewTableHasALineForEveryTree(t *testing.T) {
	st := crewLot(treeAt("T1", 44, 18, 20, 10), treeAt("T2", 10, 18, 20, 10))
	list, err := st.CrewList("all")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := list.CSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil || len(rows) != 3 || rows[1][1] != "T1" || rows[2][1] != "T2" {
		t.Errorf("rows %v, error %v", rows, err)
	}
	if got := fmt.Sprint(rows[1][6], rows[1][9]); !strings.Contains(got, "12.19") {
		t.Errorf("no tape of 40 ft = 12.192 m in %v", rows[1])
	}
}
