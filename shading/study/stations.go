package study

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

// StationResult is a weather station behind the year.
type StationResult struct {
	Name     string   `json:"name"`
	Distance float64  `json:"distance_km"`
	Higher   *float64 `json:"station_above_site_m"` // null where the site's elevation is not stated
	Weight   float64  `json:"weight"`
}

// stations are the stations behind the year, the nearest first; none where the
// year comes from a file or from figures of the user's.
func (st *Study) stations() []StationResult {
	var out []StationResult
	for _, n := range st.Monthly.From {
		r := StationResult{Name: n.Label(), Distance: round(n.Distance/1000, 1), Weight: round(n.Weight, 3)}
		if e := st.Site.Place.Elevation; e == e {
			higher := round(n.Elevation-e, 0)
			r.Higher = &higher
		}
		out = append(out, r)
	}
	return out
}

// sourceText says where the sun comes from, each station with its distance and
// how much higher it lies.
func (st *Study) sourceText(unit measure.Unit) string {
	var list []string
	main, more := st.Monthly.Main()
	for _, s := range st.stations()[:len(main)] {
		text := fmt.Sprintf("%s %.0f km", s.Name, s.Distance)
		if unit == measure.Feet {
			text = fmt.Sprintf("%s %.0f mi", s.Name, s.Distance/1.609344)
		}
		if s.Higher != nil {
			sign := "+"
			if *s.Higher < 0 {
				sign = ""
			}
			text += " (" + sign + measure.FormatFeet(*s.Higher, unit, 0) + ")"
		}
		list = append(list, text)
	}
	if len(list) == 0 {
		return st.Year.Source
	}
	if more > 0 {
		list = append(list, fmt.Sprintf("%d more", more))
	}
	return st.Year.Source + ": " + strings.Join(list, ", ")
}
