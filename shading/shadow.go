package shading

import (
	"cmp"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// Shade is the shadow of one thing on the level ground z = 0.
type Shade struct {
	Thing    string // "" for the house
	Kind     BlockerKind
	Outlines []orb.Ring
}

// Shadows are the outlines thrown on the level ground by everything standing
// today when the sun is in the given direction; the result is empty when it is
// not above the horizon. They are for pictures; the ledger does not use them.
func (sc *Scene) Shadows(direction r3.Vector) []Shade {
	if direction.Z <= 0.01 || sc.hidden(direction) {
		return nil
	}
	out := []Shade{{Kind: Structure, Outlines: fallen(sc.house, direction)}}
	for i := range sc.Blockers {
		b := &sc.Blockers[i]
		if b.Variant != "" {
			continue
		}
		s := Shade{Thing: b.Thing, Kind: b.Kind, Outlines: fallen(b.screens, direction)}
		for _, solid := range b.solids {
			if ring := fallenSolid(solid, direction); ring != nil {
				s.Outlines = append(s.Outlines, ring)
			}
		}
		out = append(out, s)
	}
	return out
}

func onGround(p r3.Vector, direction r3.Vector) orb.Point {
	t := p.Z / direction.Z
	return orb.Point{p.X - t*direction.X, p.Y - t*direction.Y}
}

func fallen(faces []model.Face, direction r3.Vector) []orb.Ring {
	ground := &plate{face: model.Face{U: r3.Vector{X: 1}, V: r3.Vector{Y: 1}, N: r3.Vector{Z: 1}}}
	var out []orb.Ring
	for _, f := range faces {
		for _, s := range sheetsBefore(ground, house, f) {
			var ring orb.Ring
			for _, c := range s.corners {
				ring = append(ring, onGround(r3.Vector{X: c.u, Y: c.v, Z: c.d}, direction))
			}
			out = append(out, append(ring, ring[0]))
		}
	}
	return out
}

func fallenSolid(s model.Solid, direction r3.Vector) orb.Ring {
	low := max(s.Bottom, 0)
	if s.Top <= low {
		return nil
	}
	s.Bottom = low
	var points []orb.Point
	for _, p := range s.Skin() {
		points = append(points, onGround(p, direction))
	}
	return Hull(points)
}

// Hull is the convex hull, counter-clockwise and closed (Andrew 1979,
// Information Processing Letters 9:216). It sorts the points.
func Hull(points []orb.Point) orb.Ring {
	slices.SortFunc(points, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	half := func(in []orb.Point) orb.Ring {
		var out orb.Ring
		for _, p := range in {
			for n := len(out); n >= 2 && cross(out[n-2], out[n-1], p) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, p)
		}
		return out
	}
	lower := half(points)
	slices.Reverse(points)
	upper := half(points)
	return append(lower[:len(lower)-1], upper...)
}

func cross(a, b, c orb.Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}
