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
