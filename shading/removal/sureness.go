package removal

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sort"
	"sync"
)

// Draw is the game as it would be had the measurements been off by Values: one
// deviation a measured quantity, in any unit, drawn from its tolerance.
type Draw struct {
	Values []float64
	Game   Game
}

// NamedSet is a plan whose gain is wanted as a range.
type NamedSet struct {
	Name string
	Set  []int
}

// Range is where a value lies in the draws: 10 % lie below Low, half below Mid,
// 90 % below High. The quantiles are those of which a further draw lies below in
// just that share of cases (definition 6 of Hyndman & Fan 1996), so that a range
// from few draws is no narrower than it should be.
type Range struct {
	Low  float64 `json:"p10"`
	Mid  float64 `json:"p50"`
	High float64 `json:"p90"`
}

// Sure is how firm one candidate's gains and its place in the best set are.
type Sure struct {
	ID             string  `json:"id"`
	Alone          Range   `json:"alone"`            // kWh
	AfterAllOthers Range   `json:"after_all_others"` // kWh
	Fair           *Range  `json:"fair"`             // kWh; null for what is not an allowed removal
	InBest         float64 `json:"in_best"`          // chance, 0..1, of belonging to the best set for the budget
	InBestError    float64 `json:"in_best_error"`    // one standard error of that chance from the number of draws
}

// SurePlan is the range of a plan's gain, kWh.
type SurePlan struct {
	Name string `json:"name"`
	Gain Range  `json:"gain"`
}

// Sureness is what measurement error leaves of the answer.
type Sureness struct {
	Draws      int           `json:"draws"`
	Best       Best          `json:"best"`      // for the budget, by the measurements as they are
	BestGain   Range         `json:"best_gain"` // of that set, kWh
	SameBest   float64       `json:"same_best"` // share of draws whose best set is just that one
	Exact      bool          `json:"exact"`     // the best set was proven best in every draw
	Candidates []Sure        `json:"candidates"`
	Plans      []SurePlan    `json:"plans"`
	Measures   []Measurement `json:"measurements"` // what to measure again, the most telling first
}

// fewestDraws is the least number for which a 10 % quantile exists.
const fewestDraws = 9

// Trials gather what draws say, one after the other or several at once, and keep
// of each a few figures only, so that the games need not be held.
type Trials struct {
	d          Decision
	quantities []Quantity
	plans      []NamedSet
	budget     float64
	allowed    []bool
	best       Best
	values     [][]float64
	results    []drawn

	// WithoutFair leaves the fair shares out, which takes less time.
	WithoutFair bool
}

// NewTrials makes ready for so many draws; see Sureness for the rest.
func (d Decision) NewTrials(draws int, quantities []Quantity, plans []NamedSet, budget float64, allowed []bool) (*Trials, error) {
	if draws < fewestDraws {
		return nil, fmt.Errorf("sureness: %d draws; a 10–90 %% range needs at least %d, and a few hundred to be steady", draws, fewestDraws)
	}
	for _, p := range plans {
		for _, i := range p.Set {
			if i < 0 || i >= len(d.Candidates) {
				return nil, fmt.Errorf("sureness: plan %q names candidate number %d, outside 0..%d", p.Name, i, len(d.Candidates)-1)
			}
		}
	}
	return &Trials{
		d: d, quantities: quantities, plans: plans, budget: budget, allowed: allowed,
		best: d.Best(budget, allowed), values: make([][]float64, draws), results: make([]drawn, draws),
	}, nil
}

// Enter reads draw number k, counted from 0. Different draws may be entered at
// the same time; every one must have been before Sureness is asked.
func (t *Trials) Enter(k int, draw Draw) error {
	r, err := t.read(draw)
	if err != nil {
		return fmt.Errorf("draw %d: %w", k, err)
	}
	t.values[k], t.results[k] = draw.Values, r
	return nil
}

// Sureness reads the draws: the range of every gain, how often each candidate
// belongs to the best set for the budget, and which measurement, made again,
// would sharpen the gain of the best set most. The decision's own game is the one
// measured. The draws are worked on by all cores; the answer does not depend on
// how many there are.
func (d Decision) Sureness(draws []Draw, quantities []Quantity, plans []NamedSet, budget float64, allowed []bool) (Sureness, error) {
	t, err := d.NewTrials(len(draws), quantities, plans, budget, allowed)
	if err != nil {
		return Sureness{}, err
	}
	faults := make([]error, len(draws))
	var wait sync.WaitGroup
	work := make(chan int)
	for range min(runtime.GOMAXPROCS(0), len(draws)) {
		wait.Go(func() {
			for k := range work {
				faults[k] = t.Enter(k, draws[k])
			}
		})
	}
	for k := range draws {
		work <- k
	}
	close(work)
	wait.Wait()
	if err := errors.Join(faults...); err != nil {
		return Sureness{}, err
	}
	return t.Sureness(), nil
}

// Sureness is what the draws entered say together.
func (t *Trials) Sureness() Sureness {
	d, best, results, draws, plans := t.d, t.best, t.results, t.values, t.plans
	out := Sureness{Draws: len(draws), Best: best, Exact: best.Exact, Candidates: []Sure{}, Plans: []SurePlan{}}
	out.BestGain = rangeOf(results, func(r drawn) float64 { return r.bestGain })
	for _, r := range results {
		out.Exact = out.Exact && r.exact
		if slices.Equal(r.best, best.Set) {
			out.SameBest += 1 / float64(len(draws))
		}
	}
	out.SameBest = math.Min(1, out.SameBest)
	for i, c := range d.Candidates {
		s := Sure{
			ID:             c.ID,
			Alone:          rangeOf(results, func(r drawn) float64 { return r.standing[i].Alone }),
			AfterAllOthers: rangeOf(results, func(r drawn) float64 { return r.standing[i].AfterAllOthers }),
		}
		if results[0].standing[i].Fair != nil {
			fair := rangeOf(results, func(r drawn) float64 { return *r.standing[i].Fair })
			s.Fair = &fair
		}
		count := 0
		for _, r := range results {
			if slices.Contains(r.best, i) {
				count++
			}
		}
		s.InBest = float64(count) / float64(len(draws))
		s.InBestError = math.Sqrt(s.InBest * (1 - s.InBest) / float64(len(draws)))
		out.Candidates = append(out.Candidates, s)
	}
	for n, p := range plans {
		out.Plans = append(out.Plans, SurePlan{Name: p.Name, Gain: rangeOf(results, func(r drawn) float64 { return r.plans[n] })})
	}
	gain := make([]float64, len(results))
	for k, r := range results {
		gain[k] = r.bestGain
	}
	out.Measures = sharpen(draws, t.quantities, gain)
	return out
}

// drawn is what one draw says.
type drawn struct {
	standing []Standing // by candidate
	best     []int
	bestGain float64 // of the set that is best by the measurements as they are
	plans    []float64
	exact    bool
}

func (t *Trials) read(draw Draw) (drawn, error) {
	here := Decision{Game: draw.Game, Candidates: t.d.Candidates}
	if err := here.Check(); err != nil {
		return drawn{}, err
	}
	if len(draw.Values) != len(t.quantities) {
		return drawn{}, fmt.Errorf("%d values for %d measured quantities; there must be one each", len(draw.Values), len(t.quantities))
	}
	for _, v := range draw.Values {
		if !finite(v) {
			return drawn{}, fmt.Errorf("a drawn deviation is %v; it must be a number", v)
		}
	}
	best := here.Best(t.budget, t.allowed)
	r := drawn{best: best.Set, exact: best.Exact, bestGain: best.Gain}
	if !slices.Equal(best.Set, t.best.Set) {
		r.bestGain = here.gain(t.best.Set)
	}
	r.standing = here.standings(t.allowed, !t.WithoutFair)
	for _, p := range t.plans {
		r.plans = append(r.plans, here.gain(p.Set))
	}
	return r, nil
}

// RangeOf is where values drawn at random lie; the zero Range for none.
func RangeOf(values []float64) Range {
	if len(values) == 0 {
		return Range{}
	}
	sorted := append([]float64(nil), values...)
	sort.Float64s(sorted)
	return Range{Low: quantile(sorted, 0.1), Mid: quantile(sorted, 0.5), High: quantile(sorted, 0.9)}
}

func rangeOf(results []drawn, value func(drawn) float64) Range {
	values := make([]float64, len(results))
	for k, r := range results {
		values[k] = value(r)
	}
	return RangeOf(values)
}

// quantile of sorted values at p·(n+1), between neighbours in proportion
// (definition 6 of Hyndman & Fan 1996; Weibull's plotting position).
func quantile(sorted []float64, p float64) float64 {
	at := p*float64(len(sorted)+1) - 1
	if at <= 0 {
		return sorted[0]
	}
	if at >= float64(len(sorted)-1) {
		return sorted[len(sorted)-1]
	}
	i := int(at)
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
