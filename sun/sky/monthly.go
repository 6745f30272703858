package sky

import (
	"math"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
)

// MonthlyBeamRatio is a month's mean ratio of beam on a plane that faces the
// equator to beam on the horizontal: Klein, S.A., Solar Energy 19 (1977)
// 325–329 (Duffie & Beckman 2.19.3a north and 2.19.3b south of the equator),
// from the latitude, the declination of the month's mean day and the plane's
// tilt from the horizontal. It is 0 in polar night.
func MonthlyBeamRatio(latitude, declination, tilt s1.Angle) float64 {
	if latitude < 0 { // mirror the hemisphere
		latitude, declination = -latitude, -declination
	}
	ws := sun.SunsetHourAngle(latitude, declination)
	onPlane := min(ws, sun.SunsetHourAngle(latitude-tilt, declination))
	flat := risen(latitude, declination, ws)
	if flat <= 0 {
		return 0
	}
	return max(0, risen(latitude-tilt, declination, onPlane)) / flat
}

// risen is the day's sum of the cosine of incidence on a plane that is
// horizontal at a latitude, over hour angles up to w.
func risen(latitude, declination, w s1.Angle) float64 {
	sinLat, cosLat := math.Sincos(latitude.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	return cosLat*cosDec*math.Sin(w.Radians()) + w.Radians()*sinLat*sinDec
}
