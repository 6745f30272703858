package removal

import (
	"fmt"
	"math"
	"math/rand/v2"
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

// randomGame is a ledger of rays through random sets of trees; a few of the
// trees are opaque, a few stand in nobody's way.
func randomGame(r *rand.Rand, trees, terms, deepest int) Game {
	g := Game{Trees: trees, Fixed: 50 * r.Float64()}
	for range terms {
		t := Term{Energy: 10 * r.Float64()}
		crossed := map[int]bool{}
		for range r.IntN(deepest + 1) {
			crossed[r.IntN(max(1, trees*9/10))] = true
		}
		for s := range trees {
			if crossed[s] {
				tau := 0.05 + 0.9*r.Float64()
				switch r.IntN(12) {
				case 0:
					tau = 0
				case 1:
					tau = 1
				}
				t.Trees, t.Tau = append(t.Trees, s), append(t.Tau, tau)
			}
		}
		g.Terms = append(g.Terms, t)
	}
	return g
}

func randomDecision(r *rand.Rand, trees, terms, deepest int) Decision {
	d := Decision{Game: randomGame(r, trees, terms, deepest)}
	for i := range trees {
		d.Candidates = append(d.Candidates, Candidate{
			ID: fmt.Sprintf("T%02d", i+1), Kind: "remove", Agreed: true,
			Cost: float64(200 + 50*r.IntN(40)),
		})
	}
	return d
}

// subsets calls visit for every subset of n, as a mask.
func subsets(n int, visit func(mask []bool)) {
	mask := make([]bool, n)
	for bits := range 1 << n {
		for i := range mask {
			mask[i] = bits>>i&1 == 1
		}
		visit(mask)
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}
