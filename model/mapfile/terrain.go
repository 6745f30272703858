package mapfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/model"
)

// mapSpots adds the points of a feature as spot heights.
func (m *mapping) mapSpots(f *feature) {
	v, ok := f.properties.get("height", "up", "ground")
	if !ok {
		if e, has := f.properties.get("elevation", "ele", "altitude"); has {
			m.fault(f.where(), "%s: a spot height counts from the ground at the house; take the elevation there off and call it height_ft or height_m", short(e.name))
		} else {
			m.fault(f.where(), "a spot has no height; write height_ft or height_m, from the ground at the house, negative below it")
		}
		return
	}
	up, err := v.length(-100, 100)
	if err != nil {
		m.fault(f.where(), "%v", err)
		return
	}
	for _, p := range f.points {
		m.spots = append(m.spots, model.Spot{At: m.point(p), Up: up})
	}
}

// writeTerrain writes the lie of the land, which maps of southyard's own carry
// with the lot.
func (m *mapping) writeTerrain(w *page, of properties) {
	var lines []string
	rise, hasRise := of.get("slope")
	uphill, hasUphill := of.get("uphill")
	if percent, err := strconv.ParseFloat(rise.text, 64); hasRise && hasUphill && err == nil && percent > 0 && percent <= 100 && rise.unit == "percent" {
		if a, err := uphill.bearing(); err == nil {
			lines = append(lines, "  slope: "+number(percent, 6)+" %", "  uphill: "+azimuth(a))
		}
	}
	if len(m.spots) > 0 {
		if len(lines) > 0 {
			m.fault(m.lot.where(), "the ground is told twice, by slope_percent and by spot heights: leave out one of the two")
			return
		}
		lines = append(lines, "  spots:")
	}
	for _, s := range m.spots {
		way := "up"
		if s.Up < 0 {
			way = "down"
		}
		lines = append(lines, fmt.Sprintf("    - {at: %s, %s: %s}", w.point(s.At), way, w.length(math.Abs(s.Up))))
	}
	if list, _ := of["skyline"].raw.([]any); len(list) > 0 && len(list) <= 400 {
		lines = append(lines, "  skyline:")
		for _, item := range list {
			pair, _ := item.([]any)
			if len(pair) != 2 {
				m.fault(m.lot.where(), "skyline: each reading is [azimuth, altitude] in degrees")
				return
			}
			az, okA := pair[0].(float64)
			alt, okB := pair[1].(float64)
			if !okA || !okB || !(az >= 0 && az <= 360 && alt >= 0 && alt < 90) {
				m.fault(m.lot.where(), "skyline: each reading is [azimuth, altitude] in degrees")
				return
			}
			lines = append(lines, fmt.Sprintf("    - {bearing: %s, altitude: %s°}", azimuth(s1.Angle(az)*s1.Degree), number(alt, 6)))
		}
	}
	if len(lines) > 0 {
		w.line("terrain:\n%s\n", strings.Join(lines, "\n"))
	}
}
