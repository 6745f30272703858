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
		if !wanted(months, time.Month(m+1)) {
			continue
		}
		for _, e := range table[m] {
			sum += e
		}
	}
	return sum
}

func wanted(months []time.Month, m time.Month) bool {
	return len(months) == 0 || slices.Contains(months, m)
}

// passing works out what the sets of an account let through in a state, one
// period after the other. Periods that follow each other mostly share the state
// of every leaf; then only the sets that are new are worked out.
type passing struct {
	account *Account
	state   State
	tau     []float64 // by blocker, in the period last asked for
	passed  []float64 // by set
	known   []int32   // by set: the leaf state passed is for
	leaf    int32
}

func (a *Account) passing(s State) *passing {
	return &passing{account: a, state: s, passed: make([]float64, len(a.Sets)), known: make([]int32, len(a.Sets))}
}

// through is what a set of blockers lets through together, each by its own tau.
func through(set []uint16, tau []float64) float64 {
	passed := 1.0
	for _, b := range set {
		passed *= tau[b]
	}
	return passed
}

// in gives, for every set that period p needs, the product of its blockers'
// transmissivities. It is overwritten by the next call.
func (q *passing) in(p int) []float64 {
	a := q.account
	tau := a.On(q.state, p)
	if q.leaf == 0 || !slices.Equal(tau, q.tau) {
		q.tau = tau
		q.leaf++
	}
	for _, set := range a.used[p] {
		if q.known[set] == q.leaf {
			continue
		}
		q.passed[set], q.known[set] = through(a.Sets[set], tau), q.leaf
	}
	return q.passed
}

// Read is what every surface gets in a state.
func (a *Account) Read(s State) []Reached {
	out := make([]Reached, len(a.Surfaces))
	for i := range a.Surfaces {
		from := &a.Surfaces[i]
		out[i] = Reached{ID: from.ID, Area: from.Area, Open: from.Open, Sun: from.Ground}
	}
	through := a.passing(s)
	for p := range a.Periods {
		passed := through.in(p)
		for i := range a.Surfaces {
			a.Surfaces[i].read(&out[i], p, a.Periods[p], passed)
		}
	}
	return out
}

// read adds what one period brings.
func (s *SurfaceAccount) read(r *Reached, p int, period Period, passed []float64) {
	month := &r.Sun[period.Month-1]
	for _, t := range s.beamIn(p) {
		month[t.hour] += t.energy * passed[t.set]
	}
	dome, band := s.skyThrough(passed)
	r.Sky += dome * float64(period.Days) / 365
	for h := range month {
		month[h] += dome*s.dome[p][h] + band*s.band[p][h]
	}
}

// skyThrough is the share of the even sky's and the band's light left.
func (s *SurfaceAccount) skyThrough(passed []float64) (dome, band float64) {
	for _, t := range s.sky {
		dome += t.dome * passed[t.set]
		band += t.band * passed[t.set]
	}
	return dome, band
}

// Totals is what every surface gets in a state in the given months (none: the
// year), kWh/m²: Read and Total in one, for asking often.
func (a *Account) Totals(s State, months ...time.Month) []float64 {
	out := make([]float64, len(a.Surfaces))
	for i := range a.Surfaces {
		out[i] = total(&a.Surfaces[i].Ground, months)
	}
	through := a.passing(s)
	for p := range a.Periods {
		if !wanted(months, a.Periods[p].Month) {
			continue
		}
		passed := through.in(p)
		for i := range a.Surfaces {
			from := &a.Surfaces[i]
			for _, t := range from.beamSum[p] {
				out[i] += t.energy * passed[t.set]
			}
			dome, band := from.skyThrough(passed)
			out[i] += dome*from.skySum[p].dome + band*from.skySum[p].band
		}
	}
	return out
}
