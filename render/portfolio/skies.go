package portfolio

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// sky is what stands before the sky seen from the middle of a surface.
func (s set) sky(surface *shading.Surface) render.SkyView {
	return s.skyFrom(surface, surface.Face.Outline.Bound().Center(), "the middle of "+surface.Words())
}

// skyFrom is what stands before the sky seen from a point of a surface, given
// in the face's own coordinates and in words.
func (s set) skyFrom(surface *shading.Surface, at orb.Point, where string) render.SkyView {
	from := surface.Face.At(at[0], at[1]).Add(surface.Face.N.Mul(0.02))
	depth := 0.005 // m before the point, where the wall's face lies
	if surface.Kind == model.WindowFace {
		from = surface.Face.At(at[0], at[1]).Add(surface.Face.N.Mul(0.001))
		if i := s.st.Scene.SurfaceNamed(surface.Wall); i >= 0 {
			wall := s.st.Scene.Surfaces[i].Face
			depth += wall.Origin.Sub(surface.Face.Origin).Dot(surface.Face.N)
		}
	}
	d := render.SkyView{Facing: 180}
	months := []time.Month{time.December, time.January, time.February, time.March, time.April, time.May, time.June}
	if s.st.SunSide() == "north" {
		d.Facing = 0
		months = []time.Month{time.June, time.July, time.August, time.September, time.October, time.November, time.December}
	}
	d.OneBand = !s.anyDropsLeaf()
	for i, m := range months {
		// The sun goes nearly the same way a month on the other side of the solstice.
		days := []time.Month{m}
		if i > 0 && i < len(months)-1 {
			days = append(days, time.Month((int(months[0])-i+11)%12+1))
		}
		path := s.dayPath(days)
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
			d.Crowns = append(d.Crowns, render.SkyCrown{ID: t.ID, Outline: outline, InLeaf: t.InLeaf, Bare: t.Bare, Evergreen: t.Evergreen,
				Away: math.Hypot(t.At[0]-from.X, t.At[1]-from.Y)})
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
	d.Near = s.ownHouse(surface, from, depth)
	for _, b := range append(slices.Clone(s.st.Site.Neighbours), s.st.Site.Porches...) {
		// One outline a part: the hull of a whole L would fill its angle.
		var parts []string
		corners := map[string][]r3.Vector{}
		for _, f := range b.Screens() {
			if corners[f.Part] == nil {
				parts = append(parts, f.Part)
			}
			corners[f.Part] = append(corners[f.Part], facePoints(f)...)
		}
		for _, part := range parts {
			if outline := s.seen(corners[part], from, surface.Face.N, d.Facing); len(outline) > 2 {
				name := b.ID
				switch {
				case len(parts) > 1 && part != "":
					name = part
				case len(parts) > 1:
					name = chimney
				}
				d.Solids = append(d.Solids, render.SkySolid{Name: name, Outline: outline, Away: away(corners[part], from)})
			}
		}
	}
	d.Behind, d.Back = behind(surface.Face.N, d.Facing), "behind the wall"
	if surface.Face.N.Z > 0.1 {
		d.Back = "behind the roof plane"
	}
	d.Title = fmt.Sprintf("%s: the sky from %s", s.st.Site.Name, where)
	left, drawn := "east", " Heavy: the sun's path on the days named, trees standing as drawn; dashed: its path on the other days."
	if d.Facing == 0 {
		left = "west"
	}
	if d.OneBand {
		drawn = " Heavy: the sun's path on the days named."
	}
	d.Caption = "Looking out, " + left + " on the left." + drawn + " Lines across: clock hours of local standard time (" + offsetText(s.st.Year.Offset) + "). Crowns by id, the closer the strokes the less sun comes through; upright strokes: evergreen. Grey stops all sun" + along + ". Hatched: sky " + d.Back + ", which it never sees. Paths of the sun by date and latitude, clouds left out." + s.assumed()
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// anyDropsLeaf tells whether the sky looks another in winter.
func (s set) anyDropsLeaf() bool {
	return slices.ContainsFunc(s.st.Site.Trees, func(t model.Tree) bool { return !t.Evergreen })
}

// dayPath names the path of the 21st of some months, by how most of the trees
// that drop their leaf stand on those days. It has no points yet.
func (s set) dayPath(months []time.Month) render.SunPath {
	join := func(name string, m time.Month) string {
		if name == "" {
			return fmt.Sprintf("21 %s", m.String()[:3])
		}
		return name + "/" + m.String()[:3]
	}
	var p render.SunPath
	for _, m := range months {
		out, n := 0.0, 0
		for _, t := range s.st.Site.Trees {
			if !t.Evergreen {
				out, n = out+species.LeafShare(t.Leafing, dayOfYear(m, 21)), n+1
			}
		}
		p.Name = join(p.Name, m)
		if 2*out >= float64(n) {
			p.Leaf = join(p.Leaf, m)
		} else {
			p.Bare = join(p.Bare, m)
		}
	}
	return p
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

// away is how far off, on the level, the nearest of some points is, m.
func away(points []r3.Vector, from r3.Vector) float64 {
	least := math.Inf(1)
	for _, p := range points {
		least = min(least, math.Hypot(p.X-from.X, p.Y-from.Y))
	}
	return least
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
