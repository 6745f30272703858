package render

import (
	"github.com/southyard/southyard/render/ink"
)

// BudgetCurve is the best gain each sum of money can buy.
type BudgetCurve struct {
	Words
	Steps  []BudgetStep // by rising cost
	Budget float64      // dollars to hand; 0 for none
	Unit   string       // of the gain
}

// BudgetStep is the best set at its cost.
type BudgetStep struct {
	Cost, Gain float64
	Set        string // "T1 + T2"
	Knee       bool   // beyond it money buys clearly less
}

const (
	chartHeight = 230.0
	signRoom    = 7.5 // about the signs of the knee and the best, points
)

// Figure gives the curve at the width of a page.
func (d BudgetCurve) Figure() ink.Figure { return d.figure(PageWidth, chartHeight, d) }

// plot is the box inside the axes.
func (s *sheet) plot(left, right_ float64) (ink.Box, error) {
	b := ink.Box{X0: s.frame.X0 + left, Y0: s.frame.Y0 + 22, X1: s.frame.X1 - right_, Y1: s.frame.Y1 - 26}
	if b.W() < 80 || b.H() < 40 {
		return b, errSmallPage
	}
	return b, nil
}

// Draw draws the curve as large as the page allows.
func (d BudgetCurve) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	b, err := s.plot(40, 14)
	if err != nil {
		return err
	}
	costs, gains := []float64{d.Budget}, []float64{}
	for _, st := range d.Steps {
		costs, gains = append(costs, st.Cost*1.06), append(gains, st.Gain*1.05)
	}
	ax, ay := newAxis(b.X0, b.X1, 7, costs...), newAxis(b.Y1, b.Y0, 5, gains...)
	ay.upward(s, b.X0, b.X1, d.Unit)
	ax.across(s, b.Y1, b.Y0, "cost, dollars")
	if d.Budget > 0 {
		x := ax.at(d.Budget)
		s.Path(ink.Line(x, b.Y0, x, b.Y1), dashed(medium, black, dashGone))
		t := haloed(italic(small()))
		words := "budget $" + figures(d.Budget, d.Budget)
		if !s.try(x+4, b.Y1-4, words, t, b) {
			s.label(x, b.Y1-8, words, t, b)
		}
	}
	if len(d.Steps) == 0 {
		s.text(b.X0+8, (b.Y0+b.Y1)/2, "nothing to buy", italic(body()))
		return s.end()
	}
	pts := []ink.Point{{X: ax.at(0), Y: ay.at(0)}}
	now := 0.0
	for _, st := range d.Steps {
		pts = append(pts, ink.Point{X: ax.at(st.Cost), Y: ay.at(now)}, ink.Point{X: ax.at(st.Cost), Y: ay.at(st.Gain)})
		now = st.Gain
	}
	pts = append(pts, ink.Point{X: b.X1, Y: ay.at(now)})
	s.Path(ink.Polyline(pts...), line(heavy, black))
	for i, st := range d.Steps {
		x, y, r := ax.at(st.Cost), ay.at(st.Gain), 3.5
		if st.Knee || i == d.best() {
			r = signRoom
		}
		s.taken = append(s.taken, ink.Box{X0: x - r, Y0: y - r, X1: x + r, Y1: y + r})
	}
	lines := ink.Polyline(pts...)
	if d.Budget > 0 {
		lines = append(lines, ink.Line(ax.at(d.Budget), b.Y0, ax.at(d.Budget), b.Y1)...)
	}
	best := d.best()
	for i, st := range d.Steps {
		x, y := ax.at(st.Cost), ay.at(st.Gain)
		if st.Knee { // the curve passes behind: an empty square
			s.Path(ink.Rectangle(x-6.5, y-6.5, 13, 13), edged(ink.Paper, medium, black))
		}
		if i == best {
			s.Path(ink.Circle(x, y, 4.6), edged(ink.Paper, heavy, red))
		}
		s.Path(ink.Circle(x, y, 2), area(black))
	}
	room := ink.Box{X0: b.X0 + 1, Y0: b.Y0 - 6, X1: s.frame.X1, Y1: b.Y1 - 1}
	for rank := range 3 {
		for i, st := range d.Steps {
			if d.rank(i, best) != rank {
				continue
			}
			t, more := haloed(small()), ""
			switch {
			case st.Knee && i == best:
				more = ": the knee, best within budget"
			case st.Knee:
				more = ": the knee"
			case i == best:
				more = ": best within budget"
			}
			if more != "" {
				t = bold(t)
			}
			words := fit(st.Set, 150, t) + more
			if rank == 2 && crowded(ax, ay, d.Steps, i, ink.Width(words, t.Size, t.Face)) {
				continue
			}
			gap, reach := 6.0, 1 // the rest only where they stand right at their step
			if rank < 2 {
				reach = 14
			}
			if rank == 0 {
				gap = signRoom + 2
			}
			x, y := ax.at(st.Cost), ay.at(st.Gain)
			s.tag(x, y, words, t, beside(x, y, ink.Width(words, t.Size, t.Face), gap, reach), lines, room)
		}
	}
	return s.end()
}

// crowded tells whether another step stands so near to where a step's name
// goes, above it to the left, that it could be read as that one's.
func crowded(ax, ay axis, steps []BudgetStep, at int, width float64) bool {
	const near = 9.0 // points
	x, y := ax.at(steps[at].Cost), ay.at(steps[at].Gain)
	name := ink.Box{X0: x - 6 - width, Y0: y - 11, X1: x, Y1: y - 4}
	for i, st := range steps {
		q := ink.Point{X: ax.at(st.Cost), Y: ay.at(st.Gain)}
		if i != at && q.X > name.X0-near && q.X < name.X1+near && q.Y > name.Y0-near && q.Y < name.Y1+near {
			return true
		}
	}
	return false
}

// best is the last step that the budget pays for; -1 for none.
func (d BudgetCurve) best() int {
	best := -1
	for i, st := range d.Steps {
		if st.Cost <= d.Budget {
			best = i
		}
	}
	return best
}

// rank is the order in which steps are named: the knee and the budget's best,
// the ends, and the rest where there is room.
func (d BudgetCurve) rank(i, best int) int {
	switch {
	case d.Steps[i].Knee || i == best:
		return 0
	case i == 0 || i == len(d.Steps)-1:
		return 1
	}
	return 2
}

// beside are places for words on a rising staircase: above to the left, below
// to the right, ever farther.
func beside(x, y, width, gap float64, reach int) []ink.Point {
	var out []ink.Point
	for k := range reach {
		d := 9 * float64(k)
		out = append(out, ink.Point{X: x - width - gap, Y: y - 4 - d}, ink.Point{X: x + gap, Y: y + 10 + d})
	}
	for k := 1; k < reach; k++ {
		d := 9 * float64(k)
		out = append(out, ink.Point{X: x - width - gap - d, Y: y - 4 - d}, ink.Point{X: x + gap + d, Y: y + 10 + d}, ink.Point{X: x - width/2, Y: y - 8 - d}, ink.Point{X: x + gap, Y: y - 4 - d})
	}
	return out
}

// tag letters words at the first place that is free and not crossed by lines,
// with a leader where it is not beside the point; left out where none is.
func (s *sheet) tag(x, y float64, words string, t ink.Type, places []ink.Point, lines ink.Path, bounds ink.Box) {
	for i, q := range places {
		b := ink.TextBox(q.X, q.Y, words, t)
		leader := ink.Line(x, y, max(b.X0, min(b.X1, x)), max(b.Y0, min(b.Y1, y)))
		if len(ink.ClipLines(lines, grown(b, 1))) > 0 || i > 0 && s.lettered(leader) || !s.try(q.X, q.Y, words, t, bounds) {
			continue
		}
		if i > 0 {
			s.Path(leader, line(hair, black))
		}
		return
	}
}

// lettered tells whether a line would run through words.
func (s *sheet) lettered(p ink.Path) bool {
	a := p[0].Points[0]
	for _, o := range s.taken {
		own := a.X >= o.X0 && a.X <= o.X1 && a.Y >= o.Y0 && a.Y <= o.Y1 // the sign it starts from
		if !own && len(ink.ClipLines(p, o)) > 0 {
			return true
		}
	}
	return false
}
