package shading

import (
	"math"
	"time"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
)

// GroundSun is the sun of FaceSun on the ground under a region seen from
// above, a closed ring, in level cells: kWh on a square metre of the ground as
// it slopes. Land between spot heights is cast piece by piece, with the shade
// of one piece on another. NaN where a cell's middle is off the region.
func (sc *Scene) GroundSun(region orb.Ring, cell float64, light *Light, state State, months ...time.Month) (Cells, []float64) {
	var parts []groundPart
	for _, piece := range sc.ground.Pieces(farthestLand) {
		f, ok := piece.Under(region)
		if !ok {
			continue
		}
		cells, values := sc.FaceSun(&Surface{ID: "ground", Kind: model.GroundFace, Face: f, land: true}, cell, light, state, months...)
		if sc.ground.Level() {
			return cells, values
		}
		parts = append(parts, groundPart{f, f.Seen(), cells, values})
	}
	bound := region.Bound()
	out := Cells{U0: bound.Min[0], V0: bound.Min[1], Cell: cell, CellV: cell}
	out.Columns = max(1, int(math.Ceil((bound.Max[0]-bound.Min[0])/cell-1e-9)))
	out.Rows = max(1, int(math.Ceil((bound.Max[1]-bound.Min[1])/cell-1e-9)))
	values := make([]float64, 0, out.Columns*out.Rows)
	for r := range out.Rows {
		for c := range out.Columns {
			values = append(values, sunAt(parts, orb.Point{out.U0 + (float64(c)+0.5)*out.Cell, out.V0 + (float64(r)+0.5)*out.CellV}))
		}
	}
	return out, values
}

// groundPart is the sun on a flat piece of the ground.
type groundPart struct {
	face   model.Face
	seen   orb.Ring
	cells  Cells
	values []float64
}

// sunAt is the value of the piece under a point, straight between the middles
// of its cells.
func sunAt(parts []groundPart, p orb.Point) float64 {
	for i := range parts {
		part := &parts[i]
		if len(part.values) == 0 || !planar.RingContains(part.seen, p) {
			continue
		}
		u, v := part.face.Beneath(p)
		if z := part.cells.between(part.values, u, v); !math.IsNaN(z) {
			return z
		}
	}
	return math.NaN()
}

// between is the value at (u, v), straight between the middles of the four
// cells about it, each weighed by how much of it is on the face.
func (c *Cells) between(values []float64, u, v float64) float64 {
	x, y := (u-c.U0)/c.Cell-0.5, (v-c.V0)/c.CellV-0.5
	left, low := math.Floor(x), math.Floor(y)
	sum, weight := 0.0, 0.0
	for k := range 4 {
		i, j := left+float64(k%2), low+float64(k/2)
		column, row := int(max(0, min(i, float64(c.Columns-1)))), int(max(0, min(j, float64(c.Rows-1))))
		at := row*c.Columns + column
		if z := values[at]; !math.IsNaN(z) {
			w := (1 - math.Abs(x-i)) * (1 - math.Abs(y-j)) * c.covered[at] / c.Cell
			sum, weight = sum+w*z, weight+w
		}
	}
	if weight < 1e-4 { // less is rounding
		return math.NaN()
	}
	return sum / weight
}
