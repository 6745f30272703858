package study

import (
	"encoding/binary"
	"math"
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// decision makes the target's game: every tree that is not marked to keep is a
// candidate, the neighbour's and the street's only if they agreed.
func (st *Study) decision(d demand) removal.Decision {
	a := st.Account
	player := map[string]int{}
	out := removal.Decision{}
	for _, tree := range st.Site.Trees {
		if !tree.Removable && tree.Owner == model.OwnerLot {
			continue
		}
		player[tree.ID] = len(out.Candidates)
		out.Candidates = append(out.Candidates, removal.Candidate{
			ID: tree.ID, Kind: "remove", Cost: tree.Cost, CostUnknown: !tree.CostKnown,
			Owner: string(tree.Owner), Agreed: tree.Owner == model.OwnerLot && tree.Removable,
		})
	}
	out.Game.Trees = len(out.Candidates)
	playerOf := make([]int, len(a.Blockers))
	for b := range a.Blockers {
		playerOf[b] = -1
		if p, ok := player[a.Blockers[b].Thing]; ok && a.Blockers[b].Variant == "" {
			playerOf[b] = p
		}
	}
	fixed, behind := a.Behind(d.Demand)
	for _, m := range moments(a, a.Today(), behind) {
		more, terms := termsOf(a, m, playerOf)
		fixed += more
		out.Game.Terms = append(out.Game.Terms, terms...)
	}
	out.Game.Fixed = fixed
	out.Game.Terms = merged(out.Game.Terms)
	return out
}

// moment is what the sets of blockers stand in front of in all the periods in
// which every blocker lets through the same.
type moment struct {
	on     []float64 // by blocker
	sets   []int32
	energy []float64 // by place in sets
}

// moments puts periods together that differ in nothing that matters to a plan:
// the months in which all trees are bare make one.
func moments(a *shading.Account, state shading.State, behind []shading.Behind) []moment {
	var out []moment
	at := make([]int, len(a.Periods)) // period → moment
	for p := range a.Periods {
		on := a.On(state, p)
		at[p] = slices.IndexFunc(out, func(m moment) bool { return slices.Equal(m.on, on) })
		if at[p] < 0 {
			at[p] = len(out)
			out = append(out, moment{on: on})
		}
	}
	sums := make([]float64, len(a.Sets))
	met := make([]bool, len(a.Sets))
	for i := range out {
		m := &out[i]
		for _, e := range behind {
			if at[e.Period] != i {
				continue
			}
			if !met[e.Set] {
				met[e.Set] = true
				m.sets = append(m.sets, e.Set)
			}
			sums[e.Set] += e.Energy
		}
		slices.Sort(m.sets)
		m.energy = make([]float64, len(m.sets))
		for k, set := range m.sets {
			m.energy[k] = sums[set]
			sums[set], met[set] = 0, false
		}
	}
	return out
}

// termsOf turns a moment into terms of a game; fixed is the energy that no
// player stands in front of. Nothing gets through a wall, whatever goes.
func termsOf(a *shading.Account, m moment, playerOf []int) (fixed float64, terms []removal.Term) {
	long := 0
	for _, set := range m.sets {
		long += len(a.Sets[set])
	}
	players, taus := make([]int, 0, long), make([]float64, 0, long) // of all terms, end to end
	terms = make([]removal.Term, 0, len(m.sets))
	for k, set := range m.sets {
		energy, first := m.energy[k], len(players)
		for _, b := range a.Sets[set] {
			p, tau := playerOf[b], m.on[b]
			if p < 0 {
				energy *= tau
				continue
			}
			if tau == 1 {
				continue
			}
			at := len(players)
			for at > first && players[at-1] > p {
				at--
			}
			if at > first && players[at-1] == p {
				taus[at-1] *= tau // crown and trunk of one tree
				continue
			}
			players, taus = slices.Insert(players, at, p), slices.Insert(taus, at, tau)
		}
		last := len(players)
		switch {
		case energy == 0:
			players, taus = players[:first], taus[:first]
		case last == first:
			fixed += energy
		default:
			terms = append(terms, removal.Term{Energy: energy, Trees: players[first:last:last], Tau: taus[first:last:last]})
		}
	}
	return fixed, terms
}

// merged adds up terms with the same trees and transmissivities.
func merged(terms []removal.Term) []removal.Term {
	place := make(map[string]int, len(terms))
	out := make([]removal.Term, 0, len(terms))
	var key []byte
	for _, t := range terms {
		key = key[:0]
		for k, tree := range t.Trees {
			key = binary.LittleEndian.AppendUint32(key, uint32(tree))
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(t.Tau[k]))
		}
		if at, ok := place[string(key)]; ok {
			out[at].Energy += t.Energy
			continue
		}
		place[string(key)] = len(out)
		out = append(out, t)
	}
	return out
}
