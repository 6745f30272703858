package shading

import (
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// inFront is how far ahead of a receiver's plane, in metres, a thing must
// stand to shade it: what is built into the plane does not shade it. It is what
// rounding may leave, and no more, for a reveal begins in the plane.
const inFront = 0.0001

// corner is a point in a receiver's own frame: along the row, up the face,
// and ahead of it.
type corner struct{ u, v, d float64 }

// sheet is one ring of a flat screen, clipped to what lies ahead of one
// receiver.
type sheet struct {
	blocker           int32
	corners           []corner
	cast              []orb.Point // scratch: the corners' shadows
	castLow, castHigh float64     // their range of v
}

// sheetsBefore gives the rings of a screen that stand ahead of plate p.
func sheetsBefore(p *plate, blocker int32, screen model.Face) []sheet {
	var out []sheet
	for _, polygon := range screen.Outline {
		for _, ring := range polygon {
			if s, ok := sheetBefore(p, blocker, screen, ring); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

func sheetBefore(p *plate, blocker int32, screen model.Face, ring orb.Ring) (sheet, bool) {
	points := make([]corner, 0, len(ring))
	for i, q := range ring {
		if i == len(ring)-1 && q == ring[0] {
			break
		}
		points = append(points, p.corner(screen.At(q[0], q[1])))
	}
	points = clipAhead(points)
	if len(points) < 3 {
		return sheet{}, false
	}
	s := sheet{blocker: blocker, corners: points, cast: make([]orb.Point, len(points))}
	return s, true
}

// clipAhead keeps the part of a polygon with d > inFront (Sutherland & Hodgman
// 1974, one plane).
func clipAhead(points []corner) []corner {
	var out []corner
	for i, q := range points {
		prev := points[(i+len(points)-1)%len(points)]
		if (q.d > inFront) != (prev.d > inFront) {
			t := (inFront - prev.d) / (q.d - prev.d)
			out = append(out, corner{prev.u + t*(q.u-prev.u), prev.v + t*(q.v-prev.v), inFront})
		}
		if q.d > inFront {
			out = append(out, q)
		}
	}
	return out
}

// aim casts the ring along a sun direction with slopes ua, vb onto the plate
// and reports whether the shadow's box meets the plate's.
func (s *sheet) aim(p *plate, ua, vb float64) bool {
	uLow, uHigh := inf, -inf
	vLow, vHigh := inf, -inf
	for i, c := range s.corners {
		u, v := c.u-c.d*ua, c.v-c.d*vb
		s.cast[i] = orb.Point{u, v}
		uLow, uHigh = min(uLow, u), max(uHigh, u)
		vLow, vHigh = min(vLow, v), max(vHigh, v)
	}
	s.castLow, s.castHigh = vLow, vHigh
	return uHigh >= p.uMin && uLow <= p.uMax && vHigh >= p.vMin && vLow <= p.vMax
}

// spans appends the shadow's intervals on the row at v (even-odd rule).
func (s *sheet) spans(v float64, out []float64) []float64 {
	start := len(out)
	n := len(s.cast)
	a := s.cast[n-1]
	for _, b := range s.cast {
		if (a[1] > v) != (b[1] > v) {
			out = append(out, a[0]+(v-a[1])*(b[0]-a[0])/(b[1]-a[1]))
		}
		a = b
	}
	if len(out)-start == 2 {
		if out[start] > out[start+1] {
			out[start], out[start+1] = out[start+1], out[start]
		}
	} else {
		slices.Sort(out[start:])
	}
	return out
}

// corner puts a point of space into the plate's frame.
func (p *plate) corner(at r3.Vector) corner {
	rel := at.Sub(p.face.Origin)
	return corner{rel.Dot(p.face.U), rel.Dot(p.face.V), rel.Dot(p.face.N)}
}
