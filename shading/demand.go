package shading

import "time"

// Demand is the sun somebody asks for: surfaces with weights, in some months.
type Demand struct {
	Weights []float64    // by surface of the account; what 1 kWh/m² there counts for
	Months  []time.Month // none: the whole year
}

// Behind is energy that reaches the demand through exactly one set of
// blockers in one period.
type Behind struct {
	Period int
	Set    int32
	Energy float64
}

// Behind lists what stands in front of the demand's sun, and the part nothing
// can shade. The energy reached in a state is fixed plus the sum of each
// entry's energy times the transmissivities of its set.
func (a *Account) Behind(d Demand) (fixed float64, entries []Behind) {
	for i := range a.Surfaces {
		if w := d.Weights[i]; w != 0 {
			fixed += w * total(&a.Surfaces[i].Ground, d.Months)
		}
	}
	sums := newTally(len(a.Sets))
	room := 0
	for p := range a.Periods {
		if wanted(d.Months, a.Periods[p].Month) {
			room += len(a.used[p])
		}
	}
	entries = make([]Behind, 0, room)
	for p := range a.Periods {
		if !wanted(d.Months, a.Periods[p].Month) {
			continue
		}
		for i := range a.Surfaces {
			w := d.Weights[i]
			if w == 0 {
				continue
			}
			s := &a.Surfaces[i]
			for _, t := range s.beamSum[p] {
				sums.add(t.set, w*t.energy)
			}
			for _, t := range s.sky {
				if e := w * (t.dome*s.skySum[p].dome + t.band*s.skySum[p].band); e > 0 {
					sums.add(t.set, e)
				}
			}
		}
		sums.take(func(set int32, e float64) { entries = append(entries, Behind{p, set, e}) })
	}
	return fixed, entries
}

// Through is the share of an even sky's and of the horizon band's light on a
// surface that comes through exactly one set of blockers.
type Through struct {
	Set        int32
	Dome, Band float64
}

// SkyThrough lists what stands in front of a surface's sky.
func (a *Account) SkyThrough(surface int) []Through {
	var out []Through
	for _, t := range a.Surfaces[surface].sky {
		out = append(out, Through{t.set, t.dome, t.band})
	}
	return out
}

// On is the transmissivity of every blocker in a state in a period.
func (a *Account) On(s State, period int) []float64 {
	tau := make([]float64, len(s))
	for b := range s {
		tau[b] = s[b].On(a.Periods[period].leafDay)
	}
	return tau
}
