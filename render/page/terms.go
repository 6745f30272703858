package page

import (
	"encoding/binary"
	"math"
	"slices"
	"time"

	"github.com/southyard/southyard/shading"
)

// terms gathers the ledger's terms of every reading. A term is an energy and a
// factor; a factor is a state of leaf and the blockers crossed, and passes the
// product of what those that stand let through. What no tick can change,
// buildings and fences, is multiplied into the energy.
//
// In the file: Factors is 16-bit numbers, for each factor its leaf state, how
// many blockers follow, and the blockers; Index is the factor of each term,
// Energy its kWh(/m²) as 32-bit floats. All little-endian.
type terms struct {
	trees    map[string]int // thing → tree
	blockers []Blocker
	states   map[string]int // what passes every blocker → leaf state
	factors  []uint16
	known    map[string]uint32
	index    []uint32
	energy   []float32
}

// newTerms numbers the tree blockers that stand today, and the leaf states of
// the account's periods.
func newTerms(a *shading.Account, trees map[string]int) (t *terms, dayState []int) {
	t = &terms{trees: trees, states: map[string]int{}, known: map[string]uint32{}}
	for _, b := range a.Blockers {
		if i, ok := trees[b.Thing]; ok && b.Variant == "" {
			t.blockers = append(t.blockers, Blocker{Tree: i})
		}
	}
	today := a.Today()
	for p := range a.Periods {
		s := t.state(a, a.On(today, p))
		for range a.Periods[p].Days {
			dayState = append(dayState, s)
		}
	}
	return t, dayState
}

// number gives every blocker of an account its number among the tree blockers
// that stand today, or −1.
func (t *terms) number(a *shading.Account) []int {
	out := make([]int, len(a.Blockers))
	n := 0
	for i, b := range a.Blockers {
		out[i] = -1
		if _, ok := t.trees[b.Thing]; ok && b.Variant == "" {
			out[i] = n
			n++
		}
	}
	return out
}

// state is the leaf state in which the tree blockers let on pass.
func (t *terms) state(a *shading.Account, on []float64) int {
	var key []byte
	numbers := t.number(a)
	for b, n := range numbers {
		if n >= 0 {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(on[b]))
		}
	}
	if s, ok := t.states[string(key)]; ok {
		return s
	}
	s := len(t.states)
	t.states[string(key)] = s
	for b, n := range numbers {
		if n >= 0 {
			t.blockers[n].Tau = append(t.blockers[n].Tau, on[b])
		}
	}
	return s
}

// factor numbers a leaf state with the blockers crossed. Where two do the same
// to every tree they are one.
func (t *terms) factor(state int, crossed []uint16) uint32 {
	var key []byte
	for i := 0; i < len(crossed); {
		tree, tau := t.blockers[crossed[i]].Tree, 1.0
		for ; i < len(crossed) && t.blockers[crossed[i]].Tree == tree; i++ {
			tau *= t.blockers[crossed[i]].Tau[state]
		}
		if tau < 1 {
			key = binary.LittleEndian.AppendUint16(key, uint16(tree))
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(tau))
		}
	}
	if f, ok := t.known[string(key)]; ok {
		return f
	}
	f := uint32(len(t.known))
	t.known[string(key)] = f
	t.factors = append(t.factors, uint16(state), uint16(len(crossed)))
	t.factors = append(t.factors, crossed...)
	return f
}

// read enters what one surface (or several, weighted) gets in some months.
func (t *terms) read(a *shading.Account, d shading.Demand, open float64) Reading {
	fixed, entries := a.Behind(d)
	r := Reading{Open: open, Fixed: fixed, First: len(t.index)}
	number := t.number(a)
	today := a.Today()
	sums := map[uint32]float64{}
	period, state := -1, 0
	var on []float64
	for _, e := range entries {
		if e.Period != period {
			period, on = e.Period, a.On(today, e.Period)
			state = t.state(a, on)
		}
		energy := e.Energy
		var crossed []uint16
		for _, b := range a.Sets[e.Set] {
			if n := number[b]; n >= 0 {
				crossed = append(crossed, uint16(n))
			} else {
				energy *= on[b]
			}
		}
		if energy > 0 {
			sums[t.factor(state, crossed)] += energy
		}
	}
	factors := make([]uint32, 0, len(sums))
	for f := range sums {
		factors = append(factors, f)
	}
	slices.Sort(factors)
	for _, f := range factors {
		t.index = append(t.index, f)
		t.energy = append(t.energy, float32(sums[f]))
	}
	r.Count = len(t.index) - r.First
	return r
}

// one reads a single surface of an account.
func (t *terms) one(a *shading.Account, i int, months []time.Month, open float64) Reading {
	if len(months) == 0 {
		return Reading{First: len(t.index)} // Behind takes no months for the year
	}
	d := shading.Demand{Weights: make([]float64, len(a.Surfaces)), Months: months}
	d.Weights[i] = 1
	return t.read(a, d, open)
}

// pack puts the terms into the lot.
func (t *terms) pack(lot *Lot) {
	lot.Blockers = t.blockers
	for _, x := range t.factors {
		lot.Factors = binary.LittleEndian.AppendUint16(lot.Factors, x)
	}
	lot.Wide = len(t.known) > math.MaxUint16
	for i, f := range t.index {
		if lot.Wide {
			lot.Index = binary.LittleEndian.AppendUint32(lot.Index, f)
		} else {
			lot.Index = binary.LittleEndian.AppendUint16(lot.Index, uint16(f))
		}
		lot.Energy = binary.LittleEndian.AppendUint32(lot.Energy, math.Float32bits(t.energy[i]))
	}
}
