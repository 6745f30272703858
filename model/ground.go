package model

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// Ground is the lie of the land about a house: level, one slope, or flat
// triangles between spot heights and the foot of the house. Beyond the
// outermost spots the ground goes on at the height of the nearest edge. The
// zero value is level ground at z = 0.
type Ground struct {
	rise      float64
	uphill    s1.Angle
	about     orb.Point // where the slope is at 0
	corners   []r3.Vector
	triangles [][3]int
	rim       [][2]int // outer edges, the land on their left
}

// Ground is the lie of the site's land. A slope is at 0 under the middle of
// the house's first part. Among spot heights the foot of the house's walls
// counts as ground at 0, or at the base of a part that stands lower, except
// where a spot is read within two feet of it. What Faults refuses of the
// terrain is passed over.
func (s *Site) Ground() Ground {
	t := s.Terrain
	if len(t.Spots) == 0 {
		g := Ground{}
		if t.SlopeRise != 0 && len(s.House.Parts) > 0 && len(s.House.Parts[0].Footprint) > 0 {
			g = Ground{rise: t.SlopeRise, uphill: t.SlopeUphill, about: s.House.Parts[0].Footprint.Bound().Center()}
		}
		return g
	}
	var spots []r3.Vector
	for _, spot := range t.Spots[:min(maxSpots, len(t.Spots))] {
		p := r3.Vector{X: spot.At[0], Y: spot.At[1], Z: spot.Up}
		again := slices.ContainsFunc(spots, func(q r3.Vector) bool { return distance(flat(p), flat(q)) < onePlace })
		if !again && math.Abs(p.X) <= farthest && math.Abs(p.Y) <= farthest && math.Abs(p.Z) <= highestSpot {
			spots = append(spots, p)
		}
	}
	return groundBetween(spots, s.House.foundation(spots))
}

const (
	maxSpots    = 500
	highestSpot = 100.0          // metres above or below the house
	onePlace    = 0.1            // spots closer than this are one, metres
	atHouse     = 2 * 0.3048     // a spot this near the house is read at its wall, metres
	shortestRun = 2 * 0.3048     // a run of wall this short is not cut further, metres
	mostPoints  = 3*maxSpots + 1 // where cutting runs of wall stops
)

// groundBetween is the ground over spots and the runs of the house's foot:
// chains of points between which the ground must not stand off the chain.
// Where a spot close by draws the triangles across a run, the run is cut in
// half until it does not.
func groundBetween(spots []r3.Vector, runs [][2]r3.Vector) Ground {
	g := Ground{corners: slices.Clone(spots)}
	number := map[orb.Point]int{}
	for i, p := range g.corners {
		number[flat(p)] = i
	}
	index := func(p r3.Vector) int {
		if i, ok := number[flat(p)]; ok {
			return i
		}
		g.corners = append(g.corners, p)
		number[flat(p)] = len(g.corners) - 1
		return len(g.corners) - 1
	}
	for _, r := range runs {
		index(r[0])
		index(r[1])
	}
	for {
		g.triangles = delaunay(g.corners)
		sides := map[[2]int]bool{}
		for _, t := range g.triangles {
			for i := range t {
				sides[[2]int{t[i], t[(i+1)%3]}] = true
			}
		}
		var cut [][2]r3.Vector
		for _, r := range runs {
			a, b := index(r[0]), index(r[1])
			middle := r[0].Add(r[1]).Mul(0.5)
			if sides[[2]int{a, b}] || sides[[2]int{b, a}] || distance(flat(r[0]), flat(r[1])) < shortestRun {
				cut = append(cut, r)
			} else {
				cut = append(cut, [2]r3.Vector{r[0], middle}, [2]r3.Vector{middle, r[1]})
			}
		}
		if len(cut) == len(runs) || len(g.corners) > mostPoints {
			break
		}
		for runs = cut; len(cut) > 0; cut = cut[1:] {
			index(cut[0][0])
		}
	}
	g.findRim()
	return g
}

// thinnest is how far the corner of a triangle on the rim must stand off its
// outer side, as a share of that side, lest it be counted as on the rim.
const thinnest = 0.02

// findRim finds the outer edges. A spot that by an inch or a rounding lies
// inside the line between its neighbours counts as on the rim: the sliver of
// a triangle outside it is taken off, the thinnest first.
func (g *Ground) findRim() {
	for {
		g.rim = nil
		owner := map[[2]int]int{}
		for k, t := range g.triangles {
			for i, a := range t {
				owner[[2]int{a, t[(i+1)%3]}] = k
			}
		}
		onRim := map[int]bool{}
		for _, t := range g.triangles {
			for i, a := range t {
				b := t[(i+1)%3]
				if _, inside := owner[[2]int{b, a}]; !inside {
					g.rim = append(g.rim, [2]int{a, b})
					onRim[a] = true
				}
			}
		}
		sliver, least := -1, thinnest
		for _, e := range g.rim {
			k := owner[e]
			tip := third(g.triangles[k], e[0], e[1])
			side := [2]orb.Point{flat(g.corners[e[0]]), flat(g.corners[e[1]])}
			_, off := alongSegment(side, flat(g.corners[tip]))
			if thin := off / distance(side[0], side[1]); thin < least && !onRim[tip] {
				sliver, least = k, thin
			}
		}
		if sliver < 0 {
			break
		}
		g.triangles = slices.Delete(g.triangles, sliver, sliver+1)
	}
	if len(g.triangles) == 0 && len(g.corners) > 1 { // in one line: the line is the rim
		row := make([]int, len(g.corners))
		for i := range row {
			row[i] = i
		}
		slices.SortFunc(row, func(i, j int) int { return g.corners[i].Cmp(g.corners[j]) })
		for i := 0; i+1 < len(row); i++ {
			g.rim = append(g.rim, [2]int{row[i], row[i+1]})
		}
	}
}

// At is the z of the ground at a point, metres.
func (g Ground) At(p orb.Point) float64 {
	switch {
	case g.rise != 0:
		sin, cos := math.Sincos(g.uphill.Radians())
		return g.rise * ((p[0]-g.about[0])*sin + (p[1]-g.about[1])*cos)
	case len(g.corners) == 0:
		return 0
	case len(g.corners) == 1:
		return g.corners[0].Z
	}
	for _, t := range g.triangles {
		a, b, c := g.corners[t[0]], g.corners[t[1]], g.corners[t[2]]
		u, v, w := turnAt(p, flat(b), flat(c)), turnAt(p, flat(c), flat(a)), turnAt(p, flat(a), flat(b))
		if all := u + v + w; all > 0 && min(u, v, w) > -1e-9*all { // on a fold counts as in, lest rounding lose it
			return (u*a.Z + v*b.Z + w*c.Z) / all
		}
	}
	z, near := 0.0, math.Inf(1)
	for _, e := range g.rim {
		a, b := g.corners[e[0]], g.corners[e[1]]
		t, _ := alongSegment([2]orb.Point{flat(a), flat(b)}, p)
		t = max(0, min(1, t))
		if d := distance(between(flat(a), flat(b), t), p); d < near {
			z, near = a.Z+t*(b.Z-a.Z), d
		}
	}
	return z
}

// Rises tells whether spot heights make the ground anything but level at 0.
func (g Ground) Rises() bool {
	return slices.ContainsFunc(g.corners, func(c r3.Vector) bool { return c.Z != 0 })
}

// Faces are the flat pieces of the ground between spot heights, looking up,
// with the land that goes on beyond the outermost spots as far as stated, in
// metres. Level ground and one slope have none.
func (g Ground) Faces(beyond float64) []Face {
	if !g.Rises() {
		return nil
	}
	var out []Face
	add := func(corners ...r3.Vector) { out = append(out, groundFace(corners)) }
	for _, t := range g.triangles {
		a, b, c := g.corners[t[0]], g.corners[t[1]], g.corners[t[2]]
		if turnAt(flat(a), flat(b), flat(c)) > leastPiece { // of less, rounding alone says which way it looks
			add(a, b, c)
		}
	}
	if !(beyond > 0) || len(g.triangles) == 0 {
		return out
	}
	after := map[int][2]int{}
	outward := func(e [2]int) r3.Vector {
		d := g.corners[e[1]].Sub(g.corners[e[0]])
		return r3.Vector{X: d.Y, Y: -d.X}.Normalize().Mul(beyond)
	}
	for _, e := range g.rim {
		after[e[0]] = e
	}
	for _, e := range g.rim {
		a, b, o := g.corners[e[0]], g.corners[e[1]], outward(e)
		add(b, a, a.Add(o), b.Add(o))
		// Round the corner, in steps of at most 45°.
		to := outward(after[e[1]])
		turn := math.Atan2(o.X*to.Y-o.Y*to.X, o.X*to.X+o.Y*to.Y)
		for steps := math.Ceil(turn/(math.Pi/4) - 1e-9); turn > 1e-9 && steps > 0; steps-- {
			sin, cos := math.Sincos(turn / steps)
			last := o
			o = r3.Vector{X: o.X*cos - o.Y*sin, Y: o.X*sin + o.Y*cos}
			turn -= turn / steps
			add(b, b.Add(last), b.Add(o))
		}
	}
	return out
}

// leastPiece is twice the area, m², below which a triangle between spots that stand
// in a line is no piece of ground.
const leastPiece = 1e-9

// groundFace is a flat piece of ground by its corners, counter-clockwise seen
// from above.
func groundFace(corners []r3.Vector) Face {
	n := corners[1].Sub(corners[0]).Cross(corners[2].Sub(corners[0])).Normalize()
	u := r3.Vector{X: -n.Y, Y: n.X}
	if u.Norm() < 1e-9 {
		n, u = r3.Vector{Z: 1}, r3.Vector{X: 1}
	}
	u = u.Normalize()
	f := Face{ID: "ground", Kind: GroundFace, Origin: corners[0], N: n, U: u, V: n.Cross(u)}
	var ring orb.Ring
	for _, c := range corners {
		ring = append(ring, f.on(c))
	}
	f.Outline = orb.MultiPolygon{{append(ring, ring[0])}}
	f.Area = areaOf(f.Outline)
	return f
}
