package study

import (
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/removal"
)

// printCurve prints what each sum of money buys: the steps of a budget curve,
// with its knee and, where other people's trees stand in the way, what it
// would be if they agreed.
func (t *Target) printCurve(p func(string, ...any), budget float64) {
	steps(p, "What each sum of money buys", t.Curve, budget)
	if len(t.Agreed.Steps) > 0 && len(t.Curve.Steps) > 0 &&
		t.Agreed.Steps[len(t.Agreed.Steps)-1].Gain > t.Curve.Steps[len(t.Curve.Steps)-1].Gain+0.005*t.Open {
		steps(p, "The same if everybody agreed", t.Agreed, budget)
	}
}

// mostSteps is how many steps of a curve are printed: enough to see its bend.
const mostSteps = 12

func steps(p func(string, ...any), title string, c removal.Curve, budget float64) {
	reached := reachedBy(c, budget)
	shown, left := someSteps(c, reached)
	if len(shown) == 0 {
		return
	}
	p("%s:", title)
	for _, i := range shown {
		s, note := c.Steps[i], ""
		if i == c.Knee {
			note = "   the knee: beyond it money buys less"
		}
		if i == reached {
			note += "   the most the budget buys"
		}
		p("  %9s %+9.0f kWh   %s%s", measure.FormatMoney(s.Cost)+mark(s.CostUnknown), s.Gain, listText(s.IDs), note)
	}
	if left > 0 {
		p("  (and %d more sums between these; trees --json has them all)", left)
	}
	if !c.Exact {
		p("  (searched, not tried one by one: no step can be better by more than %s kWh)", measure.FormatSignificant(c.Gap, 2))
	}
}

// someSteps are the steps of a curve to print, at most mostSteps of those that
// buy anything, and how many are left out: the first, the knee, the step
// the budget reaches and the last, and between them one for each equal share of the whole gain.
func someSteps(c removal.Curve, reached int) (shown []int, left int) {
	var all []int
	for i, s := range c.Steps {
		if len(s.IDs) > 0 {
			all = append(all, i)
		}
	}
	if len(all) <= mostSteps {
		return all, 0
	}
	first, last := c.Steps[all[0]].Gain, c.Steps[all[len(all)-1]].Gain
	next := 0 // share reached
	for n, i := range all {
		share := int(float64(mostSteps-3) * (c.Steps[i].Gain - first) / max(last-first, 1e-9))
		if n == 0 || i == c.Knee || i == reached || n == len(all)-1 || share > next {
			shown, next = append(shown, i), share
		}
	}
	return shown, len(all) - len(shown)
}

// reachedBy is the step a budget reaches, -1 where there is none or no limit.
func reachedBy(c removal.Curve, budget float64) int {
	at := -1
	for i, s := range c.Steps {
		if len(s.IDs) > 0 && s.Cost <= budget {
			at = i
		}
	}
	return at
}
