package render

import (
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
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
	var solid ink.Path // what they must not lie on
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			solid = append(solid, ink.Polygon(v.points(r))...)
		}
	}
	for _, t := range d.Trees {
		q := v.pt(t.At)
		solid = append(solid, ink.Rectangle(q.X-2, q.Y-2, 4, 4)...)
	}
	for _, w := range lines {
		if len(w.Line) > 1 && w.Name != "" && !s.part() {
			n := lineName{fit(w.Name, 90, small()), ink.ClipLines(v.open(w.Line), box), drawn, solid, crowns}
			n.letter(s, box)
		}
	}
	unread := d.Land.lettering(s, v, d.Lot, box, d.keepOff(v))
	if missed > 0 {
		s.text(s.frame.X0+2, box.Y1-1, figures(float64(missed), 1)+" tree names did not fit", haloed(italic(small())))
	}
	if unread > 0 {
		s.label(s.frame.X1-planSideWidth-60, box.Y1-4, measure.Count(unread, "height")+" not lettered", haloed(italic(small())), box)
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
