package sun

import (
	"math"
	"time"

	"github.com/golang/geo/r3"
)

// SolarConstant is the sun's irradiance at one astronomical unit, W/m²: Kopp
// & Lean 2011 (1360.8 ± 0.5), from memory.
const SolarConstant = 1361.0

// GrassAlbedo is the share of sunlight bare or grassed ground sends back
// (Liu & Jordan 1963, from memory; the value of ANSI/ASHRAE Standard 140).
const GrassAlbedo = 0.2

// NewYear is a typical year with the sun's course filled in and no weather:
// Up, Sun, Steps and Extra of every hour, and the albedo of bare ground.
// Latitude and longitude in degrees, elevation in m, offset of local standard
// time from UTC. A leap calendar year is used without its 29 February.
//
// Sun-up is geometric: the sun's centre above a flat horizon, without
// refraction, so that no beam ever comes from below the horizon; printed
// sunrises (see DayAt) are some minutes earlier. Where the sun is up in two
// pieces of one hour (a dip around midnight near the poles) Up is their sum
// and Sun and Steps are spaced over the sun-up minutes alone.
//
// The full algorithm is run once a day; declination and equation of time are
// interpolated in between, which stays within 0.01° of the full algorithm.
func NewYear(latitude, longitude, elevation float64, offset time.Duration, calendar int) Year {
	y := Year{
		Latitude: latitude, Longitude: longitude, Elevation: elevation,
		Offset: offset, Calendar: calendar,
		Hours: make([]Hour, HoursAYear),
	}
	day := 0
	for m := time.January; m <= time.December; m++ {
		for d := 1; d <= DaysIn(m); d++ {
			midnight := time.Date(calendar, m, d, 0, 0, 0, 0, time.UTC).Add(-offset)
			c := courseOf(midnight, latitude, longitude)
			for h := range 24 {
				y.Hours[day*24+h] = c.hour(float64(h))
			}
			day++
		}
	}
	return y
}

// course of the sun over one day at a place, by the hour since its midnight.
type course struct {
	sinLat, cosLat float64
	solarMidnight  float64 // hour angle in degrees at midnight, but for the equation of time
	from, to       apparent
}

func courseOf(midnight time.Time, latitude, longitude float64) course {
	c := course{from: apparentAt(midnight), to: apparentAt(midnight.Add(24 * time.Hour))}
	c.sinLat, c.cosLat = math.Sincos(latitude * degree)
	u := midnight.UTC()
	utc := float64(u.Hour()) + float64(u.Minute())/60 + float64(u.Second())/3600
	c.solarMidnight = 15*(utc-12) + longitude
	return c
}

// hourAngle and declination in degrees at an hour since midnight.
func (c course) at(hour float64) (hourAngle, declination float64) {
	part := hour / 24
	eot := c.from.equationOfTime + part*(c.to.equationOfTime-c.from.equationOfTime)
	declination = c.from.declination + part*(c.to.declination-c.from.declination)
	return c.solarMidnight + 15*hour + eot/4, declination
}

// sun is the unit vector to the sun; z is its height including the parallax.
func (c course) sun(hour float64) r3.Vector {
	w, d := c.at(hour)
	sinH, cosH := math.Sincos(w * degree)
	sinD, cosD := math.Sincos(d * degree)
	return r3.Vector{
		X: -cosD * sinH,
		Y: c.cosLat*sinD - c.sinLat*cosD*cosH,
		Z: c.sinLat*sinD + c.cosLat*cosD*cosH - c.from.parallax,
	}.Normalize()
}

// piece of an hour with the sun up.
type piece struct{ start, end float64 }

func (c course) hour(start float64) Hour {
	distance := c.from.r + (start+0.5)/24*(c.to.r-c.from.r)
	h := Hour{Extra: SolarConstant / (distance * distance), Albedo: GrassAlbedo}
	up, n := c.sunUp(start)
	for _, p := range up[:n] {
		h.Up += p.end - p.start
	}
	if h.Up == 0 {
		return h
	}
	h.Sun = c.along(up[:n], h.Up/2)
	for i := range h.Steps {
		h.Steps[i] = c.along(up[:n], h.Up*(float64(i)+0.5)/4)
	}
	return h
}

// along is the sun after so many sun-up hours.
func (c course) along(up []piece, after float64) r3.Vector {
	for _, p := range up {
		if length := p.end - p.start; after > length {
			after -= length
			continue
		}
		return c.sun(p.start + after)
	}
	return c.sun(up[len(up)-1].end)
}

// sunUp gives the pieces of the hour with the sun's centre above the horizon,
// at most two: between its ends and a noon or midnight that falls inside it
// the height only rises or only falls.
func (c course) sunUp(start float64) (pieces [2]piece, n int) {
	marks := [3]float64{start, start + 1, start + 1}
	w, _ := c.at(start)
	if turn := start + (180-sinceTurn(w))/15; turn < start+1 {
		marks[1] = turn
	}
	for i := range 2 {
		a, b := marks[i], marks[i+1]
		if b <= a {
			continue
		}
		highA, highB := c.sun(a).Z > 0, c.sun(b).Z > 0
		switch {
		case !highA && !highB:
			continue
		case highA && !highB:
			b = c.crossing(a, b)
		case !highA && highB:
			a = c.crossing(b, a)
		}
		if n > 0 && pieces[n-1].end == a {
			pieces[n-1].end = b
			continue
		}
		pieces[n] = piece{a, b}
		n++
	}
	return pieces, n
}

// sinceTurn is how far an hour angle is past the last noon or midnight, 0..180°.
func sinceTurn(degrees float64) float64 { return math.Mod(fold(degrees), 180) }

// crossing is where the sun crosses the horizon between an hour with the sun
// up and one with it down, to 0.01 s, on the sun-up side.
func (c course) crossing(up, down float64) float64 {
	for math.Abs(up-down) > 0.01/3600 {
		middle := (up + down) / 2
		if c.sun(middle).Z > 0 {
			up = middle
		} else {
			down = middle
		}
	}
	return up
}
