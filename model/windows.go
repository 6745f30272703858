package model

import (
	"fmt"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// GlassFace is the glass of a window in its wall, and the faces of the
// opening that shade it: the two jambs, the head and the sill. The glass
// stands Reveal behind the wall face and has (0, 0) at its lower left corner;
// without a reveal there are no faces to shade it. It fails where the window
// has no size or is not wholly in the exposed wall (a centimetre is
// forgiven).
func GlassFace(w Window, wall Face) (Face, []Face, error) {
	if off := windowOff(w, wall); off != "" {
		return Face{}, nil, fmt.Errorf("window %s: %s", w.ID, off)
	}
	glass := Face{
		ID: w.ID, Kind: WindowFace, Part: wall.Part,
		Origin: wall.At(w.Left, w.Sill).Sub(wall.N.Mul(w.Reveal)),
		U:      wall.U, V: wall.V, N: wall.N,
		Outline: rectangle(0, 0, w.Width, w.Height),
		Area:    w.Width * w.Height,
	}
	if w.Reveal <= 0 {
		return glass, nil, nil
	}
	in := wall.N.Mul(-1)
	side := func(name string, origin, u, v, n r3.Vector, width, height float64) Face {
		return Face{
			ID: w.ID + "-" + name, Kind: OtherFace, Part: wall.Part,
			Origin: origin, U: u, V: v, N: n,
			Outline: rectangle(0, 0, width, height), Area: width * height,
		}
	}
	right, up := wall.U, wall.V
	return glass, []Face{
		side("left-jamb", wall.At(w.Left, w.Sill), in, up, right, w.Reveal, w.Height),
		side("right-jamb", glass.At(w.Width, 0), wall.N, up, right.Mul(-1), w.Reveal, w.Height),
		side("head", wall.At(w.Left+w.Width, w.Sill+w.Height), right.Mul(-1), in, up.Mul(-1), w.Width, w.Reveal),
		side("sill", wall.At(w.Left, w.Sill), right, in, up, w.Width, w.Reveal),
	}, nil
}

// forgiven is how far a window may reach past its wall, m: what a tape is off.
const forgiven = 0.01

// windowOff says what is wrong with a window's size or place on its wall;
// empty where nothing is.
func windowOff(w Window, wall Face) string {
	if !(w.Width > 0 && w.Height > 0 && w.Width < 1e4 && w.Height < 1e4) {
		return "its width and height must be above 0"
	}
	if !(w.Reveal >= 0 && w.Reveal < 10) {
		return "its reveal must be 0 or more"
	}
	length := wall.Width()
	switch {
	case !(w.Left >= -forgiven):
		return fmt.Sprintf("it begins %.2f m before the left end of wall %s", -w.Left, wall.ID)
	case w.Left+w.Width > length+forgiven:
		return fmt.Sprintf("it ends %.2f m past the right end of wall %s, which is %.2f m long", w.Left+w.Width-length, wall.ID, length)
	case !(w.Sill >= -forgiven):
		return fmt.Sprintf("it begins %.2f m below the foot of wall %s", -w.Sill, wall.ID)
	}
	opening := orb.Ring{
		{w.Left + forgiven, w.Sill + forgiven}, {w.Left + w.Width - forgiven, w.Sill + forgiven},
		{w.Left + w.Width - forgiven, w.Sill + w.Height - forgiven}, {w.Left + forgiven, w.Sill + w.Height - forgiven},
		{w.Left + forgiven, w.Sill + forgiven},
	}
	whole := w.Width * w.Height
	if w.Width < 3*forgiven || w.Height < 3*forgiven {
		return "it is less than 3 cm wide or high"
	}
	missing := signedArea(opening) - areaOf(within(wall.Outline, []orb.Ring{opening}))
	if missing < 5*leastArea {
		return ""
	}
	if top := wall.Outline.Bound().Max[1]; w.Sill+w.Height > top+forgiven {
		return fmt.Sprintf("its head is %.2f m above the highest point of wall %s, which is %.2f m high", w.Sill+w.Height-top, wall.ID, top)
	}
	return fmt.Sprintf("%.0f %% of it lies outside the exposed part of wall %s: under the roof slope, or where another part of the building meets the wall", 100*missing/whole, wall.ID)
}

// CutWindows is the wall with its windows cut out as holes: the net wall.
// Windows are the glass faces that GlassFace gives; those of other walls must
// be left out.
func CutWindows(wall Face, windows []Face) Face {
	var holes []orb.Ring
	for _, w := range windows {
		for _, poly := range w.Outline {
			var ring orb.Ring
			for _, c := range poly[0] {
				ring = append(ring, wall.on(w.At(c[0], c[1])))
			}
			holes = appendRing(holes, ring)
		}
	}
	wall.Outline = without(wall.Outline, holes)
	wall.Area = areaOf(wall.Outline)
	return wall
}
