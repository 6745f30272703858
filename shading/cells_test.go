package shading

import (
	"math"
	"testing"
)

// A cell the face reaches into by a centimetre's part is on the face; one that
// only the rounding of a slanted edge touches is not.
func TestSliversOfAFaceAreCellsAndRoundingIsNone(t *testing.T) {
	for name, c := range map[string]struct {
		end   float64 // where the row ends, m; cells are 0.5 m wide
		third float64 // covered of the third cell, m
	}{
		"half a centimetre": {1.005, 0.005},
		"a thousandth":      {1.00001, 0.00001},
		"rounding":          {1 + 1e-12, 0},
		"the cell's edge":   {1, 0},
	} {
		p := &plate{uMax: 2, step: 0.5, vMax: 0.5, combs: []comb{{rows: []row{{spans: []float64{0, c.end}}}}}}
		cells := cellsOf(p, 0.5)
		values := []float64{1, 1, 1, 1}
		cells.blank(values)
		for i, want := range []float64{0.5, 0.5, c.third, 0} {
			if math.Abs(cells.covered[i]-want) > 1e-13 {
				t.Errorf("%s: cell %d is covered along %g m, want %g", name, i+1, cells.covered[i], want)
			}
			if off := math.IsNaN(values[i]); off != (want == 0) {
				t.Errorf("%s: cell %d blank %v", name, i+1, off)
			}
		}
	}
}
