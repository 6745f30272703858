package sun

import (
	"math"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
)

// Position of the sun's centre.
type Position struct {
	// Altitude above the horizon and Azimuth clockwise from true north,
	// 0..360°: apparent, seen from the place (with parallax), without
	// refraction. See Refraction.
	Altitude, Azimuth s1.Angle
	// Declination, RightAscension (0..360°) and HourAngle (−180°..180°, 0 on
	// the meridian, afternoon positive): apparent, from the Earth's centre.
	Declination, RightAscension, HourAngle s1.Angle
	// EquationOfTime is apparent minus mean solar time, minutes.
	EquationOfTime float64
	// Distance of the sun, astronomical units.
	Distance float64
}

// At is the sun's position at an instant, seen from a place at an elevation
// in metres. The whole published algorithm is used: Reda, I. & Andreas, A.,
// Solar Position Algorithm for Solar Radiation Applications,
// NREL/TP-560-34302, revised 2008 (claimed ±0.0003°), with ΔT from Espenak &
// Meeus 2006 and UT1 taken as UTC, which costs up to 0.004°.
func At(t time.Time, place s2.LatLng, elevation float64) Position {
	return apparentAt(t).from(place, elevation)
}

// from turns the sun seen from the Earth's centre into the sun seen from a
// place: sections 3.11 to 3.15 of the report.
func (s apparent) from(place s2.LatLng, elevation float64) Position {
	const flattening = 0.99664719
	const equator = 6378140.0 // m
	sinLat, cosLat := math.Sincos(place.Lat.Radians())
	hour := foldHalf(s.sidereal + place.Lng.Degrees() - s.ascension)
	sinHour, cosHour := math.Sincos(hour * degree)
	sinDec, cosDec := math.Sincos(s.declination * degree)
	sinParallax := math.Sin(s.parallax)

	u := math.Atan2(flattening*sinLat, cosLat)
	x := math.Cos(u) + elevation/equator*cosLat
	y := flattening*math.Sin(u) + elevation/equator*sinLat
	shift := math.Atan2(-x*sinParallax*sinHour, cosDec-x*sinParallax*cosHour) // Δα
	dec := math.Atan2((sinDec-y*sinParallax)*math.Cos(shift), cosDec-x*sinParallax*cosHour)
	topoHour := hour*degree - shift

	sinH, cosH := math.Sincos(topoHour)
	sinD, cosD := math.Sincos(dec)
	up := sinLat*sinD + cosLat*cosD*cosH
	south := sinLat*cosD*cosH - cosLat*sinD
	west := cosD * sinH
	return Position{
		Altitude:       s1.Angle(math.Atan2(up, math.Hypot(south, west))),
		Azimuth:        s1.Angle(fold(math.Atan2(west, south)/degree+180)) * s1.Degree,
		Declination:    s1.Angle(s.declination) * s1.Degree,
		RightAscension: s1.Angle(s.ascension) * s1.Degree,
		HourAngle:      s1.Angle(hour) * s1.Degree,
		EquationOfTime: s.equationOfTime,
		Distance:       s.r,
	}
}

// Vector to the sun: x east, y north, z up, length 1.
func (p Position) Vector() r3.Vector {
	sinAlt, cosAlt := math.Sincos(p.Altitude.Radians())
	sinAz, cosAz := math.Sincos(p.Azimuth.Radians())
	return r3.Vector{X: cosAlt * sinAz, Y: cosAlt * cosAz, Z: sinAlt}
}

// Refraction is what the air lifts the sun by, to be added to an altitude
// without refraction: Reda & Andreas 2008, eq. 42, with the air's pressure in
// mbar and its temperature in °C. It is 0 once the whole sun is below the
// horizon even when refracted (centre below −0.8333°).
func Refraction(altitude s1.Angle, pressure, celsius float64) s1.Angle {
	e := altitude.Degrees()
	if e < horizonAltitude {
		return 0
	}
	lift := pressure / 1010 * 283 / (273 + celsius) * 1.02 /
		(60 * math.Tan((e+10.3/(e+5.11))*degree))
	return s1.Angle(max(0, lift)) * s1.Degree
}
