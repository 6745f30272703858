package study

import (
	"math"
	"strings"
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

// One panel on a rectangular roof, tried at every inch: the setbacks and the
// room round each patch are written out here once more.
func TestPanelGoesWhereBruteForceSaysClearOfVentsAndSkylights(t *testing.T) {
	const in = 0.0254
	patches := []model.KeepClear{
		{ID: "vent", On: "roof-south", Width: 4 * in, Height: 4 * in, Margin: 6 * in},
		{ID: "skylight", On: "Roof South", Width: 0.6, Height: 1, Margin: 10 * in},
		{ID: "fan", On: "roof-south", Width: 0.3, Height: 0.3, Margin: 0},
		{ID: "elsewhere", On: "roof-north", Left: 0, Up: 0, Width: 10, Height: 4, Margin: 0},
	}
	for _, count := range []int{0, 1, 2, 3, 4} {
		site := heatLot(42)
		site.Plans = nil
		site.KeepClear = patches[:count]
		site.Collectors = []model.CollectorChoice{{ID: "panel", Kind: "flat plate", On: "roof-south", Width: 1.2, Height: 2.4, Count: 1}}
		st := heatOf(t, site)
		p := st.Heat.Collectors[0]
		if len(p.Layout.Places) != 1 {
			t.Fatalf("%d patches: %d panels", count, len(p.Layout.Places))
		}
		got := p.Layout.Places[0]
		m := st.Map(p.Surface)
		cells := m.Read(st.BestState(0))
		value := func(r orb.Bound) float64 { // cell by cell
			sum := 0.0
			for k, x := range cells {
				u, v := m.U0+float64(k%m.Columns)*m.Cell, m.V0+float64(k/m.Columns)*m.Cell
				wide, high := min(r.Max[0], u+m.Cell)-max(r.Min[0], u), min(r.Max[1], v+m.Cell)-max(r.Min[1], v)
				if wide > 0 && high > 0 && !math.IsNaN(x) {
					sum += x * wide * high
				}
			}
			return sum
		}
		face := st.Scene.Surfaces[p.Surface].Face.Outline.Bound()
		most, free := 0.0, 0
		for u := face.Min[0]; u+1.2 <= face.Max[0]; u += in {
			for v := face.Min[1]; v+2.4 <= face.Max[1]; v += in {
				r := orb.Bound{Min: orb.Point{u, v}, Max: orb.Point{u + 1.2, v + 2.4}}
				ok := u >= face.Min[0]+18*in-1e-9 && r.Max[0] <= face.Max[0]-18*in+1e-9 && v >= face.Min[1]+12*in-1e-9 && r.Max[1] <= face.Max[1]-18*in+1e-9
				for n, k := range site.KeepClear {
					k0, k1 := face.Min[0]+k.Left-k.Margin, face.Min[0]+k.Left+k.Width+k.Margin
					v0, v1 := face.Min[1]+k.Up-k.Margin, face.Min[1]+k.Up+k.Height+k.Margin
					if n < 3 && r.Min[0] < k1-1e-6 && r.Max[0] > k0+1e-6 && r.Min[1] < v1-1e-6 && r.Max[1] > v0+1e-6 {
						ok = false
					}
				}
				if ok {
					free++
					most = max(most, value(r))
				}
			}
		}
		t.Logf("%d patches: %d free places, best %.1f kWh, placed %.1f", count, free, most, got.Value)
		if math.Abs(got.Value-most) > 1e-3*most {
			t.Errorf("%d patches: placed for %g kWh at %v, brute force finds %g", count, got.Value, got.Bound(), most)
		}
		if count < 3 { // the next patch lies where this panel hangs
			patches[count].Left, patches[count].Up = got.Left+got.Width/2, got.Bottom+got.Height/3
		}
		for _, k := range site.KeepClear[:min(count, 3)] {
			if r := k.Bound(st.Scene.Surfaces[p.Surface].Face).Pad(k.Margin - 1e-6); got.Bound().Intersects(r) {
				t.Errorf("panel at %v hangs on the %s at %v", got.Bound(), k.ID, r)
			}
		}
	}
}

func TestNoHeaterHangsAcrossADoor(t *testing.T) {
	site := heatLot(42)
	site.Trees, site.Plans = nil, nil
	site.KeepClear = []model.KeepClear{{ID: "door", On: "south", Left: 4, Up: 0, Width: 0.9, Height: 2.1, Margin: 0.127}}
	site.Collectors[0].Count = 6
	st := heatOf(t, site)
	p := st.Heat.Collectors[0]
	if len(p.Layout.Places) == 0 {
		t.Fatal("none placed")
	}
	for i, q := range p.Layout.Places {
		if b := q.Bound(); b.Max[0] > 4-0.126 && b.Min[0] < 4.9+0.126 {
			t.Errorf("heater %d at %v hangs across the door", i+1, b)
		}
	}
}

// Between the windows 6.8 m of wall are free, less 5 in of room at either: a
// heater of 8 m does not hang there, one of 6.48 m (8 m less ten times 6 in)
// does.
func TestWhereNothingFitsTheNoteSaysWhatWould(t *testing.T) {
	site := heatLot(42)
	site.Metric = true
	site.Collectors = []model.CollectorChoice{{ID: "wide", Kind: "air heater", Width: 8, Height: 1.9, Count: 1}}
	p := heatOf(t, site).Heat.Collectors[0]
	if len(p.Layout.Places) != 0 || !strings.Contains(p.Layout.Note, "one 1.90 m high may be 6.48 m wide") {
		t.Errorf("%d placed: %s", len(p.Layout.Places), p.Layout.Note)
	}
}
