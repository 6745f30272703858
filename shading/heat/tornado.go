package heat

import "sort"

// Doubt is an input that may be off: its value as used and the lowest and
// highest it may well be.
type Doubt struct {
	Name    string  `json:"name"`
	Low     float64 `json:"low"`
	Used    float64 `json:"used"`
	High    float64 `json:"high"`
	Unit    string  `json:"unit"`
	Assumed bool    `json:"assumed"`
	Why     string  `json:"why"`
}

// Bar is one bar of the tornado: the result with the input low and high, all
// others as used.
type Bar struct {
	Doubt
	AtLow  float64 `json:"result_at_low"`
	AtHigh float64 `json:"result_at_high"`
	Swing  float64 `json:"swing"`
}

// Tornado varies each input alone and sorts by what it moves, widest first.
// result gets all inputs in the order given and answers in any one unit.
func Tornado(doubts []Doubt, result func(inputs []float64) float64) (used float64, bars []Bar) {
	inputs := make([]float64, len(doubts))
	for i, d := range doubts {
		inputs[i] = d.Used
	}
	used = result(append([]float64(nil), inputs...))
	for i, d := range doubts {
		at := func(x float64) float64 {
			trial := append([]float64(nil), inputs...)
			trial[i] = x
			return result(trial)
		}
		b := Bar{Doubt: d, AtLow: at(d.Low), AtHigh: at(d.High)}
		b.Swing = max(b.AtLow, b.AtHigh, used) - min(b.AtLow, b.AtHigh, used)
		bars = append(bars, b)
	}
	sort.SliceStable(bars, func(i, j int) bool { return bars[i].Swing > bars[j].Swing })
	return used, bars
}

// PlanTornado asks what moves the yearly saving (dollars) of a plan that
// takes the windows' sun from one column to another in the same house.
// sureness is the share by which the added sun may be off; 0 means 0.2 (crown
// transmissivity ±0.10 in leaf and ±0.15 bare, outlines ±5–10 %).
func (h House) PlanTornado(from, to Column, e Economy, sureness float64) (saving float64, bars []Bar) {
	if sureness <= 0 {
		sureness = 0.2
	}
	var air Months
	for m, b := range to.Months {
		air[m] = b.Air
	}
	fuel := e.Fuel.PerKWh()
	doubts := []Doubt{
		{"added sun", 1 - sureness, 1, 1 + sureness, "of ours", true, "crown outlines and transmissivity"},
		{"fuel price", .75, 1, 1.25, "of today's", true, "prices move by a quarter within a few years (ours)"},
		{"appliance efficiency", .9, 1, 1.1, "of ours", true, "age and upkeep (ours)"},
		{"heat loss of the shell", .8, 1, 1.2, "of ours", true, "R-values are read off, not measured (ours)"},
		{"air changes", .7, 1, 1.3, "of ours", true, "natural air changes are a guess until a blower-door test (ours)"},
		{"heat from people and lights", .5, 1, 1.5, "of ours", true, "households differ (ours)"},
		{"glass", .9, 1, 1.1, "of ours", true, "dirt, curtains, glazing tables (ours)"},
		{"thermal mass", .7, 1, 1.5, "of ours", true, "one class lighter or heavier (ours)"},
		{"indoor temperature", h.Setpoint - 1.5, h.Setpoint, h.Setpoint + 1.5, "°C", true, "habits (ours)"},
	}
	return Tornado(doubts, func(x []float64) float64 {
		house := h
		house.Internal *= x[5]
		house.Capacity *= x[7]
		house.Setpoint = x[8]
		need := func(c Column, solar Months) float64 {
			loss := (c.Conductance.Total-c.Conductance.Air)*x[3] + c.Conductance.Air*x[4]
			sum := 0.0
			for _, b := range house.MonthlyBalance(loss, air, solar) {
				sum += b.Need
			}
			return sum
		}
		var now, then Months
		for m := range now {
			now[m] = from.solar[m] * x[6]
			then[m] = now[m] + (to.solar[m]-from.solar[m])*x[0]*x[6]
		}
		return (need(from, now) - need(to, then)) * fuel * x[1] / x[2]
	})
}
