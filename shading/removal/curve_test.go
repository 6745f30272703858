package removal

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// randomMenu is a decision with up to three options a tree. Every tree has the
// four kinds of screen: freed by removal only, by raising too, by reducing too,
// by any of them.
func randomMenu(r *rand.Rand, trees, terms int) Decision {
	d := Decision{Game: Game{Trees: 4 * trees, Clears: [][]int{}}}
	for t := range trees {
		name := fmt.Sprintf("T%02d", t+1)
		base := 4 * t
		cost := 100 * float64(4+r.IntN(20))
		add := func(kind string, cost float64, clears ...int) {
			d.Game.Clears = append(d.Game.Clears, clears)
			d.Candidates = append(d.Candidates, Candidate{ID: name + " " + kind, Tree: name, Kind: kind, Cost: cost, Agreed: true})
		}
		add("remove", cost, base, base+1, base+2, base+3)
		if r.IntN(4) > 0 {
			add("raise", math.Round(cost*(0.2+0.5*r.Float64())), base+1, base+3)
		}
		if r.IntN(4) > 0 {
			add("reduce", math.Round(cost*(0.2+0.9*r.Float64())), base+2, base+3)
		}
	}
	for range terms {
		t := Term{Energy: 10 * r.Float64()}
		for tree := range trees {
			if r.Float64() < 3/float64(trees) {
				t.Trees = append(t.Trees, 4*tree+r.IntN(4))
				t.Tau = append(t.Tau, 0.9*r.Float64())
			}
		}
		d.Game.Terms = append(d.Game.Terms, t)
	}
	return d
}

// bruteBest tries every choice of at most one candidate a tree by Reach alone.
func bruteBest(d Decision, budget float64, allowed []bool) (gain, cost float64) {
	trees := map[string][]int{}
	var names []string
	for i, c := range d.Candidates {
		if allowed[i] {
			if trees[c.tree()] == nil {
				names = append(names, c.tree())
			}
			trees[c.tree()] = append(trees[c.tree()], i)
		}
	}
	chosen := make([]bool, len(d.Candidates))
	base := d.Game.Reach(nil)
	var visit func(k int, spent float64)
	visit = func(k int, spent float64) {
		if spent > budget {
			return
		}
		if k == len(names) {
			g := d.Game.Reach(chosen) - base
			if g > gain+1e-9 || g > gain-1e-9 && spent < cost {
				gain, cost = g, spent
			}
			return
		}
		visit(k+1, spent)
		for _, i := range trees[names[k]] {
			chosen[i] = true
			visit(k+1, spent+d.Candidates[i].Cost)
			chosen[i] = false
		}
	}
	visit(0, 0)
	return gain, cost
}

func TestExactBestSetMatchesBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for round := range 60 {
		d := randomDecision(r, 1+r.IntN(10), 30, 6)
		if round%2 == 1 {
			d = randomMenu(r, 1+r.IntN(5), 40)
		}
		if err := d.Check(); err != nil {
			t.Fatal(err)
		}
		allowed := d.All()
		for i := range allowed {
			allowed[i] = r.IntN(6) > 0
		}
		for range 5 {
			budget := float64(r.IntN(8000))
			got := d.Best(budget, allowed)
			gain, cost := bruteBest(d, budget, allowed)
			near(t, "gain", got.Gain, gain, 1e-8)
			near(t, "cost", got.Cost, cost, 1e-8)
			if !got.Exact || got.Cost > budget {
				t.Errorf("budget %g: cost %g, exact %v", budget, got.Cost, got.Exact)
			}
		}
	}
}

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
		s := f.search(cents(budget), 1e6, nil)
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
			s := f.search(cents(budget), nodes, nil)
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
	s := f.search(budget, 1, nil)
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
		adds := f.adds(s.states, s.states)
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

func TestStandingsAreWhatTheGameReaches(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 1))
	for round := range 30 {
		d := randomDecision(r, 8, 40, 6)
		if round%2 == 1 {
			d = randomMenu(r, 5, 60)
		}
		allowed, removals := make([]bool, len(d.Candidates)), d.Removals()
		for i := range allowed {
			allowed[i] = r.IntN(3) > 0
		}
		for _, s := range d.Rank(allowed) {
			var i int
			others := make([]bool, len(d.Candidates))
			for j, c := range d.Candidates {
				if c.ID == s.ID {
					i = j
				}
				others[j] = allowed[j] && removals[j] && c.tree() != s.tree()
			}
			near(t, s.ID+" alone", s.Alone, d.Game.Alone(i), 1e-9)
			before := d.Game.Reach(others)
			others[i] = true
			near(t, s.ID+" after all others", s.AfterAllOthers, d.Game.Reach(others)-before, 1e-9)
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
		searched := d.field(d.groups(d.All())).curve()
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

func TestManyCandidatesStateTheirGap(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	d := randomDecision(r, 40, 600, 5)
	b := d.Best(8000, d.All())
	if b.Cost > 8000 || b.Upper < b.Gain || b.Gain <= 0 {
		t.Errorf("cost %g, gain %g, upper %g", b.Cost, b.Gain, b.Upper)
	}
	gap := (b.Upper - b.Gain) / b.Gain
	t.Logf("40 candidates, $8,000: %.2f kWh, proven bound %.2f, gap %.3f %%", b.Gain, b.Upper, 100*gap)
	if gap > 0.02 {
		t.Errorf("gap %.1f %% is more than 2 %%", 100*gap)
	}
}

func TestBestSetMatchesPublishedKnapsacks(t *testing.T) {
	rows := read(t, "knapsack.csv")
	for _, name := range []string{"P01", "P08"} {
		d := Decision{}
		var want []string
		var capacity, optimum float64
		for _, row := range rows {
			if row["problem"] != name {
				continue
			}
			i := d.Game.Trees
			d.Game.Trees++
			// No tree shades another: one opaque tree a ray.
			d.Game.Terms = append(d.Game.Terms, Term{row.Number("profit"), []int{i}, []float64{0}})
			id := fmt.Sprintf("%02d", i)
			d.Candidates = append(d.Candidates, Candidate{ID: id, Cost: row.Number("weight"), Agreed: true})
			if row["taken"] == "1" {
				want = append(want, id)
			}
			capacity, optimum = row.Number("capacity"), row.Number("optimum")
		}
		b := d.Best(capacity, d.All())
		near(t, name, b.Gain, optimum, 1e-6)
		if !b.Exact || !slices.Equal(b.IDs, want) {
			t.Errorf("%s: takes %v (exact %v), published %v", name, b.IDs, b.Exact, want)
		}
	}
}

func TestLongRaysAreExactToo(t *testing.T) {
	// One ray through 20 trees and a few more: over the 16 of an everyday term.
	r := rand.New(rand.NewPCG(15, 1))
	d := randomDecision(r, 20, 20, 4)
	long := Term{Energy: 500}
	for i := range 20 {
		long.Trees, long.Tau = append(long.Trees, i), append(long.Tau, 0.5+0.4*r.Float64())
	}
	d.Game.Terms = append(d.Game.Terms, long)
	sp := newSpace(d.groups(d.All()))
	reach := d.Game.table(sp)
	for range 200 {
		at := r.IntN(sp.size)
		near(t, fmt.Sprint(at), reach[at], d.Game.Reach(d.mask(sp.set(at))), 1e-9)
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
			s := f.search(cents(9000), f.affordable(bestNodes, bestWork), nil, f.greedy()...)
			// The last branch is split whole, into one more than asked for.
			if f.looked < 1 || f.looked > c.best+1 {
				t.Errorf("best set: %d branches, at most %d allowed", f.looked, c.best+1)
			}
			if s.upper < s.gain || s.exact != (s.upper <= s.gain+resolution*f.open) {
				t.Errorf("gain %g, upper %g, exact %v", s.gain, s.upper, s.exact)
			}
			f = d.field(d.groups(d.All()))
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

func TestTooMuchToTabulateIsSearched(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 1))
	d := randomDecision(r, 22, 0, 0)
	for range 80 { // 80 × 2²² additions are over the limit
		long := Term{Energy: 10}
		for i := range 22 {
			long.Trees, long.Tau = append(long.Trees, i), append(long.Tau, 0.8)
		}
		d.Game.Terms = append(d.Game.Terms, long)
	}
	if d.Game.table(newSpace(d.groups(d.All()))) != nil {
		t.Fatal("tabulated")
	}
	b := d.Best(5000, d.All())
	if b.Cost > 5000 || b.Gain <= 0 || b.Upper < b.Gain {
		t.Errorf("cost %g gain %g upper %g", b.Cost, b.Gain, b.Upper)
	}
}

func TestBudgetsAtTheEdges(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	d := randomDecision(r, 6, 30, 4)
	for _, budget := range []float64{0, -5, math.NaN()} {
		if b := d.Best(budget, d.All()); len(b.Set) != 0 || b.Gain != 0 {
			t.Errorf("budget %v buys %v", budget, b.IDs)
		}
	}
	whole := d.Game.Open() - d.Game.Reach(nil)
	near(t, "no limit", d.Best(math.Inf(1), d.All()).Gain, whole, 1e-9*whole)
	if b := d.Best(1e6, nil); len(b.Set) != 0 {
		t.Errorf("nothing allowed, yet %v", b.IDs)
	}
	none := Decision{}
	if c := none.Curve(nil); len(c.Steps) != 1 || c.Knee != -1 {
		t.Errorf("no candidates: %+v", c)
	}
}

func TestATreeThatGainsNothingIsNeverFelled(t *testing.T) {
	d := Decision{
		Game:       Game{Trees: 3, Terms: []Term{{10, []int{0}, []float64{0.5}}}},
		Candidates: []Candidate{{ID: "T1", Cost: 100}, {ID: "T2"}, {ID: "T3", Cost: 50}},
	}
	if b := d.Best(math.Inf(1), d.All()); !slices.Equal(b.IDs, []string{"T1"}) {
		t.Errorf("fells %v", b.IDs)
	}
	f := d.field(d.groups(d.All()))
	if s := f.search(cents(1e6), 1000, nil); len(f.set(s.best)) != 1 {
		t.Errorf("the search fells %v", f.set(s.best))
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

// shuffled is the same decision with the trees, the terms and the candidates in
// another order.
func shuffled(r *rand.Rand, d Decision) Decision {
	screen := r.Perm(d.Game.Trees)
	g := Game{Trees: d.Game.Trees, Fixed: d.Game.Fixed}
	for _, k := range r.Perm(len(d.Game.Terms)) {
		t := d.Game.Terms[k]
		var moved Term
		moved.Energy = t.Energy
		for s := range d.Game.Trees {
			for j, old := range t.Trees {
				if screen[old] == s {
					moved.Trees, moved.Tau = append(moved.Trees, s), append(moved.Tau, t.Tau[j])
				}
			}
		}
		g.Terms = append(g.Terms, moved)
	}
	out := Decision{Game: g, Candidates: make([]Candidate, len(d.Candidates))}
	order := r.Perm(len(d.Candidates))
	if d.Game.Clears == nil {
		order = screen
	} else {
		out.Game.Clears = make([][]int, len(d.Candidates))
	}
	for i, to := range order {
		out.Candidates[to] = d.Candidates[i]
		if d.Game.Clears != nil {
			for _, s := range d.Game.Clears[i] {
				out.Game.Clears[to] = append(out.Game.Clears[to], screen[s])
			}
		}
	}
	return out
}

func TestOrderOfTreesIsIrrelevant(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 1))
	for round := range 20 {
		d := randomDecision(r, 8, 40, 5)
		if round%2 == 1 {
			d = randomMenu(r, 4, 40)
		}
		e := shuffled(r, d)
		if err := e.Check(); err != nil {
			t.Fatal(err)
		}
		a, b := d.Curve(d.All()), e.Curve(e.All())
		if len(a.Steps) != len(b.Steps) || a.Knee != b.Knee {
			t.Fatalf("curves of %d and %d steps, knees %d and %d", len(a.Steps), len(b.Steps), a.Knee, b.Knee)
		}
		for i := range a.Steps {
			if !slices.Equal(a.Steps[i].IDs, b.Steps[i].IDs) {
				t.Errorf("step %d: %v or %v", i, a.Steps[i].IDs, b.Steps[i].IDs)
			}
		}
		x, y := d.Rank(d.All()), e.Rank(e.All())
		for i := range x {
			if x[i].ID != y[i].ID {
				t.Errorf("standing %d: %s or %s", i, x[i].ID, y[i].ID)
			}
			near(t, x[i].ID+" alone", y[i].Alone, x[i].Alone, 1e-9)
			near(t, x[i].ID+" after all others", y[i].AfterAllOthers, x[i].AfterAllOthers, 1e-9)
		}
		last := a.Steps[len(a.Steps)-1]
		jobs, err := d.Order(last.Set)
		if err != nil {
			t.Fatal(err)
		}
		again, err := e.Order(b.Steps[len(b.Steps)-1].Set)
		if err != nil {
			t.Fatal(err)
		}
		for i := range jobs {
			if !slices.Equal(jobs[i].IDs, again[i].IDs) {
				t.Errorf("job %d: %v or %v", i, jobs[i].IDs, again[i].IDs)
			}
		}
	}
}

func TestResultsMarshalWithoutNaN(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 1))
	d := randomDecision(r, 5, 0, 0) // no tree gains anything
	d.Candidates[2].Cost = 0
	d.Candidates[3].Agreed = false
	jobs, err := d.Order([]int{0, 1, 2, 3, 4})
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]any{
		"rank": d.Rank(d.All()), "curve": d.Curve(d.All()), "best": d.Best(math.Inf(1), d.All()),
		"order": jobs, "talk": d.Talk(math.Inf(1)),
	} {
		if _, err := json.Marshal(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if CostPerKWh(100, 0) != nil || CostPerKWh(0, 0) != nil || CostPerKWh(math.Inf(1), 5) != nil || CostPerKWh(math.NaN(), 5) != nil {
		t.Error("a price without a gain or without a cost is not null")
	}
	near(t, "price", *CostPerKWh(100, 50), 2, 0)
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
