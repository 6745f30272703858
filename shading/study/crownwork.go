package study

import (
	"math"
	"sort"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// Less than removal. Where the owner allows work on a tree (own, not marked to
// keep) its crown may be raised or reduced instead.
const (
	// liveCrown is the most of a live crown to take off in one go: a quarter
	// (ANSI A300 part 1, from memory; licensed practice decides for the tree).
	liveCrown = 0.25
	// raiseShare: a raised crown keeps the upper two thirds of the tree
	// (common practice, no source).
	raiseShare = 1.0 / 3
	// leastRaise is the least lift worth a crew's morning: 2 ft (own rule).
	leastRaise = 0.6
	// mostPruned is the most trees that get options: those with the greatest
	// fair share (own rule, so that every set can be tried).
	mostPruned = 6
	// Prices of crown work as shares of what removal costs, and the least a
	// crew comes for, in dollars: common practice, no source.
	raisePrice, leastRaisePrice   = 0.20, 150.0
	reducePrice, leastReducePrice = 0.40, 300.0
)

// Work is the decision with crown work among the choices.
type Work struct {
	Decision removal.Decision
	Standing []removal.Standing    // removals and crown work, by fair share and gain
	Best     removal.Best          // within the budget
	Pruned   map[string]model.Tree // candidate → the tree as the work would leave it
}

// Instead tells whether the best work for the budget raises or reduces a crown.
func (w *Work) Instead() bool {
	for _, i := range w.Best.Set {
		if w.Decision.Candidates[i].Kind != "remove" {
			return true
		}
	}
	return false
}

// raised is a tree with its crown lifted as far as good practice allows; ok is
// false where that gains less than two feet.
func raised(t model.Tree) (model.Tree, bool) {
	low, high := max(t.CrownBase, t.Cleared), max(raiseShare*t.Height, t.CrownBase)
	whole := t.Crown().Volume()
	left := func(to float64) float64 {
		cut := t
		cut.Cleared = to
		return cut.Crown().Volume()
	}
	to := high
	if left(high) < (1-liveCrown)*whole {
		from := low
		for range 50 {
			if to = (from + high) / 2; left(to) < (1-liveCrown)*whole {
				high = to
			} else {
				from = to
			}
		}
		to = from
	}
	if to < low+leastRaise {
		return t, false
	}
	t.Cleared = to
	return t, true
}

// reduced is a tree with its crown drawn in all round, height above the crown
// base and spread alike, so that a quarter of its volume goes. Evergreens are
// not reduced: a topped conifer does not recover (common practice, no source).
func reduced(t model.Tree) (model.Tree, bool) {
	if t.Evergreen || t.Shape == model.Cone || t.Height-t.CrownBase < 2 {
		return t, false
	}
	k := math.Cbrt(1 - liveCrown)
	t.Height = t.CrownBase + k*(t.Height-t.CrownBase)
	t.SpreadX, t.SpreadY = k*t.SpreadX, k*t.SpreadY
	return t, true
}

func crownPrice(t model.Tree, share, least float64) float64 {
	return math.Round(max(least, share*t.Cost)/10) * 10
}

// Variants of the scene for crown work.
const (
	raiseVariant  = "\x00raised"
	reduceVariant = "\x00reduced"
)

// prunable are the trees that get options: the owner's, not marked to keep,
// those with the greatest fair share first, as many as keep the search exact.
func (st *Study) prunable() []string {
	worth := map[string]float64{}
	allowed := 0
	for _, t := range st.Targets {
		allowed = 0
		for _, s := range t.Standing {
			if s.Allowed {
				allowed++
			}
			if s.Fair != nil && t.Open > 0 {
				worth[s.ID] = max(worth[s.ID], *s.Fair/t.Open)
			}
		}
	}
	var ids []string
	for _, t := range st.Site.Trees {
		if t.Owner == model.OwnerLot && !t.Keep && worth[t.ID] > 1e-3 {
			ids = append(ids, t.ID)
		}
	}
	sort.SliceStable(ids, func(i, j int) bool { return worth[ids[i]] > worth[ids[j]] })
	// Four choices for a tree with options, two for one without: 2²² in all.
	// Where there are more trees than that, crown work is left to plans.
	most := max(0, min(mostPruned, 22-allowed))
	return ids[:min(len(ids), most)]
}

// weighWork finds for every target what raising or reducing crowns would do,
// on a cast of its own with the changed crowns in it.
func (st *Study) weighWork(demands []demand) error {
	surfaces, demands := wanted(demands)
	trees := st.prunable()
	if len(trees) == 0 || len(surfaces) == 0 {
		return nil
	}
	sc := *st.Scene
	sc.Blockers = nil
	for _, b := range st.Scene.Blockers { // what stands today, nothing planned
		if b.Variant == "" {
			sc.Blockers = append(sc.Blockers, b)
		}
	}
	pruned := map[staged]model.Tree{}
	for _, id := range trees {
		if t, ok := raised(*st.tree(id)); ok {
			pruned[staged{id, raiseVariant}] = t
			sc.AddTree(&t, raiseVariant)
		}
		if t, ok := reduced(*st.tree(id)); ok {
			pruned[staged{id, reduceVariant}] = t
			sc.AddTree(&t, reduceVariant)
		}
	}
	if len(pruned) == 0 {
		return nil
	}
	light := st.seasons(demands)
	// A raised crown ends in a level edge, which rows find to a row only.
	account := sc.NewAccount(sc.CastThinned(light, surfaces, thinDays, shading.Casting{Row: thinRow / 2, Rows: 2 * thinRows}), light)
	for n, d := range demands {
		w := st.workFor(account, d, pruned)
		if err := w.Decision.Check(); err != nil {
			return err
		}
		agreed := w.Decision.Agreed()
		w.Standing = w.Decision.Rank(agreed)
		w.Best = w.Decision.Best(st.budget(), agreed)
		st.Targets[n].Work = w
	}
	return nil
}

// raiseID and reduceID name crown work on a tree as a candidate.
func raiseID(tree string) string  { return "raise " + tree }
func reduceID(tree string) string { return "reduce " + tree }

// workWords says what a candidate of the work does, for people.
func (w *Work) workWords(c removal.Candidate, unit measure.Unit) string {
	p := w.Pruned[c.ID]
	switch c.Kind {
	case "raise":
		return "raise the crown to " + measure.FormatFeet(p.Cleared, unit, 0)
	case "reduce":
		return "reduce to " + measure.FormatFeet(p.Height, unit, 0) + " high, " + measure.FormatFeet((p.SpreadX+p.SpreadY)/2, unit, 0) + " wide"
	}
	return "remove"
}
