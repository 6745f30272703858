package render

import (
	"math"
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// Tornado shows how far each uncertain input moves one result, the strongest
// first.
type Tornado struct {
	Words
	Unit string
	Base float64 // the result with every input at its stated value
	Said string  // Base as other places round it, "270"; "" to round by the rows
	Rows []TornadoRow
}

// TornadoRow is the result with one input low and high.
type TornadoRow struct {
	Name          string
	Low, High     float64 // results
	LowAt, HighAt string  // the input's values, "0.5", "0.7"
}

const (
	tornadoRow  = 16.0
	tornadoHead = 37.0
)

// Figure gives the picture at the width of a page.
func (d Tornado) Figure() ink.Figure {
	return d.figure(PageWidth, tornadoHead+tornadoRow*float64(max(1, len(d.Rows)))+26+2*margin, d)
}

// Draw draws as many rows as the page has room for and says how many it left
// out.
func (d Tornado) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	const name, ends = 130.0, 44.0
	x0, x1 := s.frame.X0+name+ends, s.frame.X1-ends
	top, bottom := s.frame.Y0+tornadoHead, s.frame.Y1-26
	if x1-x0 < 60 || bottom-top < tornadoRow {
		return errSmallPage
	}
	high := max(tornadoRow, min(2*tornadoRow, (bottom-top)/float64(max(1, len(d.Rows))))) // wider on a larger sheet
	rows := d.Rows[:min(len(d.Rows), int((bottom-top+0.5)/high))]
	lo, hi := d.Base, d.Base
	for _, r := range rows {
		for _, v := range []float64{r.Low, r.High} {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	b := plainBreaks(lo, hi, 6)
	a := axis{b[0], b[len(b)-1], x0, x1, b}
	a.across(s, bottom, top, d.Unit)
	base := a.at(d.Base)
	d.key(s)
	stated := fit("as stated: about "+d.stated(lo, hi), s.frame.W(), bold(small()))
	half := ink.Width(stated, smallSize, ink.Bold) / 2
	s.text(max(s.frame.X0+half, min(s.frame.X1-half, base)), top-6, stated, bold(centred(small())))
	y := top
	for _, r := range rows {
		mid := y + high/2
		s.text(s.frame.X0, mid+2.8, fit(r.Name, name-6, body()), body())
		l, h := a.at(r.Low), a.at(r.High)
		lowBar, highBar := ink.Rectangle(min(base, l), mid-5, math.Abs(l-base), 10), ink.Rectangle(min(base, h), mid-5, math.Abs(h-base), 10)
		s.Path(lowBar, area(ink.Paper))
		s.Path(ink.Hatch(lowBar, 2.4, 45, false), line(hair, black))
		s.Path(lowBar, line(light, black))
		s.Path(highBar, edged(shade, light, black))
		left, leftWords, rightWords := min(base, l, h), r.LowAt, r.HighAt
		if h < l {
			leftWords, rightWords = r.HighAt, r.LowAt
		}
		s.text(left-4, mid+2.5, fit(leftWords, ends-6, small()), haloed(right(small())))
		s.text(max(base, l, h)+4, mid+2.5, fit(rightWords, ends-6, small()), haloed(small()))
		y += high
	}
	s.Path(ink.Line(base, top, base, bottom), line(heavy, black))
	if left := len(d.Rows) - len(rows); left > 0 {
		s.text(s.frame.X0, bottom+20, figures(float64(left), 1)+" weaker not drawn", italic(small()))
	}
	return s.end()
}

// stated is the result with its unit, to a tenth of the power of ten in which
// it is uncertain: more digits would claim what the rows deny.
func (d Tornado) stated(lo, hi float64) string {
	unit, _, _ := strings.Cut(d.Unit, ",")
	if d.Said != "" {
		return strings.TrimSpace(d.Said + " " + unit)
	}
	step := tidy(d.Base)
	if hi > lo {
		step = max(step, math.Pow(10, math.Floor(math.Log10(hi-lo))-1))
	}
	return strings.TrimSpace(figures(math.Round(d.Base/step)*step, step) + " " + unit)
}

// key names the two fillings.
func (d Tornado) key(s *sheet) {
	x, y := s.frame.X0, s.frame.Y0+9
	for i, words := range []string{"input at its low value", "input at its high value"} {
		bar := ink.Rectangle(x, y-6, 12, 7)
		if i == 0 {
			s.Path(bar, area(ink.Paper))
			s.Path(ink.Hatch(bar, 2.4, 45, false), line(hair, black))
			s.Path(bar, line(light, black))
		} else {
			s.Path(bar, edged(shade, light, black))
		}
		words = fit(words, max(0, s.frame.X1-x-16), small())
		s.text(x+16, y, words, small())
		x += 16 + ink.Width(words, smallSize, ink.Regular) + 14
	}
}

// tidy is the step to round to for three figures.
func tidy(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return 1
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
}

// Series is one row of values to be compared with others.
type Series struct {
	Name   string
	Values []float64
}

// Bars are groups of bars side by side: sun by month now, with a plan and
// with no trees; or heat as found, mended, and with a plan.
type Bars struct {
	Words
	Unit   string
	Groups []string // names beneath, one a value
	Series []Series // at most four are told apart
	Values bool     // letter each bar's value on it, where there is room
}

// Months are the names of Bars by month.
func Months() []string { return append([]string(nil), monthNames[:]...) }

// Figure gives the bars at the width of a page.
func (d Bars) Figure() ink.Figure { return d.figure(PageWidth, chartHeight, d) }

// Draw draws the bars as large as the page allows.
func (d Bars) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	b, err := s.plot(40, 4)
	if err != nil {
		return err
	}
	b.Y0 += 12
	b.Y1 += 10
	var all []float64
	for _, q := range d.Series {
		for _, v := range q.Values {
			all = append(all, v*1.04)
		}
	}
	a := newAxis(b.Y1, b.Y0, 5, all...)
	a.upward(s, b.X0, b.X1, d.Unit)
	n, m := len(d.Groups), max(1, len(d.Series))
	if n == 0 {
		return s.end()
	}
	group := b.W() / float64(n)
	bar := min(26, group*0.8/float64(m))
	for i, name := range d.Groups {
		mid := b.X0 + group*(float64(i)+0.5)
		s.text(mid, b.Y1+10, fit(name, group-3, small()), centred(small()))
		for k, q := range d.Series {
			if i >= len(q.Values) || math.IsNaN(q.Values[i]) {
				continue
			}
			x := mid + bar*(float64(k)-float64(m)/2)
			y := a.at(q.Values[i])
			barFill(s, ink.Rectangle(x+0.4, min(y, a.at(0)), bar-0.8, math.Abs(a.at(0)-y)), k)
			if d.Values {
				s.try(x+bar/2, min(y, a.at(0))-2.5, figures(q.Values[i], tidy(q.Values[i])), haloed(centred(small())), s.frame)
			}
		}
	}
	s.Path(ink.Line(b.X0, a.at(0), b.X1, a.at(0)), line(medium, black))
	x, y := b.X0, s.frame.Y0+9
	for k, q := range d.Series {
		name := fit(q.Name, max(20, (s.frame.X1-b.X0)/float64(m)-28), small())
		barFill(s, ink.Rectangle(x, y-6, 11, 7), k)
		s.text(x+15, y, name, small())
		x += 15 + ink.Width(name, smallSize, ink.Regular) + 12
	}
	return s.end()
}

// barFill tells series apart in black and white: hatched, dark, bare, grey.
func barFill(s *sheet, bar ink.Path, k int) {
	switch k % 4 {
	case 0:
		s.Path(bar, area(ink.Paper))
		s.Path(ink.Hatch(bar, 2.4, 45, false), line(light, black))
	case 1:
		s.Path(bar, area(pencil))
	case 2:
		s.Path(bar, area(ink.Paper))
	default:
		s.Path(bar, area(shade))
	}
	s.Path(bar, line(light, black))
}
