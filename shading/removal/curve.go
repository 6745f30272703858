package removal

import (
	"math"
	"slices"
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
	w := d.ways(allowed)
	w.search(budget, bestWork)
	return w.best(budget)
}

func (d Decision) best(set []int) Best { return d.bestOf(set, d.gain(set)) }

// bestOf is best where the gain is known.
func (d Decision) bestOf(set []int, gain float64) Best {
	d.sortByID(set)
	return Best{Set: set, IDs: d.ids(set), Cost: d.CostOf(set), Gain: gain, CostUnknown: d.costUnknown(set)}
}

// gain is GainOf without the rounding that could take it below nothing.
func (d Decision) gain(set []int) float64 { return math.Max(0, d.GainOf(set)) }

// Curve is the best set for every budget among the allowed candidates, exact
// under the same conditions as Best. It starts with what costs nothing (no work,
// if no work is free).
func (d Decision) Curve(allowed []bool) Curve {
	w := d.ways(allowed)
	w.explore()
	return w.curve()
}

func (b Best) step() Step {
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

// point is a set that no other found beats.
type point struct {
	choice choice
	cost   int64
	gain   float64
}

// proof is what a search knows: no set within the budget gains more than upper,
// and none whatever it costs more than its screens' shares.
type proof struct {
	budget int64
	upper  float64
	shares []float64
}

// takes tells whether a set of such a gain would be a point.
func (f *field) takes(cost int64, gain float64) bool {
	i := sort.Search(len(f.points), func(i int) bool { return f.points[i].cost > cost })
	return i == 0 || f.points[i-1].gain < gain-resolution*f.open
}

// keep enters a set among the points if none beats it, and drops those it beats.
func (f *field) keep(c choice, cost int64, gain float64) {
	if !f.takes(cost, gain) {
		return
	}
	i := sort.Search(len(f.points), func(i int) bool { return f.points[i].cost > cost })
	j := i
	for j < len(f.points) && f.points[j].gain <= gain+resolution*f.open {
		j++
	}
	if i > 0 && f.points[i-1].cost == cost {
		i--
	}
	f.points = slices.Replace(f.points, i, j, point{slices.Clone(c), cost, gain})
}

// explore searches at a row of budgets. Every set that comes by is kept if no
// other beats it, and helps the searches after it.
func (f *field) explore(seeds []choice) {
	work := curveWork
	if f.heavy < len(f.energy) {
		work = woodsWork
	}
	nodes := f.affordable(curveNodes, work)
	budgets := min(budgets, max(fewestBudgets, nodes))
	f.keep(make(choice, len(f.groups)), 0, 0)
	var total int64
	for _, cost := range f.cost {
		var dearest int64
		for _, c := range cost {
			dearest = max(dearest, c)
		}
		total += dearest
	}
	for k := 1; k <= budgets; k++ {
		s := f.search(total*int64(k)/int64(budgets), nodes, seeds...)
		seeds = append(seeds, s.best)
	}
}

// bestPoint is the best set found for a budget, cents.
func (f *field) bestPoint(budget int64) point {
	i := sort.Search(len(f.points), func(i int) bool { return f.points[i].cost > budget })
	if i == 0 {
		return point{}
	}
	return f.points[i-1]
}

func (f *field) best(p point) Best { return f.d.bestOf(f.set(p.choice), math.Max(0, p.gain)) }

// proven is a gain that no set for a budget, cents, exceeds.
func (f *field) proven(budget int64) float64 {
	upper := f.open - f.nothing
	var list []increment
	for _, proof := range f.proofs {
		if proof.budget >= budget {
			upper = math.Min(upper, proof.upper)
		}
		list = f.increments(func(int) bool { return true }, proof.shares, budget, list)
		bound, _ := fill(list, budget)
		upper = math.Min(upper, bound)
	}
	return upper
}

// curve is the points found, each proven by the searches' bounds.
func (f *field) curve() Curve {
	slack := resolution * f.open
	c := Curve{Exact: true}
	for i, p := range f.points {
		step := f.best(p).step()
		step.Upper = f.open - f.nothing
		if i+1 < len(f.points) {
			step.Upper = f.proven(f.points[i+1].cost - 1)
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
