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

	stacked bool // one above the other
}

const pairGap = 14.0

// legendRoom is the height the shared legend needs.
func (d Pair) legendRoom() float64 {
	if len(d.Breaks) > 1 {
		return 26
	}
	return 0
}

// sized is a picture that says how high it is at a width, so that a sheet or
// half a page holds it without waste. The drawing itself, without words and
// legend, is at most so high.
type sized interface {
	heightAt(width, most float64) float64
}

// mostHigh is how high a drawing is at most in a picture of the usual width.
func mostHigh(p Picture) float64 {
	switch p.(type) {
	case LotPlan:
		return planMaxHeight
	case FaceMap:
		return faceMaxHeight
	}
	return eyeMaxHeight
}

// Figure gives the pair at the width of a page, one half beside the other; both
// are as wide as half of it and as high as the higher.
func (d Pair) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth, 0)
	return f
}

// heightAt is the height the whole pair fills at a width, both drawings at most
// so high; 0 stands for what is usual.
func (d Pair) heightAt(width, most float64) float64 {
	const half = 0.56 // the parts shrink, the lettering does not
	each, high, sum := (width-2*margin-pairGap)/2, 0.0, -pairGap
	if d.stacked {
		each = width - 2*margin
	}
	for _, p := range []Picture{d.Left, d.Right} {
		h := 0.0
		switch q, ok := p.(sized); {
		case !ok:
			h = half*p.Figure().Height*width/PageWidth + 40
		case most > 0:
			h = q.heightAt(each, most)
		default:
			h = q.heightAt(each, mostHigh(p))
		}
		high, sum = max(high, h), sum+h+pairGap
	}
	if d.stacked {
		high = sum
	}
	return d.above() + d.below(width) + high + d.legendRoom() + 2*margin
}

// halves are where the two pictures are drawn: side by side, or one above the
// other.
func (d Pair) halves(frame ink.Box) (first, second ink.Box) {
	first, second = frame, frame
	if d.stacked {
		mid := (frame.Y0 + frame.Y1) / 2
		first.Y1, second.Y0 = mid-pairGap/2, mid+pairGap/2
		return first, second
	}
	mid := (frame.X0 + frame.X1) / 2
	first.X1, second.X0 = mid-pairGap/2, mid+pairGap/2
	return first, second
}

// fit is the pair one above the other where that draws both larger on a page of
// that size.
func (d Pair) fit(width, height float64) Pair {
	scale := func(p Pair) float64 {
		page := &ink.Record{W: width, H: min(height, p.heightAt(width, height))}
		s, err := begin(page, p.Words)
		if err != nil {
			return 0
		}
		s.frame.Y1 -= p.legendRoom()
		a, b := p.halves(s.frame)
		return min(scaleOf(p.Left, a), scaleOf(p.Right, b))
	}
	beside, above := d, d
	beside.stacked, above.stacked = false, true
	if scale(above) > 1.05*scale(beside) {
		return above
	}
	return beside
}

// Draw draws the pair as large as the page allows.
func (d Pair) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	frame := s.frame
	frame.Y1 -= d.legendRoom()
	left, rightBox := d.halves(frame)
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
		s.legend(s.frame.X0, frame.Y1+6, s.frame.W(), d.Breaks, d.Unit)
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
	case EyeView:
		if s, err := begin(&ink.Record{W: box.W(), H: box.H()}, d.Words); err == nil {
			_, c := d.fitted(s)
			return c.scale
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
