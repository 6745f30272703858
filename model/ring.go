package model

import (
	"math"

	"github.com/paulmach/orb"
)

// signedArea of a closed ring, m²: positive counter-clockwise.
func signedArea(r orb.Ring) float64 {
	if len(r) == 0 {
		return 0
	}
	sum := 0.0
	for i := 0; i+1 < len(r); i++ {
		// Relative to the first corner, so that far-off rings lose no digits.
		ax, ay := r[i][0]-r[0][0], r[i][1]-r[0][1]
		bx, by := r[i+1][0]-r[0][0], r[i+1][1]-r[0][1]
		sum += ax*by - bx*ay
	}
	return sum / 2
}

// areaOf an outline, holes taken off, m².
func areaOf(m orb.MultiPolygon) float64 {
	sum := 0.0
	for _, p := range m {
		for i, r := range p {
			if i == 0 {
				sum += math.Abs(signedArea(r))
			} else {
				sum -= math.Abs(signedArea(r))
			}
		}
	}
	return sum
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

func between(a, b orb.Point, t float64) orb.Point {
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

func reversed(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// tidy closes a ring, turns it counter-clockwise and takes out repeated
// corners and corners on a straight line (within a millimetre).
func tidy(r orb.Ring) orb.Ring {
	if len(r) == 0 {
		return nil
	}
	r = append(orb.Ring{}, r...)
	if r[0] != r[len(r)-1] {
		r = append(r, r[0])
	}
	r = straightened(r, 1e-3)
	if signedArea(r) < 0 {
		r = reversed(r)
	}
	return r
}

// straightened takes out corners that lie within tol of the line between
// their neighbours, and corners within tol of the one before.
func straightened(r orb.Ring, tol float64) orb.Ring {
	if len(r) < 4 {
		return r
	}
	pts := append([]orb.Point{}, r[:len(r)-1]...)
	for i, kept := 0, 0; len(pts) >= 3 && kept < len(pts); {
		n := len(pts)
		a, b, c := pts[(i+n-1)%n], pts[i%n], pts[(i+1)%n]
		redundant := distance(a, b) <= tol
		if !redundant && distance(a, c) > tol {
			t, off := alongSegment([2]orb.Point{a, c}, b)
			redundant = off <= tol && t > 0 && t < 1
		} else if !redundant {
			redundant = true // out and back again
		}
		if redundant {
			at := i % n
			pts = append(pts[:at], pts[at+1:]...)
			i, kept = at, 0
			if i >= len(pts) {
				i = 0
			}
			continue
		}
		i, kept = (i+1)%n, kept+1
	}
	if len(pts) < 3 {
		return nil
	}
	out := append(orb.Ring{}, pts...)
	return append(out, out[0])
}

// inRing tells whether p lies inside a closed ring, by counting edges to its
// right. Points on the ring itself may go either way.
func inRing(r orb.Ring, p orb.Point) bool {
	in := false
	for i := 0; i+1 < len(r); i++ {
		a, b := r[i], r[i+1]
		if (a[1] > p[1]) != (b[1] > p[1]) &&
			p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

func inAny(rings []orb.Ring, p orb.Point) bool {
	for _, r := range rings {
		if inRing(r, p) {
			return true
		}
	}
	return false
}

func inOutline(m orb.MultiPolygon, p orb.Point) bool {
	for _, poly := range m {
		in := false
		for _, r := range poly {
			in = in != inRing(r, p)
		}
		if in {
			return true
		}
	}
	return false
}

// crossing finds where a ring crosses or touches itself.
func crossing(r orb.Ring) (orb.Point, bool) {
	n := len(r) - 1
	for i := range n {
		for j := i + 1; j < n; j++ {
			p, q := [2]orb.Point{r[i], r[i+1]}, [2]orb.Point{r[j], r[j+1]}
			adjacent := j == i+1 || i == 0 && j == n-1
			onP, _ := crossings(p, q)
			if adjacent {
				// Neighbouring edges share a corner; they are at fault only
				// where one folds back over the other.
				for _, t := range onP {
					at := between(p[0], p[1], t)
					if distance(at, p[0]) > 1e-3 && distance(at, p[1]) > 1e-3 {
						return at, true
					}
				}
				continue
			}
			if len(onP) > 0 {
				return between(p[0], p[1], onP[0]), true
			}
			for _, end := range p { // corner on corner, or on an edge
				if t, off := alongSegment(q, end); off < sameCorner && t >= 0 && t <= 1 {
					return end, true
				}
			}
		}
	}
	return orb.Point{}, false
}

// grown pushes every edge of a simple counter-clockwise ring outward by d and
// mitres the corners, no further than twice d from the corner.
func grown(r orb.Ring, d float64) orb.MultiPolygon {
	if d <= 0 {
		return orb.MultiPolygon{{r}}
	}
	rings := []orb.Ring{r}
	n := len(r) - 1
	for i := range n {
		p, q, s := r[i], r[i+1], r[(i+1)%n+1]
		a, b, _ := edgeLine(p, q)
		po, qo := orb.Point{p[0] + a*d, p[1] + b*d}, orb.Point{q[0] + a*d, q[1] + b*d}
		rings = append(rings, orb.Ring{p, po, qo, q, p})
		if turnAt(p, q, s) > 0 {
			a2, b2, _ := edgeLine(q, s)
			qs := orb.Point{q[0] + a2*d, q[1] + b2*d}
			// The mitre tip lies along the sum of the two normals.
			k := d / (1 + a*a2 + b*b2)
			if tip := (orb.Point{q[0] + (a+a2)*k, q[1] + (b+b2)*k}); distance(tip, q) <= 2*d {
				rings = append(rings, orb.Ring{q, qo, tip, qs, q})
			} else {
				rings = append(rings, orb.Ring{q, qo, qs, q})
			}
		}
	}
	return union(rings)
}
