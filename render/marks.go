package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

const metresAFoot = 0.3048

// legend is a row of classes with their limits beneath and the unit at the
// end, from x to the right; it is 24 points high. Every limit that fits is
// lettered.
func (s *sheet) legend(x, y, width float64, breaks []float64, unit string) {
	n := len(breaks) - 1
	if n < 1 {
		return
	}
	unit = fit(unit, width*0.5, small())
	unitWidth := ink.Width(unit, smallSize, ink.Regular) + 6
	cell := min(34, (width-unitWidth-12)/float64(n))
	if cell < 4 {
		return
	}
	x += 6 // half a figure
	for k := range n {
		s.Path(ink.Rectangle(x+cell*float64(k), y, cell, 8), edged(classColour(k, breaks), hair, black))
	}
	s.text(x+cell*float64(n)+10, y+7, unit, small())
	bounds := ink.Box{X1: s.w, Y1: s.h}
	for k, b := range breaks {
		s.try(x+cell*float64(k), y+16, figures(b, breaks[1]-breaks[0]), centred(small()), bounds)
	}
}

// scaleBar shows a round length in feet above the bar and one in metres
// below, from x, y (the bar itself) for at most width points; scale is points
// a metre. It is 20 points high, 10 each way, and gives the width used.
func (s *sheet) scaleBar(x, y, width, scale float64) float64 {
	pick := func(unit float64) (float64, float64) { // length in units, in points
		want := width * 0.8 / (unit * scale)
		p := math.Pow(10, math.Floor(math.Log10(want)))
		best := p
		for _, m := range []float64{2, 5} {
			if m*p <= want {
				best = m * p
			}
		}
		return best, best * unit * scale
	}
	feet, fw := pick(metresAFoot)
	metres, mw := pick(1)
	const t = 2.2
	s.Path(ink.Line(x, y, x+max(fw, mw), y), line(light, black))
	for k := range 4 {
		if k%2 == 0 {
			s.Path(ink.Rectangle(x+fw*float64(k)/4, y-t, fw/4, t), area(black))
			s.Path(ink.Rectangle(x+mw*float64(k)/4, y, mw/4, t), area(pencil))
		}
	}
	s.Path(ink.Rectangle(x, y-t, fw, t), line(hair, black))
	s.Path(ink.Rectangle(x, y, mw, t), line(hair, black))
	ft, m := figures(feet, feet)+" ft", figures(metres, metres)+" m"
	ftLine, mLine := y-0.8, y+8.0
	if fw < mw { // off the longer bar, which runs on beneath
		ftLine = y - 3.4
	}
	if mw < fw {
		mLine = y + 9.2
	}
	s.text(x+fw+3, ftLine, ft, small())
	s.text(x+mw+3, mLine, m, small())
	return max(fw+3+ink.Width(ft, smallSize, ink.Regular), mw+3+ink.Width(m, smallSize, ink.Regular))
}

// north is a plain needle of length r about a centre, its point at the top
// turned clockwise by turn degrees.
func (s *sheet) north(x, y, r, turn float64) {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	at := func(u, v float64) ink.Point { return ink.Point{X: x + u*cos + v*sin, Y: y + u*sin - v*cos} }
	s.Path(ink.Circle(x, y, r*0.62), line(hair, black))
	s.Path(ink.Polygon([]ink.Point{at(0, r), at(r*0.22, 0), at(0, 0)}), area(black))
	s.Path(ink.Polygon([]ink.Point{at(0, r), at(-r*0.22, 0), at(0, 0)}), line(light, black))
	s.Path(ink.Polyline(at(0, 0), at(0, -r*0.8)), line(light, black))
	q := at(0, r+5)
	s.text(q.X, q.Y+2.5, "N", bold(centred(small())))
}

// dimension is a measured line between two points with a builder's slash at
// each end, its words above the middle if there is room. off moves it to its
// left side, looking from a to b.
func (s *sheet) dimension(a, b ink.Point, off float64, words string, bounds ink.Box) bool {
	dx, dy := b.X-a.X, b.Y-a.Y
	d := math.Hypot(dx, dy)
	if d < 1 {
		return false
	}
	ux, uy := dx/d, dy/d
	nx, ny := uy, -ux // left of a→b on a page whose y runs down
	move := func(p ink.Point, along, across float64) ink.Point {
		return ink.Point{X: p.X + ux*along + nx*across, Y: p.Y + uy*along + ny*across}
	}
	if off != 0 {
		sign := math.Copysign(1, off)
		for _, p := range []ink.Point{a, b} {
			s.Path(ink.Polyline(move(p, 0, 1.5*sign), move(p, 0, off+2.5*sign)), line(hair, black))
		}
	}
	p, q := move(a, 0, off), move(b, 0, off)
	s.Path(ink.Polyline(move(p, -2.5, 0), move(q, 2.5, 0)), line(hair, black))
	for _, e := range []ink.Point{p, q} {
		s.Path(ink.Polyline(move(e, -2, -2), move(e, 2, 2)), line(medium, black))
	}
	turn := -math.Atan2(uy, ux) * 180 / math.Pi
	if turn > 90.01 || turn <= -89.99 {
		turn += 180
	}
	up := (turn) * math.Pi / 180
	t := haloed(centred(small()))
	t.Turn = turn
	mid := ink.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
	for _, lift := range []float64{2.2, -8.2} {
		x, y := mid.X-lift*math.Sin(up), mid.Y-lift*math.Cos(up)
		if s.try(x, y, words, t, bounds) {
			return true
		}
	}
	t.Turn = 0
	return s.label(mid.X, mid.Y, words, t, bounds)
}
