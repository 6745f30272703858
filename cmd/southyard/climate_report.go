package main

import (
	"time"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
)

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
