package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// Level tells whether the ground lies level at z = 0 everywhere.
func (g Ground) Level() bool { return g.rise == 0 && !g.Rises() }

// Pieces are flat faces, looking up, that together are the ground: one square
// where it is level or one slope, else its Faces. They reach as far as stated
// beyond the house or the outermost spots, metres.
func (g Ground) Pieces(beyond float64) []Face {
	if faces := g.Faces(beyond); len(faces) > 0 {
		return faces
	}
	f := Face{ID: "ground", Kind: GroundFace, Origin: r3.Vector{Z: g.At(orb.Point{})}, N: r3.Vector{Z: 1}, U: r3.Vector{X: 1}, V: r3.Vector{Y: 1}}
	if g.rise != 0 {
		sin, cos := math.Sincos(g.uphill.Radians())
		f.Origin = r3.Vector{X: g.about[0], Y: g.about[1]}
		f.U = r3.Vector{X: cos, Y: -sin}
		f.V = r3.Vector{X: sin, Y: cos, Z: g.rise}.Normalize()
		f.N = f.U.Cross(f.V)
	}
	f.Outline = orb.MultiPolygon{{orb.Ring{{-beyond, -beyond}, {beyond, -beyond}, {beyond, beyond}, {-beyond, beyond}, {-beyond, -beyond}}}}
	f.Area = areaOf(f.Outline)
	return []Face{f}
}

// Seen is the outline of a face that looks up as it is seen from above, for
// faces of one ring.
func (f Face) Seen() orb.Ring {
	var out orb.Ring
	for _, q := range f.Outline[0][0] {
		out = append(out, flat(f.At(q[0], q[1])))
	}
	return out
}

// Under is the part of a piece of ground that lies under a region seen from
// above, a closed ring; it reports false where there is none. Pieces must be
// convex, the region need not be.
func (f Face) Under(region orb.Ring) (Face, bool) {
	ring := clippedTo(region, f.Seen())
	if len(ring) < 4 {
		return Face{}, false
	}
	under := make(orb.Ring, len(ring))
	for i, q := range ring {
		under[i] = f.on(r3.Vector{X: q[0], Y: q[1], Z: f.Above(q)})
	}
	f.Outline = orb.MultiPolygon{{under}}
	f.Area = math.Abs(signedArea(under))
	return f, f.Area > 100*leastArea
}

// Above is the z of the face's plane over a point seen from above; the face
// must not be upright.
func (f Face) Above(p orb.Point) float64 {
	return f.Origin.Z - (f.N.X*(p[0]-f.Origin.X)+f.N.Y*(p[1]-f.Origin.Y))/f.N.Z
}

// Beneath is the point (u, v) of a piece of ground that lies under a point seen
// from above.
func (f Face) Beneath(p orb.Point) (u, v float64) {
	q := f.on(r3.Vector{X: p[0], Y: p[1], Z: f.Above(p)})
	return q[0], q[1]
}

// Footing are the upright faces between the foot of the building's walls and
// ground that lies lower, one a run of wall at most: what a mason would see of
// the foundation. Parts on posts have none.
func (b Building) Footing(g Ground) []Face {
	const step = 0.5 // metres between the points at which the ground is asked
	var out []Face
	for _, p := range b.Parts {
		foot, err := footprint(p.Footprint)
		if err != nil || p.Open || g.Level() && p.Base <= 0 {
			continue
		}
		for i := 0; i+1 < len(foot); i++ {
			a, b := foot[i], foot[i+1]
			nx, ny, _ := edgeLine(a, b)
			f := Face{
				ID: "footing", Kind: WallFace, Part: p.ID, Origin: r3.Vector{X: a[0], Y: a[1], Z: p.Base},
				U: r3.Vector{X: -ny, Y: nx}, V: r3.Vector{Z: 1}, N: r3.Vector{X: nx, Y: ny},
			}
			length := distance(a, b)
			n := int(math.Ceil(min(length/step, 200)))
			ring, deepest := orb.Ring{{0, 0}}, 0.0
			for k := range n + 1 {
				t := float64(k) / float64(n)
				down := min(0, g.At(between(a, b, t))-p.Base)
				deepest = min(deepest, down)
				ring = append(ring, orb.Point{t * length, down})
			}
			if deepest > -0.01 {
				continue
			}
			f.Outline = orb.MultiPolygon{{append(ring, orb.Point{length, 0}, orb.Point{0, 0})}}
			f.Area = areaOf(f.Outline)
			out = append(out, f)
		}
	}
	return out
}
