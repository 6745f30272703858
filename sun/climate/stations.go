package climate

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/golang/geo/s2"
)

// Station is one place of the table with its monthly figures. January is
// index 0. A figure the source does not have is NaN.
type Station struct {
	ID, Name, State, Country string // the number and name of the source; "US" or "CA"
	LatLng                   s2.LatLng
	Elevation                float64       // m above sea level
	Offset                   time.Duration // standard time minus UTC
	Source, Years            string        // "TMY3", "CWEC"; the years its months were taken from
	Uncertainty              float64       // of hourly global radiation as the source states it, percent; NaN where not stated

	Global     [12]float64 // horizontal, kWh/m² a day
	Diffuse    [12]float64 // horizontal, kWh/m² a day
	BeamNormal [12]float64 // kWh/m² a day
	Mean       [12]float64 // air temperature, °C
	Max, Min   [12]float64 // mean of the days' highest and lowest hourly reading, °C
	HDD        [12]float64 // heating degree-days below 65 °F, °C·days in the month
	SnowDays   [12]float64 // days of the month with snow on the ground
}

//go:embed stations.csv
var stationTable string

// table is parsed once; TestEveryStationParses holds the embedded text to it.
var table = sync.OnceValues(func() ([]Station, error) { return parseStations(stationTable) })

// Stations is the whole table, in the order of the embedded file. The caller
// may keep and change the slice.
func Stations() []Station {
	all, err := table()
	if err != nil {
		return nil // unreachable while the test of the embedded table passes
	}
	return append([]Station(nil), all...)
}

// Label is the station's name with its state, "Toledo Express Airport OH".
func (s Station) Label() string { return strings.TrimSpace(s.Name + " " + s.State) }

func parseStations(text string) ([]Station, error) {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	column := map[string]int{}
	for i, name := range strings.Split(strings.TrimSpace(lines[0]), ",") {
		column[name] = i
	}
	for _, need := range []string{"id", "name", "st", "cc", "lat", "lon", "elev", "tz", "src", "years", "unc", "ghi", "dhi", "dni", "tmean", "tmax", "tmin", "hdd", "snow"} {
		if _, ok := column[need]; !ok {
			return nil, fmt.Errorf("station table: no column %q in its first line", need)
		}
	}
	stations := make([]Station, 0, len(lines)-1)
	for i, line := range lines[1:] {
		fields := strings.Split(strings.TrimSpace(line), ",")
		if len(fields) != len(column) {
			return nil, fmt.Errorf("station table line %d: %d fields, want %d", i+2, len(fields), len(column))
		}
		row := stationRow{fields: fields, column: column}
		s := Station{
			ID: row.text("id"), Name: row.text("name"), State: row.text("st"), Country: row.text("cc"),
			LatLng:    s2.LatLngFromDegrees(row.number("lat"), row.number("lon")),
			Elevation: row.number("elev"),
			Offset:    time.Duration(row.number("tz") * float64(time.Hour)),
			Source:    row.text("src"), Years: row.text("years"), Uncertainty: row.optional("unc"),
			Global: row.months("ghi"), Diffuse: row.months("dhi"), BeamNormal: row.months("dni"),
			Mean: row.months("tmean"), Max: row.months("tmax"), Min: row.months("tmin"),
			HDD: row.months("hdd"), SnowDays: row.months("snow"),
		}
		if row.err != nil {
			return nil, fmt.Errorf("station table line %d: %w", i+2, row.err)
		}
		stations = append(stations, s)
	}
	return stations, nil
}

// stationRow reads the fields of one line and keeps the first fault.
type stationRow struct {
	fields []string
	column map[string]int
	err    error
}

func (r *stationRow) text(name string) string { return r.fields[r.column[name]] }

func (r *stationRow) number(name string) float64 {
	v, err := strconv.ParseFloat(r.text(name), 64)
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("column %s: %q is not a number", name, r.text(name))
	}
	return v
}

func (r *stationRow) optional(name string) float64 {
	if r.text(name) == "-" {
		return math.NaN()
	}
	return r.number(name)
}

// months reads twelve numbers; "-" is no value, for one month or for all.
func (r *stationRow) months(name string) [12]float64 {
	words := strings.Fields(r.text(name))
	if len(words) == 1 && words[0] == "-" {
		return unknown()
	}
	var figures [12]float64
	if len(words) != 12 {
		if r.err == nil {
			r.err = fmt.Errorf("column %s: %d figures, want 12", name, len(words))
		}
		return figures
	}
	for m, w := range words {
		if w == "-" {
			figures[m] = math.NaN()
			continue
		}
		v, err := strconv.ParseFloat(w, 64)
		if err != nil && r.err == nil {
			r.err = fmt.Errorf("column %s: %q is not a number", name, w)
		}
		figures[m] = v
	}
	return figures
}

func unknown() [12]float64 {
	var figures [12]float64
	for m := range figures {
		figures[m] = math.NaN()
	}
	return figures
}
