package shading

import "slices"

// Shares reads hour by hour what passes in one state of the lot. What a set
// lets through is worked out when it is first asked for, so a Shares belongs to
// one goroutine.
type Shares struct {
	ledger *YearLedger
	sets   [][]uint16
	leaves []leafShares
	leaf   []int       // by period: which of leaves
	period []int       // by day, from 0
	sky    [][]float64 // by surface and period
	band   [][]float64 // by surface and period
}

// leafShares is what passes through the sets in one state of every leaf, which
// several periods may have.
type leafShares struct {
	tau    []float64 // by blocker
	passed []float64 // by set; negative where it is not worked out yet
}

// Shares makes the hourly reading of a state. The ledger must be the one the
// account was made from.
func (a *Account) Shares(l *YearLedger, s State) *Shares {
	out := &Shares{ledger: l, sets: a.Sets, sky: make([][]float64, len(a.Surfaces)), band: make([][]float64, len(a.Surfaces))}
	for p := range a.Periods {
		tau := a.On(s, p)
		leaf := slices.IndexFunc(out.leaves, func(l leafShares) bool { return slices.Equal(l.tau, tau) })
		if leaf < 0 {
			leaf = len(out.leaves)
			out.leaves = append(out.leaves, leafShares{tau, slices.Repeat([]float64{-1}, len(a.Sets))})
		}
		out.leaf = append(out.leaf, leaf)
		for range a.Periods[p].Days {
			out.period = append(out.period, p)
		}
	}
	for i := range a.Surfaces {
		out.sky[i], out.band[i] = make([]float64, len(a.Periods)), make([]float64, len(a.Periods))
		for p := range a.Periods {
			leaf := &out.leaves[out.leaf[p]]
			for _, t := range a.Surfaces[i].sky {
				passed := leaf.through(t.set, a.Sets)
				out.sky[i][p] += t.dome * passed
				out.band[i][p] += t.band * passed
			}
		}
	}
	return out
}

// through is what a set lets through.
func (l *leafShares) through(set int32, sets [][]uint16) float64 {
	if passed := l.passed[set]; passed >= 0 {
		return passed
	}
	l.passed[set] = through(sets[set], l.tau)
	return l.passed[set]
}

// Beam is the share of the beam on a surface that reaches it in hour i of the
// year, 0..1.
func (s *Shares) Beam(surface, i int) float64 {
	leaf := &s.leaves[s.leaf[s.period[i/24]]]
	sum := 0.0
	for _, e := range s.ledger.Hour(surface, i) {
		sum += e.Share * leaf.through(e.Set, s.sets)
	}
	return sum
}

// Sky is the share of an even sky's light on a surface that reaches it on the
// day of hour i, 0..1.
func (s *Shares) Sky(surface, i int) float64 { return s.sky[surface][s.period[i/24]] }

// Band is the share of the horizon band's light on a surface that reaches it
// on the day of hour i, 0..1.
func (s *Shares) Band(surface, i int) float64 { return s.band[surface][s.period[i/24]] }
