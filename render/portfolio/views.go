package portfolio

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// midwinter is the day of the year with the lowest noon: 21 December, south of
// the equator 21 June.
func (s set) midwinter() (month time.Month, day int) {
	if s.st.SunSide() == "north" {
		return time.June, 21
	}
	return time.December, 21
}

// sunAt is the sun at a local standard time of the year's calendar.
func (s set) sunAt(month time.Month, day, minutes int) r3.Vector {
	y := s.st.Year
	zone := time.FixedZone("", int(y.Offset.Seconds()))
	at := time.Date(y.Calendar, month, day, 0, minutes, 0, 0, zone)
	return sun.At(at, s.st.Site.Place.LatLng, max(0, y.Elevation)).Vector()
}

// shadows are the outlines on the ground, without those of things gone; light
// are those of crowns that are mostly bare on the day of the year.
func (s set) shadows(direction r3.Vector, day int, gone []string) (dark, light []orb.Polygon) {
	bare := map[string]bool{}
	for _, t := range s.st.Site.Trees {
		bare[t.ID] = !t.Evergreen && species.LeafShare(t.Leafing, day) < 0.5
	}
	for _, shade := range s.st.Scene.Shadows(direction) {
		if slices.Contains(gone, shade.Thing) {
			continue
		}
		for _, ring := range shade.Outlines {
			if shade.Kind == shading.Crown && bare[shade.Thing] {
				light = append(light, orb.Polygon{ring})
			} else {
				dark = append(dark, orb.Polygon{ring})
			}
		}
	}
	return dark, light
}

// dayOfYear of a day of the typical year, 1..365.
func dayOfYear(month time.Month, day int) int {
	for m := time.January; m < month; m++ {
		day += sun.DaysIn(m)
	}
	return day
}

// shadowDay is the sheet of shadows through midwinter day.
func (s set) shadowDay() render.ShadowDay {
	month, day := s.midwinter()
	d := render.ShadowDay{Plan: s.lot()}
	for i := range d.Plan.Trees {
		d.Plan.Trees[i].Removed = false
	}
	for hour := 9; hour <= 15; hour++ {
		v := s.sunAt(month, day, hour*60)
		altitude, azimuth := sun.Angles(v)
		words := "sun down"
		if altitude > 0 {
			words = fmt.Sprintf("sun %.0f° up, at %.0f°", altitude.Degrees(), azimuth.Degrees())
		}
		at := render.ShadowHour{Name: fmt.Sprintf("%d:00", hour), Sun: words}
		at.Shadows, at.Light = s.shadows(v, dayOfYear(month, day), nil)
		d.Hours = append(d.Hours, at)
	}
	d.Title = fmt.Sprintf("%s: shadows through %d %s", s.st.Site.Name, day, month)
	d.Caption = "Shadows on level ground at the hours of local standard time (" + offsetText(s.st.Year.Offset) + "); sun azimuth clockwise from true north, by date and latitude, without weather. Everything as it stands today. Bare crowns still let part of the sun through." + s.assumed()
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// eye is the lot as seen from the sun side, in midwinter sun.
func (s set) eye(gone []string, title string) render.EyeView {
	month, day := s.midwinter()
	d := render.EyeView{From: s.eyeFrom(), Height: 27, Lot: s.st.Site.Lot}
	d.Sun = s.sunAt(month, day, 11*60)
	d.Faces = render.EyeFaces(s.st.Site.House.Screens(), false)
	for i := range s.st.Scene.Surfaces {
		if f := &s.st.Scene.Surfaces[i]; f.Kind == model.WindowFace {
			d.Faces = append(d.Faces, render.EyeFaces([]model.Face{f.Face}, false)...)
		}
	}
	for _, b := range s.st.Site.Porches {
		d.Faces = append(d.Faces, render.EyeFaces(b.Screens(), false)...)
	}
	for _, b := range s.st.Site.Neighbours {
		d.Faces = append(d.Faces, render.EyeFaces(b.Screens(), true)...)
	}
	for _, t := range s.st.Site.Trees {
		d.Trees = append(d.Trees, render.EyeTree{
			ID: t.ID, At: t.At, Ground: t.Ground, Height: t.Height, CrownBase: t.CrownBase, SpreadX: t.SpreadX, SpreadY: t.SpreadY,
			Shape: t.Shape, Evergreen: t.Evergreen, Bare: !t.Evergreen, Removed: slices.Contains(gone, t.ID),
		})
	}
	d.Shadows, d.Light = s.shadows(d.Sun, dayOfYear(month, day), gone)
	d.Title = title
	return d
}

// eyePair is the lot today and with the best set gone, from the same eye.
func (s set) eyePair() render.Picture {
	month, day := s.midwinter()
	caption := fmt.Sprintf("Seen from the sun side (%s), both from the same eye, at 11:00 local standard time on %d %s with leaf-dropping trees bare. Shadows on level ground only, lighter of bare crowns.",
		s.from(), day, month)
	gone := s.best()
	if len(gone) == 0 {
		d := s.eye(nil, s.st.Site.Name+": the lot today")
		d.Caption = caption + s.assumed()
		d.Alt = d.Title + ". " + d.Caption
		return d
	}
	title := s.st.Site.Name + ": today, and with the best set gone"
	caption += fmt.Sprintf(" Dashed, with a stump: the best set to remove for %s (%s).", s.st.Targets[0].Name, strings.Join(gone, ", ")) + s.assumed()
	return render.Pair{Words: render.Words{Title: title, Caption: caption, Alt: title + ". " + caption}, Left: s.eye(nil, "today"), Right: s.eye(gone, "best set gone")}
}

// eyeFrom is the azimuth from which the lot is seen, degrees.
func (s set) eyeFrom() float64 {
	if s.st.SunSide() == "north" {
		return 25
	}
	return 155
}

// from is eyeFrom in words.
func (s set) from() string {
	return fmt.Sprintf("from %.0f°, between %s", s.eyeFrom(), map[bool]string{true: "north and north-east", false: "south-east and south"}[s.st.SunSide() == "north"])
}

func (s set) best() []string {
	if len(s.st.Targets) == 0 {
		return nil
	}
	return s.st.Targets[0].Best.IDs
}

// sky is what stands before the sky seen from the middle of a surface.
func (s set) sky(surface *shading.Surface) render.SkyView {
	return s.skyFrom(surface, surface.Face.Outline.Bound().Center(), "the middle of "+surfaceWords(surface))
}

// skyFrom is what stands before the sky seen from a point of a surface, given
// in the face's own coordinates and in words.
func (s set) skyFrom(surface *shading.Surface, at orb.Point, where string) render.SkyView {
	from := surface.Face.At(at[0], at[1]).Add(surface.Face.N.Mul(0.02))
	d := render.SkyView{Facing: 180}
	months := []time.Month{time.December, time.January, time.February, time.March, time.April, time.May, time.June}
	if s.st.SunSide() == "north" {
		d.Facing = 0
		months = []time.Month{time.June, time.July, time.August, time.September, time.October, time.November, time.December}
	}
	for i, m := range months {
		// The sun goes nearly the same way a month on the other side of the solstice.
		name := fmt.Sprintf("21 %s", m.String()[:3])
		if i > 0 && i < len(months)-1 {
			name += "/" + (time.Month((int(months[0])-i+11)%12 + 1)).String()[:3]
		}
		path := render.SunPath{Name: name, Leaf: i >= 4}
		for minutes := 0; minutes <= 24*60; minutes += 15 {
			if p, ok := skyPoint(s.sunAt(m, 21, minutes)); ok {
				path.Points = append(path.Points, p)
			}
		}
		d.Paths = append(d.Paths, path)
	}
	for hour := 6; hour <= 18; hour += 2 {
		line := render.SunPath{Name: fmt.Sprint(hour)}
		for _, m := range months {
			if p, ok := skyPoint(s.sunAt(m, 21, hour*60)); ok {
				line.Points = append(line.Points, p)
			}
		}
		if len(line.Points) > 1 {
			d.Hours = append(d.Hours, line)
		}
	}
	for _, t := range s.st.Site.Trees {
		outline := s.seen(t.Crown().Skin(), from, surface.Face.N, d.Facing)
		if len(outline) > 2 {
			d.Crowns = append(d.Crowns, render.SkyCrown{ID: t.ID, Outline: outline, InLeaf: t.InLeaf, Bare: t.Bare, Evergreen: t.Evergreen})
		}
	}
	d.Solids = s.land(from, surface.Face.N, d.Facing)
	along := ""
	if len(d.Solids) > 0 {
		along = ", along the horizon the " + d.Solids[0].Name
		if last := d.Solids[len(d.Solids)-1].Name; last != d.Solids[0].Name {
			along += " and the far " + last
		}
	}
	own := s.ownPart(surface)
	for _, b := range append([]model.Building{s.st.Site.House}, append(slices.Clone(s.st.Site.Neighbours), s.st.Site.Porches...)...) {
		// One outline a part: the hull of a whole L would fill its angle.
		var parts []string
		corners := map[string][]r3.Vector{}
		for _, f := range b.Screens() {
			if corners[f.Part] == nil {
				parts = append(parts, f.Part)
			}
			corners[f.Part] = append(corners[f.Part], facePoints(f)...)
			if b.ID == s.st.Site.House.ID && f.Part == own && !sameWall(f, surface.Face) {
				if outline, whole := before(f, from, surface.Face.N); len(outline) > 2 {
					name := "own eave"
					if whole || f.Kind != model.RoofFace {
						name = "own house"
					}
					d.Near = append(d.Near, render.SkySolid{Name: name, Outline: outline})
				}
			}
		}
		for _, part := range parts {
			if b.ID == s.st.Site.House.ID && part == own {
				continue // its own wall; what juts out before it is drawn face by face, a hull would fill the view
			}
			if outline := s.seen(corners[part], from, surface.Face.N, d.Facing); len(outline) > 2 {
				name := b.ID
				switch {
				case len(parts) > 1 && part != "":
					name = part
				case len(parts) > 1:
					name = "chimney" // the one thing on a house that belongs to no part
				}
				d.Solids = append(d.Solids, render.SkySolid{Name: name, Outline: outline})
			}
		}
	}
	d.Behind, d.Back = behind(surface.Face.N, d.Facing), "behind the wall"
	if surface.Face.N.Z > 0.1 {
		d.Back = "behind the roof plane"
	}
	d.Title = fmt.Sprintf("%s: the sky from %s", s.st.Site.Name, where)
	d.Caption = "Sun paths on the 21st; the sun goes nearly the same way in both months named, so look at the band in which the crowns are. Lines across them are clock hours of local standard time (" + offsetText(s.st.Year.Offset) + "). Crowns by id, the closer the strokes the less sun comes through; upright strokes: evergreen. Grey stops all sun" + along + ". Hatched: sky " + d.Back + ", which it never sees. Places of the sun by date and latitude, without weather." + s.assumed()
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// behind gives the altitude up to which the sky lies behind a plane with unit
// normal n, from left to right of the view.
func behind(n r3.Vector, facing float64) []render.SkyPoint {
	const half, step = 120, 2.0
	level := math.Hypot(n.X, n.Y)
	_, looks := sun.Angles(n)
	edge := func(off float64) float64 {
		c := level * math.Cos((facing+off)*math.Pi/180-looks.Radians())
		switch {
		case c >= 0:
			return 0
		case n.Z < 1e-6:
			return 90
		}
		return math.Atan2(-c, n.Z) * 180 / math.Pi
	}
	var offs []float64
	for off := -float64(half); off <= half; off += step {
		offs = append(offs, off)
	}
	for _, square := range []float64{-90, 90} { // exactly where the plane itself is seen
		off := math.Mod(looks.Degrees()+square-facing+900, 360) - 180
		if math.Abs(off) < half {
			offs = append(offs, off-1e-3, off+1e-3)
		}
	}
	slices.Sort(offs)
	var out []render.SkyPoint
	for _, off := range offs {
		out = append(out, render.SkyPoint{Azimuth: math.Mod(facing+off+720, 360), Altitude: edge(off)})
	}
	return out
}

// sameWall tells whether a face is the wall in which a window is set, be it by
// the depth of a reveal.
func sameWall(f, glass model.Face) bool {
	const reveal = 0.5 // m, deeper than any
	return f.N.Dot(glass.N) > 0.99 && math.Abs(f.Origin.Sub(glass.Origin).Dot(glass.N)) < reveal
}

// before is the outline in directions of what of a face stands before a
// surface, seen from a point of it, and whether that is the whole face. Nil
// where it hides no sky.
func before(f model.Face, from, normal r3.Vector) (outline []render.SkyPoint, whole bool) {
	const near = 0.005 // m before the point
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

func skyPoint(v r3.Vector) (render.SkyPoint, bool) {
	altitude, azimuth := sun.Angles(v)
	return render.SkyPoint{Azimuth: azimuth.Degrees(), Altitude: altitude.Degrees()}, altitude > 0
}

// seen is the outline of a convex thing in directions, by the hull of those
// of its points above the horizon; where it stands round the surface, by those
// ahead of it. Nil where none of it stands ahead.
func (s set) seen(points []r3.Vector, from, normal r3.Vector, facing float64) []render.SkyPoint {
	if len(points) == 0 {
		return nil
	}
	const widest = 170 // degrees that a hull in directions may span
	ahead := false
	var whole, front []orb.Point
	_, start := sun.Angles(points[0].Sub(from))
	middle := math.Mod(start.Degrees()-facing+540, 360) - 180
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		d := p.Sub(from)
		altitude, azimuth := sun.Angles(d)
		off := middle + math.Mod(azimuth.Degrees()-start.Degrees()+540, 360) - 180
		whole = append(whole, orb.Point{off, max(0, altitude.Degrees())})
		low, high = min(low, off), max(high, off)
		if d.Dot(normal) > 0.01 {
			ahead = true
			front = append(front, orb.Point{math.Mod(azimuth.Degrees()-facing+540, 360) - 180, max(0, altitude.Degrees())})
		}
	}
	flat := whole
	if high-low > widest {
		flat = front
	}
	if !ahead || len(flat) < 3 {
		return nil
	}
	var out []render.SkyPoint
	top := 0.0
	for _, q := range shading.Hull(flat) {
		out = append(out, render.SkyPoint{Azimuth: math.Mod(q[0]+facing+720, 360), Altitude: q[1]})
		top = max(top, q[1])
	}
	if top < 0.5 {
		return nil
	}
	return out
}

// facePoints are points along a face's edges, close enough for straight edges
// to look right in a picture of directions.
func facePoints(f model.Face) []r3.Vector {
	var out []r3.Vector
	const pieces = 16
	for _, polygon := range f.Outline {
		ring := polygon[0]
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			for k := range pieces {
				t := float64(k) / pieces
				out = append(out, f.At(a[0]+t*(b[0]-a[0]), a[1]+t*(b[1]-a[1])))
			}
		}
	}
	return out
}
