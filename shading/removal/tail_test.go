package removal

import (
	"math"
	"math/rand/v2"
	"testing"
)

// tailed is a field whose lightest terms are a tail, however short the ledger.
func tailed(d Decision) *field { return d.fieldCut(d.groups(d.All()), 0) }

func woodOrMenu(r *rand.Rand, round int) Decision {
	if round%2 == 1 {
		return randomMenu(r, 4, 120)
	}
	return randomDecision(r, 9, 120, 7)
}

func TestTailIsLightAndLosesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 1))
	for round := range 20 {
		d := woodOrMenu(r, round)
		f, whole := tailed(d), d.fieldCut(d.groups(d.All()), math.MaxInt)
		if f.heavy == len(f.energy) || whole.heavy != len(whole.energy) {
			t.Fatalf("%d of %d terms are heavy, without a tail %d of %d", f.heavy, len(f.energy), whole.heavy, len(whole.energy))
		}
		near(t, "open", f.open, whole.open, 1e-9*whole.open)
		near(t, "nothing done", f.nothing, whole.nothing, 1e-9*whole.open)
		var shared float64
		for _, share := range f.tail {
			shared += share
		}
		if most := tailShare * (whole.open - whole.nothing); shared <= 0 || shared > most+1e-9 {
			t.Errorf("the tail could gain %g, at most %g allowed", shared, most)
		}
		everything := make([]state, len(f.owner))
		for s := range everything {
			everything[s] = gone
		}
		near(t, "gain of everything", f.atMost(everything), whole.open-whole.nothing, 1e-8*whole.open)
	}
}

// Every set, by plain what-ifs: it gains no more than told.
func TestNoSetGainsMoreThanTheTailAllows(t *testing.T) {
	r := rand.New(rand.NewPCG(52, 1))
	for round := range 10 {
		d := woodOrMenu(r, round)
		f := tailed(d)
		s := f.newSearch(math.MaxInt64)
		c := make(choice, len(f.groups))
		var visit func(tree int)
		visit = func(tree int) {
			if tree == len(c) {
				s.settle(c)
				gain, most := d.GainOf(f.set(c)), f.atMost(s.states)
				if gain > most+1e-9 || most > gain+tailShare*f.open {
					t.Fatalf("%v gains %g, told at most %g", f.set(c), gain, most)
				}
				return
			}
			for o := 0; o <= len(f.groups[tree]); o++ {
				c[tree] = int8(o)
				visit(tree + 1)
			}
		}
		visit(0)
	}
}

func TestSearchWithATailMatchesBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(53, 1))
	for round := range 40 {
		d := woodOrMenu(r, round)
		budget := float64(r.IntN(8000))
		gain, _ := bruteBest(d, budget, d.All())
		for _, nodes := range []int{1, 5, 1e6} {
			s := tailed(d).search(cents(budget), nodes)
			near(t, "gain of the set named", d.GainOf(s.f.set(s.best)), s.gain, 1e-7)
			if s.upper < gain-1e-8 || s.gain > gain+1e-8 {
				t.Fatalf("%d branches: claims %g, at most %g; the best is %g", nodes, s.gain, s.upper, gain)
			}
			if s.exact {
				near(t, "gain", s.gain, gain, 1e-7)
			}
		}
	}
}

// Searches one after the other on one field, as a curve has them: the split the
// last one ended with is no worse a start than none.
func TestCurveWithATailKeepsItsBound(t *testing.T) {
	r := rand.New(rand.NewPCG(54, 1))
	for round := range 8 {
		d := woodOrMenu(r, round)
		f := tailed(d)
		f.explore(f.greedy())
		searched := f.curve()
		checkCurve(t, searched)
		for _, s := range d.Curve(d.All()).Steps {
			at := reached(searched, s.Cost)
			if s.Gain > at.Upper+1e-8 || at.Gain > s.Gain+1e-8 {
				t.Errorf("at $%g: claims %g, at most %g; the best is %g", s.Cost, at.Gain, at.Upper, s.Gain)
			}
		}
	}
}
