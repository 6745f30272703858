package removal

import (
	"math"
	"sort"
)

// Standing is what one candidate is worth, all gains in kWh.
type Standing struct {
	Candidate
	Allowed bool `json:"allowed"`

	// Alone: nothing else done. AfterAllOthers: done last, when all other allowed
	// removals are done. Fair: its share of removing all that is allowed, averaged
	// over every order; null for what is not a removal or not allowed.
	Alone          float64  `json:"alone"`
	AfterAllOthers float64  `json:"after_all_others"`
	Fair           *float64 `json:"fair"`

	// Dollars for each kWh, by the gain alone and by the fair share; null where
	// nothing is gained.
	CostPerKWhAlone *float64 `json:"cost_per_kwh_alone"`
	CostPerKWhFair  *float64 `json:"cost_per_kwh_fair"`

	// OfOpen is Alone as a share, 0..1, of what would reach the target with no
	// tree: what this one costs you today.
	OfOpen float64 `json:"of_open"`
}

// Rank is the standing of every candidate, the greatest fair share first, then
// by the gain alone. Those not allowed (a street tree, one marked to keep) are
// not players: they stand where they are, and only their own gains are given.
func (d Decision) Rank(allowed []bool) []Standing {
	list := d.standings(allowed, true)
	sort.Slice(list, func(a, b int) bool {
		x, y := list[a].worth(), list[b].worth()
		switch {
		case x != y:
			return x > y
		case list[a].Alone != list[b].Alone:
			return list[a].Alone > list[b].Alone
		}
		return list[a].ID < list[b].ID
	})
	return list
}

// standings are the standings by candidate, with or without fair shares.
func (d Decision) standings(allowed []bool, withFair bool) []Standing {
	players := d.players(allowed)
	// A tree whose removal is not allowed has no fair share, though raising it
	// may be allowed.
	fair := make([]*float64, len(d.Candidates))
	if withFair {
		if plain, ok := d.Game.Whole(players); ok {
			for p, share := range plain.FairShare() {
				fair[players[p]] = &share
			}
		}
	}
	open := d.Game.Open()
	alone, last := d.alone(players)
	list := make([]Standing, len(d.Candidates))
	for i, c := range d.Candidates {
		s := Standing{
			Candidate:      c,
			Allowed:        i < len(allowed) && allowed[i],
			Alone:          math.Max(0, alone[i]),
			AfterAllOthers: math.Max(0, last[i]),
			Fair:           fair[i],
		}
		s.CostPerKWhAlone = CostPerKWh(c.Cost, s.Alone)
		if s.Fair != nil {
			s.CostPerKWhFair = CostPerKWh(c.Cost, *s.Fair)
		}
		if open > 0 {
			s.OfOpen = s.Alone / open
		}
		list[i] = s
	}
	return list
}

// players are the removals allowed.
func (d Decision) players(allowed []bool) []int {
	players := []int{}
	for i, removal := range d.Removals() {
		if removal && i < len(allowed) && allowed[i] {
			players = append(players, i)
		}
	}
	return players
}

// alone is the gain of every candidate with nothing else done, last that with
// all players of the other trees gone; kWh.
func (d Decision) alone(players []int) (alone, last []float64) {
	if d.Game.Clears == nil {
		return d.Game.aloneAndLast(players)
	}
	f := d.fieldCut(d.groups(d.All()), math.MaxInt) // all of it, exactly
	standing := make([]state, len(f.owner))
	cleared := make([]state, len(f.owner))
	player := make([]bool, len(d.Candidates))
	for _, p := range players {
		player[p] = true
	}
	for t, group := range f.groups {
		for c, i := range group {
			if player[i] {
				for _, s := range f.clears[t][c] {
					cleared[s] = gone
				}
			}
		}
	}
	alone, last = make([]float64, len(d.Candidates)), make([]float64, len(d.Candidates))
	first, final := f.adds(f.heavy, standing, standing), f.adds(f.heavy, standing, cleared)
	for t, group := range f.groups {
		for c, i := range group {
			alone[i], last[i] = first[t][c], final[t][c]
		}
	}
	return alone, last
}

// aloneAndLast is the same where every candidate is a tree to remove: one pass
// over the terms.
func (g Game) aloneAndLast(players []int) (alone, last []float64) {
	alone, last = make([]float64, g.Trees), make([]float64, g.Trees)
	goes := make([]bool, g.Trees)
	for _, p := range players {
		goes[p] = true
	}
	var after, cleared []float64 // the energy times the trees' factors from here to the last
	for k := range g.Terms {
		t := &g.Terms[k]
		n := len(t.Trees)
		if len(after) <= n {
			after, cleared = make([]float64, n+1), make([]float64, n+1)
		}
		after[n], cleared[n] = t.Energy, t.Energy
		for j := n - 1; j > 0; j-- {
			after[j], cleared[j] = after[j+1]*t.Tau[j], cleared[j+1]
			if !goes[t.Trees[j]] {
				cleared[j] *= t.Tau[j]
			}
		}
		before, opened := 1.0, 1.0
		for j, tree := range t.Trees {
			tau := t.Tau[j]
			alone[tree] += before * after[j+1] * (1 - tau)
			last[tree] += opened * cleared[j+1] * (1 - tau)
			before *= tau
			if !goes[tree] {
				opened *= tau
			}
		}
	}
	return alone, last
}

func (s Standing) worth() float64 {
	if s.Fair == nil {
		return 0
	}
	return *s.Fair
}
