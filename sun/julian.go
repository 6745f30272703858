package sun

import (
	"math"
	"time"
)

const j2000 = 2451545.0 // Julian day of 2000-01-01 12:00

// JulianDay of an instant, UT1 taken as UTC (they differ by at most 0.9 s,
// which is 0.004° of the sun's path). Dates before 1582 are counted in the
// Gregorian calendar carried backward, as package time does.
func JulianDay(t time.Time) float64 { return j2000 + daysSince2000(t) }

func daysSince2000(t time.Time) float64 {
	const epoch = 946728000 // Unix seconds of 2000-01-01 12:00 UTC
	return (float64(t.Unix()-epoch) + float64(t.Nanosecond())*1e-9) / 86400
}

// DeltaT is terrestrial time minus universal time in seconds, at a decimal
// year: Espenak, F. & Meeus, J., Five Millennium Canon of Solar Eclipses,
// NASA/TP-2006-214141, 2006, polynomial expressions. Meant for 1900 to 2150;
// outside it their long-term parabola is used.
func DeltaT(year float64) float64 {
	since := func(epoch float64) float64 { return year - epoch }
	century := since(1820) / 100
	parabola := -20 + 32*century*century
	switch {
	case year < 1900:
		return parabola
	case year < 1920:
		return polynomial(since(1900), -2.79, 1.494119, -0.0598939, 0.0061966, -0.000197)
	case year < 1941:
		return polynomial(since(1920), 21.20, 0.84493, -0.076100, 0.0020936)
	case year < 1961:
		return polynomial(since(1950), 29.07, 0.407, -1.0/233, 1.0/2547)
	case year < 1986:
		return polynomial(since(1975), 45.45, 1.067, -1.0/260, -1.0/718)
	case year < 2005:
		return polynomial(since(2000), 63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599)
	case year < 2050:
		return polynomial(since(2000), 62.92, 0.32217, 0.005589)
	case year < 2150:
		return parabola - 0.5628*(2150-year)
	}
	return parabola
}

// decimalYear as Espenak & Meeus define it: the middle of the month.
func decimalYear(t time.Time) float64 {
	u := t.UTC()
	return float64(u.Year()) + (float64(u.Month())-0.5)/12
}

// polynomial with coefficients from the constant upward.
func polynomial(x float64, coefficients ...float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*x + coefficients[i]
	}
	return sum
}

// fold an angle in degrees into 0..360.
func fold(degrees float64) float64 {
	d := math.Mod(degrees, 360)
	if d < 0 {
		d += 360
	}
	return d
}

// foldHalf folds an angle in degrees into −180..180.
func foldHalf(degrees float64) float64 { return fold(degrees+180) - 180 }
