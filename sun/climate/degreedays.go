package climate

import "math"

// degreeDayBase is 65 °F in °C.
const degreeDayBase = 18.33

// DegreeDays are the heating degree-days of each month below 65 °F, °C·days,
// from the twelve monthly mean temperatures, °C: Erbs, Klein & Beckman,
// Estimation of degree-days and ambient temperature bin data from monthly-
// average temperatures, ASHRAE Journal 25 (June 1983) 60–65, from memory.
//
// The spread of monthly means σm = 1.45 − 0.029 T + 0.0664 σyr °C follows
// from the month's mean T and the standard deviation σyr of the twelve; with
// h = (base − T)/(σm √N) and a = 1.698 the sum is
// σm N^1.5 (h/2 + ln(e^(−ah) + e^(ah))/(2a)).
func DegreeDays(mean [12]float64) [12]float64 {
	year, square := 0.0, 0.0
	for _, t := range mean {
		year += t / 12
	}
	for _, t := range mean {
		square += (t - year) * (t - year)
	}
	spreadOfYear := math.Sqrt(square / 11)
	var sums [12]float64
	for m, t := range mean {
		const a = 1.698
		n := days(m)
		spread := max(0.3, 1.45-0.029*t+0.0664*spreadOfYear)
		h := (degreeDayBase - t) / (spread * math.Sqrt(n))
		// ln(e^-ah + e^ah) written so that it cannot overflow.
		soft := a*math.Abs(h) + math.Log1p(math.Exp(-2*a*math.Abs(h)))
		sums[m] = max(0, spread*math.Pow(n, 1.5)*(h/2+soft/(2*a)))
	}
	return sums
}
