package heat

import "math"

// Utilisation is the share of gains that saves heat in a month: ISO
// 13790:2008 12.2.1.1 (also ISO 52016-1:2017 monthly method). gamma is gains
// over losses, a the building's parameter. For gamma ≤ 0 (no loss) nothing
// needs heating; the standard's 1/γ is returned for γ < 0, and 1 for γ = 0.
func Utilisation(gamma, a float64) float64 {
	switch {
	case gamma < 0:
		return 1 / gamma
	case gamma == 0:
		return 1
	case math.Abs(gamma-1) < 1e-9:
		return a / (a + 1)
	case gamma > 1: // the same fraction, written so that powers stay small
		x := 1 / gamma
		return (x - math.Pow(x, a+1)) / (1 - math.Pow(x, a+1))
	}
	return (1 - math.Pow(gamma, a)) / (1 - math.Pow(gamma, a+1))
}

// Numerical parameters of the monthly heating method: a = a0 + τ/τ0 (ISO
// 13790:2008 Table 9).
const (
	utilisationA0   = 1.0
	utilisationTau0 = 15.0 // h
)

// TimeConstant of a house, h, from its heat capacity (J/K) and loss (W/K).
func TimeConstant(capacity, conductance float64) float64 {
	return capacity / 3600 / conductance
}

// MonthBalance is one month's heat, kWh.
type MonthBalance struct {
	Air      float64 `json:"air_c"`
	Loss     float64 `json:"loss_kwh"`
	Solar    float64 `json:"solar_gain_kwh"`
	Internal float64 `json:"internal_gain_kwh"`
	Share    float64 `json:"usable_share"` // of solar and internal gain together
	Need     float64 `json:"need_kwh"`     // heat the heating system must give
	Unused   float64 `json:"unused_gain_kwh"`
	Summer   bool    `json:"summer"` // γ beyond (a+1)/a: outside the heating season by ISO 13790:2008 7.4.1.1 (from memory)
}

// MonthlyBalance of a house with loss conductance (W/K), from monthly mean
// air temperatures (°C) and monthly solar gains (kWh).
func (h House) MonthlyBalance(conductance float64, air, solar Months) [12]MonthBalance {
	a := utilisationA0 + TimeConstant(h.Capacity, conductance)/utilisationTau0
	var out [12]MonthBalance
	for m := range out {
		b := MonthBalance{Air: air[m], Solar: solar[m], Internal: h.Internal * hoursIn(m) / 1000}
		b.Loss = max(0, conductance*(h.Setpoint-air[m])*hoursIn(m)/1000)
		gain := b.Solar + b.Internal
		if b.Loss == 0 {
			b.Unused, b.Summer = gain, true
		} else {
			gamma := gain / b.Loss
			b.Share = Utilisation(gamma, a)
			b.Need = max(0, b.Loss-b.Share*gain)
			b.Unused = gain * (1 - b.Share)
			b.Summer = gamma > (a+1)/a
		}
		out[m] = b
	}
	return out
}
