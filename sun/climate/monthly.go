package climate

import (
	"time"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/sun"
)

// Monthly is what a typical year is made from: twelve figures of sun and of
// temperature, January at index 0, and where they come from.
type Monthly struct {
	Source     string      // for captions: "nearest stations, blended"
	Global     [12]float64 // horizontal, kWh/m² a day
	Diffuse    [12]float64 // horizontal, kWh/m² a day; NaN: from a correlation
	BeamNormal [12]float64 // kWh/m² a day, a check only; NaN where not known
	Mean       [12]float64 // air temperature, °C
	Max, Min   [12]float64 // mean of the days' highest and lowest, °C
	HDD        [12]float64 // heating degree-days below 65 °F, °C·days in the month
	Albedo     [12]float64 // of the ground, 0..1
	Elevation  float64     // the temperatures hold for this height, m
	From       []Near      // the stations behind it, with their weights; none for other sources
	Notes      []string    // assumptions worth showing
}

// OfStation is a station's own twelve months, unmoved, with the albedo of the
// snow rule (see SnowAlbedo).
func OfStation(s Station) Monthly {
	return Monthly{
		Source: "station " + s.Label(),
		Global: s.Global, Diffuse: s.Diffuse, BeamNormal: s.BeamNormal,
		Mean: s.Mean, Max: s.Max, Min: s.Min, HDD: s.HDD,
		Albedo: SnowAlbedo(s.Mean), Elevation: s.Elevation,
		From: []Near{{Station: s, Weight: 1}},
	}
}

// Days of a month of the typical year, by its index from 0.
func days(month int) float64 { return float64(sun.DaysIn(time.Month(month + 1))) }

// up is the normal of a horizontal plane.
var up = r3.Vector{Z: 1}

// outside is the extraterrestrial energy on the horizontal in an hour, Wh/m².
func outside(h sun.Hour) float64 { return h.Extra * h.Up * h.Incidence(up) }

// extraterrestrial is the monthly mean of the day's extraterrestrial energy
// on the horizontal, kWh/m² a day.
func extraterrestrial(y sun.Year) [12]float64 {
	return monthlyMean(y, outside)
}

// monthlyMean of an hourly energy in Wh/m², in kWh/m² a day.
func monthlyMean(y sun.Year, of func(sun.Hour) float64) [12]float64 {
	var sums [12]float64
	for i, h := range y.Hours {
		m, _ := sun.Month(i)
		sums[m-1] += of(h)
	}
	for m := range sums {
		sums[m] /= 1000 * days(m)
	}
	return sums
}

// Main are the stations that count for a tenth or more, nearest first, and how
// many more there are: what a caption has room to name.
func (m Monthly) Main() (main []Near, more int) {
	for _, s := range m.From {
		if s.Weight >= 0.1 {
			main = append(main, s)
		}
	}
	return main, len(m.From) - len(main)
}
