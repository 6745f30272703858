package heat

import "math"

// MainsTemperature is the temperature (°C) of cold water from the street on a
// day of the year (1–365), from the yearly mean air temperature and the span
// between the warmest and coldest monthly mean (K). Hendron et al. 2004;
// Burch & Christensen 2007 (NREL). South of the equator the year is turned by
// half. Never below 1 °C (ours: pipes that run are not frozen).
func MainsTemperature(day, mean, span float64, south bool) float64 {
	if south {
		day += 182.5
	}
	f := Fahrenheit(mean)
	ratio := 0.4 + 0.01*(f-44)
	lag := 35 - (f - 44)
	t := f + 6 + ratio*(span*1.8/2)*math.Sin((0.986*(day-15-lag)-90)*math.Pi/180)
	return max(1, Celsius(t))
}

// mainsByMonth from hourly air: the mid-month values.
func mainsByMonth(air []float64, south bool) Months {
	monthly := monthlyMean(air)
	mean, low, high := 0.0, math.Inf(1), math.Inf(-1)
	for m, t := range monthly {
		mean += t * hoursIn(m) / 8760
		low, high = min(low, t), max(high, t)
	}
	var out Months
	day := 0.0
	for m := range out {
		out[m] = MainsTemperature(day+hoursIn(m)/48, mean, high-low, south)
		day += hoursIn(m) / 24
	}
	return out
}
