package render

import (
	"math"
	"strconv"

	"github.com/southyard/southyard/render/ink"
)

// AccessTable is the solar access of one surface by month and hour: the share
// of the sun's energy on it that reaches it.
type AccessTable struct {
	Words
	Share [12][24]float64 // 0..1, January first, by the hour's beginning in local standard time; NaN where next to no sun can fall
	Clock string          // how hours are named, "local standard time (UTC−5)"
}

var monthNames = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

const (
	accessRow  = 14.0
	accessFoot = 34.0
	accessHead = 24.0
)

// Figure gives the table at the width of a page.
func (d AccessTable) Figure() ink.Figure {
	return d.figure(PageWidth, accessHead+12*accessRow+accessFoot+2*margin, d)
}

// hours with sun in any month; all where there is none.
func (d AccessTable) hours() (from, to int) {
	from, to = 24, -1
	for _, row := range d.Share {
		for h, v := range row {
			if !math.IsNaN(v) {
				from, to = min(from, h), max(to, h)
			}
		}
	}
	if from > to {
		return 6, 17
	}
	return from, to
}

// Draw draws the table as large as the page allows. Hours in which no month
// has sun are left out.
func (d AccessTable) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	from, to := d.hours()
	const name = 26.0
	x := s.frame.X0 + name
	cell := (s.frame.X1 - x) / float64(to-from+1)
	y := s.frame.Y0 + accessHead
	row := (s.frame.Y1 - accessFoot - y) / 12
	if cell < 12 || row < 9 {
		return errSmallPage
	}
	clock := d.Clock
	if clock == "" {
		clock = "local standard time"
	}
	s.text(x, y-15, fit("hour beginning, "+clock, s.frame.X1-x, small()), small())
	for h := from; h <= to; h++ {
		s.text(x+cell*(float64(h-from)+0.5), y-4, strconv.Itoa(h), centred(small()))
	}
	breaks := []float64{0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}
	for m, shares := range d.Share {
		top := y + row*float64(m)
		s.text(s.frame.X0+1, top+row/2+2.8, monthNames[m], body())
		for h := from; h <= to; h++ {
			v := shares[h]
			left := x + cell*float64(h-from)
			if math.IsNaN(v) {
				continue
			}
			percent := int(math.Round(100 * max(0, min(1, v))))
			c := classColour(min(9, percent/10), breaks) // by the figure lettered: a 90 never wears the colour of 89
			s.Path(ink.Rectangle(left, top, cell, row), edged(c, hair, ink.Paper))
			s.text(left+cell/2, top+row/2+2.5, strconv.Itoa(percent), in(centred(small()), onColour(c)))
		}
	}
	s.Path(ink.Line(x, y, s.frame.X1, y), line(light, black))
	s.Path(ink.Line(x, y+12*row, s.frame.X1, y+12*row), line(light, black))
	s.legend(x-6, y+12*row+10, s.frame.X1-x, breaks, "% of the sun's energy reaches it; blank: next to no sun")
	return s.end()
}
