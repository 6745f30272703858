package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
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
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "`NUMBER` that orders the days of a year made from monthly figures"},
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
		return fmt.Errorf("%q is neither latitude,longitude nor a file that exists, and %w", text, err)
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

const placesWanted = "give an hourly file, a place such as 41.65,-83.54, or a station's name"

// namesFile tells whether a word is meant as the name of a file: it has a
// folder or one of the endings that tables and site files have.
func namesFile(text string) bool {
	switch strings.ToLower(filepath.Ext(text)) {
	case ".csv", ".txt", ".dat", ".tm2", ".tm3", ".tmy", ".tmy3", ".epw", ".yaml", ".yml", ".json", ".geojson", ".xls", ".xlsx", ".ods", ".zip", ".gz", ".pdf", ".png":
		return true
	}
	return strings.ContainsAny(text, `/\`)
}

func degreePair(text string) (pair [2]float64, err error) {
	parts := strings.Split(text, ",")
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

// climateReport is what --json prints. Metric throughout.
type climateReport struct {
	Latitude   float64          `json:"latitude"`
	Longitude  float64          `json:"longitude"`
	Elevation  float64          `json:"elevation_m"`
	Source     string           `json:"source"`
	Stations   []climateStation `json:"stations"`
	Months     []climateMonth   `json:"months"`
	Global     float64          `json:"global_kwh_m2_year"`
	DegreeDays float64          `json:"heating_degree_days_c"`
	Season     []string         `json:"heating_season"`
	Plane      *planeReport     `json:"plane,omitempty"`
	Notes      []string         `json:"notes"`
}

type climateStation struct {
	ID       string  `json:"id"`
	Name     string  `json:"name"`
	Source   string  `json:"source"`
	Distance float64 `json:"distance_km"`
	Higher   float64 `json:"height_difference_m"` // station above place
	Weight   float64 `json:"weight"`

	// Its own months, January first, unmoved.
	Global     [12]float64 `json:"global_kwh_m2_day"`
	Mean       [12]float64 `json:"mean_c"`
	DegreeDays [12]float64 `json:"heating_degree_days_c"`
}

type climateMonth struct {
	Month      string  `json:"month"`
	Global     float64 `json:"global_kwh_m2_day"`
	Diffuse    float64 `json:"diffuse_kwh_m2_day"`
	Mean       float64 `json:"mean_c"`
	Max        float64 `json:"mean_high_c"`
	Min        float64 `json:"mean_low_c"`
	DegreeDays float64 `json:"heating_degree_days_c"`
	Albedo     float64 `json:"albedo"`
}

type planeReport struct {
	Tilt    float64      `json:"tilt"`
	Azimuth float64      `json:"azimuth"`
	Sky     string       `json:"sky"`
	Unit    string       `json:"unit"` // kWh/m2
	Months  []planeMonth `json:"months"`
	Year    planeMonth   `json:"year"`
}

// planeMonth is kWh/m². Beam comes straight from the sun; diffuse from the
// sky, AroundSun being the part of diffuse that comes from about the sun.
type planeMonth struct {
	Month     string  `json:"month,omitempty"`
	Beam      float64 `json:"beam"`
	Diffuse   float64 `json:"diffuse"`
	Ground    float64 `json:"ground"`
	Total     float64 `json:"total"`
	AroundSun float64 `json:"diffuse_around_sun"`
}

func climateReportFor(ask climateAsk) (climateReport, error) {
	y, m, err := climate.ForSite(ask.place, ask.choice, readHourly, ask.seed)
	if err != nil {
		return climateReport{}, err
	}
	r := climateReport{
		Latitude: y.Latitude, Longitude: y.Longitude, Elevation: y.Elevation,
		Source: m.Source, Notes: append([]string{}, y.Notes...),
		Stations: []climateStation{}, Season: []string{},
	}
	for _, s := range m.From {
		r.Stations = append(r.Stations, climateStation{s.ID, s.Label(), s.Source, s.Distance / 1000, s.Elevation - y.Elevation, s.Weight, s.Global, s.Mean, s.HDD})
	}
	for i := range 12 {
		month := time.Month(i + 1)
		r.Months = append(r.Months, climateMonth{month.String(), m.Global[i], m.Diffuse[i], m.Mean[i], m.Max[i], m.Min[i], m.HDD[i], m.Albedo[i]})
		r.Global += m.Global[i] * float64(sun.DaysIn(month))
		r.DegreeDays += m.HDD[i]
	}
	for _, month := range climate.HeatingSeason(m.HDD) {
		r.Season = append(r.Season, month.String())
	}
	if ask.plane != nil {
		r.Plane = planeReportFor(y, *ask.plane)
	}
	return r, nil
}

// readHourly reads an hourly file; the largest known are under 4 MB.
func readHourly(name string) ([]byte, error) {
	return readUpTo(64<<20, name, placesWanted, placesWanted)
}

func planeReportFor(y sun.Year, ask planeAsk) *planeReport {
	n := climate.Normal(s1.Angle(ask.tilt)*s1.Degree, s1.Angle(ask.azimuth)*s1.Degree)
	r := &planeReport{Tilt: ask.tilt, Azimuth: ask.azimuth, Sky: string(ask.sky), Unit: "kWh/m2"}
	for i, p := range climate.PlaneSun(y, n, ask.sky) {
		month := planeMonth{time.Month(i + 1).String(), p.Beam, p.Circumsolar + p.Dome + p.Horizon, p.Ground, p.Sum(), p.Circumsolar}
		r.Months = append(r.Months, month)
		r.Year.Beam += month.Beam
		r.Year.Diffuse += month.Diffuse
		r.Year.Ground += month.Ground
		r.Year.Total += month.Total
		r.Year.AroundSun += month.AroundSun
	}
	return r
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
