package study

import (
	"errors"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
	"github.com/southyard/southyard/sun"
)

// Casts that are compared with one another only (trials, years of growth) take
// every eighth day and rows of a foot, but at least ten rows on a surface;
// trials one direction an hour, too. On the example lots the best sets' gains
// differ from those of the full cast by less than 1 %, single trees' by less
// than 2 % (TestThinnedCastAgreesWithTheFullOne holds them to 3 %).
const (
	thinDays = 8
	thinRow  = 2 * shading.SixInches
	thinRows = 10

	// trialRays is in how many directions an hour is cast for a trial.
	trialRays = 1
)

// staged names a tree of the scene: whose it is, and the plan that made it so
// or planted it; "" for what stands.
type staged struct{ thing, variant string }

// shapes lists every tree of the scene: those that stand, and what the plans
// make of them or plant.
func (st *Study) shapes() map[staged]model.Tree {
	out := map[staged]model.Tree{}
	for _, t := range st.Site.Trees {
		out[staged{t.ID, ""}] = t
	}
	for _, p := range st.Plans {
		for _, s := range p.Steps {
			if s.NewTree != nil {
				out[staged{s.NewTree.ID, p.Name}] = *s.NewTree
			}
		}
		for _, t := range st.reshaped(p.Steps) {
			out[staged{t.ID, p.Name}] = t
		}
	}
	return out
}

// recast is the study's scene with other trees in the place of its own, cast
// thinly for the given surfaces. Blockers keep their numbers. A tree that is
// not among the shapes casts no shadow.
func (st *Study) recast(shapes map[staged]model.Tree, surfaces []int, light *shading.Light, rays int) *shading.Account {
	sc := *st.Scene
	sc.Blockers = make([]shading.Blocker, 0, len(st.Scene.Blockers))
	for _, b := range st.Scene.Blockers {
		switch b.Kind {
		case shading.Structure:
			sc.Blockers = append(sc.Blockers, b)
		case shading.Crown:
			t := shapes[staged{b.Thing, b.Variant}]
			t.ID = b.Thing
			sc.AddTree(&t, b.Variant) // and its trunk, which follows
		}
	}
	l := sc.CastThinned(light, surfaces, thinDays, shading.Casting{Row: thinRow, Rows: thinRows, Rays: rays})
	return sc.NewAccount(l, light)
}

// seasons is the study's light of only those months that any of the demands
// wants.
func (st *Study) seasons(demands []demand) *shading.Light {
	year := *st.Year
	year.Hours = slices.Clone(st.Year.Hours)
	for i := range year.Hours {
		month, _ := sun.Month(i)
		if !slices.ContainsFunc(demands, func(d demand) bool { return len(d.Months) == 0 || slices.Contains(d.Months, month) }) {
			h := &year.Hours[i]
			h.Up, h.Beam, h.Diffuse, h.Global = 0, 0, 0, 0
		}
	}
	return shading.NewLight(&year, st.Sky)
}

// wanted are the surfaces that any of the demands weighs, and the demands with
// their weights put in that order.
func wanted(demands []demand) (surfaces []int, narrowed []demand) {
	for _, d := range demands {
		for i, w := range d.Weights {
			if w != 0 && !slices.Contains(surfaces, i) {
				surfaces = append(surfaces, i)
			}
		}
	}
	slices.Sort(surfaces)
	for _, d := range demands {
		weights := make([]float64, len(surfaces))
		for k, i := range surfaces {
			weights[k] = d.Weights[i]
		}
		d.Weights = weights
		narrowed = append(narrowed, d)
	}
	return surfaces, narrowed
}

// trial is what one draw says of one target.
type trial struct {
	game  removal.Decision
	plans []float64 // gain of every plan
}

// try casts one draw and gives what it says, by target.
func (st *Study) try(quantities []removal.Quantity, values []float64, surfaces []int, demands []demand, light *shading.Light) []trial {
	lot := st.drawn(quantities, values)
	lot.Account = st.recast(lot.shapes(), surfaces, light, trialRays)
	states := []shading.State{lot.Account.Today()}
	for _, p := range st.Plans {
		states = append(states, lot.stateOf(p.Steps, p.Name))
	}
	totals := make([][]float64, len(states)) // state → surface, in the demand's season
	out := make([]trial, len(demands))
	decisions := lot.decisions(demands)
	for n, d := range demands {
		if n == 0 || !slices.Equal(d.Months, demands[n-1].Months) {
			for i, state := range states {
				totals[i] = lot.Account.Totals(state, d.Months...)
			}
		}
		gains := make([]float64, len(st.Plans))
		for s, w := range d.Weights {
			for i := range gains {
				gains[i] += w * (totals[i+1][s] - totals[0][s])
			}
		}
		out[n] = trial{decisions[n], gains}
	}
	return out
}

// makeSure measures anew so many times, each time with other errors drawn from
// the measurements' tolerances, and enters into every target what that leaves
// of its answer. The same seed gives the same draws, whatever the processors.
// Of each draw only a few figures are kept.
func (st *Study) makeSure(draws int, seed uint64, demands []demand) error {
	surfaces, demands := wanted(demands)
	quantities, light := st.measured(), st.seasons(demands)
	if len(surfaces) == 0 || len(quantities) == 0 {
		return nil
	}
	trials := make([]*removal.Trials, len(demands))
	gains := make([][][]float64, len(demands)) // target → plan → draw
	for n := range demands {
		t := &st.Targets[n]
		players, fewer := t.players()
		var err error
		if trials[n], err = t.Decision.NewTrials(draws, quantities, nil, st.budget(), players); err != nil {
			return err
		}
		trials[n].WithoutFair = fewer // a share among fewer trees is another figure
		for range st.Plans {
			gains[n] = append(gains[n], make([]float64, draws))
		}
	}
	faults := make([]error, draws)
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for k := range draws {
		places <- struct{}{}
		all.Go(func() {
			defer func() { <-places }()
			r := rand.New(rand.NewPCG(seed, uint64(k)))
			values := make([]float64, len(quantities))
			for i := range values {
				values[i] = r.NormFloat64()
			}
			for n, said := range st.try(quantities, values, surfaces, demands, light) {
				for i, gain := range said.plans {
					gains[n][i][k] = gain
				}
				faults[k] = errors.Join(faults[k], trials[n].Enter(k, removal.Draw{Values: values, Game: said.game.Game}))
			}
		})
	}
	all.Wait()
	if err := errors.Join(faults...); err != nil {
		return err
	}
	undisturbed := st.try(quantities, make([]float64, len(quantities)), surfaces, demands, light)
	for n := range demands {
		st.Targets[n].weighTrials(trials[n].Sureness(), gains[n], undisturbed[n], st.Plans)
	}
	return nil
}

// weighTrials enters what the trials say, the gains of every plan among it.
func (t *Target) weighTrials(sure removal.Sureness, gains [][]float64, plain trial, plans []Plan) {
	for i, p := range plans {
		sure.Plans = append(sure.Plans, removal.SurePlan{Name: p.Name, Gain: removal.RangeOf(gains[i])})
	}
	t.Sure = &sure
	if full := t.Decision.GainOf(t.Best.Set); full > 0 {
		t.Thinned = plain.game.GainOf(t.Best.Set)/full - 1
	}
}

// mostPlayers is how many trees the trials choose the best set from: as many
// as can all be tried in every trial. Of more, those with the greatest fair
// share and those of the best set take part.
const mostPlayers = 16

func (t *Target) players() (mask []bool, fewer bool) {
	mask = t.Decision.Agreed()
	if len(chosen(mask)) <= mostPlayers+4 {
		return mask, false
	}
	part := map[string]bool{}
	for _, id := range t.Best.IDs[:min(len(t.Best.IDs), mostPlayers)] {
		part[id] = true
	}
	for _, s := range t.Standing { // by fair share
		if s.Allowed && len(part) < mostPlayers {
			part[s.ID] = true
		}
	}
	for i, c := range t.Decision.Candidates {
		mask[i] = mask[i] && part[c.ID]
	}
	return mask, true
}

// sureOf is what the trials say of one tree, or nil without trials.
func (t *Target) sureOf(id string) *removal.Sure {
	if t.Sure == nil {
		return nil
	}
	for i := range t.Sure.Candidates {
		if t.Sure.Candidates[i].ID == id {
			return &t.Sure.Candidates[i]
		}
	}
	return nil
}

// sharpest is the one measurement that would sharpen the answer most, or ""
// where none stands out.
func (t *Target) sharpest() string {
	if t.Sure == nil || len(t.Sure.Measures) == 0 || !t.Sure.Measures[0].Clear {
		return ""
	}
	return t.Sure.Measures[0].Name + " of " + t.Sure.Measures[0].Tree
}
