package main

import (
	"encoding/json"
	"errors"
	"io"

	"github.com/urfave/cli/v2"
)

func climateCommand() *cli.Command {
	return &cli.Command{
		Name:      "climate",
		Usage:     "sun and temperature of a place, month by month",
		ArgsUsage: "PLACE | FILE",
		Description: `PLACE is latitude,longitude in degrees (west and south negative), or the name
of a weather station. FILE is an hourly file: a typical year in the TMY3
layout, or a table of southyard's own (see the columns in the manual page
sun/climate/README.md).

   southyard climate 41.65,-83.54
   southyard climate "Toledo Express"
   southyard climate 41.65,-83.54 --plane 90,180     sun on a south wall
   southyard climate year.csv --plane 30,180 --json  sun on a 30° south roof

The table covers the United States and Canada; elsewhere give an hourly file
or twelve monthly figures in the site file.
Degree-days are heating degree-days below 65 °F. Sun on a plane is what
arrives with nothing in the way. No trees, no houses, no skyline.`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "plane", Usage: "also the sun on a plane: `TILT,AZIMUTH` in degrees; 90,180 is a south wall"},
			skyFlag(),
			&cli.StringFlag{Name: "albedo", Usage: "share of sun the ground sends back, `0..1`; left out: 0.2, more in months with snow"},
			&cli.StringFlag{Name: "elevation", Usage: "height of the place above sea level, `LENGTH` such as 620 ft or 190 m"},
			&cli.StringFlag{Name: "zone", Usage: "time zone, IANA `NAME` such as America/New_York; left out: the nearest station's standard time"},
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "`NUMBER` for what is drawn by lot: the days' order in a year made from stations or monthly figures"},
			&cli.BoolFlag{Name: "metric", Usage: "°C, km and m instead of °F, miles and feet"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON (always metric)"},
		},
		Action: runClimate,
	}
}

func runClimate(c *cli.Context) error {
	ask, err := readClimateAsk(c)
	if err != nil {
		var coded cli.ExitCoder
		if errors.As(err, &coded) {
			return err
		}
		return cli.Exit(err.Error(), 2)
	}
	report, err := climateReportFor(ask)
	if err != nil {
		return cli.Exit(err.Error(), 1)
	}
	if c.Bool("json") {
		return printJSON(c.App.Writer, report)
	}
	printClimate(c.App.Writer, report, c.Bool("metric"))
	return nil
}

const placesWanted = "give an hourly file (see southyard climate --help), a place such as 41.65,-83.54, or a station's name"

// readHourly reads an hourly file; the largest known are under 4 MB.
func readHourly(name string) ([]byte, error) {
	return readUpTo(64<<20, name, placesWanted, placesWanted)
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
