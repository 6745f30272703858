package climate

import (
	"fmt"
	"math"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
)

// The blend's measures: our own rule. A typical month is one real month, so
// two or three stations together are steadier than one; beyond 250 km they
// say more of another climate than of this one.
const (
	blendCount    = 3
	blendSoftness = 50e3  // m added to each distance, so that one near station does not stand alone
	blendReach    = 250e3 // m
	coverage      = 300e3 // m
)

// lapse is the fall of temperature with height, K/m: ICAO standard atmosphere.
const lapse = 0.0065

// Blend makes the monthly figures of a place from the three nearest stations
// within 250 km, each weighted by 1/(distance + 50 km). What is averaged is
// the clearness (global and diffuse over the extraterrestrial), so that the
// days are the place's own length; temperatures are first moved to the
// elevation in metres by 0.0065 K/m, and degree-days with them. A NaN
// elevation takes the stations' own weighted height. The error says when the
// nearest station is over 300 km away.
func Blend(place s2.LatLng, elevation float64) (Monthly, error) {
	near := Nearest(place, blendCount)
	if err := covered(place, near); err != nil {
		return Monthly{}, err
	}
	for len(near) > 1 && near[len(near)-1].Distance > blendReach {
		near = near[:len(near)-1]
	}
	total, height := 0.0, 0.0
	for _, s := range near {
		total += 1 / (s.Distance + blendSoftness)
	}
	for i := range near {
		near[i].Weight = 1 / (near[i].Distance + blendSoftness) / total
		height += near[i].Weight * near[i].Elevation
	}
	m := Monthly{Source: "nearest stations, blended", Elevation: elevation, From: near}
	if math.IsNaN(elevation) {
		m.Elevation = height
		m.Notes = append(m.Notes, fmt.Sprintf("elevation not stated: the stations' own, %.0f m, taken", height))
	}
	blendSun(&m, place)
	blendAir(&m)
	return m, nil
}

func covered(place s2.LatLng, near []Near) error {
	if !place.IsValid() {
		return fmt.Errorf("place %v is not on the earth: latitude runs from -90 to 90, longitude from -180 to 180", place)
	}
	if len(near) == 0 || near[0].Distance > coverage {
		where := "no station is known"
		if len(near) > 0 {
			where = fmt.Sprintf("the nearest station, %s, is %.0f km away", near[0].Label(), near[0].Distance/1000)
		}
		return fmt.Errorf("%s lies outside the coverage of the station table (United States and Canada): %s, and over %.0f km a station says little; "+
			"give twelve monthly figures in the site file instead, climate: {sun: [twelve, kWh/m² a day on the horizontal], temperature: [twelve monthly means]}, or an hourly file, climate: {file: hours.csv}",
			placeName(place), where, coverage/1000)
	}
	return nil
}

func placeName(place s2.LatLng) string {
	return fmt.Sprintf("%.2f, %.2f", place.Lat.Degrees(), place.Lng.Degrees())
}

// leastSun is the extraterrestrial energy, kWh/m² a day, under which a
// month's clearness is a ratio of two small numbers and not used.
const leastSun = 0.1

func blendSun(m *Monthly, place s2.LatLng) {
	here := extraterrestrial(sun.NewYear(place.Lat.Degrees(), place.Lng.Degrees(), 0, solarZone(place.Lng.Degrees()), typicalCalendar))
	var weight, global, diffuse, beam, weightBeam [12]float64
	for _, s := range m.From {
		lat, lng := s.LatLng.Lat.Degrees(), s.LatLng.Lng.Degrees()
		there := extraterrestrial(sun.NewYear(lat, lng, s.Elevation, s.Offset, typicalCalendar))
		for i := range 12 {
			if there[i] >= leastSun && !math.IsNaN(s.Global[i]) && !math.IsNaN(s.Diffuse[i]) {
				weight[i] += s.Weight
				global[i] += s.Weight * s.Global[i] / there[i]
				diffuse[i] += s.Weight * s.Diffuse[i] / there[i]
			}
			if !math.IsNaN(s.BeamNormal[i]) {
				weightBeam[i] += s.Weight
				beam[i] += s.Weight * s.BeamNormal[i]
			}
		}
	}
	for i := range 12 {
		if weight[i] > 0 {
			m.Global[i] = here[i] * global[i] / weight[i]
			m.Diffuse[i] = here[i] * diffuse[i] / weight[i]
		} else { // next to no sun at any of them: what there is, is diffuse
			m.Global[i] = 0.3 * here[i]
			m.Diffuse[i] = m.Global[i]
		}
		m.BeamNormal[i] = beam[i] / weightBeam[i]
	}
}

func blendAir(m *Monthly) {
	for _, s := range m.From {
		at := atElevation(s.Station, m.Elevation)
		for i := range 12 {
			m.Mean[i] += s.Weight * at.Mean[i]
			m.Max[i] += s.Weight * at.Max[i]
			m.Min[i] += s.Weight * at.Min[i]
			m.HDD[i] += s.Weight * at.HDD[i]
		}
	}
	m.Albedo = SnowAlbedo(m.Mean)
}

// atElevation moves a station's temperatures to another height, and its
// degree-days by as much as those worked out from the means change.
func atElevation(s Station, elevation float64) Station {
	before := DegreeDays(s.Mean)
	shift := lapse * (s.Elevation - elevation)
	for i := range 12 {
		s.Mean[i] += shift
		s.Max[i] += shift
		s.Min[i] += shift
	}
	after := DegreeDays(s.Mean)
	for i := range 12 {
		s.HDD[i] = max(0, s.HDD[i]+after[i]-before[i])
	}
	return s
}
