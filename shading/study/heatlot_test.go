package study

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun/climate"
)

func box(west, south, east, north float64) orb.Ring {
	return orb.Ring{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}
}

// heatLot is an invented lot: a gable house of 10 × 8 m with its long side to
// the equator, two windows and three trees before it, two air heaters and two
// hot-water panels wished for. South of the equator it is its own mirror.
func heatLot(latitude float64) *model.Site {
	side, leaf := 1.0, model.Leafing{Out: 120, Fall: 300, Ramp: 21}
	wall := "south"
	site := &model.Site{
		Name:  "Quince Lane 3",
		Place: model.Place{LatLng: s2.LatLngFromDegrees(latitude, 0), Zone: ""},
		Lot:   box(-10, -30, 10, 12),
	}
	global := [12]float64{1.6, 2.4, 3.5, 4.6, 5.6, 6.2, 6.1, 5.3, 4.2, 2.9, 1.7, 1.3}
	temperature := [12]float64{-4, -3, 3, 9, 15, 20, 23, 22, 18, 11, 5, -1}
	if latitude < 0 {
		side, leaf, wall = -1, model.Leafing{Out: 302, Fall: 118, Ramp: 21}, "north"
		site.Lot = box(-10, -12, 10, 30)
		for m := range 6 {
			global[m], global[m+6] = global[m+6], global[m]
			temperature[m], temperature[m+6] = temperature[m+6], temperature[m]
		}
	}
	site.Climate = model.ClimateChoice{Monthly: true, Global: global, Temp: temperature}
	site.House = model.Building{ID: "house", Parts: []model.Part{{
		ID: "main", Footprint: box(-5, -4, 5, 4), WallHeight: 2.743,
		Roof: model.Roof{Kind: model.Gable, Ridge: s1.Angle(math.Pi / 2), Pitch: 35 * s1.Degree, Overhang: 0.3},
	}}}
	for i, left := range []float64{0.6, 8.4} {
		site.Windows = append(site.Windows, model.Window{ID: fmt.Sprintf("W%d", i+1), Wall: wall, Left: left, Sill: 0.8, Width: 1, Height: 1.5, Glazing: "single"})
	}
	for i, x := range []float64{-3, 0, 4} {
		site.Trees = append(site.Trees, model.Tree{
			ID: fmt.Sprintf("T%d", i+1), Species: "sugar maple", At: orb.Point{x, side * -(10 + 3*float64(i))}, Height: 14, SpreadX: 8, SpreadY: 8, CrownBase: 2.5,
			Shape: model.Ellipsoid, Trunk: 0.4, InLeaf: 0.15, Bare: 0.6, Leafing: leaf, Owner: model.OwnerLot, Removable: true, Cost: 900 + 100*float64(i), CostKnown: true,
		})
	}
	site.Plans = []model.Plan{
		{Name: "middle tree", Steps: []model.Step{{Kind: model.Remove, Tree: "T2"}}},
		{Name: "nothing"},
	}
	site.Budget = 2000
	site.Collectors = []model.CollectorChoice{
		{ID: "heaters", Kind: "air heater", Width: 1.2, Height: 1.9, Count: 2, Cost: 800},
		{ID: "panels", Kind: "flat plate", Width: 1.2, Height: 2.4, Count: 2, Cost: 2500, Turned: true},
	}
	return site
}

func heatOf(t *testing.T, site *model.Site) *Study {
	t.Helper()
	year, monthly, err := climate.ForSite(site.Place, site.Climate, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	st, err := Run(site, &year, monthly, Options{Row: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

var onceHeat sync.Once

var sharedHeat *Study

// heat42 is the lot at 42° north, studied once; tests must not change it.
func heat42(t *testing.T) *Study {
	t.Helper()
	onceHeat.Do(func() { sharedHeat = heatOf(t, heatLot(42)) })
	if sharedHeat == nil {
		t.Fatal("the lot could not be studied")
	}
	return sharedHeat
}

// same to a share of the greater, with a floor.
func same(a, b, share float64) bool {
	return math.Abs(a-b) <= share*max(math.Abs(a), math.Abs(b), 1e-6)
}
