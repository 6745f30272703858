package main

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/s2"
	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/sun"
)

// sunDay is what --on --json prints. An event that does not happen is left
// out; its times are RFC 3339 with the offset of the clock they are told in.
type sunDay struct {
	Date     string       `json:"date"`
	TimeKind string       `json:"time_kind"`
	Kind     string       `json:"kind"`
	Sunrise  string       `json:"sunrise,omitempty"`
	Transit  string       `json:"transit,omitempty"`
	Sunset   string       `json:"sunset,omitempty"`
	Hours    []sunInstant `json:"hours"`
}

func sunOn(c *cli.Context, place s2.LatLng, text string) error {
	date, err := time.Parse("2006-01-02", text)
	if err != nil {
		return cli.Exit(fmt.Sprintf("--on %s: give a date as year-month-day, such as 2026-12-21", text), 2)
	}
	if err := yearKnown(date.Year()); err != nil {
		return cli.Exit("--on "+text+": "+err.Error(), 2)
	}
	location, offset, kind, err := sunZone(c.String("zone"), place, date.Year())
	if err != nil {
		return cli.Exit(err.Error(), 2)
	}
	date = time.Date(date.Year(), date.Month(), date.Day(), 12, 0, 0, 0, location)
	day := sun.DayAt(date, place)
	hours := hoursOf(date, place, c.Float64("elevation"))
	if c.Bool("json") {
		return printJSON(c.App.Writer, sunDay{
			Date: text, TimeKind: kind, Kind: day.Kind.String(),
			Sunrise: stamp(day.Rise), Transit: stamp(day.Transit), Sunset: stamp(day.Set), Hours: hours,
		})
	}
	w := c.App.Writer
	fmt.Fprintf(w, "Sun on %s at %.4g, %.5g; times of the day are %s\n", date.Format("Monday 2 January 2006"), place.Lat.Degrees(), place.Lng.Degrees(), kind)
	if day.Kind != sun.Ordinary {
		fmt.Fprintf(w, "  %s\n", day.Kind)
	}
	for _, e := range []struct {
		name string
		at   time.Time
	}{{"sunrise", day.Rise}, {"transit", day.Transit}, {"sunset", day.Set}} {
		if e.at.IsZero() {
			continue
		}
		told := sun.StandardText(e.at, offset)
		if c.String("zone") != "" {
			told = sun.ClockText(e.at) + ", " + told
		}
		fmt.Fprintf(w, "  %s  %s, %s\n", e.name, told, sun.SolarText(e.at, place.Lng))
	}
	fmt.Fprintf(w, "\n  %-17s altitude  as seen  azimuth\n", kindShort(kind))
	for _, h := range hours {
		if h.Refracted < -0.8333 {
			continue
		}
		t, _ := time.Parse(time.RFC3339, h.Time)
		fmt.Fprintf(w, "  %-16s %8.2f° %7.2f° %7.2f°\n", t.Format("15:04"), h.Altitude, h.Refracted, h.Azimuth)
	}
	fmt.Fprintln(w, "\nAltitudes are of the sun's centre above a level horizon; as seen, lifted by the air's refraction.\nAzimuth is clockwise from true north. Sunrise and sunset are of the sun's upper edge.")
	return nil
}

// sunZone is the clock the day is told in: a zone's clock with its daylight
// saving, or standard time of the whole-hour zone round the longitude.
func sunZone(name string, place s2.LatLng, year int) (location *time.Location, offset time.Duration, kind string, err error) {
	if name == "" {
		hours := int(math.Round(place.Lng.Degrees() / 15))
		location = time.FixedZone("", hours*3600)
		return location, time.Duration(hours) * time.Hour, fmt.Sprintf("local standard time (UTC%+d)", hours), nil
	}
	location, err = time.LoadLocation(name)
	if err != nil || name == "Local" {
		return nil, 0, "", fmt.Errorf("--zone %s is not known: give an IANA name such as America/New_York", name)
	}
	return location, sun.StandardOffset(location, year), "clock time of " + name, nil
}

func kindShort(kind string) string {
	if len(kind) > 5 && kind[:5] == "clock" {
		return "clock time"
	}
	return "standard time"
}

// hoursOf are the full hours of the clock's day: 23 or 25 of them on the days
// daylight saving starts or ends.
func hoursOf(date time.Time, place s2.LatLng, elevation float64) []sunInstant {
	start := time.Date(date.Year(), date.Month(), date.Day(), 0, 0, 0, 0, date.Location())
	var hours []sunInstant
	for t := start; len(hours) < 30; t = t.Add(time.Hour) {
		if t.Day() != date.Day() {
			if t.After(date) {
				break
			}
			continue
		}
		hours = append(hours, instantAt(t, place, elevation))
	}
	return hours
}

// stamp is an instant to the second; an event that does not happen is "".
func stamp(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Round(time.Second).Format(time.RFC3339)
}
