package removal

import (
	"math"
	"sort"
)

// Best is the set of work with the greatest gain that a budget buys.
type Best struct {
	Set  []int    `json:"-"`
	IDs  []string `json:"ids"`
	Cost float64  `json:"cost"` // dollars
	Gain float64  `json:"gain"` // kWh

	// Upper is proven: no allowed set within the budget gains more, kWh. Exact
	// says that Gain is that most.
	Upper       float64 `json:"upper"`
	Exact       bool    `json:"exact"`
	CostUnknown bool    `json:"cost_unknown,omitempty"` // Cost is at least this
}

// Step is one step of a budget curve: the cheapest set with at least this gain.
type Step struct {
	Set  []int    `json:"-"`
	IDs  []string `json:"ids"`
	Cost float64  `json:"cost"` // dollars
	Gain float64  `json:"gain"` // kWh

	// Upper is proven: no allowed set that costs less than the next step gains
	// more, kWh.
	Upper       float64 `json:"upper"`
	CostUnknown bool    `json:"cost_unknown,omitempty"`
}

// Curve is the gain that money buys: its steps rise in cost and in gain, and
// between two steps more money buys nothing more.
type Curve struct {
	Steps []Step `json:"steps"`

	// Knee is the number of the step after which money buys less: the one
	// farthest above the straight line from the first step to the last, with cost
	// and gain each scaled to 0..1 (greatest distance from the chord; Satopää and
	// others 2011). -1 where no step lies above the line.
	Knee int `json:"knee"`

	Exact bool    `json:"exact"`
	Gap   float64 `json:"gap"` // greatest Upper − Gain of any step, kWh; 0 if exact
}

// Best finds the set for a budget, dollars (+Inf: no limit), among the allowed
// candidates: exactly by tabulating all combinations up to 4 million of them (22
// trees), beyond that by branch and bound, which stops after so many branches and
// says how far it may be off.
// Among equal gains the cheaper set is chosen, then the one with less work.
func (d Decision) Best(budget float64, allowed []bool) Best {
	groups := d.groups(allowed)
	sp := newSpace(groups)
	if reach := d.Game.table(sp); reach != nil {
		b := d.best(sp.set(d.bestIn(sp, reach, budgetCents(budget))))
		b.Upper, b.Exact = b.Gain, true
		return b
	}
	f := d.field(groups)
	s := f.search(budgetCents(budget), f.affordable(bestNodes, bestWork), nil, f.greedy()...)
	b := d.best(f.set(s.best))
	b.Upper, b.Exact = math.Max(s.upper, b.Gain), s.exact
	return b
}

func (d Decision) best(set []int) Best {
	d.sortByID(set)
	return Best{Set: set, IDs: d.ids(set), Cost: d.CostOf(set), Gain: d.gain(set), CostUnknown: d.costUnknown(set)}
}

// gain is GainOf without the rounding that could take it below nothing.
func (d Decision) gain(set []int) float64 { return math.Max(0, d.GainOf(set)) }

// Curve is the best set for every budget among the allowed candidates, exact
// under the same conditions as Best. It starts with what costs nothing (no work,
// if no work is free).
func (d Decision) Curve(allowed []bool) Curve {
	groups := d.groups(allowed)
	sp := newSpace(groups)
	var c Curve
	if reach := d.Game.table(sp); reach != nil {
		c.Exact = true
		for _, at := range d.front(sp, reach) {
			c.Steps = append(c.Steps, d.step(sp.set(at)))
		}
		for i := range c.Steps {
			c.Steps[i].Upper = c.Steps[i].Gain
		}
	} else {
		c = d.field(groups).curve()
	}
	c.Knee = knee(c.Steps)
	return c
}

func (d Decision) step(set []int) Step {
	b := d.best(set)
	return Step{Set: b.Set, IDs: b.IDs, Cost: b.Cost, Gain: b.Gain, CostUnknown: b.CostUnknown}
}

func knee(steps []Step) int {
	if len(steps) < 3 {
		return -1
	}
	first, last := steps[0], steps[len(steps)-1]
	at, most := -1, 1e-9
	for i, s := range steps {
		above := (s.Gain-first.Gain)/(last.Gain-first.Gain) - (s.Cost-first.Cost)/(last.Cost-first.Cost)
		if above > most {
			at, most = i, above
		}
	}
	return at
}

// A searched curve looks at so many budgets, the fewer the longer the ledger.
const budgets, fewestBudgets = 24, 12

// curve searches at a row of budgets, keeps every set that comes by, and proves
// each step by the bounds that came by with them.
func (f *field) curve() Curve {
	nodes := f.affordable(curveNodes, curveWork)
	budgets := min(budgets, max(fewestBudgets, nodes))
	type point struct {
		choice choice
		cost   int64
		gain   float64
	}
	slack := resolution * f.open
	var front []point // rising in cost and gain
	keep := func(c choice, cost int64, gain float64) {
		i := sort.Search(len(front), func(i int) bool { return front[i].cost > cost })
		if i > 0 && front[i-1].gain >= gain-slack {
			return
		}
		j := i
		for j < len(front) && front[j].gain <= gain+slack {
			j++
		}
		if i > 0 && front[i-1].cost == cost {
			i--
		}
		p := point{append(choice(nil), c...), cost, gain}
		front = append(front[:i], append([]point{p}, front[j:]...)...)
	}
	keep(make(choice, len(f.groups)), 0, 0)
	var total int64
	for _, cost := range f.cost {
		var dearest int64
		for _, c := range cost {
			dearest = max(dearest, c)
		}
		total += dearest
	}
	type proof struct {
		budget int64
		upper  float64
		w      []float64
	}
	var proofs []proof
	seeds := f.greedy()
	for k := 1; k <= budgets; k++ {
		budget := total * int64(k) / int64(budgets)
		s := f.search(budget, nodes, keep, seeds...)
		proofs = append(proofs, proof{budget, s.upper, s.root})
		seeds = append(seeds, s.best)
	}
	c := Curve{Exact: true}
	everything := f.open - f.nothing
	all := func(int) bool { return true }
	var list []increment
	for i, p := range front {
		step := f.d.step(f.set(p.choice))
		step.Upper = everything
		if i+1 < len(front) {
			below := front[i+1].cost - 1
			for _, proof := range proofs {
				if proof.budget >= below {
					step.Upper = math.Min(step.Upper, proof.upper)
				}
				list = f.increments(all, proof.w, below, list)
				bound, _ := fill(list, below)
				step.Upper = math.Min(step.Upper, bound)
			}
		}
		step.Upper = math.Max(step.Upper, step.Gain)
		c.Gap = math.Max(c.Gap, step.Upper-step.Gain)
		c.Steps = append(c.Steps, step)
	}
	if c.Gap <= slack {
		c.Gap = 0
	} else {
		c.Exact = false
	}
	return c
}

// greedy is a row of sets to start a search from: along the fair order, the
// prefix at every step.
func (f *field) greedy() []choice {
	w := make([]float64, len(f.owner))
	rank := make([]int32, len(f.owner))
	for i := range rank {
		rank[i] = int32(i)
	}
	states := make([]state, len(f.owner))
	var list []increment
	for range 3 {
		f.shares(states, rank, w)
		list = f.increments(func(int) bool { return true }, w, math.MaxInt64, list)
		f.rank(list, rank)
	}
	c := make(choice, len(f.groups))
	seeds := []choice{}
	for _, step := range list {
		c[step.group] = int8(step.option)
		seeds = append(seeds, append(choice(nil), c...))
	}
	return seeds
}
