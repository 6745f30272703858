package heat

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// ValueMap is a map of sun on a face that answers any rectangle's sum at once
// (a summed-area table). Within a cell the sun is even.
type ValueMap struct {
	u0, v0, cell float64
	columns      int
	rows         int
	sums         []float64 // (columns+1) × (rows+1), value × m²
}

// NewValueMap builds the map from cells of side cell (m), lowest row first
// and left to right, whose lower left corner is (u0, v0). values are per m²,
// such as kWh/m² a season.
func NewValueMap(u0, v0, cell float64, columns int, values []float64) (ValueMap, error) {
	if columns <= 0 || len(values) == 0 || len(values)%columns != 0 || !(cell > 0) {
		return ValueMap{}, fmt.Errorf("sun map of %d values in %d columns, cell %g m: want whole rows and a cell above 0", len(values), columns, cell)
	}
	m := ValueMap{u0: u0, v0: v0, cell: cell, columns: columns, rows: len(values) / columns}
	w := columns + 1
	m.sums = make([]float64, w*(m.rows+1))
	for r := 0; r < m.rows; r++ {
		for c := 0; c < columns; c++ {
			v := values[r*columns+c]
			if math.IsNaN(v) || v < 0 {
				return ValueMap{}, fmt.Errorf("sun map: cell %d,%d is %g, want 0 or more", c, r, v)
			}
			m.sums[(r+1)*w+c+1] = v*cell*cell + m.sums[r*w+c+1] + m.sums[(r+1)*w+c] - m.sums[r*w+c]
		}
	}
	return m, nil
}

// Sum of value × area over a rectangle; 0 outside the map.
func (m ValueMap) Sum(b orb.Bound) float64 {
	return m.upTo(b.Max[0], b.Max[1]) - m.upTo(b.Min[0], b.Max[1]) - m.upTo(b.Max[0], b.Min[1]) + m.upTo(b.Min[0], b.Min[1])
}

// upTo is the sum left of u and below v: straight within a cell.
func (m ValueMap) upTo(u, v float64) float64 {
	x := clamp((u-m.u0)/m.cell, 0, float64(m.columns))
	y := clamp((v-m.v0)/m.cell, 0, float64(m.rows))
	c, r := min(int(x), m.columns-1), min(int(y), m.rows-1)
	fx, fy := x-float64(c), y-float64(r)
	w := m.columns + 1
	at := func(c, r int) float64 { return m.sums[r*w+c] }
	return (1-fy)*((1-fx)*at(c, r)+fx*at(c+1, r)) + fy*((1-fx)*at(c, r+1)+fx*at(c+1, r+1))
}
