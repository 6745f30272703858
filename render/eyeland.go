package render

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// onLand is a point of the ground.
func (d EyeView) onLand(p orb.Point) r3.Vector {
	return r3.Vector{X: p[0], Y: p[1], Z: d.Land.At(p)}
}

// lot is the lot's ground and its line, laid on the land.
func (d EyeView) lot(page ink.Page, c camera) {
	if d.Land.Level() {
		lot := c.ground([][]r3.Vector{d.laid(d.Lot)})
		page.Path(lot, area(wash))
		page.Path(lot, dashed(medium, black, dashLot))
		return
	}
	var pieces [][]r3.Vector
	for _, f := range landUnder(d.Land, d.Lot) {
		pieces = append(pieces, d.laid(f.Seen()))
	}
	page.Path(turnedAlike(c.ground(pieces)), ink.Style{Fill: wash, Winding: true})
	const step = 0.5 // metres
	var edge orb.Ring
	for i := 0; i+1 < len(d.Lot); i++ {
		a, b := d.Lot[i], d.Lot[i+1]
		n := math.Ceil(min(500, math.Hypot(b[0]-a[0], b[1]-a[1])/step))
		for k := range int(n) {
			t := float64(k) / n
			edge = append(edge, orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
		}
	}
	page.Path(c.ground([][]r3.Vector{d.laid(edge)}), dashed(medium, black, dashLot))
}

// heights are the lines of one height on the lot, so that the land's lie shows.
func (d EyeView) heights(page ink.Page, c camera) {
	var lines ink.Path
	for _, l := range heightLines(d.Land, d.Lot, d.Step) {
		a, b := d.onLand(l.a), d.onLand(l.b)
		if c.depth(a) > nearest && c.depth(b) > nearest {
			lines = append(lines, ink.Polyline(c.at(a), c.at(b))...)
		}
	}
	page.Path(lines, ink.Style{Stroke: pencil, Width: light, Round: true})
}

// moundStrokes are the strokes down a mound.
const moundStrokes = 20

// moundOf is the bank round a trunk whose ground was read higher or lower than
// the land about it is drawn: its rims on the land and at the trunk; nil for
// one that stands on the land.
func (d EyeView) moundOf(t EyeTree) (foot, top []r3.Vector) {
	const least = 0.1 // metres
	land := d.Land.At(t.At)
	rise := math.Abs(t.Ground - land)
	if rise < least {
		return nil, nil
	}
	inner := max(0.5, 0.02*t.Height)
	outer := inner + max(0.6, 1.5*rise) // steeper earth would not lie: common practice, no source
	for k := range moundStrokes {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / moundStrokes)
		foot = append(foot, r3.Vector{X: t.At[0] + outer*cos, Y: t.At[1] + outer*sin, Z: land})
		top = append(top, r3.Vector{X: t.At[0] + inner*cos, Y: t.At[1] + inner*sin, Z: t.Ground})
	}
	return foot, top
}

// mound draws the bank round a trunk with strokes down its slope, as surveys do.
func (d EyeView) mound(page ink.Page, c camera, t EyeTree) {
	foot, top := d.moundOf(t)
	outer, inner := c.ground([][]r3.Vector{foot}), c.ground([][]r3.Vector{top})
	if len(outer) == 0 || len(inner) == 0 || len(outer[0].Points) != len(inner[0].Points) {
		return // none, or partly behind the eye
	}
	var slope ink.Path
	for k, p := range outer[0].Points {
		slope = append(slope, ink.Polyline(inner[0].Points[k], p)...)
	}
	page.Path(outer, edged(veil, hair, pencil))
	page.Path(inner, edged(ink.Paper, light, pencil))
	page.Path(slope, line(hair, black))
}

// unburied is what of a face stands out of a slope. Between spot heights the
// house's foot is the ground's.
func (d EyeView) unburied(ring []r3.Vector) []r3.Vector {
	slope := d.Land.Pieces(1)
	if len(slope) != 1 || d.Land.Level() {
		return ring
	}
	return keep(ring, func(v r3.Vector) float64 { return v.Z - slope[0].Above(orb.Point{v.X, v.Y}) })
}

// laid puts a ring on the land; one that comes back to its first point is
// closed without it.
func (d EyeView) laid(r orb.Ring) []r3.Vector {
	ring := make([]r3.Vector, 0, len(r))
	for i, q := range r {
		if i == 0 || q != r[0] {
			ring = append(ring, d.onLand(q))
		}
	}
	return ring
}

// shadows are rings on the ground, every outer one turned the same way, for
// filling by the non-zero rule.
func (d EyeView) shadows(c camera, list []orb.Polygon) ink.Path {
	var out ink.Path
	for _, sh := range list {
		var rings [][]r3.Vector
		for _, r := range sh {
			rings = append(rings, d.laid(r))
		}
		for i, r := range c.ground(rings) {
			if (signedArea(r.Points) > 0) != (i == 0) {
				slices.Reverse(r.Points)
			}
			out = append(out, r)
		}
	}
	return out
}

func turnedAlike(p ink.Path) ink.Path {
	for _, r := range p {
		if signedArea(r.Points) < 0 {
			slices.Reverse(r.Points)
		}
	}
	return p
}

// ground puts rings on the page, cut off before the eye.
func (c camera) ground(rings [][]r3.Vector) ink.Path {
	var out ink.Path
	for _, ring := range rings {
		ring = keep(ring, func(v r3.Vector) float64 { return c.depth(v) - nearest })
		if len(ring) < 3 {
			continue
		}
		pts := make([]ink.Point, len(ring))
		for i, v := range ring {
			pts[i] = c.at(v)
		}
		out = append(out, ink.Run{Points: pts, Closed: true})
	}
	return out
}
