package sun

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/testdata"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, within)
	}
}

func rows(t *testing.T, name string) []testdata.Row {
	t.Helper()
	r, err := testdata.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	if len(r) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return r
}

// Reda & Andreas 2008, appendix A.5, with its ΔT of 67 s.
func TestPublishedWorkedExample(t *testing.T) {
	at := time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC)
	near(t, "Julian day", JulianDay(at), 2452930.312847, 1e-6)
	s := apparentOn(daysSince2000(at), 67)

	jme := (daysSince2000(at) + 67.0/86400) / 365250
	terms := []struct {
		name   string
		series [][]periodicTerm
		want   []float64
	}{
		{"L", longitudeTerms, []float64{172067561.526586, 628332010650.051147, 61368.682493, -26.902819, -121.279536, -0.999999}},
		{"B", latitudeTerms, []float64{-176.502688, 3.067582}},
		{"R", radiusTerms, []float64{99653849.037796, 100378.567146, -1140.953507, -141.115419, 1.232361}},
	}
	for _, series := range terms {
		if len(series.series) != len(series.want) {
			t.Fatalf("%s has %d series", series.name, len(series.series))
		}
		for i, want := range series.want {
			near(t, series.name, sumTerms(series.series[i], jme), want, 2e-6+1e-15*math.Abs(want))
		}
	}

	near(t, "heliocentric longitude", s.l, 24.0182616917, 1e-8)
	near(t, "heliocentric latitude", s.b, -0.0001011219, 1e-10)
	near(t, "radius", s.r, 0.9965422974, 1e-10)
	near(t, "nutation in longitude", s.nutation, -0.00399840, 1e-8)
	near(t, "nutation in obliquity", s.deObliq, 0.00166657, 1e-8)
	near(t, "obliquity", s.obliquity, 23.440465, 1e-6)
	near(t, "apparent longitude", s.longitude, 204.0085519281, 1e-8)
	near(t, "right ascension", s.ascension, 202.22741, 5e-6)
	near(t, "declination", s.declination, -9.31434, 5e-6)
	near(t, "mean longitude", s.meanLongitude, 205.8971722516, 1e-8)
	near(t, "equation of time", s.equationOfTime, 14.641503, 1e-4)

	p := s.from(s2.LatLngFromDegrees(39.742476, -105.1786), 1830.14)
	near(t, "hour angle", p.HourAngle.Degrees(), 11.105900, 5e-6)
	near(t, "altitude", p.Altitude.Degrees(), 90-50.11162-0.016332, 1e-5)
	near(t, "zenith", 90-(p.Altitude+Refraction(p.Altitude, 820, 11)).Degrees(), 50.11162, 1e-5)
	near(t, "azimuth", p.Azimuth.Degrees(), 194.34024, 1e-5)

	apparentAltitude := p.Altitude + Refraction(p.Altitude, 820, 11)
	plane := Position{Altitude: s1.Angle(60) * s1.Degree, Azimuth: 170 * s1.Degree}.Vector() // slope 30, 10 east of south
	refracted := Position{Altitude: apparentAltitude, Azimuth: p.Azimuth}.Vector()
	near(t, "incidence", math.Acos(plane.Dot(refracted))/degree, 25.18700, 1e-5)
}

// Reda & Andreas 2008, table A4.1.
func TestJulianDays(t *testing.T) {
	for _, c := range []struct {
		at   time.Time
		want float64
	}{
		{time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC), 2451545.0},
		{time.Date(1999, 1, 1, 0, 0, 0, 0, time.UTC), 2451179.5},
		{time.Date(1987, 1, 27, 0, 0, 0, 0, time.UTC), 2446822.5},
		{time.Date(1987, 6, 19, 12, 0, 0, 0, time.UTC), 2446966.0},
		{time.Date(1988, 1, 27, 0, 0, 0, 0, time.UTC), 2447187.5},
		{time.Date(1988, 6, 19, 12, 0, 0, 0, time.UTC), 2447332.0},
		{time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC), 2415020.5},
		{time.Date(1600, 1, 1, 0, 0, 0, 0, time.UTC), 2305447.5},
		{time.Date(1600, 12, 31, 0, 0, 0, 0, time.UTC), 2305812.5},
	} {
		near(t, c.at.String(), JulianDay(c.at), c.want, 1e-9)
	}
}

func TestPositionAgreesWithAReferenceLibrary(t *testing.T) {
	worst := 0.0
	for _, r := range rows(t, "sun_astropy.csv") {
		at, err := time.Parse(time.RFC3339, r["utc"])
		if err != nil {
			t.Fatal(err)
		}
		place := s2.LatLngFromDegrees(r.Number("lat_deg"), r.Number("lon_deg_east"))
		p := At(at, place, r.Number("elev_m"))
		want := Position{
			Altitude: s1.Angle(r.Number("altitude_deg_no_refraction")) * s1.Degree,
			Azimuth:  s1.Angle(r.Number("azimuth_deg_from_north")) * s1.Degree,
		}
		apart := p.Vector().Angle(want.Vector()).Degrees()
		worst = max(worst, apart)
		near(t, r["id"]+" angle between", apart, 0, 0.01)
		near(t, r["id"]+" altitude", p.Altitude.Degrees(), want.Altitude.Degrees(), 0.01)
		near(t, r["id"]+" azimuth along the sky", math.Cos(p.Altitude.Radians())*foldHalf((p.Azimuth-want.Azimuth).Degrees()), 0, 0.01)
		near(t, r["id"]+" refracted", (p.Altitude + Refraction(p.Altitude, 1010, 10)).Degrees(), r.Number("altitude_deg_refracted"), 0.01)
		near(t, r["id"]+" declination", p.Declination.Degrees(), r.Number("declination_deg"), 0.01)
		near(t, r["id"]+" equation of time", p.EquationOfTime, r.Number("equation_of_time_min"), 0.01)
		near(t, r["id"]+" distance", p.Distance, r.Number("sun_distance_au"), 1e-5)
	}
	t.Logf("worst angle %.5f°", worst)
}

func TestDeclinationThroughAYear(t *testing.T) {
	for _, r := range rows(t, "declination_eot_2026.csv") {
		day, err := time.Parse(time.DateOnly, r["date_12utc"])
		if err != nil {
			t.Fatal(err)
		}
		p := At(day.Add(12*time.Hour), s2.LatLng{}, 0)
		near(t, r["date_12utc"]+" declination", p.Declination.Degrees(), r.Number("declination_deg"), 1e-3)
		near(t, r["date_12utc"]+" equation of time", p.EquationOfTime, r.Number("equation_of_time_min"), 6e-3)
		near(t, r["date_12utc"]+" distance", 1/(p.Distance*p.Distance), r.Number("inverse_square_distance"), 2e-5)
	}
}

// Instants of 2026 by PyEphem 4.1.4: the declination is 0 at the equinoxes and
// has its extremes, and the right ascension is 0, 6, 12 and 18 h.
func TestEquinoxesAndSolstices(t *testing.T) {
	for _, c := range []struct {
		at        time.Time
		longitude float64
	}{
		{time.Date(2026, 3, 20, 14, 45, 53, 0, time.UTC), 0},
		{time.Date(2026, 6, 21, 8, 24, 31, 0, time.UTC), 90},
		{time.Date(2026, 9, 23, 0, 5, 9, 0, time.UTC), 180},
		{time.Date(2026, 12, 21, 20, 50, 0, 0, time.UTC), 270},
	} {
		// the sun moves 0.0007° a minute
		near(t, c.at.String(), foldHalf(apparentAt(c.at).longitude-c.longitude), 0, 0.0003)
	}
}

func TestRefractionStopsBelowTheHorizon(t *testing.T) {
	for _, c := range []struct{ altitude, low, high float64 }{
		{-0.84, 0, 0}, {-5.11, 0, 0}, {-90, 0, 0}, {0, 0.45, 0.52}, {45, 0.016, 0.018}, {90, 0, 0.0001},
	} {
		got := Refraction(s1.Angle(c.altitude)*s1.Degree, 1010, 10).Degrees()
		if !(got >= c.low && got <= c.high) {
			t.Errorf("at %g°: %g, want %g..%g", c.altitude, got, c.low, c.high)
		}
	}
}

// 1950 to 2050 at every latitude: lengths are 1, angles agree with the
// geocentric ones by spherical trigonometry but for the parallax.
func TestPositionsHoldTogetherFrom1950To2050(t *testing.T) {
	for year := 1950; year <= 2050; year += 5 {
		for _, latitude := range []float64{-90, -66, -23.4, 0, 12, 41.65, 66.6, 90} {
			for _, longitude := range []float64{-180, -83.5, 0, 179.99} {
				at := time.Date(year, time.Month(1+year%12), 1+year%28, year%24, 17, 3, 0, time.UTC)
				p := At(at, s2.LatLngFromDegrees(latitude, longitude), 0)
				v := p.Vector()
				near(t, "length", v.Norm(), 1, 1e-12)
				sinLat, cosLat := math.Sincos(latitude * degree)
				up := sinLat*math.Sin(p.Declination.Radians()) +
					cosLat*math.Cos(p.Declination.Radians())*math.Cos(p.HourAngle.Radians())
				near(t, "altitude", p.Altitude.Degrees(), math.Asin(up)/degree, 0.0026)
				if p.Azimuth < 0 || p.Azimuth.Degrees() >= 360+1e-9 {
					t.Errorf("azimuth %v", p.Azimuth)
				}
				near(t, "distance", p.Distance, 1, 0.017)
				near(t, "equation of time", p.EquationOfTime, 0, 16.6)
			}
		}
	}
}
