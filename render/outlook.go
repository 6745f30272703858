package render

import (
	"math"
	"sort"
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// Outlook is how values go over the years, one line a plan.
type Outlook struct {
	Words
	Unit          string
	Years         []float64 // shared by all lines, rising
	Lines         []OutlookLine
	Threshold     float64 // NaN for none
	ThresholdName string
	Top           float64 // the scale runs from 0 to here; 0: as far as the values need
}

// OutlookLine is one plan's course. Low and High may be nil.
type OutlookLine struct {
	Name      string
	Values    []float64 // one a year
	Low, High []float64
}

// styles tell lines apart without colour.
var styles = [][]float64{nil, {6, 2.5}, {1.2, 2}, {8, 2, 1.5, 2}, {3, 1.5}, {10, 4}}

// Figure gives the outlook at the width of a page.
func (d Outlook) Figure() ink.Figure { return d.figure(PageWidth, chartHeight, d) }

// Draw draws the outlook as large as the page allows.
func (d Outlook) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	names := 30.0
	if !math.IsNaN(d.Threshold) {
		names = max(names, min(130, ink.Width(d.ThresholdName, bodySize, ink.Regular)+12))
	}
	for _, l := range d.Lines {
		names = max(names, min(130, ink.Width("= "+l.Name, bodySize, ink.Regular)+12))
	}
	b, err := s.plot(40, names)
	if err != nil {
		return err
	}
	values := []float64{d.Threshold, d.Top}
	for _, l := range d.Lines {
		values = append(append(append(values, l.Values...), l.Low...), l.High...)
	}
	ay := newAxis(b.Y1, b.Y0, 5, values...)
	ax := axis{0, 1, b.X0, b.X1, []float64{0, 1}}
	if n := len(d.Years); n > 1 && d.Years[n-1] > d.Years[0] {
		ax.lo, ax.hi = d.Years[0], d.Years[n-1]
		ax.ticks = nil
		for _, v := range plainBreaks(ax.lo, ax.hi, max(1, min(8, int(ax.hi-ax.lo)))) { // whole years
			if v >= ax.lo-1e-9 && v <= ax.hi+1e-9 {
				ax.ticks = append(ax.ticks, v)
			}
		}
		if len(ax.ticks) < 2 {
			ax.ticks = []float64{ax.lo, ax.hi}
		}
	}
	ay.upward(s, b.X0, b.X1, d.Unit)
	ax.across(s, b.Y1, b.Y0, "years from now")
	for _, l := range d.Lines {
		n := min(len(l.Low), len(l.High), len(d.Years))
		if n < 2 {
			continue
		}
		band := make([]ink.Point, 0, 2*n)
		for i := range n {
			band = append(band, ink.Point{X: ax.at(d.Years[i]), Y: ay.at(l.High[i])})
		}
		for i := n - 1; i >= 0; i-- {
			band = append(band, ink.Point{X: ax.at(d.Years[i]), Y: ay.at(l.Low[i])})
		}
		s.Path(ink.Polygon(band), area(wash))
	}
	limit := ay.at(d.Threshold)
	if !math.IsNaN(d.Threshold) {
		s.limit(b.X0, b.X1, limit)
	}
	var ends []ending
	for i, l := range d.Lines {
		n := min(len(l.Values), len(d.Years))
		if n == 0 {
			continue
		}
		pts := make([]ink.Point, n)
		for k := range n {
			pts[k] = ink.Point{X: ax.at(d.Years[k]), Y: ay.at(l.Values[k])}
		}
		s.Path(ink.Polyline(pts...), dashed(heavy, black, styles[i%len(styles)]))
		ends = append(ends, ending{pts[n-1].Y, []string{l.Name}})
	}
	ends = joined(ends)
	if !math.IsNaN(d.Threshold) { // never under one name with a course: near the limit is not at it
		ends = append(ends, ending{limit, []string{d.ThresholdName}})
		sort.SliceStable(ends, func(i, j int) bool { return ends[i].y < ends[j].y })
	}
	s.endings(wrapped(ends, names-10), b)
	return s.end()
}

// limit is a level line with strokes on the side that falls short, so that it
// is no course in grey either.
func (s *sheet) limit(x0, x1, y float64) {
	strokes := ink.Line(x0, y, x1, y)
	for x := x0 + 6; x < x1; x += 8 {
		strokes = append(strokes, ink.Line(x, y, x-3, y+3)...)
	}
	s.Path(strokes, line(medium, red))
}

// ending is where courses leave the chart, and their names.
type ending struct {
	y     float64
	names []string
}

// joined puts courses that end within a line's width of each other under one
// name: "a", "= b".
func joined(ends []ending) []ending {
	const most = 4 // names at one end
	sort.SliceStable(ends, func(i, j int) bool { return ends[i].y < ends[j].y })
	var out []ending
	for _, e := range ends {
		if n := len(out); n > 0 && e.y-out[n-1].y <= heavy {
			out[n-1].names = append(out[n-1].names, "= "+e.names[0])
			continue
		}
		out = append(out, e)
	}
	for i, e := range out {
		if n := len(e.names); n > most {
			out[i].names = append(e.names[:most-1:most-1], "= "+figures(float64(n-most+1), 1)+" more")
		}
	}
	return out
}

// wrapped breaks names that are too wide for the room beside the chart, at
// most three lines a name.
func wrapped(ends []ending, width float64) []ending {
	const most = 3
	out := make([]ending, len(ends))
	for i, e := range ends {
		out[i].y = e.y
		for _, n := range e.names {
			lines := ink.Wrap(n, width, body())
			for w := width - 4; len(lines) > 1 && w > width/2; w -= 4 { // lines of like length, no word left over
				even := ink.Wrap(n, w, body())
				if len(even) > len(lines) {
					break
				}
				lines = even
			}
			if len(lines) > most {
				lines = append(lines[:most-1:most-1], fit(strings.Join(lines[most-1:], " "), width, body()))
			}
			out[i].names = append(out[i].names, lines...)
		}
	}
	return out
}

// endings letters the names at the right of the chart, apart from each other.
func (s *sheet) endings(ends []ending, b ink.Box) {
	const lead = 9.5
	height := func(e ending) float64 { return lead*float64(len(e.names)) + 1 }
	below := 0.0
	for _, e := range ends {
		below += height(e)
	}
	next := b.Y0 - 12
	for _, e := range ends {
		below -= height(e)
		top := min(max(e.y-height(e)/2, next), b.Y1+9-below-height(e))
		if top < next-1e-9 {
			break
		}
		s.Path(ink.Line(b.X1, e.y, b.X1+6, top+height(e)/2), line(hair, black))
		for i, n := range e.names {
			s.text(b.X1+8, top+lead*float64(i)+7.6, n, body())
		}
		next = top + height(e)
	}
}
