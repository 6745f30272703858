package model

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// Lengths below which two things in a drawing count as the same, metres.
const (
	sameCorner   = 1e-6   // corners this close are one corner
	besideEdge   = 4e-6   // how far off an edge its two sides are looked at
	samePlane    = 0.0081 // parallel planes this close are one plane; no round number, so that nothing drawn to the centimetre or the eighth of an inch falls just on it
	leastArea    = 1e-4   // m²; smaller pieces are dropped
	leastBreadth = 2e-3   // thinner pieces are dropped
)

// outlineOf draws the part of the plane where inside is true. Its border must
// run along edges of the rings; which stretches of them belong to the border
// is found by asking inside on both sides of every stretch. Outer rings come
// back counter-clockwise, holes clockwise, without corners on straight lines
// and without slivers.
func outlineOf(rings []orb.Ring, inside func(orb.Point) bool) orb.MultiPolygon {
	corners, edges := stretches(rings)
	next := map[int][]int{} // corner → corners its border edges lead to
	for _, e := range edges {
		a, b := corners[e[0]], corners[e[1]]
		dx, dy := b[0]-a[0], b[1]-a[1]
		length := math.Hypot(dx, dy)
		off := min(besideEdge, length/4) / length
		mx, my := (a[0]+b[0])/2, (a[1]+b[1])/2
		left := inside(orb.Point{mx - dy*off, my + dx*off})
		right := inside(orb.Point{mx + dy*off, my - dx*off})
		switch {
		case left && !right:
			next[e[0]] = append(next[e[0]], e[1])
		case right && !left:
			next[e[1]] = append(next[e[1]], e[0])
		}
	}
	return polygons(chain(corners, next))
}

// stretches cuts the rings' edges where they meet and returns the corners and
// the uncut pieces between them, each once.
func stretches(rings []orb.Ring) ([]orb.Point, [][2]int) {
	var segments [][2]orb.Point
	for _, r := range rings {
		for i := 0; i+1 < len(r); i++ {
			if distance(r[i], r[i+1]) > sameCorner {
				segments = append(segments, [2]orb.Point{r[i], r[i+1]})
			}
		}
	}
	cuts := make([][]float64, len(segments))
	for i := range segments {
		cuts[i] = append(cuts[i], 0, 1)
		for j := range segments[:i] {
			ti, tj := crossings(segments[i], segments[j])
			cuts[i] = append(cuts[i], ti...)
			cuts[j] = append(cuts[j], tj...)
		}
	}
	var found cornerSet
	seen := map[[2]int]bool{}
	var edges [][2]int
	for i, s := range segments {
		sort.Float64s(cuts[i])
		last := found.index(s[0])
		for _, t := range cuts[i] {
			at := found.index(between(s[0], s[1], t))
			if at == last {
				continue
			}
			key := [2]int{min(at, last), max(at, last)}
			if !seen[key] {
				seen[key] = true
				edges = append(edges, key)
			}
			last = at
		}
	}
	return found.points, edges
}

// crossings are the places, as shares along each segment, where one must be
// cut for the other.
func crossings(p, q [2]orb.Point) (onP, onQ []float64) {
	rx, ry := p[1][0]-p[0][0], p[1][1]-p[0][1]
	sx, sy := q[1][0]-q[0][0], q[1][1]-q[0][1]
	lp, lq := math.Hypot(rx, ry), math.Hypot(sx, sy)
	for _, end := range q {
		if t, off := alongSegment(p, end); off < sameCorner && t > 0 && t < 1 {
			onP = append(onP, t)
		}
	}
	for _, end := range p {
		if t, off := alongSegment(q, end); off < sameCorner && t > 0 && t < 1 {
			onQ = append(onQ, t)
		}
	}
	cross := rx*sy - ry*sx
	if math.Abs(cross) < 1e-9*lp*lq {
		return onP, onQ
	}
	dx, dy := q[0][0]-p[0][0], q[0][1]-p[0][1]
	t, u := (dx*sy-dy*sx)/cross, (dx*ry-dy*rx)/cross
	if t > 0 && t < 1 && u > 0 && u < 1 {
		onP, onQ = append(onP, t), append(onQ, u)
	}
	return onP, onQ
}

// alongSegment is how far along s the point p lies, as a share of its length,
// and how far off its line.
func alongSegment(s [2]orb.Point, p orb.Point) (share, off float64) {
	rx, ry := s[1][0]-s[0][0], s[1][1]-s[0][1]
	dx, dy := p[0]-s[0][0], p[1]-s[0][1]
	l2 := rx*rx + ry*ry
	return (dx*rx + dy*ry) / l2, math.Abs(dx*ry-dy*rx) / math.Sqrt(l2)
}

// cornerSet numbers points, giving points closer than sameCorner one number.
type cornerSet struct {
	points []orb.Point
	cells  map[[2]int64][]int
}

func (c *cornerSet) index(p orb.Point) int {
	const cell = 8 * sameCorner
	x, y := int64(math.Floor(p[0]/cell)), int64(math.Floor(p[1]/cell))
	for i := x - 1; i <= x+1; i++ {
		for j := y - 1; j <= y+1; j++ {
			for _, k := range c.cells[[2]int64{i, j}] {
				if distance(c.points[k], p) <= sameCorner {
					return k
				}
			}
		}
	}
	if c.cells == nil {
		c.cells = map[[2]int64][]int{}
	}
	c.points = append(c.points, p)
	c.cells[[2]int64{x, y}] = append(c.cells[[2]int64{x, y}], len(c.points)-1)
	return len(c.points) - 1
}

// chain joins directed edges into closed rings, keeping the inside on the
// left. Where rings touch in a corner it turns left, so each ring is simple.
func chain(corners []orb.Point, next map[int][]int) []orb.Ring {
	var starts []int
	for k := range next {
		starts = append(starts, k)
	}
	sort.Ints(starts)
	var rings []orb.Ring
	for _, start := range starts {
		for len(next[start]) > 0 {
			path := []int{start}
			at, from := start, -1
			for {
				to := leftmost(corners, from, at, next[at])
				if to < 0 {
					path = nil // a loose end: not a border
					break
				}
				out := next[at]
				next[at] = append(out[:to:to], out[to+1:]...)
				from, at = at, out[to]
				if at == start {
					break
				}
				path = append(path, at)
			}
			if len(path) < 3 {
				continue
			}
			ring := make(orb.Ring, 0, len(path)+1)
			for _, k := range path {
				ring = append(ring, corners[k])
			}
			rings = append(rings, append(ring, ring[0]))
		}
	}
	return rings
}

// leftmost picks the way out of a corner that turns furthest left; -1 if
// there is none.
func leftmost(corners []orb.Point, from, at int, ways []int) int {
	if len(ways) == 0 {
		return -1
	}
	if from < 0 || len(ways) == 1 {
		return 0
	}
	best, bestTurn := 0, math.Inf(-1)
	in := math.Atan2(corners[at][1]-corners[from][1], corners[at][0]-corners[from][0])
	for i, to := range ways {
		out := math.Atan2(corners[to][1]-corners[at][1], corners[to][0]-corners[at][0])
		if turn := math.Remainder(out-in, 2*math.Pi); turn > bestTurn {
			best, bestTurn = i, turn
		}
	}
	return best
}

// polygons sorts rings into outer rings and their holes and drops slivers.
func polygons(rings []orb.Ring) orb.MultiPolygon {
	var outers orb.MultiPolygon
	var holes []orb.Ring
	for _, r := range rings {
		r = straightened(r, sameCorner*3)
		if len(r) < 4 || sliver(r) {
			continue
		}
		if signedArea(r) > 0 {
			outers = append(outers, orb.Polygon{r})
		} else {
			holes = append(holes, r)
		}
	}
	for _, h := range holes {
		home, least := -1, math.Inf(1)
		for i, p := range outers {
			if a := signedArea(p[0]); a < least && a > -signedArea(h) && inRing(p[0], insideOf(h)) {
				home, least = i, a
			}
		}
		if home >= 0 {
			outers[home] = append(outers[home], h)
		}
	}
	return outers
}

func sliver(r orb.Ring) bool {
	area, around := math.Abs(signedArea(r)), 0.0
	for i := 0; i+1 < len(r); i++ {
		around += distance(r[i], r[i+1])
	}
	return area < leastArea || 2*area/around < leastBreadth
}

// insideOf is a point just inside a hole (a clockwise ring).
func insideOf(hole orb.Ring) orb.Point {
	longest, at := 0.0, 0
	for i := 0; i+1 < len(hole); i++ {
		if d := distance(hole[i], hole[i+1]); d > longest {
			longest, at = d, i
		}
	}
	a, b := hole[at], hole[at+1]
	off := besideEdge / longest
	return orb.Point{(a[0]+b[0])/2 + (b[1]-a[1])*off, (a[1]+b[1])/2 - (b[0]-a[0])*off}
}

// union of rings that may overlap.
func union(rings []orb.Ring) orb.MultiPolygon {
	return difference(rings, nil)
}

// difference is what the subject rings cover and the covers do not. Rings
// count as discs: each is filled, whatever way it runs.
func difference(subject, covers []orb.Ring) orb.MultiPolygon {
	return outlineOf(append(append([]orb.Ring{}, subject...), covers...), func(p orb.Point) bool {
		return inAny(subject, p) && !inAny(covers, p)
	})
}

// without cuts the covers out of an outline that may have holes already.
func without(outline orb.MultiPolygon, covers []orb.Ring) orb.MultiPolygon {
	if len(covers) == 0 {
		return outline
	}
	var rings []orb.Ring
	for _, p := range outline {
		rings = append(rings, p...)
	}
	return outlineOf(append(rings, covers...), func(p orb.Point) bool {
		return inOutline(outline, p) && !inAny(covers, p)
	})
}

// within cuts an outline down to what lies inside one of the rings.
func within(outline orb.MultiPolygon, rings []orb.Ring) orb.MultiPolygon {
	var all []orb.Ring
	for _, p := range outline {
		all = append(all, p...)
	}
	return outlineOf(append(all, rings...), func(p orb.Point) bool {
		return inOutline(outline, p) && inAny(rings, p)
	})
}
