package heat

import "math"

// HourlyRun is a year of the house as one lump of mass: an independent check
// of the monthly method, and the clock by which air heaters run. kWh a year.
type HourlyRun struct {
	Need      float64 `json:"need_kwh"`
	Loss      float64 `json:"loss_kwh"`
	Gain      float64 `json:"gain_kwh"`      // sun and internal
	Delivered float64 `json:"delivered_kwh"` // taken from what was offered
	Vented    float64 `json:"vented_kwh"`
	Stored    float64 `json:"stored_kwh"`   // in the mass at the end less at the start
	Residual  float64 `json:"residual_kwh"` // what the balance fails to close by
	NeedBy    Months  `json:"need_by_month_kwh"`

	needs  []float64 // Wh each hour
	taken  []float64 // Wh each hour of what was offered; nil when nothing was
	starts []float64 // indoor temperature at the start of each hour
}

// Hourly runs the house through the year: capacity·dT/dt = gains + heat −
// conductance·(T − air), solved exactly within each hour. Heat is given to
// hold the setpoint, windows are opened to hold TooWarm. offered (Wh each
// hour, may be nil) is heat that may be taken as far as the house stays at or
// below the setpoint plus band (K): the small store is the house's own mass.
// The year is run twice, so that it starts as it ends.
func (h House) Hourly(conductance float64, air, gains, offered []float64, band float64) HourlyRun {
	capacity := h.Capacity / 3600 // Wh/K
	k := conductance / capacity
	left := math.Exp(-k)
	spent := -math.Expm1(-k) // 1 − left
	indoor := h.Setpoint
	var run HourlyRun
	for pass := 0; pass < 2; pass++ {
		run = HourlyRun{needs: make([]float64, len(air)), starts: make([]float64, len(air))}
		if offered != nil {
			run.taken = make([]float64, len(air))
		}
		began := indoor
		for i := range air {
			power := gains[i] + h.Internal
			run.Gain += power
			// toReach is the power that brings the house to t by the hour's end.
			toReach := func(t float64) float64 {
				return conductance * ((t-indoor*left)/spent - air[i])
			}
			run.starts[i] = indoor
			if offered != nil {
				take := min(offered[i], max(0, toReach(h.Setpoint+band)-power))
				run.taken[i] = take
				run.Delivered += take
				power += take
			}
			if lack := toReach(h.Setpoint) - power; lack > 0 {
				run.needs[i] = lack
				run.Need += lack
				power += lack
			} else if over := power - toReach(h.TooWarm); over > 0 {
				run.Vented += over
				power -= over
			}
			settles := air[i] + power/conductance
			mean := settles + (indoor-settles)*spent/k
			run.Loss += conductance * (mean - air[i])
			indoor = settles + (indoor-settles)*left
		}
		run.Stored = capacity * (indoor - began)
	}
	run.Residual = run.Gain + run.Need + run.Delivered - run.Loss - run.Vented - run.Stored
	for _, x := range []*float64{&run.Need, &run.Loss, &run.Gain, &run.Delivered, &run.Vented, &run.Stored, &run.Residual} {
		*x /= 1000
	}
	run.NeedBy = byMonth(run.needs)
	for m := range run.NeedBy {
		run.NeedBy[m] /= 1000
	}
	return run
}

// Needs is the heat wanted in each hour, Wh.
func (r HourlyRun) Needs() []float64 { return r.needs }
