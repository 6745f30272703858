package study

import (
	"math"
	"slices"
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
	year := st.seasons(demands)
	// A raised crown ends in a level edge, which rows find to a row only.
	account := sc.NewAccount(sc.CastThinned(year, surfaces, thinDays, shading.Casting{Row: thinRow / 2, Rows: 2 * thinRows}), year, st.Sky)
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

// RaiseID and ReduceID name crown work on a tree as a candidate.
func RaiseID(tree string) string  { return "raise " + tree }
func ReduceID(tree string) string { return "reduce " + tree }

// workFor makes the game in which every tree of the owner's may be removed,
// and those pruned raised or reduced instead. A ray that crosses a tree with
// transmissivity today, raised and reduced gets four screens: what every work
// clears, what raising (and removal) clears, what reducing (and removal)
// clears, and what only removal clears.
func (st *Study) workFor(a *shading.Account, d demand, pruned map[staged]model.Tree) *Work {
	w := &Work{Pruned: map[string]model.Tree{}}
	var ids []string
	add := func(c removal.Candidate, screens ...int) {
		w.Decision.Candidates = append(w.Decision.Candidates, c)
		w.Decision.Game.Clears = append(w.Decision.Game.Clears, screens)
	}
	for _, t := range st.Site.Trees {
		if !t.Removable && t.Owner == model.OwnerLot {
			if !hasOption(pruned, t.ID) {
				continue
			}
		}
		first := 4 * len(ids)
		ids = append(ids, t.ID)
		owner := string(t.Owner)
		if t.Removable || t.Owner != model.OwnerLot {
			add(removal.Candidate{ID: t.ID, Tree: t.ID, Kind: "remove", Cost: t.Cost, CostUnknown: !t.CostKnown, Owner: owner,
				Agreed: t.Owner == model.OwnerLot}, first, first+1, first+2, first+3)
		}
		if p, ok := pruned[staged{t.ID, raiseVariant}]; ok {
			w.Pruned[RaiseID(t.ID)] = p
			add(removal.Candidate{ID: RaiseID(t.ID), Tree: t.ID, Kind: "raise", Cost: crownPrice(t, raisePrice, leastRaisePrice), CostUnknown: true, Owner: owner, Agreed: true}, first, first+1)
		}
		if p, ok := pruned[staged{t.ID, reduceVariant}]; ok {
			w.Pruned[ReduceID(t.ID)] = p
			add(removal.Candidate{ID: ReduceID(t.ID), Tree: t.ID, Kind: "reduce", Cost: crownPrice(t, reducePrice, leastReducePrice), CostUnknown: true, Owner: owner, Agreed: true}, first, first+2)
		}
	}
	w.Decision.Game.Trees = 4 * len(ids)

	place := map[string]int{}
	for i, id := range ids {
		place[id] = i
	}
	variants := map[string]int{"": 0, raiseVariant: 1, reduceVariant: 2}
	which := make([][2]int, len(a.Blockers)) // blocker → tree, variant
	optics := make(shading.State, len(a.Blockers))
	for b, blocker := range a.Blockers {
		which[b] = [2]int{-1, 0}
		if i, ok := place[blocker.Thing]; ok {
			which[b] = [2]int{i, variants[blocker.Variant]}
		}
		optics[b] = blocker.Optics
	}
	has := make([][2]bool, len(ids))
	for i, id := range ids {
		_, has[i][0] = pruned[staged{id, raiseVariant}]
		_, has[i][1] = pruned[staged{id, reduceVariant}]
	}
	fixed, behind := a.Behind(d.Demand)
	rays := make([]ray, len(behind))
	period := -1
	var on []float64
	for k, e := range behind {
		if e.Period != period {
			period, on = e.Period, a.On(optics, e.Period)
		}
		rays[k] = ray{energy: e.Energy}
		for _, b := range a.Sets[e.Set] {
			if which[b][0] < 0 {
				rays[k].energy *= on[b]
				continue
			}
			rays[k].cross(which[b][0], which[b][1], on[b])
		}
		for n, i := range rays[k].trees {
			for v, yes := range has[i] {
				if !yes {
					rays[k].through[n][v+1] = rays[k].through[n][0]
				}
			}
		}
	}
	kept := net(rays, len(ids))
	w.Decision.Game.Fixed = fixed
	for _, r := range rays {
		term := removal.Term{Energy: r.energy}
		order := make([]int, len(r.trees))
		for n := range order {
			order[n] = n
		}
		sort.Slice(order, func(x, y int) bool { return r.trees[order[x]] < r.trees[order[y]] })
		for _, n := range order {
			i, t := r.trees[n], r.through[n]
			lift := func(v int) float64 { return t[0] + kept[i][v-1]*max(0, t[v]-t[0]) }
			for s, tau := range screens(t[0], lift(1), lift(2)) {
				if tau < 1 {
					term.Trees = append(term.Trees, 4*i+s)
					term.Tau = append(term.Tau, tau)
				}
			}
		}
		if len(term.Trees) == 0 {
			w.Decision.Game.Fixed += r.energy
			continue
		}
		w.Decision.Game.Terms = append(w.Decision.Game.Terms, term)
	}
	w.Decision.Game.Terms = merged(w.Decision.Game.Terms)
	return w
}

// ray is energy on its way through trees: what each lets through as it is,
// raised and reduced.
type ray struct {
	energy  float64
	trees   []int
	through [][3]float64
}

func (r *ray) cross(tree, variant int, tau float64) {
	n := slices.Index(r.trees, tree)
	if n < 0 {
		n = len(r.trees)
		r.trees = append(r.trees, tree)
		r.through = append(r.through, [3]float64{1, 1, 1})
	}
	r.through[n][variant] *= tau
}

// net is the share of what work on a tree frees that is left once what it
// darkens is taken off: a raised crown shows a longer bare trunk. By tree, for
// raising and reducing, the other trees as they stand. The game, in which work
// never darkens a ray, counts this share of every gain.
func net(rays []ray, trees int) [][2]float64 {
	more, less := make([][2]float64, trees), make([][2]float64, trees)
	for _, r := range rays {
		for n, i := range r.trees {
			others := r.energy
			for m := range r.trees {
				if m != n {
					others *= r.through[m][0]
				}
			}
			for v := range 2 {
				change := others * (r.through[n][v+1] - r.through[n][0])
				more[i][v] += max(0, change)
				less[i][v] += max(0, -change)
			}
		}
	}
	out := make([][2]float64, trees)
	for i := range out {
		for v := range 2 {
			if more[i][v] > 0 {
				out[i][v] = max(0, 1-less[i][v]/more[i][v])
			}
		}
	}
	return out
}

func hasOption(pruned map[staged]model.Tree, id string) bool {
	_, raise := pruned[staged{id, raiseVariant}]
	_, reduce := pruned[staged{id, reduceVariant}]
	return raise || reduce
}

// screens splits the transmissivity of a tree on one ray: today's is the
// product of all four, that after raising lacks the first two, that after
// reducing the first and the third. Work must not make a ray darker.
func screens(today, raised, reduced float64) [4]float64 {
	only := max(raised, reduced)
	return [4]float64{part(today, min(raised, reduced)), part(reduced, only), part(raised, only), only}
}

// part is x/y for 0 ≤ x ≤ y, and 1 where both are 0.
func part(x, y float64) float64 {
	if y <= 0 {
		return 1
	}
	return min(1, x/y)
}

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
