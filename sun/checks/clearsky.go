package checks

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// sine of the altitude at a zenith angle in degrees.
func sine(zenith float64) float64 { return max(0, math.Cos(zenith*math.Pi/180)) }

func clearSky() ([]Check, error) {
	l := list{group: "Clear sky"}
	l.from("Haurwitz 1945 (k 0.057), plain arithmetic", computed)
	for _, c := range [][2]float64{{0, 1037.2}, {30, 890.3}, {45, 716.3}, {60, 489.8}, {75, 228.0}, {85, 49.8}} {
		l.add(fmt.Sprintf("global at zenith %g°", c[0]), c[1], sky.Haurwitz(sine(c[0])), 0.06, "W/m²")
	}

	l.from("Ineichen & Perez 2002, plain arithmetic", computed)
	for _, c := range []struct{ elevation, linke, zenith, global, beam, limit float64 }{
		{0, 2, 30, 947.8, 1014.5, 1013.2}, {0, 3, 30, 906.4, 914.4, 950.7}, {0, 3, 60, 485.1, 786.1, 881.3},
		{1600, 2.5, 45, 779.8, 970.7, 1024.6}, {300, 4, 75, 183.5, 405.1, 641.7},
	} {
		beam, global := sky.IneichenPerez(sine(c.zenith), sun.SolarConstant, c.elevation, c.linke)
		what := fmt.Sprintf("%g m, turbidity %g, zenith %g°", c.elevation, c.linke, c.zenith)
		l.add("global, "+what, c.global, global, 0.1, "W/m²")
		l.add("beam with its cap, "+what, min(c.beam, c.limit), beam, 0.1, "W/m²")
	}
	tauForms(&l)
	phoenix(&l)
	return l.checks, nil
}

func tauForms(l *list) {
	l.from("ASHRAE Handbook of Fundamentals ch. 14, plain arithmetic", computed)
	for _, c := range []struct {
		edition                                    sky.TauEdition
		taub, taud, altitude, extra, beam, diffuse float64
	}{
		{sky.Tau2009, .316, 2.608, 32.3, 1410, 879.3, 79.2},
		{sky.Tau2013, .40, 2.2, 60, 1322, 848.5, 135.4},
		{sky.Tau2013, .30, 2.6, 26.6, 1410, 850.7, 64.7},
	} {
		beam, diffuse := sky.ASHRAEClearSky(sine(90-c.altitude), c.extra, c.taub, c.taud, c.edition)
		what := fmt.Sprintf("%d form, τ %g and %g, altitude %g°", c.edition, c.taub, c.taud, c.altitude)
		l.add("beam, "+what, c.beam, beam, 0.1, "W/m²")
		l.add("diffuse, "+what, c.diffuse, diffuse, 0.1, "W/m²")
	}
}

// Noon on the 21st at Phoenix, 33.45° N: the published statistics of its
// weather file. That chapter takes the declination by Cooper's form and the
// distance by the simple form counted from 3 January.
func phoenix(l *list) {
	l.from("weather-file statistics, Phoenix AZ, 2009 form", read)
	days := [12]int{21, 52, 80, 111, 141, 172, 202, 233, 264, 294, 325, 355}
	names := [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}
	taub := [12]float64{.306, .317, .339, .366, .419, .465, .588, .547, .456, .393, .318, .298}
	taud := [12]float64{2.534, 2.463, 2.351, 2.229, 2.044, 1.910, 1.653, 1.763, 1.978, 2.116, 2.487, 2.592}
	beams := [12]float64{915, 937, 938, 920, 870, 827, 727, 750, 807, 833, 891, 907}
	diffuses := [12]float64{89, 102, 121, 141, 170, 194, 250, 220, 171, 140, 92, 81}
	for i, n := range days {
		zenith := 33.45 - sun.CooperDeclination(n).Degrees()
		beam, diffuse := sky.ASHRAEClearSky(sine(zenith), sky.HandbookConstant*sun.SimpleDistance(n-3), taub[i], taud[i], sky.Tau2009)
		l.add("beam, noon of 21 "+names[i], beams[i], beam, 1, "W/m²")
		l.add("diffuse, noon of 21 "+names[i], diffuses[i], diffuse, 0.6, "W/m²")
	}
}
