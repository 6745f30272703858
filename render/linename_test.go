package render

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// narrowLot is a town lot turned by so many degrees, fenced on both sides, with
// a wire along the alley.
func narrowLot(turn float64) LotPlan {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	at := func(x, y float64) orb.Point { return orb.Point{x*cos - y*sin, x*sin + y*cos} }
	ring := func(x0, y0, x1, y1 float64) orb.Ring {
		return orb.Ring{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1), at(x0, y0)}
	}
	return LotPlan{
		Words:     Words{Title: "A narrow lot"},
		Lot:       ring(0, 0, 6, 28),
		Buildings: []PlanBuilding{{Name: "house", Kind: House, Walls: []orb.Ring{ring(0, 16, 6, 26)}}, {Name: "shop", Kind: Neighbour, Walls: []orb.Ring{ring(10, -4, 24, 14)}}},
		Trees:     []PlanTree{{ID: "T1", At: at(2, 4), SpreadX: 7, SpreadY: 7}, {ID: "T2", At: at(3, 9), SpreadX: 6, SpreadY: 6, Removed: true}},
		Fences:    []PlanLine{{Name: "yard wall", Line: orb.LineString{at(0, 0), at(0, 16)}}, {Name: "alley fence", Line: orb.LineString{at(6, 2), at(6, 16)}}},
		Wires:     []PlanLine{{Name: "alley line", Line: orb.LineString{at(8, -6), at(8, 30)}}},
	}
}

func TestNamesOfFencesAndWiresStandCloseAlongThem(t *testing.T) {
	const near = 8.0 // points from the line to the foot of the letters
	for _, turn := range []float64{0, 7, 13, 38, 61, 90, -13, -45, -77} {
		d := narrowLot(turn)
		rec, s := recorded(t, d, d.Words)
		v := viewOf(d.bound(), d.box(s))
		for _, l := range append(append([]PlanLine{}, d.Fences...), d.Wires...) {
			found := false
			for _, w := range rec.Texts {
				if w.S != l.Name {
					continue
				}
				found = true
				a, b := v.pt(l.Line[0]), v.pt(l.Line[1])
				ux, uy := (b.X-a.X)/math.Hypot(b.X-a.X, b.Y-a.Y), (b.Y-a.Y)/math.Hypot(b.X-a.X, b.Y-a.Y)
				off := math.Abs((w.X-a.X)*uy - (w.Y-a.Y)*ux)
				sin, cos := math.Sincos(w.T.Turn * math.Pi / 180)
				if off > near || math.Abs(cos*uy+sin*ux) > 1e-6 {
					t.Errorf("lot turned by %.0f°: %q stands %.1f points off its line, turned by %.0f°", turn, l.Name, off, w.T.Turn)
				}
				if cos < -1e-9 {
					t.Errorf("lot turned by %.0f°: %q stands on its head", turn, l.Name)
				}
			}
			if !found {
				t.Errorf("lot turned by %.0f°: %q is not lettered", turn, l.Name)
			}
		}
	}
}

func TestNamesOfCollectorsRunOverNoEdgeNorTheGround(t *testing.T) {
	low := FaceMap{
		Words:   Words{Title: "A low wall"},
		Outline: orb.MultiPolygon{{{{0, 0}, {8, 0}, {8, 2.8}, {0, 2.8}, {0, 0}}}}, Ground: 0,
		Left: "west end", Right: "east end",
		Openings:   []Opening{{ID: "W1", Ring: rect(1, 0.8, 2.2, 2.2)}, {ID: "W2", Ring: rect(5.5, 0.8, 6.7, 2.2)}},
		Collectors: []Collector{{ID: "wall heaters 1", Ring: rect(4.4, 0.2, 5.26, 2.33), FromLeft: "4.39 m", Up: "0.20 m", Width: "0.86 m", Height: "2.13 m"}, {ID: "wall heaters 2", Ring: rect(6.83, 0.2, 7.69, 2.33), FromLeft: "6.83 m", Up: "0.20 m", Width: "0.86 m", Height: "2.13 m"}},
	}
	roof := low
	roof.Outline = orb.MultiPolygon{{{{0, 0}, {8, 0}, {12, 4.4}, {11, 5.5}, {5, 5.5}, {0, 0}}}}
	roof.Ground, roof.Openings = math.NaN(), nil
	roof.Collectors = []Collector{{ID: "hot water 1", Ring: rect(7.3, 2.6, 8.5, 5.05), Width: "1.22 m", Height: "2.44 m"}, {ID: "hot water 2", Ring: rect(8.6, 2.6, 9.8, 5.05), Width: "1.22 m", Height: "2.44 m"}}
	for name, d := range map[string]FaceMap{"wall": low, "roof": roof} {
		for _, share := range []float64{0.75, 0.8, 0.9, 1} {
			f := d.Figure()
			rec := &ink.Record{W: f.Width, H: share * f.Height}
			if err := d.Draw(rec); err != nil {
				t.Fatal(err)
			}
			s, err := begin(&ink.Record{W: f.Width, H: share * f.Height}, d.Words)
			if err != nil {
				t.Fatal(err)
			}
			edges := viewOf(d.bound(), d.box(s)).polygons(d.Outline)
			for _, c := range d.Collectors {
				said := false
				for _, w := range rec.Texts {
					if len(w.S) >= len(c.ID) && w.S[:len(c.ID)] == c.ID {
						said = true
						if len(ink.ClipLines(edges, w.Box)) > 0 {
							t.Errorf("%s at %.0f %%: an edge runs through %q", name, 100*share, w.S)
						}
					}
				}
				if !said && share < 0.8 {
					t.Errorf("%s at %.0f %%: %q is not lettered on one line", name, 100*share, c.ID)
				}
			}
		}
	}
}
