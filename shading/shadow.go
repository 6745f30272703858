package shading

import (
	"cmp"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// Shade is the shadow of one thing on the ground, as seen from above. On land
// between spot heights it comes in pieces, each on one flat piece of the land.
type Shade struct {
	Thing    string // "" for the house and for the land's own shade
	Kind     BlockerKind
	Outlines []orb.Ring
}

// drawnLand is how far beyond the outermost spot heights shadows are told,
// metres.
const drawnLand = 100.0

// Shadows are the outlines thrown on the ground by everything standing today
// when the sun is in the given direction; the result is empty when it is not
// above the horizon. They are for pictures; the ledger does not use them.
func (sc *Scene) Shadows(direction r3.Vector) []Shade {
	if direction.Z <= 0.01 || sc.hidden(direction) {
		return nil
	}
	pieces := sc.ground.Pieces(drawnLand)
	var low []model.Face // the land that is turned away from the sun
	for _, f := range sc.land {
		if f.N.Dot(direction) <= 0 {
			low = append(low, f)
		}
	}
	out := []Shade{{Kind: Structure}}
	var bodies [][]shadowBody // by shade after the first
	for i := range sc.Blockers {
		if b := &sc.Blockers[i]; b.Variant == "" {
			out = append(out, Shade{Thing: b.Thing, Kind: b.Kind})
			var list []shadowBody
			for _, solid := range b.solids {
				list = append(list, shadowBody{Solid: solid})
			}
			bodies = append(bodies, list)
		}
	}
	for i := range pieces {
		on := patchOf(&pieces[i], direction, len(pieces) > 1)
		if on.dark {
			out[0].Outlines = append(out[0].Outlines, on.seen)
			continue
		}
		out[0].Outlines = append(out[0].Outlines, on.flats(sc.house)...)
		out[0].Outlines = append(out[0].Outlines, on.flats(sc.footing)...)
		out[0].Outlines = append(out[0].Outlines, on.flats(low)...)
		s := 0
		for k := range sc.Blockers {
			b := &sc.Blockers[k]
			if b.Variant != "" {
				continue
			}
			s++
			out[s].Outlines = append(out[s].Outlines, on.flats(b.screens)...)
			out[s].Outlines = append(out[s].Outlines, on.flats(b.footing)...)
			for j := range bodies[s-1] {
				if ring := on.solid(&bodies[s-1][j]); len(ring) > 3 {
					out[s].Outlines = append(out[s].Outlines, ring)
				}
			}
		}
	}
	return out
}

// patch is a flat piece of ground on which shadows fall.
type patch struct {
	plate   *plate
	sun     r3.Vector
	cos     float64
	dark    bool     // turned away from the sun
	seen    orb.Ring // its edge seen from above
	bounded bool     // shadows end at its edge
}

func patchOf(f *model.Face, sun r3.Vector, bounded bool) *patch {
	cos := sun.Dot(f.N)
	return &patch{plate: &plate{face: *f}, sun: sun, cos: cos, dark: cos <= 1e-6, seen: f.Seen(), bounded: bounded}
}

// at is where the shadow of a point in the patch's own frame falls, seen from
// above.
func (p *patch) at(c corner) orb.Point {
	f, t := &p.plate.face, c.d/p.cos
	q := f.At(c.u-t*p.sun.Dot(f.U), c.v-t*p.sun.Dot(f.V))
	return orb.Point{q.X, q.Y}
}

// within is what of a shadow lies on the patch.
func (p *patch) within(ring orb.Ring) orb.Ring {
	if !p.bounded {
		return ring
	}
	return model.Within(ring, p.seen)
}

// flats are the shadows of flat faces.
func (p *patch) flats(faces []model.Face) []orb.Ring {
	var out []orb.Ring
	for _, f := range faces {
		for _, s := range sheetsBefore(p.plate, house, f) {
			var ring orb.Ring
			for _, c := range s.corners {
				ring = append(ring, p.at(c))
			}
			if ring = p.within(append(ring, ring[0])); len(ring) > 3 {
				out = append(out, ring)
			}
		}
	}
	return out
}

// shadowBody is a solid and the hull of its whole shadow on level ground at
// z = 0, once that is known.
type shadowBody struct {
	model.Solid
	level orb.Ring
}

// solid is the shadow of the part of a solid that stands above the patch.
func (p *patch) solid(s *shadowBody) orb.Ring {
	f := &p.plate.face
	low := max(s.Bottom, f.Above(s.At))
	if s.Top <= low {
		return nil
	}
	if p.bounded {
		near, whole := p.reach(s.Solid)
		if !near {
			return nil
		}
		if whole {
			return p.within(p.fromLevel(s))
		}
	}
	cut := s.Solid
	cut.Bottom = low
	var points []orb.Point
	for _, q := range cut.Skin() {
		if c := p.plate.corner(q); c.d > -1e-9 {
			points = append(points, p.at(c))
		}
	}
	if len(points) < 3 {
		return nil
	}
	return p.within(Hull(points))
}

// reach tells whether the shadow of the box round a solid comes near the patch,
// and whether the whole box stands above it.
func (p *patch) reach(s model.Solid) (near, whole bool) {
	r := max(s.SemiX, s.SemiY)
	var points orb.MultiPoint
	whole = true
	for _, z := range []float64{s.Bottom, s.Top} {
		for _, d := range [4]orb.Point{{-r, -r}, {r, -r}, {r, r}, {-r, r}} {
			c := p.plate.corner(r3.Vector{X: s.At[0] + d[0], Y: s.At[1] + d[1], Z: z})
			whole = whole && c.d >= 0
			points = append(points, p.at(c))
		}
	}
	return points.Bound().Intersects(p.seen.Bound()), whole
}

// fromLevel moves the shadow that the whole of a solid throws on level ground
// along the rays onto the patch.
func (p *patch) fromLevel(s *shadowBody) orb.Ring {
	if s.level == nil {
		var points []orb.Point
		for _, q := range s.Skin() {
			t := q.Z / p.sun.Z
			points = append(points, orb.Point{q.X - t*p.sun.X, q.Y - t*p.sun.Y})
		}
		s.level = Hull(points)
	}
	var out orb.Ring
	for _, q := range s.level {
		out = append(out, p.at(p.plate.corner(r3.Vector{X: q[0], Y: q[1]})))
	}
	return out
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
