package sky

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
)

func deg(d float64) s1.Angle { return s1.Angle(d) * s1.Degree }

func TestAirMassFallsWithAltitude(t *testing.T) {
	last := math.Inf(1)
	for z := 0.0; z <= 1; z += 0.001 {
		m := AirMass(z)
		if !(m < last) {
			t.Fatalf("at %g: %g after %g", z, m, last)
		}
		last = m
	}
	near(t, "below the horizon", AirMass(-0.5), AirMass(0), 0)
}

// Two clear skies from different authors and measurements stay close wherever
// the sun is well up, and no sky gives more than comes in.
func TestClearSkyAgainstAnIndependentOne(t *testing.T) {
	worst := 0.0
	for altitude := 10.0; altitude <= 90; altitude += 5 {
		sine := math.Sin(altitude * math.Pi / 180)
		_, global := IneichenPerez(sine, sun.SolarConstant, 0, DefaultLinke)
		worst = max(worst, math.Abs(global/Haurwitz(sine)-1))
		if global > sun.SolarConstant*sine {
			t.Errorf("at %g°: %g", altitude, global)
		}
	}
	t.Logf("largest difference from 10° up: %.1f %%", 100*worst)
	if worst > 0.05 {
		t.Errorf("%.1f %%", 100*worst)
	}
}

func TestClearSkyHourAddsUp(t *testing.T) {
	for _, latitude := range []float64{-90, -43.5, 0, 41.65, 78, 90} {
		for i, h := range sun.NewYear(latitude, 0, 300, 0, 2025).Hours {
			for _, linke := range []float64{2, 3, 5} {
				beam, diffuse, global := ClearSky(h, 300, linke)
				if !(beam >= 0 && diffuse >= 0 && global >= 0) || (h.Up == 0) != (global == 0) {
					t.Fatalf("%g hour %d: %g %g %g, up %g", latitude, i, beam, diffuse, global, h.Up)
				}
				near(t, "global", beam*h.Incidence(r3.Vector{Z: 1})+diffuse, global, 1e-9)
				if beam > h.Extra*h.Up {
					t.Fatalf("beam %g of %g", beam, h.Extra)
				}
			}
		}
	}
}

func TestDiffuseShareStaysAShare(t *testing.T) {
	for k := -0.5; k <= 2; k += 0.01 {
		for _, ws := range []float64{0, 60, 81.4, 81.5, 120, 180} {
			for _, share := range []float64{HourlyDiffuseShare(k), DailyDiffuseShare(k, deg(ws)), MonthlyDiffuseShare(k, deg(ws))} {
				if !(share > 0 && share <= 1) {
					t.Fatalf("clearness %g, sunset %g: %g", k, ws, share)
				}
			}
		}
	}
}

func TestHoursOfADayAddUpToOne(t *testing.T) {
	for ws := 20.0; ws <= 180; ws += 10 {
		global, diffuse := 0.0, 0.0
		const parts = 20 // of an hour
		for w := -180 + 7.5/parts; w < 180; w += 15.0 / parts {
			global += HourOfDayGlobal(deg(w), deg(ws)) / parts
			diffuse += HourOfDayDiffuse(deg(w), deg(ws)) / parts
		}
		near(t, "diffuse", diffuse, 1, 0.003)
		within := 0.05
		if ws >= 60 && ws <= 120 {
			within = 0.01
		}
		near(t, "global", global, 1, within)
	}
	near(t, "night", HourOfDayGlobal(deg(120), deg(80)), 0, 0)
	near(t, "polar night", HourOfDayGlobal(0, 0), 0, 0)
}

// Outside the atmosphere the day is the sum of its hours, and the short forms
// agree with the full course of the sun.
func TestExtraterrestrialDayIsTheSumOfItsHours(t *testing.T) {
	for _, latitude := range []float64{-66.6, -41, 0, 30, 43, 70, 90} {
		for n := 1; n <= 365; n += 13 {
			sum := 0.0
			for w := -180.0; w < 180; w += 15 {
				sum += HourlyExtraterrestrial(deg(latitude), n, deg(w), deg(w+15), sun.SolarConstant)
			}
			day := DailyExtraterrestrial(deg(latitude), n, sun.SolarConstant)
			near(t, "day", sum, day, 1e-6*(1+day))
		}
	}
	y := sun.NewYear(41.65, -83.54, 0, -5*time.Hour, 2025)
	full, short := 0.0, 0.0
	for _, h := range y.Hours {
		full += h.Extra * h.Up * h.Incidence(r3.Vector{Z: 1}) * 3600
	}
	for n := 1; n <= 365; n++ {
		short += DailyExtraterrestrial(deg(41.65), n, sun.SolarConstant)
	}
	// Cooper's declination averages 0 and the sun's +0.4° (northern summer is
	// the longer), which is 1 % of the year at this latitude.
	near(t, "year, short over full", short/full, 1, 0.012)
}

func TestMonthlyBeamRatioLimits(t *testing.T) {
	near(t, "horizontal", MonthlyBeamRatio(deg(40), deg(-20), 0), 1, 1e-12)
	near(t, "polar night", MonthlyBeamRatio(deg(80), deg(-20), deg(60)), 0, 0)
	near(t, "mirrored", MonthlyBeamRatio(deg(-40), deg(20), deg(60)), MonthlyBeamRatio(deg(40), deg(-20), deg(60)), 1e-12)
	// against hours of the same day, summed
	for _, declination := range []float64{-23, -9.6, 0, 13.5, 23} {
		const latitude, tilt = 40, 60
		onPlane, flat := 0.0, 0.0
		for w := -180.0; w < 180; w += 0.05 {
			altitude, azimuth := sun.AtHourAngle(deg(latitude), deg(declination), deg(w))
			if altitude <= 0 {
				continue
			}
			s := sun.Position{Altitude: altitude, Azimuth: azimuth}.Vector()
			flat += s.Z
			onPlane += max(0, s.Dot(facing(tilt, 0)))
		}
		near(t, "beam ratio", MonthlyBeamRatio(deg(latitude), deg(declination), deg(tilt)), onPlane/flat, 1e-3)
	}
}
