package main

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/s2"
	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/sun"
)

func sunCommand() *cli.Command {
	return &cli.Command{
		Name:  "sun",
		Usage: "where the sun stands at an instant, or through a day",
		Description: `   southyard sun --latitude 41.65 --longitude -83.54 --at 2026-12-21T12:00:00-05:00
   southyard sun --latitude 41.65 --longitude -83.54 --on 2026-12-21 --zone America/New_York

Altitude is above a level horizon, azimuth clockwise from true north (180 is
south). The refracted altitude is where the sun is seen: the air lifts it by
half a degree near the horizon. With --on, every time says which time it is.
Without --zone, times of the day are local standard time of the whole-hour
zone around the longitude.`,
		Flags: []cli.Flag{
			&cli.Float64Flag{Name: "latitude", Usage: "`DEGREES`, north positive"},
			&cli.Float64Flag{Name: "longitude", Usage: "`DEGREES`, east positive: west longitudes are negative"},
			&cli.Float64Flag{Name: "elevation", Usage: "`METRES` above sea level"},
			&cli.StringFlag{Name: "at", Usage: "instant with its offset from UTC, `TIME` such as 2026-12-21T12:00:00-05:00"},
			&cli.StringFlag{Name: "on", Usage: "`DATE` such as 2026-12-21: a table of the day, with sunrise, transit and sunset"},
			&cli.StringFlag{Name: "zone", Usage: "IANA `NAME` such as America/New_York, for clock times with --on"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON"},
		},
		Action: runSun,
	}
}

func runSun(c *cli.Context) error {
	place, err := sunPlace(c)
	if err != nil {
		return cli.Exit(err.Error(), 2)
	}
	at, on := c.String("at"), c.String("on")
	switch {
	case (at == "") == (on == ""):
		return cli.Exit("sun wants one of --at (an instant, 2026-12-21T12:00:00-05:00) and --on (a date, 2026-12-21)", 2)
	case at != "":
		return sunAt(c, place, at)
	}
	return sunOn(c, place, on)
}

func sunPlace(c *cli.Context) (s2.LatLng, error) {
	lat, lon, high := c.Float64("latitude"), c.Float64("longitude"), c.Float64("elevation")
	switch {
	case c.NArg() > 0:
		return s2.LatLng{}, fmt.Errorf("sun does not understand %q: give the place as --latitude 41.65 --longitude -83.54", c.Args().First())
	case !c.IsSet("latitude") || !c.IsSet("longitude"):
		return s2.LatLng{}, fmt.Errorf("sun wants --latitude and --longitude in degrees, such as --latitude 41.65 --longitude -83.54")
	case !(math.Abs(lat) <= 90):
		return s2.LatLng{}, fmt.Errorf("--latitude %g: latitude runs from -90 (south) to 90 (north)", lat)
	case !(math.Abs(lon) <= 180):
		return s2.LatLng{}, fmt.Errorf("--longitude %g: longitude runs from -180 (west) to 180 (east)", lon)
	case !(high >= -500 && high <= 9000):
		return s2.LatLng{}, fmt.Errorf("--elevation %g: metres above sea level, -500 to 9000", high)
	}
	return s2.LatLngFromDegrees(lat, lon), nil
}

// sunInstant is what --at --json prints: degrees and minutes.
type sunInstant struct {
	Time      string  `json:"time"`
	Altitude  float64 `json:"altitude"`
	Refracted float64 `json:"altitude_refracted"`
	Azimuth   float64 `json:"azimuth"`
	Equation  float64 `json:"equation_of_time"`
}

// The air refraction is shown for: the standard atmosphere at sea level.
const (
	showPressure = 1010.0 // mbar
	showCelsius  = 10.0
)

func instantAt(t time.Time, place s2.LatLng, elevation float64) sunInstant {
	p := sun.At(t, place, elevation)
	return sunInstant{
		Time:      t.Format(time.RFC3339),
		Altitude:  p.Altitude.Degrees(),
		Refracted: (p.Altitude + sun.Refraction(p.Altitude, showPressure, showCelsius)).Degrees(),
		Azimuth:   p.Azimuth.Degrees(),
		Equation:  p.EquationOfTime,
	}
}

func sunAt(c *cli.Context, place s2.LatLng, text string) error {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return cli.Exit(fmt.Sprintf("--at %s: give date, time and offset from UTC, such as 2026-12-21T12:00:00-05:00 (or Z for UTC)", text), 2)
	}
	if err := yearKnown(t.Year()); err != nil {
		return cli.Exit("--at "+text+": "+err.Error(), 2)
	}
	s := instantAt(t, place, c.Float64("elevation"))
	if c.Bool("json") {
		return printJSON(c.App.Writer, s)
	}
	w := c.App.Writer
	fmt.Fprintf(w, "Sun at %.4g, %.5g, %s (UTC%s)\n", place.Lat.Degrees(), place.Lng.Degrees(), t.Format("2 January 2006 15:04:05"), t.Format("-07:00"))
	fmt.Fprintf(w, "  altitude          %8.3f°\n  as seen, refracted%8.3f°\n  azimuth           %8.3f° from true north\n  equation of time  %8.2f min\n", s.Altitude, s.Refracted, s.Azimuth, s.Equation)
	return nil
}

// yearKnown keeps to the years the sun's position is good for.
func yearKnown(year int) error {
	if year < 1800 || year > 2200 {
		return fmt.Errorf("year %d: the sun's position is worked out for 1800 to 2200", year)
	}
	return nil
}
