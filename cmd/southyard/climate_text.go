package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/sun"
)

func printClimate(w io.Writer, r climateReport, metric bool) {
	unit := measure.Feet
	temperature, degreeDay := func(c float64) float64 { return c*1.8 + 32 }, 1.8
	letter := "F"
	if metric {
		unit = measure.Metres
		temperature, degreeDay, letter = func(c float64) float64 { return c }, 1, "C"
	}
	fmt.Fprintf(w, "Climate of %.2f, %.2f, %s above sea level: %s\n", r.Latitude, r.Longitude, measure.FormatFeet(r.Elevation, unit, 0), r.Source)
	for _, s := range r.Stations {
		away := fmt.Sprintf("%.0f mi", s.Distance/1.609344)
		if metric {
			away = fmt.Sprintf("%.0f km", s.Distance)
		}
		fmt.Fprintf(w, "  %3.0f %%  %s (%s): %s away, %s;\n         its own year: %.0f kWh/m² on the level, %.0f degree-days\n",
			100*s.Weight, s.Name, s.Source, away, higher(s.Higher, unit), s.yearSun(), s.yearDegreeDays()*degreeDay)
	}
	fmt.Fprintf(w, "\n           sun, kWh/m² a day    temperature, °%s     heating      ground\n", letter)
	fmt.Fprintf(w, "           global   diffuse     mean  high   low    degree-days  albedo\n")
	for _, m := range r.Months {
		fmt.Fprintf(w, "%-9s %7.2f %9.2f %8.1f %5.1f %5.1f %12.0f %9.2f\n", m.Month, m.Global, m.Diffuse,
			temperature(m.Mean), temperature(m.Max), temperature(m.Min), m.DegreeDays*degreeDay, m.Albedo)
	}
	fmt.Fprintf(w, "Year: %.0f kWh/m² on the level; %.0f heating degree-days, °%s below 65 °F", r.Global, r.DegreeDays*degreeDay, letter)
	if n := len(r.Season); n > 0 {
		fmt.Fprintf(w, "; heating season %s to %s", r.Season[0], r.Season[n-1])
	}
	fmt.Fprintln(w)
	if r.Plane != nil {
		printPlane(w, *r.Plane)
	}
	if len(r.Notes) > 0 {
		fmt.Fprintln(w, "\nNotes:")
		for _, n := range r.Notes {
			fmt.Fprintln(w, "  -", n)
		}
	}
}

func (s climateStation) yearSun() (sum float64) {
	for i, v := range s.Global {
		sum += v * float64(sun.DaysIn(time.Month(i+1)))
	}
	return sum
}

func (s climateStation) yearDegreeDays() (sum float64) {
	for _, v := range s.DegreeDays {
		sum += v
	}
	return sum
}

func higher(metres float64, unit measure.Unit) string {
	switch text := measure.FormatFeet(max(metres, -metres), unit, 0); {
	case strings.HasPrefix(text, "0 "):
		return "at the same height"
	case metres > 0:
		return text + " higher"
	default:
		return text + " lower"
	}
}

func printPlane(w io.Writer, p planeReport) {
	fmt.Fprintf(w, "\nSun on a plane tilted %.4g° from level, facing azimuth %.4g° (180 is south), nothing in the way,\n%s sky, kWh/m²:\n", p.Tilt, p.Azimuth, p.Sky)
	fmt.Fprintf(w, "             beam  diffuse   ground    total\n")
	for _, m := range p.Months {
		fmt.Fprintf(w, "%-9s %7.1f %8.1f %8.1f %8.1f\n", m.Month, m.Beam, m.Diffuse, m.Ground, m.Total)
	}
	y := p.Year
	fmt.Fprintf(w, "Year      %7.0f %8.0f %8.0f %8.0f\n", y.Beam, y.Diffuse, y.Ground, y.Total)
	fmt.Fprintf(w, "Beam comes straight from the sun. Diffuse comes from the sky; %.0f of it in the year from close around the sun,\nwhere trees shade it with the beam.\n", y.AroundSun)
}
