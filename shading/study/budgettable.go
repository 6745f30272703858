package study

import (
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/removal"
)

// printCurve prints what each sum of money buys: the steps of a budget curve,
// with its knee and, where other people's trees stand in the way, what it
// would be if they agreed.
func (t *Target) printCurve(p func(string, ...any)) {
	steps(p, "What each sum of money buys", t.Curve)
	if len(t.Agreed.Steps) > 0 && len(t.Curve.Steps) > 0 &&
		t.Agreed.Steps[len(t.Agreed.Steps)-1].Gain > t.Curve.Steps[len(t.Curve.Steps)-1].Gain+0.005*t.Open {
		steps(p, "The same if everybody agreed", t.Agreed)
	}
}

func steps(p func(string, ...any), title string, c removal.Curve) {
	if len(c.Steps) == 0 {
		return
	}
	p("%s:", title)
	for i, s := range c.Steps {
		if len(s.IDs) == 0 {
			continue
		}
		note := ""
		if i == c.Knee {
			note = "   the knee: beyond it money buys less"
		}
		p("  %9s %+9.0f kWh   %s%s", measure.FormatMoney(s.Cost)+mark(s.CostUnknown), s.Gain, listText(s.IDs), note)
	}
	if !c.Exact {
		p("  (searched, not tried one by one: no step can be better by more than %s kWh)", measure.FormatSignificant(c.Gap, 2))
	}
}
