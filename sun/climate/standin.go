package climate

import (
	"math"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// clearLimit is the global and beam of a very clean clear sky in an hour,
// Wh/m² (Ineichen & Perez 2002, Linke turbidity 2).
func clearLimit(h sun.Hour, elevation float64) (global, beam float64) {
	if h.Up == 0 {
		return 0, 0
	}
	if math.IsNaN(elevation) {
		elevation = 0
	}
	f1, f2 := math.Exp(-elevation/8000), math.Exp(-elevation/1250)
	c1, c2 := 5.09e-5*elevation+0.868, 3.92e-5*elevation+0.0387
	s := h.Incidence(up)
	m := sky.AirMass(s)
	global = c1 * h.Extra * s * math.Exp(-c2*m*(f1+f2)) * math.Exp(0.01*math.Pow(m, 1.8))
	beam = (0.664 + 0.163/f1) * h.Extra * math.Exp(-0.09*m)
	return min(global, h.Extra*s) * h.Up, beam * h.Up
}

func erbsHourly(k float64) float64 {
	switch {
	case k <= 0.22:
		return 1 - 0.09*k
	case k <= 0.8:
		return 0.9511 - 0.1604*k + 4.388*k*k - 16.638*k*k*k + 12.336*k*k*k*k
	}
	return 0.165
}

func erbsMonthly(k, sunset float64) float64 {
	k = min(0.8, max(0.3, k))
	if sunset <= 81.4 {
		return 1.391 - 3.560*k + 4.189*k*k - 2.137*k*k*k
	}
	return 1.311 - 3.022*k + 3.427*k*k - 1.821*k*k*k
}

// shapeOfDay is the hour's clearness over the day's, up to a factor:
// Collares-Pereira & Rabl 1979, a + b cos ω.
func shapeOfDay(hourAngle, sunset float64) float64 {
	const degree = math.Pi / 180
	s := math.Sin((sunset - 60) * degree)
	return 0.409 + 0.5016*s + (0.6609-0.4767*s)*math.Cos(hourAngle*degree)
}

func standardOffset(location *time.Location, year int) time.Duration {
	_, january := time.Date(year, 1, 15, 12, 0, 0, 0, location).Zone()
	_, july := time.Date(year, 7, 15, 12, 0, 0, 0, location).Zone()
	return time.Duration(min(january, july)) * time.Second
}
