package portfolio

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// chimney is the one thing on a building that belongs to no part.
const chimney = "chimney"

// ownHouse is what the house itself hides of the sky from a point of one of its
// surfaces, face by face, since a hull would fill the view: eaves and wings,
// and for a window its reveal. Nothing else stands between them and the
// surface. depth is how far before the point the wall's face lies, m.
func (s set) ownHouse(surface *shading.Surface, from r3.Vector, depth float64) []render.SkySolid {
	var out []render.SkySolid
	own := s.ownPart(surface)
	for _, f := range s.st.Site.House.Screens() {
		if f.Part == own && sameWall(f, surface.Face) {
			continue
		}
		outline, whole := before(f, from, surface.Face.N, depth)
		if len(outline) < 3 {
			continue
		}
		name := "own eave"
		switch {
		case f.Part == "" && own != "":
			name = chimney
		case f.Part != own:
			name = f.Part
		case whole || f.Kind != model.RoofFace:
			name = "own house"
		}
		out = append(out, render.SkySolid{Name: name, Outline: outline})
	}
	for _, f := range surface.Reveal() {
		if outline, _ := before(f, from, surface.Face.N, 0.001); len(outline) > 2 {
			out = append(out, render.SkySolid{Name: "window reveal", Outline: outline})
		}
	}
	return out
}

// sameWall tells whether a face is the wall in which a window is set, be it by
// the depth of a reveal.
func sameWall(f, glass model.Face) bool {
	const reveal = 0.5 // m, deeper than any
	return f.N.Dot(glass.N) > 0.99 && math.Abs(f.Origin.Sub(glass.Origin).Dot(glass.N)) < reveal
}

// before is the outline in directions of what of a face stands at least some
// metres before a surface, seen from a point of it, and whether that is the
// whole face. Nil where it hides no sky.
func before(f model.Face, from, normal r3.Vector, near float64) (outline []render.SkyPoint, whole bool) {
	if len(f.Outline) == 0 || len(f.Outline[0]) == 0 {
		return nil, false
	}
	var ring []r3.Vector
	whole = true
	r := f.Outline[0][0]
	for i := 0; i+1 < len(r); i++ {
		a, b := f.At(r[i][0], r[i][1]), f.At(r[i+1][0], r[i+1][1])
		da, db := a.Sub(from).Dot(normal)-near, b.Sub(from).Dot(normal)-near
		if da >= 0 {
			ring = append(ring, a)
		} else {
			whole = false
		}
		if (da >= 0) != (db >= 0) {
			ring = append(ring, a.Add(b.Sub(a).Mul(da/(da-db))))
		}
	}
	high := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		const pieces = 48
		for k := range pieces {
			altitude, azimuth := sun.Angles(a.Add(b.Sub(a).Mul(float64(k) / pieces)).Sub(from))
			high = max(high, altitude.Degrees())
			outline = append(outline, render.SkyPoint{Azimuth: azimuth.Degrees(), Altitude: max(0, altitude.Degrees())})
		}
	}
	if high < 0.5 {
		return nil, whole
	}
	return outline, whole
}

// ownPart is the part of the house a surface belongs to.
func (s set) ownPart(surface *shading.Surface) string {
	if i := s.st.Scene.SurfaceNamed(surface.Wall); i >= 0 {
		return s.st.Scene.Surfaces[i].Face.Part
	}
	return surface.Face.Part
}
