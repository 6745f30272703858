package page

import (
	"cmp"
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
// In the file: Factors is 8-bit or 16-bit numbers, for each factor its leaf state, how
// many blockers follow, and the blockers; Index is the factor of each term,
// Energy its kWh(/m²) in the reading's unit, 16-bit. All little-endian.
type terms struct {
	trees    map[string]int // thing → tree
	blockers []Blocker
	states   map[string]int // what passes every blocker → leaf state
	factors  []uint16
	known    map[string]uint32
	index    []uint32
	energy   []uint16
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

// term is energy behind a leaf state and the blockers crossed.
type term struct {
	state   int
	crossed []uint16
	energy  float64
	passes  float64 // today
}

// key is the same for leaf states and blockers that do the same to every tree.
func (t *terms) key(state int, crossed []uint16) (key string, passes float64) {
	var b []byte
	passes = 1
	for i := 0; i < len(crossed); {
		tree, tau := t.blockers[crossed[i]].Tree, 1.0
		for ; i < len(crossed) && t.blockers[crossed[i]].Tree == tree; i++ {
			tau *= t.blockers[crossed[i]].Tau[state]
		}
		if tau < 1 {
			b = binary.LittleEndian.AppendUint16(b, uint16(tree))
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(tau))
			passes *= tau
		}
	}
	return string(b), passes
}

// factor numbers what stands before a term.
func (t *terms) factor(key string, x *term) uint32 {
	if f, ok := t.known[key]; ok {
		return f
	}
	f := uint32(len(t.known))
	t.known[key] = f
	t.factors = append(t.factors, uint16(x.state), uint16(len(x.crossed)))
	t.factors = append(t.factors, x.crossed...)
	return f
}

// What may be left out of a reading, as a share of what it is today: the
// smallest terms, which then count as they are today. No set can be off by more.
const (
	exact  = 5e-4
	inMaps = 5e-3
)

// read enters what one surface (or several, weighted) gets in some months.
func (t *terms) read(a *shading.Account, d shading.Demand, open, spare float64) Reading {
	fixed, entries := a.Behind(d)
	number := t.number(a)
	today := a.Today()
	sums := map[string]*term{}
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
		if !(energy > 0) {
			continue
		}
		key, passes := t.key(state, crossed)
		if sums[key] == nil {
			sums[key] = &term{state: state, crossed: crossed, passes: passes}
		}
		sums[key].energy += energy
	}
	keys, now := make([]string, 0, len(sums)), fixed
	for key := range sums {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(x, y string) int {
		return cmp.Or(cmp.Compare(sums[x].energy, sums[y].energy), cmp.Compare(x, y))
	})
	for _, key := range keys {
		now += sums[key].energy * sums[key].passes
	}
	r := Reading{Open: open, First: len(t.index)}
	if n := len(keys); n > 0 {
		r.Unit = sums[keys[n-1]].energy / math.MaxUint16
	}
	left := spare * now
	for _, key := range keys {
		x := sums[key]
		if left -= x.energy; left >= 0 || key == "" {
			fixed += x.energy * x.passes
			continue
		}
		t.index = append(t.index, t.factor(key, x))
		t.energy = append(t.energy, uint16(math.Round(x.energy/r.Unit)))
	}
	r.Fixed, r.Count = fixed, len(t.index)-r.First
	return r
}

// one reads a single surface of an account.
func (t *terms) one(a *shading.Account, i int, months []time.Month, open, spare float64) Reading {
	if len(months) == 0 {
		return Reading{First: len(t.index)} // Behind takes no months for the year
	}
	d := shading.Demand{Weights: make([]float64, len(a.Surfaces)), Months: months}
	d.Weights[i] = 1
	return t.read(a, d, open, spare)
}

// mark is how much has been entered, to come back to.
type mark struct{ factors, known, terms int }

func (t *terms) mark() mark { return mark{len(t.factors), len(t.known), len(t.index)} }

// back forgets what was entered after a mark.
func (t *terms) back(m mark) {
	t.factors, t.index, t.energy = t.factors[:m.factors], t.index[:m.terms], t.energy[:m.terms]
	for key, f := range t.known {
		if int(f) >= m.known {
			delete(t.known, key)
		}
	}
}

// bytes is how much the terms will take, packed.
func (t *terms) bytes() int {
	n := len(t.factors) + 4*len(t.index)
	if len(t.known) > math.MaxUint16 {
		n += 2 * len(t.index)
	}
	return n
}

// pack puts the terms into the lot.
func (t *terms) pack(lot *Lot) {
	lot.Blockers = t.blockers
	lot.Narrow = len(t.factors) > 0 && slices.Max(t.factors) <= math.MaxUint8
	for _, x := range t.factors {
		if lot.Narrow {
			lot.Factors = append(lot.Factors, byte(x))
			continue
		}
		lot.Factors = binary.LittleEndian.AppendUint16(lot.Factors, x)
	}
	lot.Wide = len(t.known) > math.MaxUint16
	for i, f := range t.index {
		if lot.Wide {
			lot.Index = binary.LittleEndian.AppendUint32(lot.Index, f)
		} else {
			lot.Index = binary.LittleEndian.AppendUint16(lot.Index, uint16(f))
		}
		lot.Energy = binary.LittleEndian.AppendUint16(lot.Energy, t.energy[i])
	}
}
