package climate

import (
	"math"

	"github.com/southyard/southyard/sun"
)

// OfHours are the monthly figures of a year of hours: mean daily sums and
// temperatures, and degree-days summed from the days' means. The albedo is
// the hours' mean.
func OfHours(y sun.Year) Monthly {
	m := Monthly{Source: y.Source, Elevation: y.Elevation, Notes: y.Notes}
	m.Global = monthlyMean(y, func(h sun.Hour) float64 { return h.Global })
	m.Diffuse = monthlyMean(y, func(h sun.Hour) float64 { return h.Diffuse })
	m.BeamNormal = monthlyMean(y, func(h sun.Hour) float64 { return h.Beam })
	for d := range 365 {
		month, _ := sun.Month(d * 24)
		i, n := month-1, days(int(month)-1)
		mean, top, bottom := 0.0, math.Inf(-1), math.Inf(1)
		for _, h := range y.Hours[d*24 : d*24+24] {
			mean += h.Air / 24
			top, bottom = max(top, h.Air), min(bottom, h.Air)
			m.Albedo[i] += h.Albedo / 24 / n
		}
		m.Mean[i] += mean / n
		m.Max[i] += top / n
		m.Min[i] += bottom / n
		m.HDD[i] += max(0, degreeDayBase-mean)
	}
	return m
}
