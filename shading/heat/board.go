package heat

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// KeepOut is a rectangle no panel may touch, with room around it.
type KeepOut struct {
	What   string
	Rect   orb.Bound
	Margin float64 // m
}

// Setbacks are the distances panels keep from the edges of a face, m. Room round
// vents and the like is the site file's to say (KeepOut.Margin).
type Setbacks struct {
	Bottom  float64 // eave of a roof, base of a wall
	Top     float64 // ridge of a roof, eave line over a wall
	Side    float64 // rakes, hips, valleys; corners of a wall
	Hole    float64 // openings cut out of the outline
	Chimney float64 // chimneys
}

// RoofSetbacks and WallSetbacks are common practice; the local fire code rules.
func RoofSetbacks() (Setbacks, []Default) {
	in := func(n float64) float64 { return n * metresPerInch }
	const why = "common practice; the local fire code rules"
	s := Setbacks{Bottom: in(12), Top: in(18), Side: in(18), Hole: in(6), Chimney: in(12)}
	return s, []Default{
		{"panels keep from the ridge", inches(s.Top), why},
		{"panels keep from the eave", inches(s.Bottom), why},
		{"panels keep from rakes, hips and valleys", inches(s.Side) + "; a path for fire crews may need " + inches(in(36)), why},
		{"panels keep from chimneys and vents", inches(s.Chimney) + " and " + inches(s.Hole), why},
	}
}

// WallSetbacks for panels on a wall.
func WallSetbacks() (Setbacks, []Default) {
	in := func(n float64) float64 { return n * metresPerInch }
	const why = "common practice; the local code rules"
	s := Setbacks{Bottom: in(8), Top: in(6), Side: in(4), Hole: in(5), Chimney: in(12)}
	return s, []Default{
		{"panels keep from the wall's base and eave", inches(s.Bottom) + " and " + inches(s.Top), why},
		{"panels keep from corners", inches(s.Side), why},
		{"panels keep from windows and their trim", inches(s.Hole), why},
	}
}

// Board is a face on which panels may hang.
type Board struct {
	Outline  orb.MultiPolygon // u to the right and v up, m
	KeepOuts []KeepOut
	Setbacks Setbacks
	Value    func(orb.Bound) float64 // sun × area of a rectangle, such as ValueMap.Sum
}

// edge is one side of the outline with the distance to keep from it.
type edge struct {
	a, b orb.Point
	keep float64
	box  orb.Bound
}

// edges of the outline. An edge within 20° of level is a bottom or a top by
// the side its polygon lies on.
func (b Board) edges() []edge {
	var out []edge
	for _, polygon := range b.Outline {
		for n, ring := range polygon {
			for i := 0; i+1 < len(ring); i++ {
				e := edge{a: ring[i], b: ring[i+1], keep: b.Setbacks.Side}
				du, dv := e.b[0]-e.a[0], e.b[1]-e.a[1]
				if math.Hypot(du, dv) < 1e-9 {
					continue
				}
				if n > 0 {
					e.keep = b.Setbacks.Hole
				} else if math.Abs(dv) < math.Tan(20*math.Pi/180)*math.Abs(du) {
					middle := orb.Point{(e.a[0] + e.b[0]) / 2, (e.a[1]+e.b[1])/2 + 1e-4}
					e.keep = b.Setbacks.Top
					if planar.PolygonContains(polygon, middle) {
						e.keep = b.Setbacks.Bottom
					}
				}
				e.box = orb.MultiPoint{e.a, e.b}.Bound()
				out = append(out, e)
			}
		}
	}
	return out
}

// touch is the slack (m) for panels that lie exactly along a limit.
const touch = 1e-6

// free tells whether a panel may lie on rect.
func (b Board) free(edges []edge, rect orb.Bound) bool {
	rect = rect.Pad(-touch)
	for _, k := range b.KeepOuts {
		if rect.Intersects(k.Rect.Pad(k.Margin)) {
			return false
		}
	}
	for _, e := range edges {
		if !rect.Pad(e.keep + touch).Intersects(e.box) {
			continue
		}
		if d := distance(rect, e.a, e.b); d <= 0 || d < e.keep {
			return false
		}
	}
	return planar.MultiPolygonContains(b.Outline, rect.Center())
}

// distance between a rectangle and a segment; 0 when they meet.
func distance(r orb.Bound, a, b orb.Point) float64 {
	if meets(r, a, b) {
		return 0
	}
	d := min(fromRect(r, a), fromRect(r, b))
	for _, c := range []orb.Point{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}} {
		d = min(d, planar.DistanceFromSegment(a, b, c))
	}
	return d
}

func fromRect(r orb.Bound, p orb.Point) float64 {
	return math.Hypot(max(r.Min[0]-p[0], 0, p[0]-r.Max[0]), max(r.Min[1]-p[1], 0, p[1]-r.Max[1]))
}

// meets clips the segment to the rectangle (Liang & Barsky 1984).
func meets(r orb.Bound, a, b orb.Point) bool {
	low, high := 0.0, 1.0
	for axis := 0; axis < 2; axis++ {
		d := b[axis] - a[axis]
		if d == 0 {
			if a[axis] < r.Min[axis] || a[axis] > r.Max[axis] {
				return false
			}
			continue
		}
		s, t := (r.Min[axis]-a[axis])/d, (r.Max[axis]-a[axis])/d
		low, high = max(low, min(s, t)), min(high, max(s, t))
	}
	return low <= high
}
