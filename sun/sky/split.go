package sky

import "github.com/golang/geo/s1"

// The diffuse share of global light from the clearness (global over
// extraterrestrial on the horizontal): Erbs, D.G., Klein, S.A. & Duffie, J.A.,
// Estimation of the diffuse radiation fraction for hourly, daily and
// monthly-average global radiation, Solar Energy 28 (1982) 293–302. Numbers in
// brackets are Duffie & Beckman's. All lie in 0..1 for any clearness; a
// negative clearness is taken as 0.

// HourlyDiffuseShare of an hour's global (2.10.1; from memory, confirmed by
// the handbook's example 2.15.1).
func HourlyDiffuseShare(clearness float64) float64 {
	k := max(0, clearness)
	switch {
	case k <= 0.22:
		return 1 - 0.09*k
	case k <= 0.80:
		return power(k, 0.9511, -0.1604, 4.388, -16.638, 12.336)
	}
	return 0.165
}

// winterSunset parts the short days of winter from the rest of the year.
const winterSunset = 81.4 // degrees of sunset hour angle

// DailyDiffuseShare of a day's global, by the sunset hour angle of the day
// (2.11.1; from memory).
func DailyDiffuseShare(clearness float64, sunset s1.Angle) float64 {
	k := max(0, clearness)
	if sunset.Degrees() <= winterSunset {
		if k < 0.715 {
			return power(k, 1, -0.2727, 2.4495, -11.9514, 9.3879)
		}
		return 0.143
	}
	if k < 0.722 {
		return min(1, power(k, 1, 0.2832, -2.5557, 0.8448))
	}
	return 0.175
}

// MonthlyDiffuseShare of a month's global, by the sunset hour angle of its
// mean day (2.12.1). The fit holds for a clearness of 0.3 to 0.8; beyond it
// the value at the nearer end is kept.
func MonthlyDiffuseShare(clearness float64, sunset s1.Angle) float64 {
	k := min(0.8, max(0.3, clearness))
	if sunset.Degrees() <= winterSunset {
		return power(k, 1.391, -3.560, 4.189, -2.137)
	}
	return power(k, 1.311, -3.022, 3.427, -1.821)
}

// power series of x with coefficients from the constant upward.
func power(x float64, coefficients ...float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*x + coefficients[i]
	}
	return sum
}
