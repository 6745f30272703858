package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// Pair is before beside after. Give both pictures the same class limits
// (Breaks), so that one legend serves both.
type Pair struct {
	Words
	Left, Right Picture
	Breaks      []float64 // shared class limits; nil for no legend
	Unit        string
}

const pairGap = 14.0

// legendRoom is the height the shared legend needs.
func (d Pair) legendRoom() float64 {
	if len(d.Breaks) > 1 {
		return 26
	}
	return 0
}

// sized is a picture that says how high it is at a width, so that half a page
// holds it without waste.
type sized interface{ heightAt(width float64) float64 }

// Figure gives the pair at the width of a page; both halves are as wide as
// half of it and as high as the higher.
func (d Pair) Figure() ink.Figure {
	const half = 0.56 // the parts shrink, the lettering does not
	width := (PageWidth - 2*margin - pairGap) / 2
	high := 0.0
	for _, p := range []Picture{d.Left, d.Right} {
		if q, ok := p.(sized); ok {
			high = max(high, q.heightAt(width))
		} else {
			high = max(high, half*p.Figure().Height+40)
		}
	}
	return d.figure(PageWidth, high+d.legendRoom()+2*margin, d)
}

// Draw draws the pair as large as the page allows.
func (d Pair) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	bottom := s.frame.Y1 - d.legendRoom()
	mid := (s.frame.X0 + s.frame.X1) / 2
	left := ink.Box{X0: s.frame.X0, Y0: s.frame.Y0, X1: mid - pairGap/2, Y1: bottom}
	rightBox := ink.Box{X0: mid + pairGap/2, Y0: s.frame.Y0, X1: s.frame.X1, Y1: bottom}
	first, second := sameLines(d.Left, d.Right)
	if err := first.Draw(ink.Inset(p, left)); err != nil {
		return err
	}
	if a, b := scaleOf(d.Left, left), scaleOf(d.Right, rightBox); a > 0 && math.Abs(a-b) < 0.002*a {
		second = withoutScale(second)
	}
	if err := second.Draw(ink.Inset(p, rightBox)); err != nil {
		return err
	}
	if len(d.Breaks) > 1 {
		s.legend(s.frame.X0, bottom+6, s.frame.W(), d.Breaks, d.Unit)
	}
	return s.end()
}

// sameLines gives both faces dotted lines halfway where either has them, so
// that a line in one is a line in the other.
func sameLines(a, b Picture) (Picture, Picture) {
	l, ok := a.(FaceMap)
	r, also := b.(FaceMap)
	if !ok || !also || len(l.Breaks) < 2 || len(r.Breaks) < 2 {
		return a, b
	}
	l.halves = halfway(l.Sun, l.Breaks, false) != nil || halfway(r.Sun, r.Breaks, false) != nil
	r.halves = l.halves
	return l, r
}

// scaleOf is the scale a picture will have in a box, points a metre; 0 for
// one that has none.
func scaleOf(p Picture, box ink.Box) float64 {
	switch d := p.(type) {
	case LotPlan:
		if s, err := begin(&ink.Record{W: box.W(), H: box.H()}, d.Words); err == nil {
			return viewOf(d.bound(), d.box(s)).scale
		}
	case FaceMap:
		if s, err := begin(&ink.Record{W: box.W(), H: box.H()}, d.Words); err == nil {
			return viewOf(d.bound(), d.box(s)).scale
		}
	}
	return 0
}

// withoutScale is the picture without its scale bar, for the second of a pair
// at one scale.
func withoutScale(p Picture) Picture {
	switch d := p.(type) {
	case LotPlan:
		d.noScale = true
		return d
	case FaceMap:
		d.noScale = true
		return d
	}
	return p
}
