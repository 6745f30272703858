package study

import (
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

func TestShadeTreesToTheWestAreToBeLeft(t *testing.T) {
	oak := model.Tree{ID: "west", Species: "northern red oak", At: orb.Point{-11, 4}, Height: 14, CrownBase: 2, SpreadX: 10, SpreadY: 10, Shape: model.Ellipsoid,
		InLeaf: 0.15, Bare: 0.6, Leafing: model.Leafing{Out: 115, Fall: 300, Ramp: 21}, Owner: model.OwnerLot, Removable: true, Cost: 100}
	hollow, small, south := oak, oak, oak
	hollow.ID, hollow.Notes = "hollow", []string{"Hollow at the base"}
	small.ID, small.Height, small.SpreadX, small.SpreadY = "small", 4, 3, 3
	south.ID, south.At = "south", orb.Point{0, -8}
	spruce := model.Tree{ID: "spruce", Species: "Norway spruce", At: orb.Point{0, 20}, Height: 12, SpreadX: 5, SpreadY: 5, Shape: model.Cone, Evergreen: true, InLeaf: 0.15, Bare: 0.15, Owner: model.OwnerLot, Removable: true, Cost: 100}
	for _, c := range []struct {
		tree model.Tree
		want string
	}{{oak, "large shade tree to the west"}, {hollow, ""}, {small, ""}, {south, ""}, {spruce, "evergreen to the north"}} {
		_, year, monthly := alder(t)
		site := windowLot(c.tree)
		site.Place = model.Place{LatLng: alderPlace(t)}
		site.Targets = []model.Target{{Name: "south", Parts: map[string]float64{"south walls": 1}, Season: []time.Month{time.December, time.January, time.February}}}
		st, err := Run(site, year, monthly, Options{Row: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		got := st.KeepAdvice()
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s: told to leave it: %s", c.tree.ID, got[0].Why)
		case c.want != "" && (len(got) != 1 || !strings.Contains(got[0].Why, c.want)):
			t.Errorf("%s: %+v, want %q", c.tree.ID, got, c.want)
		}
	}
}
