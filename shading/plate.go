package shading

import (
	"math"
	"slices"

	"github.com/southyard/southyard/model"
)

var inf = math.Inf(1)

// plate is a receiver made ready for casting: a face cut into level rows, and
// whatever stands ahead of its plane.
type plate struct {
	face       model.Face
	rows       []row
	step       float64 // height of a row along V
	total      float64 // summed length of all rows
	uMin, uMax float64
	vMin, vMax float64
	sheets     []sheet
	solids     []solidBody
}

// row is one level line across the face, in the middle of its strip.
type row struct {
	v, z   float64
	spans  []float64 // pairs of u: where the line is on the face
	uLow   float64   // where the first begins
	uHigh  float64   // where the last ends
	length float64
}

// newPlate cuts a face into rows no higher than step.
func newPlate(face model.Face, step float64) *plate {
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
	for i := range n {
		v := p.vMin + (float64(i)+0.5)*p.step
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
		p.rows = append(p.rows, r)
		p.total += r.length
	}
	return p
}

// rowRange is the half-open range of rows whose v lies in [low, high].
func (p *plate) rowRange(low, high float64) (int, int) {
	first := int(math.Ceil((low-p.vMin)/p.step - 0.5))
	last := int(math.Floor((high-p.vMin)/p.step-0.5)) + 1
	return max(first, 0), min(last, len(p.rows))
}
