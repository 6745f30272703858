package removal

import (
	"fmt"
	"math"
)

// together is the share of a pair's gain that must come from the two being gone
// at once before they are called a pair. Common practice, no source: it keeps
// pairs that hardly shade each other from being listed as one job.
const together = 0.10

// Job is one step in the order of work: one candidate, or a pair that stands in
// line and pays only together.
type Job struct {
	IDs        []string `json:"ids"`
	Set        []int    `json:"-"`
	Gain       float64  `json:"gain"` // kWh, added by this job
	Cost       float64  `json:"cost"` // dollars
	CostPerKWh *float64 `json:"cost_per_kwh"`
	TotalGain  float64  `json:"total_gain"` // kWh, with all jobs before
	TotalCost  float64  `json:"total_cost"` // dollars
	// CostUnknown: TotalCost is at least this.
	CostUnknown bool `json:"cost_unknown,omitempty"`
}

// Order is the order in which to do a set of work so that stopping early leaves
// the best of it done. At each step it takes the candidate with the greatest
// gain for its cost, given those gone already; where costs are 0, the greatest
// gain. It looks two ahead: where the best pair gains more for its cost than the
// best single one, and at least a tenth of that comes from both being gone, the
// pair is one job (its better half first), because either alone would look
// worthless behind the other.
//
// The set may hold at most one candidate a tree.
func (d Decision) Order(set []int) ([]Job, error) { return d.OrderAfter(nil, set) }

// OrderAfter is the order of what may follow once the candidates of done are
// gone. The running totals begin with what done gains and costs.
func (d Decision) OrderAfter(done, set []int) ([]Job, error) {
	trees := map[string]string{}
	for _, i := range append(append([]int(nil), done...), set...) {
		if i < 0 || i >= len(d.Candidates) {
			return nil, fmt.Errorf("order of work: candidate number %d is outside 0..%d", i, len(d.Candidates)-1)
		}
		c := d.Candidates[i]
		if other, twice := trees[c.tree()]; twice {
			return nil, fmt.Errorf("order of work: %s and %s are both for tree %s; choose one", other, c.ID, c.tree())
		}
		trees[c.tree()] = c.ID
	}
	left := append([]int(nil), set...)
	d.sortByID(left)
	w := newOrderer(d.Game)
	start := w.reach()
	var totalCost int64
	unknown := d.costUnknown(done)
	for _, i := range done {
		w.clear(i)
		totalCost += cents(d.Candidates[i].Cost)
	}
	before := math.Max(0, w.reach()-start)
	jobs := []Job{}
	for len(left) > 0 {
		job := d.next(w, left)
		for _, i := range job {
			w.clear(i)
			left = without(left, i)
		}
		var cost int64
		for _, i := range job {
			cost += cents(d.Candidates[i].Cost)
		}
		totalCost += cost
		unknown = unknown || d.costUnknown(job)
		total := math.Max(0, w.reach()-start)
		gain := math.Max(0, total-before)
		before = total
		jobs = append(jobs, Job{
			IDs: d.ids(job), Set: job, Gain: gain, Cost: dollars(cost),
			CostPerKWh: CostPerKWh(dollars(cost), gain),
			TotalGain:  total, TotalCost: dollars(totalCost), CostUnknown: unknown,
		})
	}
	return jobs, nil
}

// next is the best single candidate or the best pair of those left.
func (d Decision) next(w *orderer, left []int) []int {
	alone := make([]float64, len(left))
	both := w.pairs(left, alone)
	single := 0
	for k := range left {
		if d.pays(alone[k], left[k]) > d.pays(alone[single], left[single])*(1+resolution) ||
			d.even(left[k], left[single]) && alone[k] > alone[single]*(1+resolution) {
			single = k
		}
	}
	first, second, most := -1, -1, d.pays(alone[single], left[single])*(1+resolution)
	for j := range left {
		for k := range j {
			gain := alone[j] + alone[k] + both[j*len(left)+k]
			if !(both[j*len(left)+k] >= together*gain) {
				continue
			}
			if p := d.pays(gain, left[j], left[k]); p > most {
				first, second, most = j, k, p*(1+resolution)
			}
		}
	}
	if first < 0 {
		return []int{left[single]}
	}
	a, b := left[first], left[second]
	if d.pays(alone[second], b) > d.pays(alone[first], a)*(1+resolution) ||
		!(d.pays(alone[first], a) > d.pays(alone[second], b)*(1+resolution)) && d.Candidates[b].ID < d.Candidates[a].ID {
		a, b = b, a
	}
	return []int{a, b}
}

// pays is the gain for each dollar. Work that is free and gains anything pays
// more than any that costs, and then by its gain for each piece of work.
func (d Decision) pays(gain float64, set ...int) float64 {
	var cost int64
	for _, i := range set {
		cost += cents(d.Candidates[i].Cost)
	}
	if cost == 0 {
		return gain * 1e12 / float64(len(set))
	}
	return gain / dollars(cost)
}

// even: neither pays, so their gains decide.
func (d Decision) even(a, b int) bool {
	return cents(d.Candidates[a].Cost) == 0 && cents(d.Candidates[b].Cost) == 0
}

func without(set []int, i int) []int {
	rest := make([]int, 0, len(set))
	for _, x := range set {
		if x != i {
			rest = append(rest, x)
		}
	}
	return rest
}

// orderer keeps which screens are gone while the order is found.
type orderer struct {
	g    Game
	gone []bool
}

func newOrderer(g Game) *orderer { return &orderer{g: g, gone: make([]bool, g.Trees)} }

func (w *orderer) reach() float64 { return w.g.reach(w.gone) }

func (w *orderer) clear(option int) {
	for _, s := range w.g.screens(option) {
		w.gone[s] = true
	}
}

// pairs fills alone with the gain of each candidate now, and returns for each
// pair (j, k), at j·n+k with k < j, what their two gains add up short of the gain
// of both: Σ E·(g_j−f_j)(g_k−f_k)·rest over the terms that meet both, where f and
// g are the factors of a tree standing and worked on. One pass for all pairs.
func (w *orderer) pairs(left []int, alone []float64) []float64 {
	n := len(left)
	both := make([]float64, n*n)
	holders := make([][]int, w.g.Trees) // screen → places in left
	for k, o := range left {
		for _, s := range w.g.screens(o) {
			if !w.gone[s] {
				holders[s] = append(holders[s], k)
			}
		}
	}
	factor := make([]float64, n)
	for k := range factor {
		factor[k] = 1
	}
	var met []int
	var before, after []float64
	for _, t := range w.g.Terms {
		energy := t.Energy
		met = met[:0]
		for j, s := range t.Trees {
			switch {
			case w.gone[s] || t.Tau[j] == 1:
			case len(holders[s]) == 0:
				energy *= t.Tau[j]
			default: // one candidate a tree, and a screen has one tree
				k := holders[s][0]
				if factor[k] == 1 {
					met = append(met, k)
				}
				factor[k] *= t.Tau[j]
			}
		}
		m := len(met)
		before, after = append(before[:0], 1), append(after[:0], make([]float64, m+1)...)
		for x, k := range met {
			before = append(before, before[x]*factor[k])
		}
		after[m] = 1
		for x := m - 1; x >= 0; x-- {
			after[x] = after[x+1] * factor[met[x]]
		}
		for x, k := range met {
			alone[k] += energy * (1 - factor[k]) * before[x] * after[x+1]
			between := energy * (1 - factor[k]) * before[x]
			for y := x + 1; y < m; y++ {
				l := met[y]
				both[max(k, l)*n+min(k, l)] += between * (1 - factor[l]) * after[y+1]
				between *= factor[l]
			}
		}
		for _, k := range met {
			factor[k] = 1
		}
	}
	return both
}
