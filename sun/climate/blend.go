package climate

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// The blend's measures: our own rule. A typical month is one real month, so
// a few stations together are steadier than one; beyond 250 km they say more
// of another climate than of this one.
const (
	blendCount    = 5
	blendSoftness = 50e3  // m added to each distance, so that one near station does not stand alone
	blendReach    = 250e3 // m
	coverage      = 300e3 // m
)

// lapse is the fall of temperature with height, K/m: ICAO standard atmosphere.
const lapse = 0.0065

// Blend makes the monthly figures of a place from the five nearest stations
// within 250 km, each with its weight (weighted). What is averaged is the
// clearness (global and diffuse over the extraterrestrial), so that the
// days are the place's own length; temperatures are first moved to the
// elevation in metres by 0.0065 K/m, and degree-days with them. A NaN
// elevation takes the stations' own weighted height. The error says when the
// nearest station is over 300 km away.
func Blend(place s2.LatLng, elevation float64) (Monthly, error) {
	near := Nearest(place, blendCount+1)
	if err := covered(place, near); err != nil {
		return Monthly{}, err
	}
	return blend(place, elevation, weighted(near)), nil
}

// weighted are the stations that take part, with weights that add up to 1: a
// station at distance d weighs (1 - d/R)/(d + 50 km), R the distance of the
// sixth station or 250 km. Weights that fall to nothing at the rim keep the
// figures of two neighbouring lots alike where another station becomes the
// fifth nearest (after Franke, Scattered data interpolation, Mathematics of
// Computation 38, 1982, the modified form of Shepard's weights; from memory).
func weighted(near []Near) []Near {
	rim, total := blendReach, 0.0
	if len(near) > blendCount {
		rim = min(rim, near[blendCount].Distance)
	}
	taken := 0
	for taken < min(blendCount, len(near)) && near[taken].Distance < rim {
		d := near[taken].Distance
		near[taken].Weight = (1 - d/rim) / (d + blendSoftness)
		total += near[taken].Weight
		taken++
	}
	if taken == 0 { // the nearest lies beyond the rim: it stands alone
		near[0].Weight = 1
		return near[:1]
	}
	near = near[:taken]
	for i := range near {
		near[i].Weight /= total
	}
	return near
}

func blend(place s2.LatLng, elevation float64, near []Near) Monthly {
	height := 0.0
	for _, s := range near {
		height += s.Weight * s.Elevation
	}
	m := Monthly{Source: "nearest stations, blended", Elevation: elevation, From: near}
	if math.IsNaN(elevation) {
		m.Elevation = height
		m.Notes = append(m.Notes, fmt.Sprintf("elevation not stated: the stations' own, %.0f m (%.0f ft), taken", height, height/0.3048))
	}
	blendSun(&m, place)
	blendAir(&m)
	return m
}

func covered(place s2.LatLng, near []Near) error {
	if !place.IsValid() {
		return fmt.Errorf("place %v is not on the earth: latitude runs from -90 to 90, longitude from -180 to 180", place)
	}
	if len(near) == 0 || near[0].Distance > coverage {
		where := "no station is known"
		if len(near) > 0 {
			where = fmt.Sprintf("the nearest station, %s, is %s away", near[0].Label(), far(near[0].Distance))
		}
		return fmt.Errorf("%s lies outside the coverage of the station table (United States and Canada): %s, and over %s a station says little; "+
			"give twelve monthly figures in the site file instead, climate: {sun: [twelve, kWh/m² a day on the horizontal], temperature: [twelve monthly means]}, or an hourly file, climate: {file: hours.csv}",
			placeName(place), where, far(coverage))
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
	here := outsideAir(place.Lat)
	var weight, global, diffuse, beam, weightBeam [12]float64
	for _, s := range m.From {
		there := outsideAir(s.LatLng.Lat)
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

// outsideAir is the sun on a horizontal plane outside the atmosphere, kWh/m² a
// day, month by month: the handbook's daily sums, whose small errors cancel
// between a place and its neighbours.
func outsideAir(latitude s1.Angle) [12]float64 {
	var mean [12]float64
	n := 1
	for m := range mean {
		for range sun.DaysIn(time.Month(m + 1)) {
			mean[m] += sky.DailyExtraterrestrial(latitude, n, sun.SolarConstant) / 3.6e6 / days(m)
			n++
		}
	}
	return mean
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
