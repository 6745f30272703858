package render

import (
	"math"
	"sort"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// pieces of a tree: its trunk, and its crown as a flat outline that stands
// across the line of sight, with the side toward the sun lighter.
func (t EyeTree) pieces(c camera, sun r3.Vector) []piece {
	foot := r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground}
	outline := t.outline(c)
	if len(outline) < 3 {
		return nil
	}
	thick := c.right.Mul(max(0.12, 0.012*t.Height))
	top := foot.Add(r3.Vector{Z: t.CrownBase + 0.15*(t.Height-t.CrownBase)})
	stump := foot.Add(r3.Vector{Z: min(0.4, t.Height/4)})
	trunk := func(end r3.Vector) piece {
		return newPiece([]r3.Vector{foot.Sub(thick), foot.Add(thick), end.Add(thick), end.Sub(thick)}, edged(pencil, hair, black))
	}
	if t.Removed {
		return []piece{trunk(stump), newPiece(outline, dashed(1.1, red, dashGone))}
	}
	fill, lit := ink.RGB(0xb4bfae), ink.RGB(0xdbe2d6)
	pen := line(medium, black)
	switch {
	case t.Planted:
		pen = line(heavy, green)
	case t.Bare:
		fill.A, lit = 70, ink.Colour{}
		pen = line(light, black)
	case t.Evergreen:
		fill, lit = ink.RGB(0x869686), ink.RGB(0xaebbab)
	}
	pen.Fill = fill
	crown := newPiece(outline, pen)
	if lit.A > 0 {
		toward := sun
		if toward.Norm() == 0 {
			toward = r3.Vector{Z: 1}
		}
		edge := outline[0]
		for _, v := range outline {
			if v.Dot(toward) > edge.Dot(toward) {
				edge = v
			}
		}
		mid := r3.Vector{}
		for _, v := range outline {
			mid = mid.Add(v.Mul(1 / float64(len(outline))))
		}
		edge = mid.Add(edge.Sub(mid).Mul(0.92)) // clear of the outline
		inner := make([]r3.Vector, len(outline))
		for i, v := range outline {
			inner[i] = edge.Add(v.Sub(edge).Mul(0.74))
		}
		crown.on = append(crown.on, newPiece(inner, area(lit)))
	}
	return []piece{trunk(top), crown}
}

// outline is the crown's edge as the eye sees it, in the plane through its
// middle across the line of sight.
func (t EyeTree) outline(c camera) []r3.Vector {
	mid := r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground + (t.Height+t.CrownBase)/2}
	n := c.eye.Sub(mid).Normalize()
	u := c.right.Sub(n.Mul(c.right.Dot(n))).Normalize()
	v := n.Cross(u)
	type flat struct{ x, y float64 }
	var pts []flat
	const levels, around = 16, 24
	for i := range levels + 1 {
		h := float64(i) / levels
		r := radius(t.Shape, h)
		for k := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
			p := r3.Vector{X: t.At[0] + r*cos*t.SpreadX/2, Y: t.At[1] + r*sin*t.SpreadY/2, Z: t.Ground + t.CrownBase + h*(t.Height-t.CrownBase)}
			ray := p.Sub(c.eye)
			along := mid.Sub(c.eye).Dot(n) / ray.Dot(n)
			q := c.eye.Add(ray.Mul(along)).Sub(mid)
			pts = append(pts, flat{q.Dot(u), q.Dot(v)})
		}
	}
	// the convex hull by Andrew's monotone chain (1979)
	sort.Slice(pts, func(i, j int) bool {
		if pts[i].x != pts[j].x {
			return pts[i].x < pts[j].x
		}
		return pts[i].y < pts[j].y
	})
	var hull []flat
	half := func(list []flat) {
		start := len(hull)
		for _, p := range list {
			for len(hull) >= start+2 {
				a, b := hull[len(hull)-2], hull[len(hull)-1]
				if (b.x-a.x)*(p.y-a.y)-(b.y-a.y)*(p.x-a.x) > 1e-9 {
					break
				}
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
	}
	half(pts)
	for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
	half(pts)
	out := make([]r3.Vector, len(hull))
	for i, p := range hull {
		out[i] = mid.Add(u.Mul(p.x)).Add(v.Mul(p.y))
	}
	return out
}

// radius of a crown at a share h of its height, as a share of half its width.
func radius(shape model.CrownShape, h float64) float64 {
	switch shape {
	case model.HalfEllipsoid:
		return math.Sqrt(max(0, 1-h*h))
	case model.Paraboloid:
		return math.Sqrt(max(0, 1-h))
	case model.Cone:
		return 1 - h
	case model.Cylinder:
		return 1
	}
	return math.Sqrt(max(0, 1-(2*h-1)*(2*h-1)))
}
