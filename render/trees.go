package render

import (
	"math"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// crown is the outline of a tree from above: bays for one that drops its
// leaf, teeth for an evergreen.
func (t PlanTree) crown(v view) []ink.Point {
	rx, ry := v.scale*t.SpreadX/2, v.scale*t.SpreadY/2
	if ry <= 0 {
		ry = rx
	}
	rx, ry = max(rx, 1.5), max(ry, 1.5)
	q := v.pt(t.At)
	n := int(max(7, math.Round(2*math.Pi*math.Sqrt(rx*ry)/9)))
	depth := min(0.16, 2.2/math.Sqrt(rx*ry))
	sin, cos := math.Sincos(t.Twist)
	const steps = 8
	pts := make([]ink.Point, 0, n*steps)
	for i := range n * steps {
		f := float64(i%steps) / steps
		r := 1 - depth*(1-math.Sin(math.Pi*f)) // a bay: round out, sharp in
		if t.Evergreen {
			r = 1 - depth*1.5*(1-math.Abs(2*f-1)) // a tooth: sharp out, sharp in
		}
		sa, ca := math.Sincos(2 * math.Pi * float64(i) / float64(n*steps))
		x, y := r*rx*ca, r*ry*sa
		pts = append(pts, ink.Point{X: q.X + x*cos + y*sin, Y: q.Y - (-x*sin + y*cos)})
	}
	return pts
}

func (t PlanTree) draw(s *sheet, v view) {
	outline := ink.Polygon(t.crown(v))
	q := v.pt(t.At)
	switch {
	case t.Removed:
		s.Path(outline, ink.Style{Stroke: ink.Paper, Width: 2.2})
		s.Path(outline, dashed(1.1, red, dashGone))
	case t.Planted:
		s.Path(outline, ink.Style{Stroke: ink.Paper, Width: 2})
		s.Path(outline, line(medium, green))
		s.Path(append(ink.Line(q.X-3, q.Y, q.X+3, q.Y), ink.Line(q.X, q.Y-3, q.X, q.Y+3)...), line(medium, green))
	default:
		s.Path(outline, ink.Style{Stroke: ink.Paper, Width: 2})
		s.Path(outline, line(medium, black))
		trunk(s, q.X, q.Y, t.Owner)
	}
}

const crossRadius = 4.5 // points

// cross marks a tree that is taken out, on a disc of paper so that it shows on
// the darkest ground and in grey.
func (t PlanTree) cross(s *sheet, v view) {
	const r = crossRadius
	q := v.pt(t.At)
	s.Path(ink.Circle(q.X, q.Y, r+1.5), area(ink.Paper))
	cross := append(ink.Line(q.X-r, q.Y-r, q.X+r, q.Y+r), ink.Line(q.X-r, q.Y+r, q.X+r, q.Y-r)...)
	s.Path(cross, line(heavy, black))
}

// hair draws the crown as a hair and the trunk as a dot.
func (t PlanTree) hair(s *sheet, v view) {
	c := black
	if t.Planted {
		c = green
	}
	q := v.pt(t.At)
	s.Path(ink.Polygon(t.crown(v)), line(hair, c))
	s.Path(ink.Circle(q.X, q.Y, 0.9), area(c))
}

// trunk says whose the tree is: a full dot for the lot's own, a ring for a
// neighbour's, a square for the street's.
func trunk(s *sheet, x, y float64, o model.Owner) {
	switch o {
	case model.OwnerNeighbour:
		s.Path(ink.Circle(x, y, 2), edged(ink.Paper, light, black))
	case model.OwnerStreet:
		s.Path(ink.Rectangle(x-1.8, y-1.8, 3.6, 3.6), edged(ink.Paper, light, black))
	default:
		s.Path(ink.Circle(x, y, 1.7), area(black))
	}
}

// keyEntry is one sign of the plan and its words.
type keyEntry struct {
	words string
	draw  func(s *sheet, x, y float64)
}

const keyLine = 12.0

// keyEntries are the signs on the plan, only those used.
func (d LotPlan) keyEntries() []keyEntry {
	var has struct{ leaf, ever, gone, new, own, theirs, street, lot, fence, wire, shadow bool }
	for _, t := range d.Trees {
		has.gone, has.new = has.gone || t.Removed, has.new || t.Planted
		has.ever, has.leaf = has.ever || t.Evergreen, has.leaf || !t.Evergreen
		if !t.Removed && !t.Planted {
			has.theirs = has.theirs || t.Owner == model.OwnerNeighbour
			has.street = has.street || t.Owner == model.OwnerStreet
			has.own = has.own || t.Owner == model.OwnerLot || t.Owner == ""
		}
	}
	has.lot, has.fence, has.wire, has.shadow = len(d.Lot) > 2, len(d.Fences) > 0, len(d.Wires) > 0, len(d.Shadows) > 0
	tree := func(t PlanTree) func(s *sheet, x, y float64) {
		return func(s *sheet, x, y float64) {
			t.SpreadX, t.SpreadY = 9, 9
			s.Path(ink.Polygon(t.crown(view{1, x, y})), t.pen())
			switch {
			case t.Removed:
				s.Path(append(ink.Line(x-2, y-2, x+2, y+2), ink.Line(x-2, y+2, x+2, y-2)...), line(medium, black))
			case t.Planted:
				s.Path(append(ink.Line(x-2, y, x+2, y), ink.Line(x, y-2, x, y+2)...), line(medium, green))
			}
		}
	}
	run := func(st ink.Style, cross bool) func(s *sheet, x, y float64) {
		return func(s *sheet, x, y float64) {
			s.Path(ink.Line(x-6, y, x+6, y), st)
			if cross {
				crosses(s, ink.Line(x-6, y, x+6, y))
			}
		}
	}
	owner := func(o model.Owner) func(s *sheet, x, y float64) {
		return func(s *sheet, x, y float64) { trunk(s, x, y, o) }
	}
	var list []keyEntry
	add := func(on bool, words string, draw func(s *sheet, x, y float64)) {
		if on {
			list = append(list, keyEntry{words, draw})
		}
	}
	add(has.gone, "taken out", tree(PlanTree{Removed: true}))
	add(has.new, "planted", tree(PlanTree{Planted: true}))
	add(has.leaf, "drops its leaf", tree(PlanTree{}))
	add(has.ever, "evergreen", tree(PlanTree{Evergreen: true}))
	add(has.own && (has.theirs || has.street), "the lot's", owner(model.OwnerLot))
	add(has.theirs, "neighbour's", owner(model.OwnerNeighbour))
	add(has.street, "street's", owner(model.OwnerStreet))
	add(has.lot, "lot line", run(dashed(heavy, black, []float64{4.5, 1.5, 1, 1.5}), false))
	add(has.fence, "fence", run(line(light, black), true))
	add(has.wire, "wire", run(dashed(medium, black, dashWire), false))
	add(len(d.Land.Spots) > 0, "height read, against the ground at the house", func(s *sheet, x, y float64) { spotCross(s.Page, x, y) })
	add(d.Land.lined(d.Lot), "line of one height", run(line(light, pencil), false))
	add(len(d.Light) > 0, "shadow of a bare crown", func(s *sheet, x, y float64) {
		r := ink.Rectangle(x-6, y-3.5, 12, 7)
		s.Path(r, area(wash))
		s.Path(ink.Hatch(r, lightHatch, 45, false), line(hair, pencil))
	})
	add(has.shadow, "shadow", func(s *sheet, x, y float64) {
		r := ink.Rectangle(x-6, y-3.5, 12, 7)
		s.Path(r, area(shade))
		s.Path(ink.Hatch(r, 2.6, 45, false), line(hair, black))
	})
	return list
}

// keyLines breaks the key into lines of a width.
func (d LotPlan) keyLines(width float64) [][]keyEntry {
	lines := [][]keyEntry{nil}
	x := 0.0
	for _, e := range d.keyEntries() {
		w := e.width()
		if n := len(lines) - 1; x+w > width && len(lines[n]) > 0 {
			lines, x = append(lines, nil), 0
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], e)
		x += w
	}
	return lines
}

func (e keyEntry) width() float64 { return 23 + ink.Width(e.words, smallSize, ink.Regular) }

// key letters the signs, the first line's baseline at y.
func (d LotPlan) key(s *sheet, left, y float64) {
	for _, l := range d.keyLines(s.frame.X1 - left) {
		x := left
		for _, e := range l {
			e.draw(s, x+6, y-2.5)
			s.text(x+15, y, e.words, small())
			x += e.width()
		}
		y += keyLine
	}
}

func (t PlanTree) pen() ink.Style {
	switch {
	case t.Removed:
		return dashed(1.1, red, []float64{2.4, 1.4})
	case t.Planted:
		return line(medium, green)
	}
	return line(medium, black)
}
