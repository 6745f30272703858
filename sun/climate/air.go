package climate

import (
	"math"

	"github.com/southyard/southyard/sun"
)

// swing is the day's course of temperature about its mean, per degree between
// the highest and the lowest: Erbs, Klein & Beckman 1983 (see DegreeDays),
// from memory. Hour counts from 0 at midnight; the published t is 1 at 1:00.
func swing(hour float64) float64 {
	t := 2 * math.Pi * (hour - 1) / 24
	return 0.4632*math.Cos(t-3.805) + 0.0984*math.Cos(2*t-0.360) + 0.0168*math.Cos(3*t-0.822) + 0.0138*math.Cos(4*t-3.513)
}

// dayShape is 24 hourly departures from the mean whose highest and lowest are
// the given ones and whose mean is 0: the swing, bent by a square so that it
// may stray further one way than the other. Where the two are more unlike
// than the bend can follow, their difference is kept.
func dayShape(above, below float64) [24]float64 {
	var u [24]float64
	square := 0.0
	for h := range u {
		u[h] = swing(float64(h) + 0.5)
	}
	centre := 0.0
	for _, v := range u {
		centre += v / 24
	}
	top, bottom := math.Inf(-1), math.Inf(1)
	for h := range u {
		u[h] -= centre
		square += u[h] * u[h] / 24
		top, bottom = max(top, u[h]), min(bottom, u[h])
	}
	if !(above > 0 && below > 0) {
		return [24]float64{}
	}
	// (top + c(top² − s)) / −(bottom + c(bottom² − s)) = above/below
	r := above / below
	bend := (-r*bottom - top) / (top*top - square + r*(bottom*bottom-square))
	bend = min(0.85, max(-0.85, bend))
	bent := func(v float64) float64 { return v + bend*(v*v-square) }
	scale := (above + below) / (bent(top) - bent(bottom))
	for h := range u {
		u[h] = scale * bent(u[h])
	}
	return u
}

// fillAir gives every hour its temperature: the days' means run smoothly from
// month to month, each month's mean as stated, with the month's daily swing.
// Days of a month do not differ otherwise: warm and cold spells are not made.
func fillAir(y *sun.Year, m Monthly) {
	daily := smoothDays(m.Mean)
	day := 0
	for month := range 12 {
		shape := dayShape(m.Max[month]-m.Mean[month], m.Mean[month]-m.Min[month])
		for range int(days(month)) {
			for h := range 24 {
				y.Hours[day*24+h].Air = daily[day] + shape[h]
			}
			day++
		}
	}
}

// smoothDays is a daily mean for each of 365 days, straight from mid-month to
// mid-month round the year, whose monthly means are the given ones.
func smoothDays(mean [12]float64) [365]float64 {
	var middle [12]float64
	first := 0.0
	for m := range middle {
		middle[m] = first + days(m)/2
		first += days(m)
	}
	knots := mean
	var out [365]float64
	for range 60 {
		for d := range out {
			at := float64(d) + 0.5
			m := 11
			for m >= 0 && middle[m] > at {
				m--
			}
			from, to := (m+12)%12, (m+13)%12
			span := math.Mod(middle[to]-middle[from]+365, 365)
			part := math.Mod(at-middle[from]+365, 365) / span
			out[d] = knots[from] + part*(knots[to]-knots[from])
		}
		d := 0
		for m := range knots {
			sum := 0.0
			for range int(days(m)) {
				sum += out[d]
				d++
			}
			knots[m] += mean[m] - sum/days(m)
		}
	}
	return out
}
