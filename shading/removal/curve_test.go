package removal

import (
	"math/rand/v2"
	"testing"
)

func TestBudgetCurveIsTheBestSetAtEveryBudgetAndNeverFalls(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	for round := range 30 {
		d := randomDecision(r, 1+r.IntN(9), 30, 6)
		switch round % 3 {
		case 1:
			d = randomMenu(r, 1+r.IntN(4), 40)
		case 2: // equal costs, some free
			for i := range d.Candidates {
				d.Candidates[i].Cost = float64(500 * (i % 3))
			}
		}
		c := d.Curve(d.All())
		checkCurve(t, c)
		if !c.Exact || c.Gap != 0 {
			t.Errorf("small curve is not exact")
		}
		for range 10 {
			budget := float64(r.IntN(9000))
			gain, _ := bruteBest(d, budget, d.All())
			near(t, "curve at budget", reached(c, budget).Gain, gain, 1e-7)
		}
	}
}

// reached is the step a budget reaches.
func reached(c Curve, budget float64) Step {
	at := Step{IDs: []string{}}
	for _, s := range c.Steps {
		if cents(s.Cost) <= budgetCents(budget) {
			at = s
		}
	}
	return at
}

func checkCurve(t *testing.T, c Curve) {
	t.Helper()
	if len(c.Steps) == 0 {
		t.Fatal("curve has no step")
	}
	for i, s := range c.Steps {
		if s.Upper < s.Gain || i > 0 && (s.Gain <= c.Steps[i-1].Gain || s.Cost <= c.Steps[i-1].Cost) {
			t.Errorf("step %d: cost %g, gain %g, upper %g after cost %g, gain %g", i, s.Cost, s.Gain, s.Upper, c.Steps[max(i, 1)-1].Cost, c.Steps[max(i, 1)-1].Gain)
		}
	}
}

func TestSearchedCurveKeepsItsBoundAndNeverFalls(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 1))
	for round := range 12 {
		d := randomDecision(r, 9, 40, 6)
		if round%2 == 1 {
			d = randomMenu(r, 4, 40)
		}
		f := d.field(d.groups(d.All()))
		f.explore(f.greedy())
		searched := f.curve()
		checkCurve(t, searched)
		exact := d.Curve(d.All())
		for _, s := range exact.Steps {
			// The step whose budgets include this exact step's cost.
			at := reached(searched, s.Cost)
			if s.Gain > at.Upper+1e-8 {
				t.Errorf("at $%g the best gains %g, above the proven %g", s.Cost, s.Gain, at.Upper)
			}
			if at.Gain > s.Gain+1e-8 {
				t.Errorf("at $%g the search claims %g, the best is %g", s.Cost, at.Gain, s.Gain)
			}
		}
	}
}

func TestKneeIsTheBendOfTheCurve(t *testing.T) {
	at := func(costGain ...float64) []Step {
		var steps []Step
		for i := 0; i < len(costGain); i += 2 {
			steps = append(steps, Step{Cost: costGain[i], Gain: costGain[i+1]})
		}
		return steps
	}
	for name, c := range map[string]struct {
		steps []Step
		want  int
	}{
		"bend":          {at(0, 0, 1000, 80, 2000, 90, 3000, 100), 1},
		"straight":      {at(0, 0, 1000, 50, 2000, 100), -1},
		"hollow":        {at(0, 0, 1000, 10, 2000, 100), -1},
		"two steps":     {at(0, 0, 1000, 10), -1},
		"starts behind": {at(0, 0, 1000, 10, 2000, 90, 4000, 100), 2},
	} {
		if got := knee(c.steps); got != c.want {
			t.Errorf("%s: knee at %d, want %d", name, got, c.want)
		}
	}
}
