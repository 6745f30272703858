package render

import (
	"math"
	"slices"
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// buildingName letters a name on its building, on as many lines as it takes,
// where none of what is drawn over it runs through the words if there is such
// a place; where it is too wide for that, off it and all others with a leader.
func (s *sheet) buildingName(name string, walls, over ink.Path, bounds ink.Box, others []ink.Box) {
	x0, y0, x1, y1 := walls.Bounds()
	pen := haloed(centred(small()))
	for _, clear := range []ink.Path{over, nil} {
		for _, share := range []float64{1, 0.6, 0.34} { // of the width: on one line, on two, on three
			lines := ink.Wrap(name, max(share*ink.Width(name, pen.Size, pen.Face), widest(name, pen))+1, pen)
			for _, dy := range []float64{0, 10, -10, 20, -20} {
				for _, dx := range []float64{0, 0.12, -0.12, 0.2, -0.2, 0.28, -0.28} {
					if s.lines(lines, (x0+x1)/2+dx*(x1-x0), (y0+y1)/2+2.8+dy, pen, walls, clear, bounds) {
						return
					}
				}
			}
		}
	}
	if s.part() {
		return
	}
	n := len(s.taken)
	s.taken = append(s.taken, others...)
	s.label((x0+x1)/2, (y0+y1)/2, fit(name, 120, small()), haloed(small()), bounds)
	s.taken = append(s.taken[:n:n], s.taken[n+len(others):]...)
}

// lines letters lines one beneath the other about a point where they lie
// inside an area and, with some air, clear of what is drawn there (nil: no
// matter), and tells whether they do.
func (s *sheet) lines(lines []string, x, y float64, t ink.Type, inside, clear ink.Path, bounds ink.Box) bool {
	const lead = 8.5
	y -= lead * float64(len(lines)-1) / 2
	for i, l := range lines {
		b := grown(ink.TextBox(x, y+lead*float64(i), l, t), 0.7)
		if !covers(inside, b) || !s.free(b, bounds) || clear != nil && (!covers(inside, grown(b, 2.5)) || len(ink.ClipLines(clear, grown(b, 1))) > 0) {
			return false
		}
	}
	for i, l := range lines {
		s.text(x, y+lead*float64(i), l, t)
	}
	return len(lines) > 0
}

// widest is the width of a name's longest word.
func widest(name string, t ink.Type) float64 {
	w := 0.0
	for _, word := range strings.Fields(name) {
		w = max(w, ink.Width(word, t.Size, t.Face))
	}
	return w
}

// lineName letters a name beside a line, where nothing drawn runs through it if
// there is such a place, and as little as can be of the crowns; never where it
// would name something else.
func (s *sheet) lineName(name string, p, drawn, crowns ink.Path, bounds ink.Box, other func(ink.Box) bool) {
	t := haloed(italic(small()))
	w := ink.Width(name, t.Size, t.Face)
	var longest ink.Run
	for _, r := range p {
		if long(r) > long(longest) {
			longest = r
		}
	}
	if len(longest.Points) < 2 {
		return
	}
	var places []ink.Point
	for k := range 21 { // from the middle outwards
		step := float64((k+1)/2) / 21
		q := along(longest, 0.5+step*float64(1-2*(k%2)))
		places = append(places, ink.Point{X: q.X - w/2, Y: q.Y - 4}, ink.Point{X: q.X - w/2, Y: q.Y + 9}, ink.Point{X: q.X + 5, Y: q.Y + 2.5}, ink.Point{X: q.X - w - 5, Y: q.Y + 2.5})
	}
	for _, q := range []ink.Point{longest.Points[0], longest.Points[len(longest.Points)-1]} { // beyond its ends
		places = append(places, ink.Point{X: q.X + 5, Y: q.Y + 2.5}, ink.Point{X: q.X - w - 5, Y: q.Y + 2.5})
	}
	for _, keep := range []ink.Path{drawn, p} { // clear of all that is drawn, of the line alone
		least, best := math.Inf(1), ink.Point{}
		for _, at := range places {
			b := grown(ink.TextBox(at.X, at.Y, name, t), 0.5)
			if len(ink.ClipLines(keep, b)) > 0 || !s.free(grown(b, 0.2), bounds) || other(b) {
				continue
			}
			crossed := 0.0
			for _, r := range ink.ClipLines(crowns, b) {
				crossed += long(r)
			}
			if crossed < least {
				least, best = crossed, at
			}
		}
		if !math.IsInf(least, 1) {
			s.text(best.X, best.Y, name, t)
			return
		}
	}
	q := along(longest, 0.5)
	s.label(q.X, q.Y-6, name, t, bounds)
}

func long(r ink.Run) (sum float64) {
	for i := 1; i < len(r.Points); i++ {
		sum += math.Hypot(r.Points[i].X-r.Points[i-1].X, r.Points[i].Y-r.Points[i-1].Y)
	}
	return sum
}

// along is the point at a share of a line's length.
func along(r ink.Run, share float64) ink.Point {
	left := share * long(r)
	for i := 1; i < len(r.Points); i++ {
		a, b := r.Points[i-1], r.Points[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		if d >= left && d > 0 {
			return ink.Point{X: a.X + (b.X-a.X)*left/d, Y: a.Y + (b.Y-a.Y)*left/d}
		}
		left -= d
	}
	return r.Points[len(r.Points)-1]
}

// keepOff is what heights are not lettered on: buildings, trunks, crosses.
func (d LotPlan) keepOff(v view) []ink.Box {
	var out []ink.Box
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			out = append(out, boxOf(v.points(r)))
		}
	}
	for _, t := range d.Trees {
		q, r := v.pt(t.At), 2.5
		if t.Removed {
			r = crossRadius + 1.5
		}
		out = append(out, ink.Box{X0: q.X - r, Y0: q.Y - r, X1: q.X + r, Y1: q.Y + r})
	}
	return out
}

// lettering puts the words on, the most needed first.
func (d LotPlan) lettering(s *sheet, v view, box ink.Box, breaks []float64) {
	s.taken = append(s.taken, ink.Box{X0: s.frame.X1 - planSideWidth, Y0: s.frame.Y0, X1: s.frame.X1, Y1: s.frame.Y0 + 48})
	missed := 0
	if !d.PlainTrees {
		for _, t := range d.Trees {
			q := v.pt(t.At)
			words := fit(t.ID, 60, small())
			pen := haloed(bold(small()))
			up := 7.0
			if t.Removed {
				up = 11 // clear of the cross
			}
			if !s.label(q.X, q.Y-up, words, pen, box) {
				missed++
			}
		}
	}
	for _, m := range d.Dimensions {
		s.dimension(v.pt(m.A), v.pt(m.B), m.Off, m.Text, box)
	}
	var others []ink.Box
	var crowns ink.Path
	for _, t := range d.Trees {
		crowns = append(crowns, ink.Polygon(t.crown(v))...)
	}
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			others = append(others, boxOf(v.points(r)))
		}
	}
	for _, b := range d.Buildings {
		if len(b.Walls) == 0 || len(b.Walls[0]) == 0 {
			continue
		}
		over := slices.Clone(crowns)
		for _, r := range b.Eaves {
			over = append(over, ink.Polygon(v.points(r))...)
		}
		s.buildingName(b.Name, ink.Polygon(v.points(b.Walls[0])), over, box, others)
	}
	for _, m := range d.Points {
		q := v.pt(m.At)
		s.Path(ink.Line(q.X-2.5, q.Y, q.X+2.5, q.Y), line(light, black))
		s.Path(ink.Line(q.X, q.Y-2.5, q.X, q.Y+2.5), line(light, black))
		if s.part() {
			continue
		}
		s.label(q.X, q.Y+7, fit(m.Name, 90, small()), haloed(italic(small())), box)
	}
	var drawn ink.Path // what names of fences and wires keep off
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			drawn = append(drawn, ink.Polygon(v.points(r))...)
		}
	}
	if len(d.Lot) > 2 {
		drawn = append(drawn, ink.Polygon(v.points(d.Lot))...)
	}
	lines := append(append([]PlanLine{}, d.Fences...), d.Wires...)
	for _, w := range lines {
		drawn = append(drawn, ink.ClipLines(v.open(w.Line), box)...)
	}
	other := func(b ink.Box) bool { // on a building or a trunk
		for _, o := range d.Buildings {
			for _, r := range o.Walls {
				if len(ink.ClipArea(ink.Polygon(v.points(r)), b)) > 0 {
					return true
				}
			}
		}
		return slices.ContainsFunc(d.Trees, func(t PlanTree) bool {
			q := v.pt(t.At)
			return b.Meets(ink.Box{X0: q.X - 2, Y0: q.Y - 2, X1: q.X + 2, Y1: q.Y + 2})
		})
	}
	for _, w := range lines {
		if len(w.Line) > 1 && w.Name != "" && !s.part() {
			s.lineName(fit(w.Name, 90, small()), ink.ClipLines(v.open(w.Line), box), drawn, crowns, box, other)
		}
	}
	unread := d.Land.lettering(s, v, d.Lot, box, d.keepOff(v))
	if missed > 0 {
		s.text(s.frame.X0+2, box.Y1-1, figures(float64(missed), 1)+" tree names did not fit", haloed(italic(small())))
	}
	if unread > 0 {
		s.label(s.frame.X1-planSideWidth-60, box.Y1-4, figures(float64(unread), 1)+" heights not lettered", haloed(italic(small())), box)
	}
	if d.Sun.valid() {
		var off []ink.Box
		var lines ink.Path
		for _, b := range d.Buildings {
			for _, r := range b.Walls {
				off = append(off, boxOf(v.points(r)))
			}
			for _, r := range b.Eaves {
				lines = append(lines, ink.Polygon(v.points(r))...)
			}
		}
		for _, t := range d.Trees {
			const r = crossRadius + 1.5
			q := v.pt(t.At)
			if t.Removed {
				off = append(off, ink.Box{X0: q.X - r, Y0: q.Y - r, X1: q.X + r, Y1: q.Y + r})
			}
		}
		lot := ink.Polygon(v.points(d.Lot))
		s.contourNames(d.Sun, breaks, false, v.at, box, append(lines, lot...), func(b ink.Box) bool {
			return !meetsAny(b, off) && (len(d.Lot) < 3 || covers(lot, b))
		})
	}
}
