package shading

import (
	"slices"
)

// Account is a ledger with the year's energies entered: what every set of
// blockers stands in front of, by month, hour of the day and state of leaf.
// Any question about trees gone, thinned or grown in place is a reading of it.
type Account struct {
	Blockers []Blocker
	Sets     [][]uint16
	Periods  []Period
	Surfaces []SurfaceAccount
	used     [][]int32 // period → the sets it needs
}

// SurfaceAccount is one surface's part. Energies are kWh/m².
type SurfaceAccount struct {
	ID     string
	Area   float64         // m²
	Open   [12][24]float64 // on the bare plane in an open field, by month and hour
	Ground [12][24]float64 // the ground-reflected part of Open, which is not shaded
	beam   []beamTerm      // by period, hour and set
	ends   []int           // where each period's part of beam ends
	dome   [][24]float64   // by period and hour, unobstructed
	band   [][24]float64
	sky    []skyTerm
	// The same summed over the hours of the day.
	beamSum [][]setEnergy // by period
	skySum  []lightIn
}

// beamTerm is the beam and circumsolar energy behind a set of blockers.
type beamTerm struct {
	period uint16
	hour   uint16
	set    int32
	energy float64
}

// setEnergy is the energy behind a set of blockers, kWh/m².
type setEnergy struct {
	set    int32
	energy float64
}

// lightIn is what an even sky and the band above the horizon bring to the open
// plane in a period, kWh/m².
type lightIn struct{ dome, band float64 }

// beamIn are the terms of period p.
func (s *SurfaceAccount) beamIn(p int) []beamTerm {
	first := 0
	if p > 0 {
		first = s.ends[p-1]
	}
	return s.beam[first:s.ends[p]]
}

// sumUp adds up each period over the hours of the day.
func (s *SurfaceAccount) sumUp() {
	s.beamSum, s.skySum = make([][]setEnergy, len(s.dome)), make([]lightIn, len(s.dome))
	for p := range s.dome {
		sums := make([]setEnergy, 0, len(s.beamIn(p)))
		for _, t := range s.beamIn(p) {
			sums = append(sums, setEnergy{t.set, t.energy})
		}
		slices.SortStableFunc(sums, func(x, y setEnergy) int { return int(x.set) - int(y.set) })
		kept := sums[:0]
		for _, t := range sums {
			if n := len(kept); n > 0 && kept[n-1].set == t.set {
				kept[n-1].energy += t.energy
				continue
			}
			kept = append(kept, t)
		}
		s.beamSum[p] = slices.Clone(kept)
		for h := range s.dome[p] {
			s.skySum[p].dome += s.dome[p][h]
			s.skySum[p].band += s.band[p][h]
		}
	}
}

// skyTerm is the share of the even sky's and of the horizon band's light that
// comes through a set of blockers.
type skyTerm struct {
	set        int32
	dome, band float64
}

// NewAccount enters the year's energies into a ledger.
func (sc *Scene) NewAccount(l *YearLedger, light *Light) *Account {
	a := &Account{Blockers: sc.Blockers, Sets: l.Sets, Periods: periodsOf(sc.Blockers)}
	a.Surfaces = make([]SurfaceAccount, len(l.Which))
	inParallel(len(l.Which), func(s int) {
		surface := &sc.Surfaces[l.Which[s]]
		a.Surfaces[s] = enter(surface, l, s, light.on(surface.Face.N), a.Periods)
	})
	a.used = make([][]int32, len(a.Periods))
	need := newTally(len(l.Sets))
	for p := range a.used {
		for s := range a.Surfaces {
			for _, t := range a.Surfaces[s].beamSum[p] {
				need.add(t.set, 0)
			}
			for _, t := range a.Surfaces[s].sky {
				need.add(t.set, 0)
			}
		}
		need.take(func(set int32, _ float64) { a.used[p] = append(a.used[p], set) })
	}
	return a
}

func enter(surface *Surface, l *YearLedger, s int, light *planeLight, periods []Period) SurfaceAccount {
	out := SurfaceAccount{ID: surface.ID, Area: surface.Face.Area, dome: make([][24]float64, len(periods)), band: make([][24]float64, len(periods))}
	behind := newTally(len(l.Sets))
	first := 0 // day
	for p := range periods {
		for hour := range 24 {
			for day := first; day < first+periods[p].Days; day++ {
				i := 24*day + hour
				out.Open[periods[p].Month-1][hour] += light.open[i]
				out.Ground[periods[p].Month-1][hour] += light.ground[i]
				out.dome[p][hour] += light.dome[i]
				out.band[p][hour] += light.band[i]
				if direct := light.direct[i]; direct > 0 {
					for _, e := range l.Hour(s, i) {
						behind.add(e.Set, direct*e.Share)
					}
				}
			}
			behind.take(func(set int32, e float64) {
				out.beam = append(out.beam, beamTerm{uint16(p), uint16(hour), set, e})
			})
		}
		out.ends = append(out.ends, len(out.beam))
		first += periods[p].Days
	}
	dome, band := domeWeights(l.Patches, surface.Face.N)
	low := newTally(len(l.Sets))
	for i := range l.Patches {
		for _, e := range l.Patch(s, i) {
			behind.add(e.Set, dome[i]*e.Share)
			low.add(e.Set, band[i]*e.Share)
		}
	}
	behind.take(func(set int32, share float64) {
		out.sky = append(out.sky, skyTerm{set, share, low.sum[set]})
	})
	out.sumUp()
	return out
}
