package shading

import (
	"slices"
	"time"
)

// State is the optics of every blocker of an account, in its order.
type State []Optics

// Today is the state of the lot as it stands: nothing that is only planned.
func (a *Account) Today() State {
	s := make(State, len(a.Blockers))
	for i, b := range a.Blockers {
		s[i] = Clear
		if b.Variant == "" {
			s[i] = b.Optics
		}
	}
	return s
}

// Without is the state with some things (trees or structures) gone.
func (a *Account) Without(s State, things ...string) State {
	out := slices.Clone(s)
	for i, b := range a.Blockers {
		if slices.Contains(things, b.Thing) {
			out[i] = Clear
		}
	}
	return out
}

// With is the state in which a variant of a thing stands in the place of the
// thing itself.
func (a *Account) With(s State, thing, variant string) State {
	out := slices.Clone(s)
	for i, b := range a.Blockers {
		if b.Thing == thing {
			out[i] = Clear
			if b.Variant == variant {
				out[i] = b.Optics
			}
		}
	}
	return out
}

// Reached is the sun that reaches one surface in a state, kWh/m² by month and
// hour of the day (local standard time), with what an open field would give.
type Reached struct {
	ID   string
	Area float64
	Sun  [12][24]float64
	Open [12][24]float64
	Sky  float64 // yearly mean share of the even sky seen
}

// Total is the sun of the given months, kWh/m²; no months means the year.
func (r *Reached) Total(months ...time.Month) float64 { return total(&r.Sun, months) }

// OpenTotal is what an open field gives in the given months, kWh/m².
func (r *Reached) OpenTotal(months ...time.Month) float64 { return total(&r.Open, months) }

// Access is the solar access of the given months: the share of their sun that
// obstructions leave, 0..1, weighted by energy. It is 0 where there is no sun.
func (r *Reached) Access(months ...time.Month) float64 {
	open := r.OpenTotal(months...)
	if open <= 0 {
		return 0
	}
	return min(1, r.Total(months...)/open)
}

func total(table *[12][24]float64, months []time.Month) float64 {
	sum := 0.0
	for m := range table {
		if len(months) > 0 && !slices.Contains(months, time.Month(m+1)) {
			continue
		}
		for _, e := range table[m] {
			sum += e
		}
	}
	return sum
}

// passed is the product of transmissivities for every period and set it needs.
func (a *Account) passed(s State) [][]float64 {
	table := make([][]float64, len(a.Periods))
	flat := make([]float64, len(a.Periods)*len(a.Sets))
	tau := make([]float64, len(a.Blockers))
	for p := range a.Periods {
		for b := range tau {
			tau[b] = s[b].On(a.Periods[p].leafDay)
		}
		row := flat[p*len(a.Sets) : (p+1)*len(a.Sets)]
		for _, set := range a.used[p] {
			t := 1.0
			for _, b := range a.Sets[set] {
				t *= tau[b]
			}
			row[set] = t
		}
		table[p] = row
	}
	return table
}

// Read is what every surface gets in a state.
func (a *Account) Read(s State) []Reached {
	passed := a.passed(s)
	out := make([]Reached, len(a.Surfaces))
	for i := range a.Surfaces {
		out[i] = a.read(&a.Surfaces[i], passed)
	}
	return out
}

func (a *Account) read(s *SurfaceAccount, passed [][]float64) Reached {
	r := Reached{ID: s.ID, Area: s.Area, Open: s.Open, Sun: s.Ground}
	for _, t := range s.beam {
		r.Sun[a.Periods[t.period].Month-1][t.hour] += t.energy * passed[t.period][t.set]
	}
	for p := range a.Periods {
		var dome, band float64
		for _, t := range s.sky {
			dome += t.dome * passed[p][t.set]
			band += t.band * passed[p][t.set]
		}
		r.Sky += dome * float64(a.Periods[p].Days) / 365
		month := &r.Sun[a.Periods[p].Month-1]
		for h := range month {
			month[h] += dome*s.dome[p][h] + band*s.band[p][h]
		}
	}
	return r
}
