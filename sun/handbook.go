package sun

import (
	"math"
	"time"

	"github.com/golang/geo/s1"
)

// The short forms of the handbooks, for monthly figures and as checks. They
// stray from the full algorithm by up to 1° (Cooper) or 0.5° (Spencer) of
// declination and 0.8 minutes of time. n is the day of the year, 1..365.
// Numbers in brackets are equations of Duffie, J.A. & Beckman, W.A., Solar
// Engineering of Thermal Processes, 4th ed. 2013.

// DayAngle is the sun's yearly course as an angle, 0 on 1 January (1.4.2).
func DayAngle(n int) s1.Angle { return s1.Angle(2 * math.Pi * float64(n-1) / 365) }

// CooperDeclination of day n: Cooper 1969 (1.6.1a).
func CooperDeclination(n int) s1.Angle {
	return s1.Angle(23.45*math.Sin(2*math.Pi*float64(284+n)/365)) * s1.Degree
}

// SpencerDeclination of day n: Spencer 1971 (1.6.1b).
func SpencerDeclination(n int) s1.Angle {
	b := DayAngle(n).Radians()
	return s1.Angle(0.006918 - 0.399912*math.Cos(b) + 0.070257*math.Sin(b) -
		0.006758*math.Cos(2*b) + 0.000907*math.Sin(2*b) -
		0.002697*math.Cos(3*b) + 0.00148*math.Sin(3*b))
}

// SpencerEquationOfTime of day n, minutes: Spencer 1971 (1.5.3).
func SpencerEquationOfTime(n int) float64 {
	b := DayAngle(n).Radians()
	return 229.2 * (0.000075 + 0.001868*math.Cos(b) - 0.032077*math.Sin(b) -
		0.014615*math.Cos(2*b) - 0.04089*math.Sin(2*b))
}

// SpencerDistance of day n as a factor on the solar constant: Spencer 1971
// (1.4.1b).
func SpencerDistance(n int) float64 {
	b := DayAngle(n).Radians()
	return 1.000110 + 0.034221*math.Cos(b) + 0.001280*math.Sin(b) +
		0.000719*math.Cos(2*b) + 0.000077*math.Sin(2*b)
}

// SimpleDistance of day n as a factor on the solar constant (1.4.1a).
func SimpleDistance(n int) float64 { return 1 + 0.033*math.Cos(2*math.Pi*float64(n)/365) }

// SunsetHourAngle where the sun's centre meets a flat horizon, 0..180°: 0 in
// polar night, 180° under the midnight sun (1.6.10).
func SunsetHourAngle(latitude, declination s1.Angle) s1.Angle {
	sines := math.Sin(latitude.Radians()) * math.Sin(declination.Radians())
	cosines := math.Cos(latitude.Radians()) * math.Cos(declination.Radians())
	switch {
	case sines >= cosines:
		return s1.Angle(math.Pi)
	case sines <= -cosines:
		return 0
	}
	return s1.Angle(math.Acos(-sines / cosines))
}

// CosZenith of the sun at an hour angle (1.6.5).
func CosZenith(latitude, declination, hourAngle s1.Angle) float64 {
	sinLat, cosLat := math.Sincos(latitude.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	return cosLat*cosDec*math.Cos(hourAngle.Radians()) + sinLat*sinDec
}

// AtHourAngle is the sun's altitude and azimuth (from north, clockwise) by
// spherical trigonometry alone (1.6.5 and 1.6.6, written with an arc tangent
// that keeps the afternoon's sign).
func AtHourAngle(latitude, declination, hourAngle s1.Angle) (altitude, azimuth s1.Angle) {
	sinLat, cosLat := math.Sincos(latitude.Radians())
	sinDec, cosDec := math.Sincos(declination.Radians())
	sinHour, cosHour := math.Sincos(hourAngle.Radians())
	south := sinLat*cosDec*cosHour - cosLat*sinDec
	west := cosDec * sinHour
	up := sinLat*sinDec + cosLat*cosDec*cosHour
	azimuth = s1.Angle(fold(math.Atan2(west, south)/degree+180)) * s1.Degree
	return s1.Angle(math.Atan2(up, math.Hypot(south, west))), azimuth
}

// MeanDay is the day of the year whose extraterrestrial sun is nearest the
// month's mean: Klein 1977 (table 1.6.1).
func MeanDay(m time.Month) int {
	return [12]int{17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344}[m-1]
}
