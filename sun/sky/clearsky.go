package sky

import (
	"math"

	"github.com/southyard/southyard/sun"
)

// DefaultLinke is a Linke turbidity at air mass 2: how many clean dry
// atmospheres the air is as hazy as. Clean cold air 2, temperate 3, humid or urban 4 to 5 (common
// practice after Ineichen & Perez 2002).
const DefaultLinke = 3.0

// ClearSky is the energy of hour h under a cloudless sky, Wh/m²: direct normal,
// diffuse horizontal and global horizontal, after Ineichen & Perez 2002, at an
// elevation in metres and a Linke turbidity (DefaultLinke where nothing better
// is known). The irradiances at the hour's four steps are averaged over its
// sun-up part; global is exactly Beam × mean sine of the altitude + diffuse.
// Only Up, Steps and Extra of the hour are read.
func ClearSky(h sun.Hour, elevation, linke float64) (beam, diffuse, global float64) {
	if h.Up == 0 {
		return 0, 0, 0
	}
	for _, s := range h.Steps {
		b, g := IneichenPerez(s.Z, h.Extra, elevation, linke)
		beam += b
		global += g
	}
	share := h.Up / float64(len(h.Steps))
	beam *= share
	global *= share
	height := 0.0
	for _, s := range h.Steps {
		height += max(0, s.Z) / float64(len(h.Steps))
	}
	diffuse = max(0, global-beam*height)
	return beam, diffuse, beam*height + diffuse
}

// IneichenPerez is the direct normal and global horizontal irradiance under a
// clear sky, W/m², from the sine of the sun's altitude, the extraterrestrial
// normal irradiance, the elevation in m and the Linke turbidity: Ineichen, P. &
// Perez, R., A new airmass independent formulation for the Linke turbidity
// coefficient, Solar Energy 73 (2002) 151–157, with their low-sun factor
// exp(0.01 m^1.8) and the sea-level air mass. The beam is capped so that some
// diffuse light remains (cap from memory). 0 with the sun below the horizon.
func IneichenPerez(sinAltitude, extra, elevation, linke float64) (beam, global float64) {
	beam, limit, global := ineichen(sinAltitude, extra, elevation, linke)
	return min(beam, limit), global
}

// BeamThrough is how much of the beam a clear sky lets through at a sine of the
// sun's altitude, up to a factor that is the same at every altitude:
// exp(−0.09 m (T − 1)), the beam's course in Ineichen & Perez 2002. 0 with the
// sun below the horizon.
func BeamThrough(sinAltitude, linke float64) float64 {
	if sinAltitude <= 0 {
		return 0
	}
	return math.Exp(-0.09 * AirMass(sinAltitude) * (linke - 1))
}

func ineichen(sinAltitude, extra, elevation, linke float64) (beam, limit, global float64) {
	if sinAltitude <= 0 {
		return 0, 0, 0
	}
	m := AirMass(sinAltitude)
	c1 := 5.09e-5*elevation + 0.868
	c2 := 3.92e-5*elevation + 0.0387
	f1 := math.Exp(-elevation / 8000)
	f2 := math.Exp(-elevation / 1250)
	global = c1 * extra * sinAltitude *
		math.Exp(-c2*m*(f1+f2*(linke-1))) * math.Exp(0.01*math.Pow(m, 1.8))
	beam = (0.664 + 0.163/f1) * extra * BeamThrough(sinAltitude, linke)
	limit = max(0, global*(1-(0.1-0.2*math.Exp(-linke))/(0.1+0.882/f1))/sinAltitude)
	return beam, limit, global
}

// Haurwitz is the global horizontal irradiance under a clear sky, W/m²: B.
// Haurwitz, Journal of Meteorology 2 (1945) 154–166, with the coefficients of
// Reno, Hansen & Stein, SAND2012-2389 (0.057; some texts have 0.059, 0.3 % less).
// An independent check on the other models: it knows neither season nor haze.
func Haurwitz(sinAltitude float64) float64 {
	if sinAltitude <= 0 {
		return 0
	}
	return 1098 * sinAltitude * math.Exp(-0.057/sinAltitude)
}
