package sun

import (
	"math"
	"time"
)

const degree = math.Pi / 180

// apparent is the sun seen from the Earth's centre: the part of the published
// algorithm that does not depend on the place. Angles in degrees except where
// said. Names follow the report.
type apparent struct {
	l, b, r           float64 // heliocentric longitude, latitude; radius, AU
	nutation, deObliq float64 // Δψ, Δε
	obliquity         float64 // ε
	longitude         float64 // λ
	sidereal          float64 // ν, apparent at Greenwich
	ascension         float64 // α
	declination       float64 // δ
	meanLongitude     float64 // M
	equationOfTime    float64 // minutes
	parallax          float64 // ξ, radians
}

// apparentAt follows Reda & Andreas 2008, sections 3.1 to 3.10 and A.1, with
// ΔT from Espenak & Meeus.
func apparentAt(t time.Time) apparent {
	return apparentOn(daysSince2000(t), DeltaT(decimalYear(t)))
}

func apparentOn(days, deltaT float64) apparent {
	jc := days / 36525                   // Julian century, universal
	jce := (days + deltaT/86400) / 36525 // ephemeris century
	jme := jce / 10                      // ephemeris millennium

	s := apparent{}
	s.l = fold(periodic(longitudeTerms, jme) / degree)
	s.b = periodic(latitudeTerms, jme) / degree
	s.r = periodic(radiusTerms, jme)
	s.nutation, s.deObliq = nutate(jce)

	u := jme / 10
	meanObliquity := polynomial(u, 84381.448, -4680.93, -1.55, 1999.25, -51.38,
		-249.67, -39.05, 7.12, 27.87, 5.79, 2.45) // arc-seconds, eq. 24
	s.obliquity = meanObliquity/3600 + s.deObliq

	aberration := -20.4898 / (3600 * s.r)
	s.longitude = fold(s.l+180) + s.nutation + aberration
	cosObliquity := math.Cos(s.obliquity * degree)
	sinObliquity := math.Sin(s.obliquity * degree)
	s.sidereal = fold(280.46061837+360.98564736629*days+jc*jc*(0.000387933-jc/38710000)) +
		s.nutation*cosObliquity

	lambda, beta := s.longitude*degree, -s.b*degree
	s.ascension = fold(math.Atan2(math.Sin(lambda)*cosObliquity-math.Tan(beta)*sinObliquity, math.Cos(lambda)) / degree)
	s.declination = math.Asin(math.Sin(beta)*cosObliquity+math.Cos(beta)*sinObliquity*math.Sin(lambda)) / degree

	s.meanLongitude = fold(polynomial(jme, 280.4664567, 360007.6982779, 0.03032028,
		1.0/49931, -1.0/15300, -1.0/2000000))
	s.equationOfTime = 4 * foldHalf(s.meanLongitude-0.0057183-s.ascension+s.nutation*cosObliquity)
	s.parallax = 8.794 / 3600 / s.r * degree
	return s
}

// periodic sums the series of table A4.2 (eqs. 9–11), in radians or AU.
func periodic(series [][]periodicTerm, jme float64) float64 {
	total := 0.0
	for i := len(series) - 1; i >= 0; i-- {
		total = total*jme + sumTerms(series[i], jme)
	}
	return total / 1e8
}

func sumTerms(terms []periodicTerm, jme float64) float64 {
	sum := 0.0
	for _, t := range terms {
		sum += t.a * math.Cos(t.b+t.c*jme)
	}
	return sum
}

// nutate gives the nutation in longitude and obliquity, degrees (eqs. 15–23).
func nutate(jce float64) (longitude, obliquity float64) {
	x := [5]float64{
		polynomial(jce, 297.85036, 445267.111480, -0.0019142, 1.0/189474),
		polynomial(jce, 357.52772, 35999.050340, -0.0001603, -1.0/300000),
		polynomial(jce, 134.96298, 477198.867398, 0.0086972, 1.0/56250),
		polynomial(jce, 93.27191, 483202.017538, -0.0036825, 1.0/327270),
		polynomial(jce, 125.04452, -1934.136261, 0.0020708, 1.0/450000),
	}
	for _, n := range nutationTerms {
		sum := 0.0
		for i, y := range n.y {
			sum += y * x[i]
		}
		sin, cos := math.Sincos(sum * degree)
		longitude += (n.a + n.b*jce) * sin
		obliquity += (n.c + n.d*jce) * cos
	}
	return longitude / 36e6, obliquity / 36e6
}
