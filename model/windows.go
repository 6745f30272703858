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
	if fault, off := windowOff(w, wall, bothUnits); off {
		return Face{}, nil, fmt.Errorf("window %s: %w", w.ID, fault)
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

// windowOff finds what is wrong with a window's size or place on its wall;
// the fault's field is one of the window's own. say writes lengths.
func windowOff(w Window, wall Face, say func(float64) string) (Fault, bool) {
	fault := func(field, right, format string, args ...any) (Fault, bool) {
		return faultOf(field, right, format, args...), true
	}
	if !(w.Width >= 3*forgiven && w.Height >= 3*forgiven && w.Width < 1e4 && w.Height < 1e4) {
		return fault("width", "a width and a height of 3 cm (1 1/4 in) or more", "the window is %s wide and %s high", say(w.Width), say(w.Height))
	}
	if !(w.Reveal >= 0 && w.Reveal <= 2) {
		return fault("reveal", "how far the glass stands behind the wall face: 0 or more, often about 4 in (0.1 m)", "the reveal is %s", say(w.Reveal))
	}
	length := wall.Width()
	right, head := w.Left+w.Width, w.Sill+w.Height
	switch {
	case !(w.Left >= -forgiven):
		return fault("left", "0 or more, from the wall's left end seen from outside", "the window begins %s before the left end of wall %s", say(-w.Left), wall.ID)
	case !(right <= length+forgiven):
		return fault("left", fmt.Sprintf("left plus width at most %s, seen from outside", say(length)),
			"the window ends %s past the right end of wall %s, which is %s long", say(right-length), wall.ID, say(length))
	case !(w.Sill >= -forgiven):
		return fault("sill", "0 or more, from the foot of the wall", "the window begins %s below the foot of wall %s", say(-w.Sill), wall.ID)
	}
	opening := orb.Ring{
		{w.Left + forgiven, w.Sill + forgiven}, {right - forgiven, w.Sill + forgiven},
		{right - forgiven, head - forgiven}, {w.Left + forgiven, head - forgiven}, {w.Left + forgiven, w.Sill + forgiven},
	}
	missing := signedArea(opening) - areaOf(within(wall.Outline, []orb.Ring{opening}))
	if missing < 5*leastArea {
		return Fault{}, false
	}
	if top := wall.Outline.Bound().Max[1]; head > top+forgiven {
		return fault("height", fmt.Sprintf("sill plus height at most %s", say(top)),
			"the window's head is %s above the highest point of wall %s, which is %s high", say(head-top), wall.ID, say(top))
	}
	return fault("sill", "a place on the wall that shows", "%.0f %% of the window lies off the exposed part of wall %s: above its roof line, or where another part of the building meets it",
		max(1, 100*missing/(w.Width*w.Height)), wall.ID)
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
