package climate

import "time"

// heatingShare is the least share of the year's heating degree-days that
// makes a month part of the heating season: our own rule.
const heatingShare = 0.05

// coolingMean is the monthly mean above which a month belongs to the cooling
// season, °C: 65 °F, the base of the degree-days.
const coolingMean = 18.33

// HeatingSeason lists the months that hold at least 5 % of the year's heating
// degree-days below 65 °F, and any month enclosed by the shortest run of
// months, wrapping round the year's end, that covers them all. In order from
// its first month. Empty where there is no heating.
func HeatingSeason(hdd [12]float64) []time.Month {
	total := 0.0
	for _, v := range hdd {
		total += v
	}
	if !(total > 0) {
		return nil
	}
	var holds [12]bool
	for m, v := range hdd {
		holds[m] = v >= heatingShare*total
	}
	return shortestRun(holds)
}

// CoolingSeason lists the months whose mean temperature, °C, is above 65 °F,
// January first.
func CoolingSeason(mean [12]float64) []time.Month {
	var months []time.Month
	for m, v := range mean {
		if v > coolingMean {
			months = append(months, time.Month(m+1))
		}
	}
	return months
}

// shortestRun is the shortest run of months round the year that covers every
// month that holds: the whole round less its longest gap.
func shortestRun(holds [12]bool) []time.Month {
	start, longest := 0, -1
	for m := range holds {
		if !holds[m] {
			continue
		}
		gap := 0
		for gap < 11 && !holds[(m+11-gap)%12] {
			gap++
		}
		if gap > longest {
			start, longest = m, gap
		}
	}
	var run []time.Month
	for i := range 12 - longest {
		run = append(run, time.Month((start+i)%12+1))
	}
	return run
}
