package page

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
)

// Ground that stands higher than the house's is cast where it lies, not under
// itself.
func TestCellsOfTheGroundLieOnIt(t *testing.T) {
	site := &model.Site{
		Lot:   orb.Ring{{-10, -20}, {20, -20}, {20, 20}, {-10, 20}, {-10, -20}},
		House: model.Building{ID: "house", Parts: []model.Part{{Footprint: orb.Ring{{0, 0}, {8, 0}, {8, 10}, {0, 10}, {0, 0}}, WallHeight: 5, Roof: model.Roof{Kind: model.Flat}}}},
	}
	for _, at := range []orb.Point{{-10, -8}, {20, -8}} {
		site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: at}, model.Spot{At: orb.Point{at[0], -14}, Up: 3})
	}
	scene, err := shading.NewScene(site)
	if err != nil {
		t.Fatal(err)
	}
	st := &study.Study{Site: site, Scene: scene}
	list := faces(st)
	ground := &list[len(list)-1]
	if !ground.ground {
		t.Fatal("the ground is not the last face")
	}
	surfaces, corners := cells(st, ground, 100)
	high := 0
	for i, s := range surfaces {
		middle := orb.Point{corners[i][0] + ground.wide/2, corners[i][1] + ground.high/2}
		if z := site.Ground().At(middle); math.Abs(s.Face.Origin.Z-z) > 0.02 {
			t.Errorf("a cell at %v lies at %.2f m, the ground at %.2f m", middle, s.Face.Origin.Z, z)
		} else if z > 2.9 {
			high++
		}
		if s.Kind != model.GroundFace {
			t.Error("the land stands before its own cells")
		}
	}
	if high == 0 {
		t.Error("no cell lies on the bank")
	}
}
