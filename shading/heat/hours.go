package heat

import (
	"fmt"
	"math"
	"time"

	"github.com/southyard/southyard/sun"
)

// Months holds one figure a month, January first.
type Months [12]float64

// Sum over the year.
func (m Months) Sum() float64 {
	sum := 0.0
	for _, x := range m {
		sum += x
	}
	return sum
}

// Sun is a typical year's sun on one surface, shaded, hour by hour: energies
// in Wh/m² of the surface. Ground may be nil (counted in Diffuse then).
// Incidence is the cosine of the angle between beam and the surface's normal;
// circumsolar light belongs to Beam.
type Sun struct {
	Beam, Diffuse, Ground, Incidence []float64
}

// Hour is the beam, and the diffuse and ground light together, of hour i.
func (s Sun) Hour(i int) (beam, diffuse float64) {
	if s.Ground != nil {
		return s.Beam[i], s.Diffuse[i] + s.Ground[i]
	}
	return s.Beam[i], s.Diffuse[i]
}

// ByMonth is the sun by month, kWh/m².
func (s Sun) ByMonth() Months {
	var out Months
	for i := range s.Beam {
		beam, diffuse := s.Hour(i)
		out[monthOf(i)] += (beam + diffuse) / 1000
	}
	return out
}

// check reports an array of the wrong length or with an impossible value.
func (s Sun) check(of string) error {
	arrays := []struct {
		name     string
		values   []float64
		optional bool
	}{{"beam", s.Beam, false}, {"diffuse", s.Diffuse, false}, {"ground", s.Ground, true}, {"incidence", s.Incidence, false}}
	for _, a := range arrays {
		if a.optional && a.values == nil {
			continue
		}
		if err := checkHours(of+": "+a.name, a.values, 0, 5000); err != nil {
			return err
		}
	}
	return nil
}

// checkHours wants a value for each hour of the year, within [low, high].
func checkHours(name string, values []float64, low, high float64) error {
	if len(values) != sun.HoursAYear {
		return fmt.Errorf("%s: %d hourly values, want %d", name, len(values), sun.HoursAYear)
	}
	for i, v := range values {
		if math.IsNaN(v) || v < low || v > high {
			return fmt.Errorf("%s: hour %d is %g, want %g to %g", name, i, v, low, high)
		}
	}
	return nil
}

func checkAir(air []float64) error { return checkHours("air temperature", air, -90, 70) }

// monthOf hour i, 0 for January.
func monthOf(i int) int {
	m, _ := sun.Month(i)
	return int(m) - 1
}

// byMonth sums hourly values by month.
func byMonth(values []float64) Months {
	var m Months
	for i, v := range values {
		m[monthOf(i)] += v
	}
	return m
}

// hoursIn is the number of hours of month m (0 for January).
func hoursIn(m int) float64 { return 24 * float64(sun.DaysIn(time.Month(m+1))) }

// monthlyMean of hourly values.
func monthlyMean(values []float64) Months {
	m := byMonth(values)
	for i := range m {
		m[i] /= hoursIn(i)
	}
	return m
}
