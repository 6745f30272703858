package checks

import (
	"math"
	"time"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

func tiltedPlane() ([]Check, error) {
	l := list{group: "Tilted plane"}
	handbookPlane(&l)
	l.from("Perez et al. 1990 with 7-digit coefficients, plain arithmetic", computed)
	for _, c := range []struct {
		what                                                                            string
		diffuse, beam, zenith, incidence, tilt, anisotropic, isotropic, hayDavies, hdkr float64
	}{
		{"clear, wall", 100, 800, 50, 35, 90, 118.69, 50, 95.5, 102.2},
		{"overcast, wall", 300, 0, 60, 50, 90, 178.33, 150, 150, 150},
		{"hazy, 45° roof", 150, 500, 40, 60, 45, 130.04, 128.0, 117.0, 120.8},
	} {
		hour, normal := steady(c.zenith, c.incidence, c.tilt, c.beam, c.diffuse)
		diffuse := func(m sky.Model) float64 {
			p := sky.OnPlane(hour, normal, m)
			return p.Dome + p.Circumsolar + p.Horizon
		}
		l.add("diffuse, "+c.what+", anisotropic", c.anisotropic, diffuse(sky.Anisotropic), 0.05, "W/m²")
		l.add("diffuse, "+c.what+", isotropic", c.isotropic, diffuse(sky.Isotropic), 0.06, "W/m²")
		l.add("diffuse, "+c.what+", Hay–Davies", c.hayDavies, diffuse(sky.HayDavies), 0.06, "W/m²")
		l.add("diffuse, "+c.what+", HDKR", c.hdkr, diffuse(sky.HDKR), 0.06, "W/m²")
	}
	l.from("Klein 1977, plain arithmetic", computed)
	for i, want := range [12]float64{2.318, 1.593, .956, .484, .251, .172, .206, .373, .741, 1.362, 2.105, 2.575} {
		m := time.Month(i + 1)
		l.add("monthly beam ratio, south wall at 40° N, "+m.String(), want,
			sky.MonthlyBeamRatio(degrees(40), sun.CooperDeclination(sun.MeanDay(m)), degrees(90)), 0.0006, "")
	}
	return l.checks, nil
}

// The hour 9–10 on 20 February at 40° N, slope 60° south, 1.04 MJ/m², snow.
func handbookPlane(l *list) {
	const joules = 3600 / 1e6 // MJ per Wh
	const n = 51
	latitude, declination, noon := degrees(40), sun.CooperDeclination(n), degrees(-37.5)
	l.from("Duffie & Beckman 2013, ex. 2.15.1 to 2.16.2, answers", fromMemory)
	i0 := sky.HourlyExtraterrestrial(latitude, n, noon-degrees(7.5), noon+degrees(7.5), sky.HandbookConstant) / 1e6
	share := sky.HourlyDiffuseShare(1.04 / i0)
	altitude, azimuth := sun.AtHourAngle(latitude, declination, noon)
	toSun := sun.Position{Altitude: altitude, Azimuth: azimuth}.Vector()
	normal := sun.Position{Altitude: degrees(30), Azimuth: degrees(180)}.Vector()
	l.add("extraterrestrial, hour 9–10 of 20 February, 40° N", 2.335, i0, 0.01, "MJ/m²")
	l.add("diffuse share of 1.04 MJ/m²", 0.7655, share, 0.004, "")
	l.add("cosine of incidence on a 60° south slope", 0.7991, toSun.Dot(normal), 0.001, "")
	l.add("beam ratio", 1.7144, toSun.Dot(normal)/toSun.Z, 0.003, "")

	global := 1.04 / joules
	hour := still(toSun, sky.HandbookConstant*sun.SimpleDistance(n), global*(1-share)/toSun.Z, global*share)
	hour.Albedo = 0.6
	iso := sky.OnPlane(hour, normal, sky.Isotropic)
	l.add("beam on the slope", 0.417, iso.Beam*joules, 0.005, "MJ/m²")
	l.add("isotropic diffuse", 0.598, iso.Dome*joules, 0.003, "MJ/m²")
	l.add("ground, reflectance 0.60", 0.156, iso.Ground*joules, 0.0005, "MJ/m²")
	l.add("total, isotropic", 1.17, iso.Sum()*joules, 0.006, "MJ/m²")
	l.add("total, HDKR", 1.28, sky.OnPlane(hour, normal, sky.HDKR).Sum()*joules, 0.006, "MJ/m²")
	l.add("total, Hay–Davies", 1.25, sky.OnPlane(hour, normal, sky.HayDavies).Sum()*joules, 0.006, "MJ/m²")
	perez := sky.OnPlane(hour, normal, sky.Anisotropic)
	l.add("circumsolar, Perez", 0.349, perez.Circumsolar*joules, 0.005, "MJ/m²")
	l.add("total, Perez", 1.37, perez.Sum()*joules, 0.006, "MJ/m²")
}

// still is an hour with the sun standing still.
func still(toSun r3.Vector, extra, beam, diffuse float64) sun.Hour {
	return sun.Hour{
		Up: 1, Sun: toSun, Steps: [4]r3.Vector{toSun, toSun, toSun, toSun},
		Extra: extra, Beam: beam, Diffuse: diffuse, Global: beam*toSun.Z + diffuse,
	}
}

// steady is an hour with the sun still at a zenith angle, and a tilted plane
// that meets it at an incidence angle; degrees and W/m². Only the two cosines
// matter: the published sets of angles are not all possible for a real sun, and
// the vector here has whatever length gives both.
func steady(zenith, incidence, tilt, beam, diffuse float64) (sun.Hour, r3.Vector) {
	const degree = math.Pi / 180
	sinT, cosT := math.Sincos(tilt * degree)
	up := math.Cos(zenith * degree)
	north := (up*cosT - math.Cos(incidence*degree)) / sinT
	return still(r3.Vector{Y: north, Z: up}, sun.SolarConstant, beam, diffuse), r3.Vector{Y: -sinT, Z: cosT}
}
