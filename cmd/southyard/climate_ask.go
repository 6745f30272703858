package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
)

// climateAsk is the command line, understood.
type climateAsk struct {
	place  model.Place
	choice model.ClimateChoice
	plane  *planeAsk
	seed   uint64
}

type planeAsk struct {
	tilt, azimuth float64 // degrees
	sky           sky.Model
}

func readClimateAsk(c *cli.Context) (climateAsk, error) {
	if c.NArg() != 1 {
		return climateAsk{}, fmt.Errorf("climate wants one PLACE or FILE, got %d: a place is written 41.65,-83.54 without a blank, a name with blanks in quotes", c.NArg())
	}
	ask := climateAsk{seed: c.Uint64("seed")}
	ask.place = model.Place{Elevation: math.NaN(), Zone: c.String("zone")}
	if text := c.String("elevation"); text != "" {
		metres, err := measure.ParseLength(text, measure.Feet)
		if err != nil {
			return ask, fmt.Errorf("--elevation: %w", err)
		}
		ask.place.Elevation = metres
	}
	if text := c.String("albedo"); text != "" {
		value, err := strconv.ParseFloat(text, 64)
		if err != nil || !(value >= 0 && value <= 1) {
			return ask, fmt.Errorf("--albedo %s: give a share from 0 to 1; grass is 0.2, snow 0.4 to 0.7", text)
		}
		var all [12]float64
		for m := range all {
			all[m] = value
		}
		ask.choice.Albedo = &all
	}
	skyModel, err := sky.ParseModel(c.String("sky"))
	if err != nil {
		return ask, fmt.Errorf("--sky: %w", err)
	}
	if text := c.String("plane"); text != "" {
		pair, err := degreePair(text)
		if err != nil || !(pair[0] >= 0 && pair[0] <= 180) || !(pair[1] >= -360 && pair[1] <= 360) {
			return ask, fmt.Errorf("--plane %s: give tilt from horizontal and azimuth from north in degrees, such as 90,180 for a south wall or 30,180 for a roof", text)
		}
		ask.plane = &planeAsk{pair[0], math.Mod(pair[1]+360, 360), skyModel}
	}
	return ask, ask.readPlace(c.Args().First())
}

// readPlace takes latitude,longitude, a file that exists, or a station's name.
func (a *climateAsk) readPlace(text string) error {
	if pair, err := degreePair(text); err == nil {
		if math.Abs(pair[0]) > 90 || math.Abs(pair[1]) > 180 {
			return fmt.Errorf("%s: latitude runs from -90 to 90 and comes first, longitude from -180 to 180, such as 41.65,-83.54", text)
		}
		a.place.LatLng = s2.LatLngFromDegrees(pair[0], pair[1])
		return nil
	}
	if info, err := os.Stat(text); err == nil {
		if info.IsDir() {
			return cli.Exit(fmt.Sprintf("%s is a folder; %s", text, placesWanted), 1)
		}
		if ending := strings.ToLower(filepath.Ext(text)); ending == ".yaml" || ending == ".yml" {
			return cli.Exit(fmt.Sprintf("%s is a site file by its name; %s (southyard check %s shows the place it states)", text, placesWanted, text), 1)
		}
		a.choice.File = text
		a.place.LatLng = s2.LatLng{Lat: s1.Angle(math.NaN()), Lng: s1.Angle(math.NaN())} // the file says where
		return nil
	}
	found, err := climate.Find(text)
	if err != nil && namesFile(text) {
		return cli.Exit(fmt.Sprintf("%s: there is no such file; %s", text, placesWanted), 1)
	}
	if err != nil {
		return fmt.Errorf("%w. There is no such file either. For a place without a station give its latitude,longitude off a map, such as 41.65,-83.54: the nearest stations are taken", err)
	}
	if len(found) > 1 {
		var labels []string
		for _, s := range found[:min(6, len(found))] {
			labels = append(labels, fmt.Sprintf("%q", s.Label()))
		}
		return fmt.Errorf("%d stations are called %q: write one of %s", len(found), text, strings.Join(labels, ", "))
	}
	a.choice.Station = found[0].ID
	a.place.LatLng = found[0].LatLng
	if math.IsNaN(a.place.Elevation) {
		a.place.Elevation = found[0].Elevation
	}
	return nil
}

// fileEnding is an ending of three signs, or a longer one that
// tables and site files have.
var fileEnding = regexp.MustCompile(`(?i)\.([a-z][a-z0-9]{2}|tmy3|yaml|yml|json|geojson|xlsx)$`)

// namesFile tells whether a word is meant as the name of a file: it has a
// folder or an ending.
func namesFile(text string) bool {
	return fileEnding.MatchString(text) || strings.ContainsAny(text, `/\`)
}

func degreePair(text string) (pair [2]float64, err error) {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' })
	if len(parts) != 2 {
		return pair, fmt.Errorf("%q is not two numbers with a comma between", text)
	}
	for i, p := range parts {
		if pair[i], err = strconv.ParseFloat(strings.TrimSpace(p), 64); err != nil || math.IsNaN(pair[i]) {
			return pair, fmt.Errorf("%q is not a number of degrees", p)
		}
	}
	return pair, nil
}
