package study

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"sort"
	"sync"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// Target is what a set of surfaces wants and which removals give it. Energies
// are kWh in the target's season.
type Target struct {
	Name     string
	Months   []time.Month
	Open     float64 // in an open field
	Now      float64 // as it stands
	NoTrees  float64
	Decision removal.Decision
	Standing []removal.Standing
	Order    []removal.Job // all that is allowed, in the best order of work
	Curve    removal.Curve
	Agreed   removal.Curve // if neighbours and the street agreed
	Best     removal.Best  // what the budget buys, or everything where none is stated
	Talk     []removal.TalkValue
	Blockers []Blocked
	Summer   map[string]float64 // tree → kWh more on windows in the cooling season, alone
	PlanSun  []float64          // by plan
	Sure     *removal.Sureness  // what measurement error leaves of it; nil where not asked for
	Work     *Work              // with crown work among the choices; nil where no tree can be raised or reduced
	Thinned  float64            // by what share the trials' thinner cast is off for the best set, undisturbed
	demand   demand
}

// Blocked is what something that is no candidate costs the target.
type Blocked struct {
	Thing string
	What  string  // "neighbour's tree", "neighbour's building", "fence", …
	Costs float64 // kWh
	Share float64 // of Open
}

// rankAll answers every target, several at a time.
func (st *Study) rankAll(demands []demand) ([]Target, error) {
	targets, faults := make([]Target, len(demands)), make([]error, len(demands))
	decisions := st.decisions(demands)
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i, d := range demands {
		all.Go(func() {
			places <- struct{}{}
			defer func() { <-places }()
			if targets[i], faults[i] = st.rank(d, decisions[i]); faults[i] != nil {
				faults[i] = fmt.Errorf("target %s: %w", d.name, faults[i])
			}
		})
	}
	all.Wait()
	return targets, errors.Join(faults...)
}

// rank answers one target.
func (st *Study) rank(d demand, decision removal.Decision) (Target, error) {
	t := Target{Name: d.name, Months: d.Months, Decision: decision, demand: d}
	for i, w := range d.Weights {
		t.Open += w * st.Today[i].OpenTotal(d.Months...)
		t.Now += w * st.Today[i].Total(d.Months...)
		t.NoTrees += w * st.NoTrees[i].Total(d.Months...)
	}
	for _, p := range st.Plans {
		sun := 0.0
		for i, w := range d.Weights {
			sun += w * p.Reached[i].Total(d.Months...)
		}
		t.PlanSun = append(t.PlanSun, sun)
	}
	if err := t.Decision.Check(); err != nil {
		return t, err
	}
	agreed := t.Decision.Agreed()
	t.Standing = t.Decision.Rank(agreed)
	w := t.Decision.Weigh(st.budget())
	t.Best, t.Curve, t.Agreed, t.Talk = w.Best, w.Curve, w.Agreed, w.Talk
	var err error
	if t.Order, err = t.Decision.Order(chosen(agreed)); err != nil {
		return t, err
	}
	t.Blockers = st.blocked(d, t)
	t.Summer = st.summerGains(t.Decision.Candidates)
	return t, nil
}

// budget in dollars; without limit where none is stated.
func (st *Study) budget() float64 {
	if st.Site.Budget <= 0 {
		return math.Inf(1)
	}
	return st.Site.Budget
}

func chosen(mask []bool) []int {
	var set []int
	for i, yes := range mask {
		if yes {
			set = append(set, i)
		}
	}
	return set
}

// blocked lists what stands in the way but is no candidate of the owner's:
// other people's trees, trees to keep, buildings, fences.
func (st *Study) blocked(d demand, t Target) []Blocked {
	things := map[string]string{}
	for _, tree := range st.Site.Trees {
		switch {
		case tree.Owner == model.OwnerNeighbour:
			things[tree.ID] = "neighbour's tree"
		case tree.Owner == model.OwnerStreet:
			things[tree.ID] = "street tree"
		case !tree.Removable:
			things[tree.ID] = "tree to keep"
		}
	}
	for _, b := range st.Site.Neighbours {
		things[b.ID] = "neighbour's building"
	}
	for _, b := range st.Site.Porches {
		things[b.ID] = "own structure"
	}
	for _, f := range st.Site.Fences {
		things[f.ID] = "fence"
	}
	var out []Blocked
	today := st.Account.Today()
	for id, what := range things {
		gain := st.reach(d, st.Account.Without(today, id)) - t.Now
		if t.Open > 0 && gain > 5e-4*t.Open {
			out = append(out, Blocked{id, what, gain, gain / t.Open})
		}
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Costs != out[j].Costs {
			return out[i].Costs > out[j].Costs
		}
		return out[i].Thing < out[j].Thing
	})
	return out
}

// reach is the demand's sun in a state, kWh.
func (st *Study) reach(d demand, s shading.State) float64 {
	sum := 0.0
	for i, e := range st.Account.Totals(s, d.Months...) {
		sum += d.Weights[i] * e
	}
	return sum
}

// summerGains is the sun each tree's removal alone lets onto the windows in
// the cooling season, kWh.
func (st *Study) summerGains(candidates []removal.Candidate) map[string]float64 {
	out := map[string]float64{}
	if len(st.Cooling) == 0 {
		return out
	}
	d := st.summer()
	today := st.Account.Today()
	now := st.reach(d, today)
	for _, c := range candidates {
		out[c.ID] = max(0, st.reach(d, st.Account.Without(today, c.ID))-now)
	}
	return out
}
