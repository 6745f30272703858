package portfolio

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/study"
)

func TestSkyShowsTheBankAndTheSkyline(t *testing.T) {
	site := &model.Site{House: model.Building{ID: "house", Parts: []model.Part{{
		Footprint: orb.Ring{{0, 0}, {8, 0}, {8, 10}, {0, 10}, {0, 0}}, WallHeight: 5, Roof: model.Roof{Kind: model.Flat},
	}}}}
	for _, x := range []float64{-40, 48} {
		site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: orb.Point{x, -10}}, model.Spot{At: orb.Point{x, -14}, Up: 4})
	}
	site.Terrain.Skyline = []model.SkylinePoint{{Azimuth: 170 * s1.Degree, Altitude: 3 * s1.Degree}, {Azimuth: 190 * s1.Degree}, {Azimuth: 150 * s1.Degree}}
	s := set{&study.Study{Site: site}}
	seen := s.land(r3.Vector{X: 4, Z: 1}, r3.Vector{Y: -1}, 180)
	if len(seen) != 2 || seen[0].Name != "land" || seen[1].Name != "skyline" {
		t.Fatalf("%+v", seen)
	}
	south := 0.0
	for _, p := range seen[0].Outline {
		if p.Azimuth < 88 || p.Azimuth > 272 {
			t.Errorf("land at %v°, behind the wall", p.Azimuth)
		}
		if p.Azimuth == 180 {
			south = p.Altitude
		}
	}
	if want := math.Atan2(3, 14) * 180 / math.Pi; math.Abs(south-want) > 1e-9 {
		t.Errorf("due south the bank stands %v° high, not %v°", south, want)
	}
	site.Terrain = model.Terrain{}
	if seen := s.land(r3.Vector{X: 4, Z: 1}, r3.Vector{Y: -1}, 180); len(seen) != 0 {
		t.Errorf("level open ground shows %+v", seen)
	}
}

func TestCaptionsSayOnWhatGroundShadowsFall(t *testing.T) {
	lot := orb.Ring{{-5, -9}, {20, -9}, {20, 16}, {-5, 16}, {-5, -9}}
	house := model.Building{ID: "house", Parts: []model.Part{{
		Footprint: orb.Ring{{0, 0}, {8, 0}, {8, 10}, {0, 10}, {0, 0}}, WallHeight: 5, Roof: model.Roof{Kind: model.Flat},
	}}}
	for _, c := range []struct {
		name, ground, heights string
		metric                bool
		terrain               model.Terrain
	}{
		{"level", "on level ground", "", false, model.Terrain{}},
		{"slope", "on ground that rises 12 % toward east", " Thin lines on the ground: one height each, 1 ft apart.", false, model.Terrain{SlopeRise: 0.12, SlopeUphill: 90 * s1.Degree}},
		{"slope, metric", "on ground that rises 7.5 % toward north", " Thin lines on the ground: one height each, 0.2 m apart.", true, model.Terrain{SlopeRise: 0.075}},
		{"spots", "on the ground between the spot heights", " Thin lines on the ground: one height each, 1 ft apart.", false, model.Terrain{Spots: []model.Spot{{At: orb.Point{-5, -9}, Up: 1.3}, {At: orb.Point{20, -9}, Up: 2}}}},
		{"level spots", "on level ground", "", false, model.Terrain{Spots: []model.Spot{{At: orb.Point{-5, -9}}, {At: orb.Point{20, -9}}}}},
	} {
		s := set{&study.Study{Site: &model.Site{Lot: lot, House: house, Metric: c.metric, Terrain: c.terrain}}}
		if got := s.onGround(); got != c.ground {
			t.Errorf("%s: %q, want %q", c.name, got, c.ground)
		}
		if got := s.heightWords(); got != c.heights {
			t.Errorf("%s: %q, want %q", c.name, got, c.heights)
		}
		plan := s.planLand()
		if len(plan.Spots) != len(c.terrain.Spots) {
			t.Errorf("%s: %d spots on the plan", c.name, len(plan.Spots))
		}
	}
	s := set{&study.Study{Site: &model.Site{Lot: lot, House: house, Trees: []model.Tree{{ID: "T1", At: orb.Point{12, 3}, Ground: 1}}}}}
	if got := s.heightWords(); got != " Rays round a trunk: its ground was stated higher or lower than the land beside it." {
		t.Errorf("a tree on a bank of its own: %q", got)
	}
}
