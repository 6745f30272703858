package sun

import (
	"time"

	"github.com/golang/geo/r3"
)

// HoursAYear is the number of hours in the typical year: 365 days.
const HoursAYear = 8760

// Year is a typical year at a place, hour by hour in local standard time.
// Hours[0] is 1 January 0:00–1:00.
type Year struct {
	Latitude, Longitude float64       // degrees, north and east positive
	Elevation           float64       // m
	Offset              time.Duration // local standard time minus UTC
	Calendar            int           // the calendar year whose sun positions are used (a common year)
	Source              string        // where the weather comes from, for captions
	Notes               []string      // repairs and assumptions worth showing
	Hours               []Hour        // HoursAYear of them
}

// Hour is one hour of the year. Energies are Wh/m² in the hour, which are
// also its mean W/m².
type Hour struct {
	Up      float64      // share of the hour with the sun above the horizon, 0..1
	Sun     r3.Vector    // unit vector to the sun at the middle of the sun-up part; zero when Up is 0
	Steps   [4]r3.Vector // the sun at the middle of each quarter of the sun-up part; zero when Up is 0
	Extra   float64      // extraterrestrial normal irradiance, W/m²
	Beam    float64      // direct normal energy
	Diffuse float64      // diffuse horizontal energy
	Global  float64      // global horizontal energy
	Air     float64      // dry-bulb temperature, °C
	Albedo  float64      // of the ground, 0..1
}

// Incidence is the mean over the sun-up part of the hour of the cosine of the
// incidence angle on a plane with unit normal n, counting 0 while the sun is
// behind the plane. Beam × Incidence is the beam energy on the plane.
func (h Hour) Incidence(n r3.Vector) float64 {
	sum := 0.0
	for _, s := range h.Steps {
		sum += max(0, s.Dot(n))
	}
	return sum / float64(len(h.Steps))
}

// Month of hour i of the typical year (0-based hour), and its 0-based hour of
// the day in local standard time.
func Month(i int) (time.Month, int) {
	day := i / 24
	m := time.January
	for day >= monthDays[m-1] {
		day -= monthDays[m-1]
		m++
	}
	return m, i % 24
}

// DaysIn is the number of days of a month of the typical year.
func DaysIn(m time.Month) int { return monthDays[m-1] }

var monthDays = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
