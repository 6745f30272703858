package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// axis turns values into places along a line of the page.
type axis struct {
	lo, hi   float64 // values at the ends
	from, to float64 // points at the ends
	ticks    []float64
}

// newAxis covers the values with round ticks, with zero among them.
func newAxis(from, to float64, n int, values ...float64) axis {
	lo, hi := 0.0, 0.0
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	if lo == hi {
		hi = lo + 1
	}
	b := Breaks(lo, hi, n)
	return axis{b[0], b[len(b)-1], from, to, b}
}

func (a axis) at(v float64) float64 {
	if math.IsNaN(v) {
		return a.from
	}
	v = max(a.lo, min(a.hi, v))
	return a.from + (a.to-a.from)*(v-a.lo)/(a.hi-a.lo)
}

func (a axis) words(v float64) string { return figures(v, a.ticks[1]-a.ticks[0]) }

// across draws a level axis at y with hairs up to top; the unit is lettered
// beneath, 22 points under y.
func (a axis) across(s *sheet, y, top float64, unit string) {
	for _, v := range a.ticks {
		x := a.at(v)
		s.Path(ink.Line(x, top, x, y), line(hair, faint))
		s.Path(ink.Line(x-1.5, y+1.5, x+1.5, y-1.5), line(medium, black))
		s.try(x, y+10, a.words(v), centred(small()), ink.Box{X1: s.w, Y1: s.h})
	}
	s.Path(ink.Line(a.from, y, a.to, y), line(light, black))
	s.text((a.from+a.to)/2, y+20, fit(unit, math.Abs(a.to-a.from), small()), centred(small()))
}

// upward draws an upright axis at x with hairs to the right; the unit stands
// above its top.
func (a axis) upward(s *sheet, x, right_ float64, unit string) {
	for _, v := range a.ticks {
		y := a.at(v)
		s.Path(ink.Line(x, y, right_, y), line(hair, faint))
		s.Path(ink.Line(x-1.5, y+1.5, x+1.5, y-1.5), line(medium, black))
		s.try(x-4, y+2.5, a.words(v), right(small()), ink.Box{X1: s.w, Y1: s.h})
	}
	s.Path(ink.Line(x, a.from, x, a.to), line(light, black))
	s.text(s.frame.X0, a.to-8, fit(unit, s.frame.W(), small()), small())
}
