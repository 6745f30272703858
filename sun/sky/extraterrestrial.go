package sky

import (
	"math"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
)

// HandbookConstant is the solar constant of the older handbooks, W/m² (WMO
// 1981; Duffie & Beckman; ASHRAE). Ours is sun.SolarConstant, 0.4 % less.
const HandbookConstant = 1367.0

// Numbers in brackets are equations of Duffie & Beckman, Solar Engineering of
// Thermal Processes, 4th ed. 2013. n is the day of the year, declination by
// Cooper, distance by the simple form, as the handbook's examples have them.

// DailyExtraterrestrial is the energy on a horizontal plane outside the
// atmosphere on day n, J/m², for a solar constant in W/m² (1.10.3).
func DailyExtraterrestrial(latitude s1.Angle, n int, constant float64) float64 {
	declination := sun.CooperDeclination(n)
	ws := sun.SunsetHourAngle(latitude, declination).Radians()
	sinLat, cosLat := math.Sincos(latitude.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	return 86400 / math.Pi * constant * sun.SimpleDistance(n) *
		max(0, cosLat*cosDec*math.Sin(ws)+ws*sinLat*sinDec)
}

// HourlyExtraterrestrial is the same between two hour angles, J/m² (1.10.4),
// counting only the part with the sun above the horizon. The hour angles lie
// in −180°..180°, from before to.
func HourlyExtraterrestrial(latitude s1.Angle, n int, from, to s1.Angle, constant float64) float64 {
	declination := sun.CooperDeclination(n)
	ws := sun.SunsetHourAngle(latitude, declination)
	w1, w2 := max(from, -ws).Radians(), min(to, ws).Radians()
	if w2 <= w1 {
		return 0
	}
	sinLat, cosLat := math.Sincos(latitude.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	return 12 * 3600 / math.Pi * constant * sun.SimpleDistance(n) *
		max(0, cosLat*cosDec*(math.Sin(w2)-math.Sin(w1))+(w2-w1)*sinLat*sinDec)
}
