package removal

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The same through the search, which Best only uses for more candidates.
func TestBranchAndBoundMatchesBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	for round := range 80 {
		d := randomDecision(r, 1+r.IntN(10), 30, 6)
		if round%2 == 1 {
			d = randomMenu(r, 1+r.IntN(5), 40)
		}
		budget := float64(r.IntN(8000))
		f := d.field(d.groups(d.All()))
		s := f.search(cents(budget), 1e6)
		gain, _ := bruteBest(d, budget, d.All())
		if !s.exact {
			t.Fatalf("search with nodes to spare is not exact")
		}
		near(t, "gain", s.gain, gain, 1e-7)
		near(t, "gain of the set named", d.GainOf(f.set(s.best)), gain, 1e-7)
	}
}

func TestCoreBoundIsNeverBelowTheBestSet(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 1))
	for round := range 60 {
		d := randomDecision(r, 9, 40, 7)
		if round%2 == 1 {
			d = randomMenu(r, 4, 40)
		}
		budget := float64(r.IntN(6000))
		f := d.field(d.groups(d.All()))
		gain, _ := bruteBest(d, budget, d.All())
		for _, nodes := range []int{1, 3, 10} { // cut short
			s := f.search(cents(budget), nodes)
			if s.upper < gain-1e-9 {
				t.Fatalf("bound %g is below the best gain %g", s.upper, gain)
			}
			if s.gain > gain+1e-9 {
				t.Fatalf("search claims %g, the best is %g", s.gain, gain)
			}
		}
	}
}

// A tightened core bound must beat the plain sum of gains after all others, or
// it would not be worth its code.
func TestCoreBoundIsTighterThanGainsAfterAllOthers(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 1))
	d := randomDecision(r, 30, 400, 8)
	f := d.field(d.groups(d.All()))
	budget := cents(9000)
	s := f.search(budget, 1)
	w := make([]float64, len(f.owner))
	for k, t := range f.groups { // screens are numbered in the order of groups
		w[f.clears[k][0][0]] = d.Game.AfterAllOthers(t[0])
	}
	plain, _ := fill(f.increments(func(int) bool { return true }, w, budget, nil), budget)
	t.Logf("best found %.1f, core bound %.1f, sum of gains after all others %.1f kWh", s.gain, s.upper, plain)
	if s.upper > plain {
		t.Errorf("core bound %g is above the plain bound %g", s.upper, plain)
	}
}

func TestGainsAddedMatchPlainWhatIfs(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 1))
	for round := range 20 {
		d := randomDecision(r, 8, 40, 6)
		if round%2 == 1 {
			d = randomMenu(r, 5, 60)
		}
		f := d.field(d.groups(d.All()))
		c := make(choice, len(f.groups))
		for t := range c {
			c[t] = int8(r.IntN(3) * r.IntN(2))
			c[t] = min(c[t], int8(len(f.groups[t])))
		}
		s := &search{f: f, states: make([]state, len(f.owner))}
		s.settle(c)
		adds := f.adds(f.heavy, s.states, s.states)
		for g := range c {
			if c[g] > 0 {
				continue
			}
			for o := range f.groups[g] {
				with := append(choice(nil), c...)
				with[g] = int8(o + 1)
				near(t, "added", adds[g][o], d.GainOf(f.set(with))-d.GainOf(f.set(c)), 1e-9)
			}
		}
	}
}

func TestEveryOrderSplitsTheGainWithinTheCore(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 20 {
		d := randomDecision(r, 8, 40, 6)
		f := d.field(d.groups(d.All()))
		rank := make([]int32, 8)
		for i, p := range r.Perm(8) {
			rank[i] = int32(p)
		}
		w := make([]float64, 8)
		f.shares(make([]state, 8), rank, w)
		fair := d.Game.FairShare()
		subsets(8, func(mask []bool) {
			var order, share float64
			for i, yes := range mask {
				if yes {
					order += w[i]
					share += fair[i]
				}
			}
			if gain := d.Game.Gain(mask); gain > order+1e-9 || gain > share+1e-9 {
				t.Fatalf("set %v gains %g, above its shares: by order %g, fair %g", mask, gain, order, share)
			}
		})
	}
}

func TestSearchStopsAfterABoundedNumberOfBranches(t *testing.T) {
	for _, c := range []struct {
		name        string
		terms       int
		best, curve int // most branches
	}{
		{"short ledger", 200, bestNodes, budgets * curveNodes},
		{"long ledger", 20000, bestWork / 20000, fewestBudgets * fewest},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(41, 1))
			d := randomDecision(r, 40, c.terms, 12)
			f := d.field(d.groups(d.All()))
			s := f.search(cents(9000), f.affordable(bestNodes, bestWork), f.greedy()...)
			// The last branch is split whole, into one more than asked for.
			if f.looked < 1 || f.looked > c.best+1 {
				t.Errorf("best set: %d branches, at most %d allowed", f.looked, c.best+1)
			}
			if s.upper < s.gain || s.exact != (s.upper <= s.gain+resolution*f.open) {
				t.Errorf("gain %g, upper %g, exact %v", s.gain, s.upper, s.exact)
			}
			f = d.field(d.groups(d.All()))
			f.explore(f.greedy())
			curve := f.curve()
			if most := c.curve + budgets; f.looked < 1 || f.looked > most {
				t.Errorf("curve: %d branches, at most %d allowed", f.looked, most)
			}
			checkCurve(t, curve)
			if curve.Exact != (curve.Gap == 0) {
				t.Errorf("exact %v with a gap of %g", curve.Exact, curve.Gap)
			}
			t.Logf("gap %.2f %% of the whole", 100*curve.Gap/curve.Steps[len(curve.Steps)-1].Gain)
		})
	}
}

func TestIncrementsOfATreeGetLessSteepAndAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 1))
	for range 200 {
		d := randomMenu(r, 3, 60)
		f := d.field(d.groups(d.All()))
		w := make([]float64, len(f.owner))
		for i := range w {
			w[i] = r.Float64()
		}
		last := map[int]increment{}
		share := map[int]float64{}
		for _, step := range f.increments(func(int) bool { return true }, w, math.MaxInt64, nil) {
			if before, ok := last[step.group]; ok && step.steeper(before) {
				t.Fatalf("tree %d: %+v after %+v", step.group, step, before)
			}
			last[step.group] = step
			share[step.group] += step.share
		}
		for g, step := range last {
			var want float64
			for _, s := range f.clears[g][step.option-1] {
				want += w[s]
			}
			near(t, "shares of the steps", share[g], want, 1e-9)
			// No option lies above the hull's end.
			for _, screens := range f.clears[g] {
				var other float64
				for _, s := range screens {
					other += w[s]
				}
				if other > want+1e-9 {
					t.Errorf("option with share %g beyond the hull's last %g", other, want)
				}
			}
		}
	}
}

func TestMoneySpentAgainKeepsTheBudget(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 1))
	for range 20 {
		d := randomMenu(r, 6, 60)
		f := d.field(d.groups(d.All()))
		s := &search{f: f, budget: cents(float64(500 + r.IntN(4000))), states: make([]state, len(f.owner))}
		if c := s.spend(make(choice, len(f.groups)), []int{0}); s.spent(c) > s.budget {
			t.Errorf("spends %d of %d cents", s.spent(c), s.budget)
		}
	}
}
