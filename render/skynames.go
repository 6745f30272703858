package render

import (
	"cmp"
	"math"
	"slices"

	"github.com/southyard/southyard/render/ink"
)

// backName letters what hides the sky on each piece that lies behind, on as
// many lines as it takes, at the first height that is free.
func (d SkyView) backName(at func(SkyPoint) ink.Point, box ink.Box, s *sheet) {
	const lead = 8.5
	t := haloed(italic(centred(small())))
	for _, r := range d.behind(at) {
		x0, y0, x1, y1 := ink.ClipArea(ink.Path{r}, box).Bounds()
		seen := ink.ClipArea(ink.Path{r}, box)
		lines := ink.Wrap(d.Back, max(x1-x0-4, widest(d.Back, t)), t)
		x := max(box.X0+widest(d.Back, t)/2+1, min(box.X1-widest(d.Back, t)/2-1, (x0+x1)/2))
		for y := (y0+y1)/2 + 8; y > box.Y0+lead*float64(len(lines)); y -= 4 {
			ok := true
			for i, l := range lines {
				b := ink.TextBox(x, y+lead*float64(i), l, t)
				ok = ok && covers(seen, b) && s.free(grown(b, 0.7), box)
			}
			if !ok {
				continue // a piece too small to hold the words goes without: the caption says what it is
			}
			for i, l := range lines {
				s.text(x, y+lead*float64(i), l, t)
			}
			break
		}
	}
}

// nearName letters what hangs before all else where a piece of it holds the
// words, else beside the widest piece. What is but a sliver goes without.
func (d SkyView) nearName(at func(SkyPoint) ink.Point, degree float64, box ink.Box, s *sheet) {
	t := haloed(italic(centred(small())))
	pieces := map[string][]ink.Path{}
	var names []string
	for _, o := range d.Near {
		if seen := ink.ClipArea(ink.Polygon(d.unrolled(o.Outline, at, degree)), d.front(at, box)); len(seen) > 0 && o.Name != "" {
			if pieces[o.Name] == nil {
				names = append(names, o.Name)
			}
			pieces[o.Name] = append(pieces[o.Name], seen)
		}
	}
	for _, name := range names {
		if s.inside(name, t, pieces[name], box) || s.upright(name, t, pieces[name], box) {
			continue
		}
		const sliver = 4.0 // points
		wide, best := 0.0, ink.Point{}
		for _, p := range pieces[name] {
			if b := uncovered(p, d.behind(at)); b.H() > sliver && b.W() > max(wide, sliver) {
				wide, best = b.W(), ink.Point{X: b.X0 + min(6, b.W()/2), Y: b.Y0 + min(6, b.H()/2)}
			}
		}
		if wide == 0 {
			continue
		}
		if !s.label(best.X, best.Y, name, t, d.front(at, box)) {
			s.label(best.X, best.Y, name, t, box)
		}
	}
}

// uncovered is the bounds of what of an area no ring of others covers, to a
// twentieth of its width and height.
func uncovered(area, others ink.Path) (out ink.Box) {
	const n = 20
	x0, y0, x1, y1 := area.Bounds()
	for i := range n * n {
		q := ink.Point{X: x0 + (x1-x0)*(float64(i%n)+0.5)/n, Y: y0 + (y1-y0)*(float64(i/n)+0.5)/n}
		b := ink.Box{X0: q.X, Y0: q.Y, X1: q.X, Y1: q.Y}
		if !covers(area, b) || slices.ContainsFunc(others, func(r ink.Run) bool { return covers(ink.Path{r}, b) }) {
			continue
		}
		if out == (ink.Box{}) {
			out = b
		}
		out = ink.Box{X0: min(out.X0, q.X), Y0: min(out.Y0, q.Y), X1: max(out.X1, q.X), Y1: max(out.Y1, q.Y)}
	}
	return out
}

// inside letters words where one of several areas holds them, and tells
// whether there was such a place.
func (s *sheet) inside(words string, t ink.Type, areas []ink.Path, bounds ink.Box) bool {
	for _, p := range areas {
		x0, y0, x1, y1 := p.Bounds()
		for y := y0 + 9; y < y1-2; y += 6 {
			for x := x0 + 4; x < x1; x += 8 {
				if covers(p, ink.TextBox(x, y, words, t)) && s.try(x, y, words, t, bounds) {
					return true
				}
			}
		}
	}
	return false
}

// upright letters words turned to read upwards, in the middle of the first of
// several areas that holds them so, and tells whether there was such a place.
func (s *sheet) upright(words string, t ink.Type, areas []ink.Path, bounds ink.Box) bool {
	t.Turn = 90
	for _, p := range areas {
		x0, y0, x1, y1 := p.Bounds()
		x := (x0+x1)/2 + ink.CapHeight*t.Size/2
		for y := y0 + 4; y < y1; y += 4 {
			if covers(p, ink.TextBox(x, y, words, t)) && s.try(x, y, words, t, bounds) {
				return true
			}
		}
	}
	return false
}

// names letters days, hours, trees and buildings, the most needed first.
func (d SkyView) names(s *sheet, leaf bool, box ink.Box, degree float64, at func(SkyPoint) ink.Point) {
	front := d.front(at, box)
	var near []ink.Path
	for _, o := range d.Near {
		near = append(near, ink.Polygon(d.unrolled(o.Outline, at, degree)))
	}
	for _, c := range d.Crowns {
		if q, _, ok := middle(ink.Polygon(d.unrolled(c.Outline, at, degree)), front, near); ok {
			d.crownName(s, fit(c.ID, 60, small()), q, leaf, front, at)
		}
	}
	for _, o := range d.Solids {
		outline := ink.Polygon(d.unrolled(o.Outline, at, degree))
		if x0, _, x1, _ := outline.Bounds(); x1-x0 > 0.9*front.W() {
			continue // the skyline all round: the caption says what it is
		}
		if q, seen, _ := middle(outline, front, near); seen && o.Name != "" {
			words, t := fit(o.Name, 90, small()), haloed(italic(small()))
			if !s.label(q.X, q.Y, words, t, front) {
				s.label(q.X, q.Y, words, t, box)
			}
		}
	}
	d.nearName(at, degree, box, s)
	d.backName(at, box, s)
	for _, m := range d.Paths {
		if name := d.lettered(m, leaf); name != "" {
			d.pathName(s, m, name, leaf, box, at)
		}
	}
	for _, h := range d.Hours {
		best, high := ink.Point{}, -1.0
		for _, p := range h.Points {
			if q := at(p); p.Altitude > high && q.X >= box.X0 && q.X <= box.X1 && !d.hidden(p) {
				best, high = q, p.Altitude
			}
		}
		if high < 0 {
			continue
		}
		t, bounds := haloed(italic(centred(small()))), grown(box, 8)
		for _, by := range []ink.Point{{Y: -6}, {X: -9, Y: 2.5}, {X: 9, Y: 2.5}, {Y: 10}} { // off other words, which it would seem to go on
			if b := ink.TextBox(best.X+by.X, best.Y+by.Y, h.Name, t); s.free(grown(b, apartInSky), bounds) && s.try(best.X+by.X, best.Y+by.Y, h.Name, t, bounds) {
				high = -1
				break
			}
		}
		if high >= 0 {
			s.try(best.X, best.Y-6, h.Name, t, bounds)
		}
	}
}

// apartInSky is the air between words that must not be read as one, points.
const apartInSky = 2.5

// crownName letters a tree's id at a point, or close by where that is clear of
// the sun's paths and apart from other ids.
func (d SkyView) crownName(s *sheet, id string, q ink.Point, leaf bool, bounds ink.Box, at func(SkyPoint) ink.Point) {
	t := haloed(bold(centred(small())))
	y := q.Y + ink.CapHeight*t.Size/2
	for _, strict := range []bool{true, false} {
		for _, dx := range []float64{0, -7, 7} {
			for _, dy := range []float64{0, -3, 3, -6, 6, -9, 9} {
				b := ink.TextBox(q.X+dx, y+dy, id, t)
				wide := ink.Box{X0: b.X0 - apartInSky, Y0: b.Y0, X1: b.X1 + apartInSky, Y1: b.Y1}
				if s.free(wide, bounds) && !(strict && d.crossed("", leaf, b, at)) && s.try(q.X+dx, y+dy, id, t, bounds) {
					return
				}
			}
		}
	}
	s.label(q.X, q.Y, id, t, bounds)
}

// pathName letters a day on its path, where no other path runs through the
// words if there is such a place.
func (d SkyView) pathName(s *sheet, m SunPath, name string, leaf bool, box ink.Box, at func(SkyPoint) ink.Point) {
	t := haloed(centred(small()))
	for allowed := range 3 { // paths through the words: none, its own, any
		for _, f := range []float64{0.5, 0.44, 0.56, 0.38, 0.62, 0.33, 0.67, 0.28, 0.72, 0.23, 0.77} {
			for _, dy := range []float64{-3, 8.5} {
				if len(m.Points) == 0 {
					return
				}
				q := at(m.Points[min(len(m.Points)-1, int(f*float64(len(m.Points))))])
				own := ""
				if allowed == 1 {
					own = m.Name
				}
				b := ink.TextBox(q.X, q.Y+dy, name, t)
				wide := ink.Box{X0: b.X0 - apartInSky, Y0: b.Y0, X1: b.X1 + apartInSky, Y1: b.Y1}
				if allowed < 2 && (d.crossed(own, leaf, b, at) || !s.free(wide, box)) {
					continue
				}
				if s.try(q.X, q.Y+dy, name, t, box) {
					return
				}
			}
		}
	}
}

// crossed tells whether a path other than its own runs through a box.
func (d SkyView) crossed(own string, leaf bool, b ink.Box, at func(SkyPoint) ink.Point) bool {
	for _, o := range d.Paths {
		if (own == "" || o.Name != own) && d.lettered(o, leaf) != "" && len(ink.ClipLines(d.track(o.Points, at), grown(b, 0.3))) > 0 {
			return true
		}
	}
	return false
}

// middle of what is seen of an outline in a box, off what hangs before it, and
// whether any of it is; behind all that hangs there, its middle as if nothing did.
func middle(outline ink.Path, box ink.Box, before []ink.Path) (at ink.Point, seen, there bool) {
	part := ink.ClipArea(outline, box)
	if len(part) == 0 {
		return ink.Point{}, false, false
	}
	const across, up = 24, 12
	x0, y0, x1, y1 := part.Bounds()
	centre := ink.Point{X: (x0 + x1) / 2, Y: (y0 + y1) / 2}
	var open []ink.Point
	var sum ink.Point
	for i := range across {
		for k := range up {
			q := ink.Point{X: x0 + (x1-x0)*(float64(i)+0.5)/across, Y: y0 + (y1-y0)*(float64(k)+0.5)/up}
			if !contains(part, q) || slices.ContainsFunc(before, func(p ink.Path) bool { return contains(p, q) }) {
				continue
			}
			open = append(open, q)
			sum.X, sum.Y = sum.X+q.X, sum.Y+q.Y
		}
	}
	if n := float64(len(open)); n > 0 {
		centre = ink.Point{X: sum.X / n, Y: sum.Y / n}
		far := func(q ink.Point) float64 { return math.Hypot(q.X-centre.X, q.Y-centre.Y) }
		centre = slices.MinFunc(open, func(a, b ink.Point) int { return cmp.Compare(far(a), far(b)) })
	}
	return centre, len(open) > 0, true
}
