package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// Removals are the trees in the order of what taking them out gives.
type Removals struct {
	Words
	Unit     string       // of the gains, "kWh in the heating season"
	Rows     []RemovalRow // the best first
	Blockers []RemovalRow // not candidates; only Fair is shown
}

// RemovalRow is one tree. Gains are in the picture's unit.
type RemovalRow struct {
	ID    string
	Name  string  // species or owner
	Alone float64 // taken out alone
	Fair  float64 // fair share
	Last  float64 // after all others
	Low   float64 // 10 % of trials give less than this fair share
	High  float64 // 10 % give more; Low = High for no range
	Cost  string  // "$1,900", with "assumed" where it is
	Note  string  // "$4.10 a kWh"
}

const (
	removalRow  = 21.0
	blockerRow  = 14.0
	blockerHead = 18.0
	removalHead = 20.0
	removalFoot = 26.0
)

// Figure gives the picture at the width of a page, as high as it has rows.
func (d Removals) Figure() ink.Figure {
	return d.figure(PageWidth, removalHead+d.high()+removalFoot+2*margin, d)
}

// high is what the rows need, points.
func (d Removals) high() float64 {
	n := float64(max(1, len(d.Rows))) * removalRow
	if len(d.Blockers) > 0 {
		n += blockerHead + blockerRow*float64(len(d.Blockers))
	}
	return n
}

// Draw draws as many rows as the page has room for and says how many it left
// out.
func (d Removals) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	names, costs := d.columns(s.frame.W())
	x0, x1 := s.frame.X0+names, s.frame.X1-costs
	top, bottom := s.frame.Y0+removalHead, s.frame.Y1-removalFoot
	if s.frame.W() < 248 || x1-x0 < 60 || bottom-top < removalRow {
		return errSmallPage
	}
	k := max(1, min(2, (bottom-top)/d.high())) // rows stand wider on a larger sheet
	tall, low := k*removalRow, k*blockerRow
	rows, blockers := d.fit(bottom-top, tall, low)
	var all []float64 // what is drawn, no more: a bar that is left out stretches no axis
	for _, r := range rows {
		all = append(all, r.Alone, r.Fair, r.Last, r.Low, r.High)
	}
	for _, r := range blockers {
		all = append(all, r.Fair)
	}
	a := newAxis(x0, x1, 6, all...)
	d.key(s, s.frame.X0, s.frame.Y0+9)
	a.across(s, bottom, top, d.Unit)
	y := top
	for _, r := range rows {
		d.row(s, a, r, y+tall/2, names, costs)
		y += tall
	}
	if len(d.Rows) == 0 {
		s.text(x0+4, y+13, "no tree may be taken out", haloed(italic(body())))
		y += tall
	}
	if len(blockers) > 0 {
		s.Path(ink.Line(s.frame.X0, y+3, s.frame.X1, y+3), line(hair, black))
		s.text(s.frame.X0, y+13, "Stand in the way, but are not ours to take out or are to be kept", italic(small()))
		y += blockerHead
		for _, r := range blockers {
			mid := y + low/2
			d.names(s, r, mid+3, names)
			bar := ink.Rectangle(a.at(0), mid-4, a.at(r.Fair)-a.at(0), 8)
			s.Path(bar, area(ink.Paper))
			s.Path(ink.Hatch(bar, 2.5, 135, false), line(hair, black))
			s.Path(bar, line(light, black))
			s.amount(a, r.Fair, a.at(r.Fair)+4, a.at(r.Fair), mid+2.5)
			s.text(s.frame.X1-costs+6, mid+3, fit(r.Note, costs-6, small()), small())
			y += low
		}
	}
	if left := len(d.Rows) - len(rows) + len(d.Blockers) - len(blockers); left > 0 {
		s.text(s.frame.X0, bottom+20, figures(float64(left), 1)+" more in the table", italic(small()))
	}
	return s.end()
}

// fit is what a height has room for, in rows of two heights.
func (d Removals) fit(height, tall, low float64) (rows, blockers []RemovalRow) {
	const slack = 0.5
	n := min(len(d.Rows), int((height+slack)/tall))
	left := height - tall*float64(max(n, 1)) - blockerHead
	m := max(0, min(len(d.Blockers), int((left+slack)/low)))
	if n < len(d.Rows) {
		m = 0
	}
	return d.Rows[:n], d.Blockers[:m]
}

// columns are the widths of names and of costs: what their words need, as
// long as the bars keep a good part of the width.
func (d Removals) columns(width float64) (names, costs float64) {
	names, costs = 60, 40
	for _, r := range append(append([]RemovalRow{}, d.Rows...), d.Blockers...) {
		names = max(names, min(idRoom(r), ink.Width(r.ID, bodySize, ink.Bold))+ink.Width(r.Name, smallSize, ink.Regular)+12)
		costs = max(costs, ink.Width(r.Cost, smallSize, ink.Bold)+7, ink.Width(r.Note, smallSize, ink.Regular)+7)
	}
	words := width - max(70, 0.38*width) // what may be taken from the bars
	if names+costs > words {
		names = max(min(names, words-costs), min(names, words*0.55))
		costs = min(costs, words-names)
	}
	return names, costs
}

// idRoom is the width that an id may take: a building's whole name has a row's
// words to itself more often than a tree's.
func idRoom(r RemovalRow) float64 { return min(80, max(34, ink.Width(r.ID, bodySize, ink.Bold))) }

func (d Removals) names(s *sheet, r RemovalRow, y, names float64) {
	name := fit(r.ID, max(34, min(idRoom(r), names-ink.Width(r.Name, smallSize, ink.Regular)-11)), bold(body()))
	s.text(s.frame.X0, y, name, bold(body()))
	w := ink.Width(name, bodySize, ink.Bold) + 5
	s.text(s.frame.X0+w, y, fit(r.Name, names-w-6, small()), small())
}

func (d Removals) row(s *sheet, a axis, r RemovalRow, mid, names, costs float64) {
	d.names(s, r, mid+3, names)
	zero := a.at(0)
	s.Path(ink.Rectangle(zero, mid-5, a.at(r.Fair)-zero, 10), edged(shade, light, black))
	if r.High > r.Low {
		l, h := a.at(r.Low), a.at(r.High)
		s.Path(append(ink.Line(l, mid, h, mid), append(ink.Line(l, mid-2.5, l, mid+2.5), ink.Line(h, mid-2.5, h, mid+2.5)...)...), line(medium, black))
	}
	alone(s, a.at(r.Alone), mid)
	last(s, a.at(r.Last), mid)
	end := max(a.at(r.Fair), a.at(r.Alone)+ringRadius, a.at(r.Last)+3)
	if r.High > r.Low {
		end = max(end, a.at(r.High))
	}
	start := min(a.at(r.Fair), a.at(r.Alone)-ringRadius, a.at(r.Last)-3)
	if r.High > r.Low {
		start = min(start, a.at(r.Low))
	}
	s.amount(a, r.Fair, end+4, start, mid+2.5)
	x := s.frame.X1 - costs + 6
	if r.Note == "" {
		s.text(x, mid+3, fit(r.Cost, costs-6, bold(small())), bold(small()))
		return
	}
	s.text(x, mid-1.5, fit(r.Cost, costs-6, bold(small())), bold(small()))
	s.text(x, mid+7.5, fit(r.Note, costs-6, small()), small())
}

// amount letters a bar's value, to three figures: past its signs, which end
// at x, or where the axis has no room there, in the bar before they start.
func (s *sheet) amount(a axis, v, x, start, y float64) {
	step := max(tidy(v), 1)
	words := figures(math.Round(v/step)*step, step)
	t := haloed(bold(small()))
	room := ink.Box{X0: a.from, Y0: s.frame.Y0, X1: a.to + 2, Y1: s.frame.Y1}
	if !s.try(x, y, words, t, room) && a.at(0)+6+ink.Width(words, t.Size, t.Face) < start {
		s.try(a.at(0)+3, y, words, t, room)
	}
}

const ringRadius = 3.4 // holds a diamond, so that both show where they stand in one place

func alone(s *sheet, x, y float64) {
	s.Path(ink.Circle(x, y, ringRadius), edged(ink.Paper, medium, black))
}

func last(s *sheet, x, y float64) {
	s.Path(ink.Polygon([]ink.Point{{X: x, Y: y - 2.4}, {X: x + 2.3, Y: y}, {X: x, Y: y + 2.4}, {X: x - 2.3, Y: y}}), area(black))
}

// key names the signs once, above the rows.
func (d Removals) key(s *sheet, x, y float64) {
	put := func(words string, draw func(x float64)) {
		draw(x + 7)
		s.text(x+17, y, words, small())
		x += 17 + ink.Width(words, smallSize, ink.Regular) + 12
	}
	put("fair share (the figure)", func(x float64) { s.Path(ink.Rectangle(x-6, y-6, 12, 7), edged(shade, light, black)) })
	put("its range, 8 trials in 10", func(x float64) {
		m := y - 2.5
		s.Path(append(ink.Line(x-6, m, x+6, m), append(ink.Line(x-6, m-2.5, x-6, m+2.5), ink.Line(x+6, m-2.5, x+6, m+2.5)...)...), line(medium, black))
	})
	put("taken out alone", func(x float64) { alone(s, x, y-2.5) })
	put("after all others", func(x float64) { last(s, x, y-2.5) })
}
