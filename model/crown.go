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

// profileOf a shape; an unknown one counts as an ellipsoid.
func profileOf(shape CrownShape) [3]float64 {
	if p, ok := profiles[shape]; ok {
		return p
	}
	return profiles[Ellipsoid]
}

// Crown is the tree's crown as a solid, from the crown base to the top. It is
// empty for a tree without height or spread above its crown base. An unknown
// shape counts as an ellipsoid.
func (t Tree) Crown() Solid {
	p := profileOf(t.Shape)
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
// the ground to the crown base. Higher up, in the crown or bared since by
// raising it, it is BaredTrunk or part of what the crown lets through. It is
// empty for a tree whose crown reaches the ground or whose trunk is not known.
func (t Tree) TrunkSolid() Solid {
	if !(t.Trunk > 0 && t.CrownBase > 0) {
		return Solid{}
	}
	return t.trunkBetween(t.Ground, t.Ground+min(t.CrownBase, max(t.Height, 0)))
}

// BaredTrunk is what a raised crown leaves of itself below its new base: the
// trunk that stood inside it, between CrownBase and Cleared, as far as the
// crown reached round it. It lets through what the crown does, having been
// counted as part of it, so that raising a crown never adds shade. It is empty
// for a crown as grown.
func (t Tree) BaredTrunk() Solid {
	grown := t
	grown.Cleared = 0
	crown := grown.Crown()
	if !(t.Trunk > 0 && t.Cleared > t.CrownBase) || crown.Empty() {
		return Solid{}
	}
	least := t.Trunk / 2 / min(crown.SemiX, crown.SemiY) // r where the crown is as narrow as the trunk
	low, high := crown.atLeast(least)
	return t.trunkBetween(low, min(high, t.Ground+t.Cleared))
}

// Reduced is the tree with its crown cut down to a height above its ground and
// drawn in to a spread, where that is less than it has; 0 leaves either as it
// is. Foliage is only taken: an ellipsoid of a lower height keeps its outline
// at the crown base, which narrows its widest part by the root of the heights'
// ratio, for one as wide as before would reach out where nothing grew.
func (t Tree) Reduced(height, spread float64) Tree {
	if height > 0 && height < t.Height {
		if profileOf(t.Shape) == profiles[Ellipsoid] && t.Height > t.CrownBase {
			narrower := math.Sqrt(max(0, height-t.CrownBase) / (t.Height - t.CrownBase))
			t.SpreadX, t.SpreadY = t.SpreadX*narrower, t.SpreadY*narrower
		}
		t.Height = height
	}
	if spread > 0 {
		t.SpreadX, t.SpreadY = min(t.SpreadX, spread), min(t.SpreadY, spread)
	}
	return t
}

func (t Tree) trunkBetween(low, high float64) Solid {
	if !(high > low) {
		return Solid{}
	}
	return Solid{At: t.At, SemiX: t.Trunk / 2, SemiY: t.Trunk / 2, Bottom: low, Top: high, A: 1}
}

// atLeast is the stretch of heights, the lowest such, over which r is no less
// than the given one; high is below low where there is none. C > 0 is a cone,
// which only narrows upward.
func (s Solid) atLeast(r float64) (low, high float64) {
	low, high = s.Bottom, s.Top
	a := s.A - r*r
	if s.C == 0 {
		switch {
		case s.B < 0:
			high = min(high, -a/s.B)
		case s.B > 0:
			low = max(low, -a/s.B)
		case a < 0:
			high = math.Inf(-1)
		}
		return low, high
	}
	root := s.B*s.B - 4*s.C*a
	if root < 0 {
		if s.C < 0 {
			high = math.Inf(-1)
		}
		return low, high
	}
	first, second := (-s.B-math.Sqrt(root))/(2*s.C), (-s.B+math.Sqrt(root))/(2*s.C)
	if s.C > 0 {
		return low, min(high, first)
	}
	return max(low, second), min(high, first) // C < 0: the second root is the lower
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
