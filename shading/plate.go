package shading

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model"
)

var inf = math.Inf(1)

// plate is a receiver made ready for casting: a face cut into level rows, and
// whatever stands ahead of its plane.
type plate struct {
	face       model.Face
	combs      []comb
	step       float64 // height of a row along V
	uMin, uMax float64
	vMin, vMax float64
	sheets     []sheet
	facing     []r3.Vector // on a piece of land, of its first sheets: where these pieces of land look
	solids     []solidBody
}

// comb is one way to lay level lines across the face, one in every strip.
type comb struct {
	rows  []row
	first float64 // v of the first line
	step  float64
	total float64 // summed length of all rows
}

// row is one level line across the face.
type row struct {
	v, z   float64
	spans  []float64 // pairs of u: where the line is on the face
	uLow   float64   // where the first begins
	uHigh  float64   // where the last ends
	length float64
}

// fiveCombs lay the lines at five heights within their strips, the middle
// first. Taking turns with them from hour to hour keeps an edge that never
// moves, such as that of the strip an eave always shades, from being found at
// the same wrong place in every hour.
var fiveCombs = []float64{0.5, 0.9, 0.3, 0.7, 0.1}

// newPlate cuts a face into strips no higher than step and lays a comb of lines
// at each of the given heights within a strip, 0..1.
func newPlate(face model.Face, step float64, heights []float64) *plate {
	p := &plate{face: face, uMin: inf, uMax: -inf, vMin: inf, vMax: -inf}
	for _, polygon := range face.Outline {
		for _, ring := range polygon {
			for _, q := range ring {
				p.uMin, p.uMax = min(p.uMin, q[0]), max(p.uMax, q[0])
				p.vMin, p.vMax = min(p.vMin, q[1]), max(p.vMax, q[1])
			}
		}
	}
	if !(p.vMax > p.vMin) || !(p.uMax > p.uMin) {
		return p
	}
	n := int(math.Ceil((p.vMax-p.vMin)/step - 1e-9))
	p.step = (p.vMax - p.vMin) / float64(n)
	for _, height := range heights {
		c := comb{first: p.vMin + height*p.step, step: p.step}
		for i := range n {
			r := rowAt(face, c.first+float64(i)*p.step)
			c.rows = append(c.rows, r)
			c.total += r.length
		}
		if c.total > 0 {
			p.combs = append(p.combs, c)
		}
	}
	return p
}

// rowAt is the line across the face at v.
func rowAt(face model.Face, v float64) row {
	r := row{v: v, z: face.Origin.Z + v*face.V.Z}
	for _, polygon := range face.Outline {
		for _, ring := range polygon {
			for j := range ring {
				a, b := ring[j], ring[(j+1)%len(ring)]
				if (a[1] > v) != (b[1] > v) {
					r.spans = append(r.spans, a[0]+(v-a[1])*(b[0]-a[0])/(b[1]-a[1]))
				}
			}
		}
	}
	slices.Sort(r.spans)
	if n := len(r.spans); n > 0 {
		r.uLow, r.uHigh = r.spans[0], r.spans[n-1]
	}
	for j := 0; j+1 < len(r.spans); j += 2 {
		r.length += r.spans[j+1] - r.spans[j]
	}
	return r
}

// rowRange is the half-open range of rows whose v lies in [low, high].
func (c *comb) rowRange(low, high float64) (int, int) {
	first := int(math.Ceil((low - c.first) / c.step))
	last := int(math.Floor((high-c.first)/c.step)) + 1
	return max(first, 0), min(last, len(c.rows))
}
