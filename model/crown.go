package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// Solid is an upright body of elliptic cross-section. At height z between
// Bottom and Top the section is the ellipse with semi-axes SemiX·r and
// SemiY·r, where r² = A + B·z + C·z² and r is 1 where the body is widest. All
// crowns and trunks are such bodies. The zero Solid is empty.
type Solid struct {
	At           orb.Point
	SemiX, SemiY float64 // semi-axes where the body is widest, m
	Twist        float64 // radians the axes are turned clockwise
	Bottom, Top  float64 // z
	A, B, C      float64
}

// profiles give r² as a + b·s + c·s², where s runs from 0 at the bottom of a
// crown to 1 at its top.
var profiles = map[CrownShape][3]float64{
	Ellipsoid:     {0, 4, -4}, // 1 - (2s-1)²
	HalfEllipsoid: {1, 0, -1}, // 1 - s²
	Paraboloid:    {1, -1, 0}, // 1 - s
	Cone:          {1, -2, 1}, // (1-s)²
	Cylinder:      {1, 0, 0},
}

// Crown is the tree's crown as a solid, from the crown base to the top. It is
// empty for a tree without height or spread above its crown base. An unknown
// shape counts as an ellipsoid.
func (t Tree) Crown() Solid {
	p, ok := profiles[t.Shape]
	if !ok {
		p = profiles[Ellipsoid]
	}
	bottom, top := t.Ground+t.CrownBase, t.Ground+t.Height
	h := top - bottom
	if !(h > 0 && t.SpreadX > 0 && t.SpreadY > 0) {
		return Solid{}
	}
	// s = (z - bottom) / h, put in and sorted by powers of z.
	q := bottom / h
	return Solid{
		At: t.At, SemiX: t.SpreadX / 2, SemiY: t.SpreadY / 2, Twist: t.Twist,
		Bottom: max(bottom, t.Ground+t.Cleared), Top: top,
		A: p[0] - p[1]*q + p[2]*q*q,
		B: (p[1] - 2*p[2]*q) / h,
		C: p[2] / (h * h),
	}
}

// TrunkSolid is the trunk as a cylinder of its breast-height diameter, from
// the ground to the lowest foliage. It is empty for a tree whose crown reaches
// the ground or whose trunk is not known.
func (t Tree) TrunkSolid() Solid {
	clear := max(t.CrownBase, t.Cleared)
	if !(t.Trunk > 0 && clear > 0) {
		return Solid{}
	}
	return Solid{
		At: t.At, SemiX: t.Trunk / 2, SemiY: t.Trunk / 2,
		Bottom: t.Ground, Top: t.Ground + min(clear, max(t.Height, 0)), A: 1,
	}
}

// Empty tells whether the solid holds no volume.
func (s Solid) Empty() bool { return !(s.Top > s.Bottom && s.SemiX > 0 && s.SemiY > 0) }

// Radius is r at height z, in 0..1: the share of the full semi-axes. It is 0
// above and below the solid.
func (s Solid) Radius(z float64) float64 {
	if s.Empty() || z < s.Bottom || z > s.Top {
		return 0
	}
	return math.Sqrt(max(0, min(1, s.A+(s.B+s.C*z)*z)))
}

// Volume in m³: π·SemiX·SemiY·∫r² dz.
func (s Solid) Volume() float64 {
	if s.Empty() {
		return 0
	}
	integral := func(z float64) float64 { return z * (s.A + z*(s.B/2+z*s.C/3)) }
	return math.Pi * s.SemiX * s.SemiY * (integral(s.Top) - integral(s.Bottom))
}

// Local gives a plan point relative to the axis, turned to the solid's own
// axes and divided by its semi-axes: the point is inside at height z where
// x² + y² ≤ A + B·z + C·z².
func (s Solid) Local(px, py float64) (x, y float64) {
	sin, cos := math.Sincos(s.Twist)
	dx, dy := px-s.At[0], py-s.At[1]
	return (dx*cos - dy*sin) / s.SemiX, (dx*sin + dy*cos) / s.SemiY
}

// Skin is a net of points on the solid's outside, level by level from the
// bottom, close enough for the hull of them to pass for its outline in a
// picture. It is nil for an empty solid.
func (s Solid) Skin() []r3.Vector {
	if s.Empty() {
		return nil
	}
	const levels, around = 24, 48
	var out []r3.Vector
	sin, cos := math.Sincos(s.Twist)
	for i := range levels + 1 {
		z := min(s.Top, s.Bottom+(s.Top-s.Bottom)*float64(i)/levels) // rounding must not pass the top
		r := s.Radius(z)
		for j := range around {
			a := 2 * math.Pi * float64(j) / around
			x, y := s.SemiX*r*math.Cos(a), s.SemiY*r*math.Sin(a)
			out = append(out, r3.Vector{X: s.At[0] + x*cos + y*sin, Y: s.At[1] - x*sin + y*cos, Z: z})
		}
	}
	return out
}
