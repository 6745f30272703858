package shading

// Shares reads hour by hour what passes in one state of the lot.
type Shares struct {
	ledger *YearLedger
	passed [][]float64 // by period and set
	period []int       // by day, from 0
	sky    [][]float64 // by surface and period
	band   [][]float64 // by surface and period
}

// Shares makes the hourly reading of a state. The ledger must be the one the
// account was made from.
func (a *Account) Shares(l *YearLedger, s State) *Shares {
	out := &Shares{ledger: l, passed: make([][]float64, len(a.Periods)), sky: make([][]float64, len(a.Surfaces)), band: make([][]float64, len(a.Surfaces))}
	for p := range a.Periods {
		tau := a.On(s, p)
		row := make([]float64, len(a.Sets))
		for set, blockers := range a.Sets {
			row[set] = 1
			for _, b := range blockers {
				row[set] *= tau[b]
			}
		}
		out.passed[p] = row
		for range a.Periods[p].Days {
			out.period = append(out.period, p)
		}
	}
	for i := range a.Surfaces {
		out.sky[i], out.band[i] = make([]float64, len(a.Periods)), make([]float64, len(a.Periods))
		for p := range a.Periods {
			for _, t := range a.Surfaces[i].sky {
				out.sky[i][p] += t.dome * out.passed[p][t.set]
				out.band[i][p] += t.band * out.passed[p][t.set]
			}
		}
	}
	return out
}

// Beam is the share of the beam on a surface that reaches it in hour i of the
// year, 0..1.
func (s *Shares) Beam(surface, i int) float64 {
	passed := s.passed[s.period[i/24]]
	sum := 0.0
	for _, e := range s.ledger.Hour(surface, i) {
		sum += e.Share * passed[e.Set]
	}
	return sum
}

// Sky is the share of an even sky's light on a surface that reaches it on the
// day of hour i, 0..1.
func (s *Shares) Sky(surface, i int) float64 { return s.sky[surface][s.period[i/24]] }

// Band is the share of the horizon band's light on a surface that reaches it
// on the day of hour i, 0..1.
func (s *Shares) Band(surface, i int) float64 { return s.band[surface][s.period[i/24]] }
