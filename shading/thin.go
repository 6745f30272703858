package shading

import (
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
func (sc *Scene) CastThinned(year *sun.Year, surfaces []int, every int, how Casting) *YearLedger {
	surfaces = sc.orAll(surfaces)
	hours := momentsOf(year)
	middle, turn := middleDays(max(1, every))
	stands := func(surface, i int) int { // the hour whose line serves hour i
		if j := middle[i/24]*24 + i%24; j != i {
			if _, sum := hours.beam(j, sc.Surfaces[surface].Face.N); sum > 0 {
				return j
			}
		}
		return i
	}
	l := sc.castYear(surfaces, domeOf(2*bandHeight), func(surface, i int, out []ray) []ray {
		if stands(surface, i) != i {
			return out
		}
		return hours.rays(i, turn[i/24], sc.Surfaces[surface].Face.N, out)
	}, how)
	for s := range l.Surfaces {
		lines := l.Surfaces[s].Lines
		for i := range sun.HoursAYear {
			lines[i] = lines[stands(surfaces[s], i)]
		}
	}
	return l
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
