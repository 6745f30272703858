package shading

import (
	"slices"
	"time"

	"github.com/southyard/southyard/sun"
)

// CastThinned is CastYear with rays on fewer days: each month is cut into
// equal runs of at most every days, and all days of a run share the line of
// its middle day, hour by hour. Energies stay those of every single day, so
// an open field gets exactly its year; only the sun's place is off, by at
// most half a run: less than 0.2° of declination a day of the run. An hour in
// which the middle day's sun does not reach the plane is cast for itself. The
// sky above 12° is cut into patches twice as high and wide.
func (sc *Scene) CastThinned(light *Light, surfaces []int, every int, how Casting) *YearLedger {
	surfaces = sc.orAll(surfaces)
	planes := sc.planes(light)
	middle, turn := middleDays(max(1, every))
	stands := make([][]int32, len(surfaces)) // by surface: hour → line
	hours := make([][]int, len(sc.Surfaces)) // by number of the surface: line → hour
	most := 0
	for s, surface := range surfaces {
		if first := slices.IndexFunc(surfaces[:s], func(o int) bool { return planes[o] == planes[surface] }); first >= 0 {
			stands[s], hours[surface] = stands[first], hours[surfaces[first]]
			continue
		}
		stands[s], hours[surface] = planes[surface].sharing(&middle)
		most = max(most, len(hours[surface]))
	}
	l := sc.castYear(surfaces, most, domeOf(2*bandHeight), func(surface, line int, out []ray) []ray {
		if line == 0 || line >= len(hours[surface]) {
			return out
		}
		i := hours[surface][line]
		return planes[surface].rays(i, turn[i/24], how.rays(), out)
	}, how)
	l.stands = stands
	return l
}

// sharing gives every hour the line it shares with its run, and every line the
// hour it is cast for. Hours without direct light on the plane share line 0,
// which stays empty.
func (p *planeLight) sharing(middle *[365]int) (lines []int32, hours []int) {
	lines, hours = make([]int32, sun.HoursAYear), []int{0}
	lineOf := make([]int32, sun.HoursAYear)
	for i := range lines {
		if p.direct[i] <= 0 && !p.ahead[i] {
			continue
		}
		cast := middle[i/24]*24 + i%24
		if !p.ahead[cast] {
			cast = i
		}
		if lineOf[cast] == 0 {
			lineOf[cast], hours = int32(len(hours)), append(hours, cast)
		}
		lines[i] = lineOf[cast]
	}
	return lines, hours
}

// middleDays gives every day of the year (from 0) the middle day of its run,
// and the run's turn.
func middleDays(every int) (middle, turn [365]int) {
	month := days{}
	count := 0
	for m := range 12 {
		month = days{month.end, month.end + sun.DaysIn(time.January+time.Month(m))}
		for _, run := range month.runs(every) {
			for d := run.first; d < run.end; d++ {
				middle[d], turn[d] = run.middle(), count
			}
			count++
		}
	}
	return middle, turn
}

// days are the days of the year from first, counted from 0, up to but without
// end.
type days struct{ first, end int }

// middle is the middle day, of two the earlier.
func (d days) middle() int { return (d.first + d.end - 1) / 2 }

// runs cuts the days into equal runs of at most so many.
func (d days) runs(every int) []days {
	n := d.end - d.first
	out := make([]days, (n+every-1)/every)
	for r := range out {
		out[r] = days{d.first + r*n/len(out), d.first + (r+1)*n/len(out)}
	}
	return out
}
