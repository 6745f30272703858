package climate

import (
	"math"

	"github.com/southyard/southyard/sun"
)

// gaps fills up to six hours in a row.
func (r repair) gaps() error {
	const n = sun.HoursAYear
	filled := 0
	for k := range figureNames {
		if !r.file.stated[k] {
			continue
		}
		given := r.file.hours
		have := func(i int) bool { return !math.IsNaN(given[(i+n)%n].values[k]) }
		for i := 0; i < n; i++ {
			if have(i) {
				continue
			}
			length := 1
			for length < n && !have(i+length) {
				length++
			}
			if length > longestGap {
				line := given[(i+n-1)%n].line
				return fault(r.file.Name, line, "%s is missing for %d hours in a row from %s on: up to %d are filled; a whole year of %d hours is wanted", figureNames[k], length, when(i), longestGap, n)
			}
			for j := range length {
				r.file.hours[i+j].values[k] = fill(given[:], k, i+j, i-1, i+length)
			}
			filled += length
			i += length
		}
	}
	if filled > 0 {
		r.note("%d missing figures filled: sun from the same hour of the days before and after, others on a line", filled)
	}
	return nil
}

// fill is the missing figure k of hour i, between the last hour before and
// the first after that have it.
func fill(hours []reading, k, i, before, after int) float64 {
	n := len(hours)
	at := func(j int) float64 { return hours[((j%n)+n)%n].values[k] }
	a, b := at(before), at(after)
	part := float64(i-before) / float64(after-before)
	if k > diffuse {
		return a + part*(b-a)
	}
	yesterday, tomorrow := at(i-24), at(i+24)
	switch {
	case math.IsNaN(yesterday) && math.IsNaN(tomorrow):
		return a + part*(b-a)
	case math.IsNaN(yesterday):
		return tomorrow
	case math.IsNaN(tomorrow):
		return yesterday
	}
	return (yesterday + tomorrow) / 2
}
