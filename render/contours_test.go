package render

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

func TestDottedLinesNoLargerThanASpeckAreLeftOut(t *testing.T) {
	ring := func(x, y, side float64) ink.Path {
		p := []ink.Point{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}, {X: x, Y: y}}
		var out ink.Path
		for i := range 4 {
			out = append(out, ink.Line(p[i].X, p[i].Y, p[i+1].X, p[i+1].Y)...)
		}
		return out
	}
	small, large := ring(0, 0, speck/2), ring(100, 0, 2*speck)
	got := longer(slices.Concat(small, large), speck)
	if len(got) != 4 {
		t.Fatalf("%d pieces, want the four of the large ring", len(got))
	}
	for _, r := range got {
		if r.Points[0].X < 100 {
			t.Errorf("a piece of the small ring is left: %v", r.Points)
		}
	}
}

// Over a window the values are not known; a limit that comes level to its
// side goes on level under it. Copying the row above the window downwards
// would let the darker class hang into it.
func TestLimitsRunOnUnderAWindow(t *testing.T) {
	const cols, rows = 15, 12
	g := &Grid{Cell: 0.2, Cols: cols, Rows: rows, Values: make([]float64, cols*rows)}
	slope := func(r int) float64 { return 600 - 40*float64(r) } // darker toward the eave
	for r := range rows {
		for c := range cols {
			v := slope(r)
			if c >= 6 && c < 9 && r >= 4 && r < 8 {
				v = math.NaN()
			}
			g.Values[r*cols+c] = v
		}
	}
	z, wide, _ := g.padded()
	for r := range rows {
		for c := range cols {
			if got := z[(r+1)*wide+c+1]; math.Abs(got-slope(r)) > 2 {
				t.Errorf("column %d row %d: %.0f, want %.0f", c, r, got, slope(r))
			}
		}
	}
}

func TestWindowLettersWhatReachesItsGlass(t *testing.T) {
	d := demoFace()
	d.Openings = []Opening{{ID: "W9", Ring: rect(1, 1, 2.2, 2.4), Sun: "366"}, {ID: "W8", Ring: rect(3, 1, 3.15, 1.2), Sun: "377"}}
	said := lettered(t, d)
	if !slices.Contains(said, "366") {
		t.Errorf("not lettered: %q", said)
	}
	if slices.Contains(said, "377") {
		t.Error("lettered in a window too small for it")
	}
}

func TestSlantingEdgesAreNamedOutsideTheFace(t *testing.T) {
	d := FaceMap{Words: Words{Title: "A plane with a valley"}, Outline: orb.MultiPolygon{{{{0, 0}, {6, 0}, {9, 3}, {3, 3}, {0, 0}}}}, Ground: math.NaN(),
		Edges: []FaceEdge{{A: orb.Point{6, 0}, B: orb.Point{9, 3}, Name: "valley"}, {A: orb.Point{3, 3}, B: orb.Point{0, 0}, Name: "hip"}}}
	rec, s := recorded(t, d, d.Words)
	face := viewOf(d.bound(), d.box(s)).polygons(d.Outline)
	found := 0
	for _, w := range rec.Texts {
		if w.S != "valley" && w.S != "hip" {
			continue
		}
		found++
		x, y := (w.Box.X0+w.Box.X1)/2, (w.Box.Y0+w.Box.Y1)/2
		if contains(face, ink.Point{X: x, Y: y}) {
			t.Errorf("%q stands on the face, which is free outside", w.S)
		}
	}
	if found != 2 {
		t.Errorf("%d edges named, want 2", found)
	}
}
