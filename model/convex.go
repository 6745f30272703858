package model

import (
	"github.com/paulmach/orb"
)

func convex(r orb.Ring) bool {
	n := len(r) - 1
	for i := range n {
		if turnAt(r[i], r[i+1], r[(i+2)%n]) < -1e-9 {
			return false
		}
	}
	return n >= 3
}

// turnAt is positive where a, b, c turn left.
func turnAt(a, b, c orb.Point) float64 {
	return (b[0]-a[0])*(c[1]-b[1]) - (b[1]-a[1])*(c[0]-b[0])
}

// clipped cuts a convex ring down to the points with a·x + b·y ≤ c.
func clipped(r orb.Ring, a, b, c float64) orb.Ring {
	if len(r) < 4 {
		return nil
	}
	var out orb.Ring
	for i := 0; i+1 < len(r); i++ {
		p, q := r[i], r[i+1]
		dp, dq := a*p[0]+b*p[1]-c, a*q[0]+b*q[1]-c
		if dp <= 0 {
			out = append(out, p)
		}
		if dp < 0 && dq > 0 || dp > 0 && dq < 0 {
			out = append(out, between(p, q, dp/(dp-dq)))
		}
	}
	if len(out) < 3 {
		return nil
	}
	return append(out, out[0])
}

// Within is what of a closed ring lies in a convex counter-clockwise one; nil
// where nothing does. What of a ring that is not convex falls apart stays
// joined by lines along the edge, which enclose nothing.
func Within(ring, convex orb.Ring) orb.Ring { return clippedTo(ring, convex) }

// clippedTo cuts a convex ring down to a convex counter-clockwise ring.
func clippedTo(r, by orb.Ring) orb.Ring {
	for i := 0; i+1 < len(by); i++ {
		a, b, c := edgeLine(by[i], by[i+1])
		r = clipped(r, a, b, c)
	}
	return r
}

// edgeLine is the line through an edge of a counter-clockwise ring as
// a·x + b·y ≤ c on its inside, with (a, b) a unit vector.
func edgeLine(p, q orb.Point) (a, b, c float64) {
	l := distance(p, q)
	a, b = (q[1]-p[1])/l, -(q[0]-p[0])/l
	return a, b, a*p[0] + b*p[1]
}

// convexPieces cuts a simple counter-clockwise ring into convex ones: itself
// where it is convex, else triangles (ear clipping).
func convexPieces(r orb.Ring) []orb.Ring {
	if len(r) < 4 {
		return nil
	}
	if convex(r) {
		return []orb.Ring{r}
	}
	pts := append([]orb.Point{}, r[:len(r)-1]...)
	var out []orb.Ring
	for len(pts) > 3 {
		ear := -1
		for i := range pts {
			if isEar(pts, i) {
				ear = i
				break
			}
		}
		if ear < 0 {
			break // not simple; the caller has refused such rings before
		}
		n := len(pts)
		a, b, c := pts[(ear+n-1)%n], pts[ear], pts[(ear+1)%n]
		out = append(out, orb.Ring{a, b, c, a})
		pts = append(pts[:ear], pts[ear+1:]...)
	}
	return append(out, orb.Ring{pts[0], pts[1], pts[2], pts[0]})
}

func isEar(pts []orb.Point, i int) bool {
	n := len(pts)
	a, b, c := pts[(i+n-1)%n], pts[i], pts[(i+1)%n]
	if turnAt(a, b, c) <= 1e-12 {
		return false
	}
	for k, p := range pts {
		if k == i || k == (i+n-1)%n || k == (i+1)%n {
			continue
		}
		// A corner on the cut from c to a would be left hanging on it.
		const touching = -1e-9
		if turnAt(a, b, p) >= touching && turnAt(b, c, p) >= touching && turnAt(c, a, p) >= touching &&
			p != a && p != b && p != c {
			return false
		}
	}
	return true
}
