package study

import (
	"slices"
	"sort"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// workFor makes the game in which every tree of the owner's may be removed,
// and those pruned raised or reduced instead. A ray that crosses a tree with
// transmissivity today, raised and reduced gets four screens: what every work
// clears, what raising (and removal) clears, what reducing (and removal)
// clears, and what only removal clears.
func (st *Study) workFor(a *shading.Account, d demand, pruned map[staged]model.Tree) *Work {
	w := &Work{Pruned: map[string]model.Tree{}}
	place := st.workChoices(w, pruned)
	fixed, rays := workRays(a, d, place, pruned)
	game := &w.Decision.Game
	game.Trees, game.Fixed = 4*len(place), fixed
	kept := net(rays, len(place))
	for _, r := range rays {
		term := r.term(kept)
		if len(term.Trees) == 0 {
			game.Fixed += r.energy
			continue
		}
		game.Terms = append(game.Terms, term)
	}
	game.Terms = merged(game.Terms)
	return w
}

// workChoices enters the candidates and the screens each clears, and numbers
// the trees they stand for, four screens a tree.
func (st *Study) workChoices(w *Work, pruned map[staged]model.Tree) (place map[string]int) {
	place = map[string]int{}
	for _, t := range st.Site.Trees {
		own := t.Owner == model.OwnerLot
		raised, canRaise := pruned[staged{t.ID, raiseVariant}]
		reduced, canReduce := pruned[staged{t.ID, reduceVariant}]
		if own && !t.Removable && !canRaise && !canReduce {
			continue
		}
		first := 4 * len(place)
		place[t.ID] = len(place)
		add := func(c removal.Candidate, screens ...int) {
			c.Tree, c.Owner = t.ID, string(t.Owner)
			w.Decision.Candidates = append(w.Decision.Candidates, c)
			w.Decision.Game.Clears = append(w.Decision.Game.Clears, screens)
		}
		if t.Removable || !own {
			add(removal.Candidate{ID: t.ID, Kind: "remove", Cost: t.Cost, CostUnknown: !t.CostKnown, Agreed: own}, first, first+1, first+2, first+3)
		}
		if canRaise {
			id := raiseID(t.ID)
			w.Pruned[id] = raised
			add(removal.Candidate{ID: id, Kind: "raise", Cost: crownPrice(t, raisePrice, leastRaisePrice), CostUnknown: true, Agreed: true}, first, first+1)
		}
		if canReduce {
			id := reduceID(t.ID)
			w.Pruned[id] = reduced
			add(removal.Candidate{ID: id, Kind: "reduce", Cost: crownPrice(t, reducePrice, leastReducePrice), CostUnknown: true, Agreed: true}, first, first+2)
		}
	}
	return place
}

// workRays are the energies of a demand with what each tree of the game lets
// through, and what passes no tree at all.
func workRays(a *shading.Account, d demand, place map[string]int, pruned map[staged]model.Tree) (fixed float64, rays []ray) {
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
	has := make([][2]bool, len(place))
	for id, i := range place {
		_, has[i][0] = pruned[staged{id, raiseVariant}]
		_, has[i][1] = pruned[staged{id, reduceVariant}]
	}
	fixed, behind := a.Behind(d.Demand)
	rays = make([]ray, len(behind))
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
				if !yes { // work that is no choice changes nothing
					rays[k].through[n][v+1] = rays[k].through[n][0]
				}
			}
		}
	}
	return fixed, rays
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

// term is a ray as a term of the game: the screens it crosses, tree by tree in
// their order, what work frees counted as net says.
func (r ray) term(kept [][2]float64) removal.Term {
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
	return term
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
