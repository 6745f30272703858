package study

import (
	"encoding/binary"
	"math"
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// decisions makes every target's game: every tree that is not marked to keep is
// a candidate, the neighbour's and the street's only if they agreed. Targets look
// through the same trees, so the terms of their games share their lists of trees
// and transmissivities.
func (st *Study) decisions(demands []demand) []removal.Decision {
	a := st.Account
	player := map[string]int{}
	candidates := []removal.Candidate(nil)
	for _, tree := range st.Site.Trees {
		if !tree.Removable && tree.Owner == model.OwnerLot {
			continue
		}
		player[tree.ID] = len(candidates)
		candidates = append(candidates, removal.Candidate{
			ID: tree.ID, Kind: "remove", Cost: tree.Cost, CostUnknown: !tree.CostKnown,
			Owner: string(tree.Owner), Agreed: tree.Owner == model.OwnerLot && tree.Removable,
		})
	}
	playerOf := make([]int, len(a.Blockers))
	for b := range a.Blockers {
		playerOf[b] = -1
		if p, ok := player[a.Blockers[b].Thing]; ok && a.Blockers[b].Variant == "" {
			playerOf[b] = p
		}
	}
	book := newTermBook(len(candidates), len(demands), len(a.Sets))
	behind := make([]*behindBy, len(demands))
	for n, d := range demands {
		behind[n] = newBehindBy(a, d.Demand)
		book.fixed[n] = behind[n].fixed
	}
	var sets []int32
	met := make([]bool, len(a.Sets))
	for _, m := range moments(a, a.Today()) {
		sets = sets[:0]
		for n := range demands {
			for _, set := range behind[n].sum(m.periods) {
				if !met[set] {
					met[set] = true
					sets = append(sets, set)
				}
			}
		}
		slices.Sort(sets)
		for _, set := range sets {
			met[set] = false
			book.enter(set, a.Sets[set], playerOf, m.on, func(n int) float64 { return behind[n].take(set) })
		}
	}
	out := make([]removal.Decision, len(demands))
	for n := range demands {
		out[n] = removal.Decision{Candidates: slices.Clone(candidates), Game: book.game(n)}
	}
	return out
}

// moment is all the periods in which every blocker lets through the same.
type moment struct {
	on      []float64 // by blocker
	periods []int
}

// moments puts periods together that differ in nothing that matters to a plan:
// the months in which all trees are bare make one.
func moments(a *shading.Account, state shading.State) []moment {
	var out []moment
	for p := range a.Periods {
		on := a.On(state, p)
		at := slices.IndexFunc(out, func(m moment) bool { return slices.Equal(m.on, on) })
		if at < 0 {
			at = len(out)
			out = append(out, moment{on: on})
		}
		out[at].periods = append(out[at].periods, p)
	}
	return out
}

// behindBy adds up a demand's energies by set of blockers over several periods.
type behindBy struct {
	fixed   float64
	entries []shading.Behind // by period
	first   []int            // period → its first entry, and one more
	energy  []float64        // by set
	met     []bool
	sets    []int32
}

func newBehindBy(a *shading.Account, d shading.Demand) *behindBy {
	b := &behindBy{first: make([]int, len(a.Periods)+1), energy: make([]float64, len(a.Sets)), met: make([]bool, len(a.Sets))}
	b.fixed, b.entries = a.Behind(d)
	for _, e := range b.entries {
		b.first[e.Period+1]++
	}
	for p := range a.Periods {
		b.first[p+1] += b.first[p]
	}
	return b
}

// sum adds up the given periods and lists the sets met, in no order.
func (b *behindBy) sum(periods []int) []int32 {
	b.sets = b.sets[:0]
	for _, p := range periods {
		for _, e := range b.entries[b.first[p]:b.first[p+1]] {
			if !b.met[e.Set] {
				b.met[e.Set] = true
				b.sets = append(b.sets, e.Set)
			}
			b.energy[e.Set] += e.Energy
		}
	}
	return b.sets
}

// take is the energy behind a set, which is forgotten.
func (b *behindBy) take(set int32) float64 {
	e := b.energy[set]
	b.energy[set], b.met[set] = 0, false
	return e
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
