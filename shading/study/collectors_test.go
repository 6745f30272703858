package study

import (
	"math"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// The chimney stands 2.0 to 2.6 m level from the eave edge of a 35° roof and
// 5.0 to 5.6 m from its west end: along the slope the level lengths are
// divided by cos 35°.
func TestPanelsKeepTwelveInchesFromAChimney(t *testing.T) {
	site := heatLot(42)
	site.Trees, site.Plans = nil, nil
	site.House.Chimneys = []model.Chimney{{ID: "flue", At: orb.Point{0, -2}, Width: 0.6, Depth: 0.6, Top: 9}}
	site.Collectors = []model.CollectorChoice{{ID: "panels", Kind: "flat plate", Width: 1.2, Height: 2, Count: 12, Turned: true}}
	st := heatOf(t, site)
	p := st.Heat.Collectors[0]
	if p.Face != "roof-south" || len(p.Layout.Places) < 4 {
		t.Fatalf("%d panels on %q", len(p.Layout.Places), p.Face)
	}
	slope := math.Cos(35 * math.Pi / 180)
	chimney := orb.Bound{Min: orb.Point{5, 2 / slope}, Max: orb.Point{5.6, 2.6 / slope}}
	const margin = 12*0.0254 - 1e-6
	for i, q := range p.Layout.Places {
		if q.Bound().Intersects(chimney.Pad(margin)) {
			t.Errorf("panel %d at %v, chimney at %v", i+1, q.Bound(), chimney)
		}
	}
}

func TestNoHeaterHangsBehindAPorch(t *testing.T) {
	site := heatLot(42)
	site.Trees, site.Plans, site.Windows = nil, nil, nil
	free := heatOf(t, site).Heat.Collectors[0]
	site.Porches = []model.Building{{ID: "porch", Parts: []model.Part{{ID: "porch", Footprint: box(-2, -6, 2, -4), WallHeight: 2.2,
		Roof: model.Roof{Kind: model.Shed, Down: s1.Angle(math.Pi), Pitch: 10 * s1.Degree, Overhang: 0.2}}}}}
	site.Collectors[0].Count = 8
	st := heatOf(t, site)
	p := st.Heat.Collectors[0]
	if len(free.Layout.Places) != 2 || len(p.Layout.Places) == 0 {
		t.Fatalf("%d placed without porch, %d with it", len(free.Layout.Places), len(p.Layout.Places))
	}
	for i, q := range p.Layout.Places {
		if b := q.Bound(); b.Max[0] > 3 && b.Min[0] < 7 { // the porch's stretch of the wall
			t.Errorf("heater %d at %v hangs behind the porch", i+1, b)
		}
	}
}

func TestCollectorsOfSeveralWishesNeverOverlap(t *testing.T) {
	site := heatLot(42)
	site.Collectors = []model.CollectorChoice{
		{ID: "a", Kind: "air heater", Width: 1, Height: 1.9, Count: 2},
		{ID: "b", Kind: "air heater", Width: 0.8, Height: 1.2, Count: 3},
		{ID: "c", Kind: "flat plate", On: "south", Width: 1, Height: 1, Count: 1},
	}
	st := heatOf(t, site)
	var all []orb.Bound
	for _, p := range st.Heat.Collectors {
		if p.Face != "south" {
			t.Errorf("%s hangs on %q", p.ID, p.Face)
		}
		for _, q := range p.Layout.Places {
			for _, o := range all {
				if q.Bound().Pad(-1e-6).Intersects(o) {
					t.Errorf("%s at %v over %v", p.ID, q.Bound(), o)
				}
			}
			all = append(all, q.Bound())
		}
	}
	if len(all) < 4 {
		t.Errorf("only %d placed", len(all))
	}
}
