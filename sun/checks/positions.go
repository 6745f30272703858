package checks

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/testdata"
)

func degrees(d float64) s1.Angle { return s1.Angle(d) * s1.Degree }

func positions() ([]Check, error) {
	l := list{group: "Position"}
	workedExample(&l)
	handbookAngles(&l)
	if err := astronomyLibrary(&l); err != nil {
		return nil, err
	}
	err := handbookForms(&l)
	return l.checks, err
}

// Golden, Colorado, 17 October 2003. The report takes ΔT as 67 s; ours is 64.5 s
// by polynomial, worth 0.00003°.
func workedExample(l *list) {
	l.from("Reda & Andreas 2008, app. A.5", read)
	at := time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC)
	p := sun.At(at, s2.LatLngFromDegrees(39.742476, -105.1786), 1830.14)
	refracted := p.Altitude + sun.Refraction(p.Altitude, 820, 11)
	l.add("Julian day of the worked example", 2452930.312847, sun.JulianDay(at), 1e-6, "d")
	l.add("radius vector", 0.9965422974, p.Distance, 1e-7, "AU")
	l.add("right ascension", 202.22741, p.RightAscension.Degrees(), 5e-5, "°")
	l.add("declination", -9.31434, p.Declination.Degrees(), 5e-5, "°")
	l.add("hour angle", 11.105900, p.HourAngle.Degrees(), 5e-5, "°")
	l.add("equation of time", 14.641503, p.EquationOfTime, 1e-3, "min")
	l.add("zenith, refracted", 50.11162, 90-refracted.Degrees(), 5e-5, "°")
	l.add("azimuth", 194.34024, p.Azimuth.Degrees(), 5e-5, "°")
	toSun := sun.Position{Altitude: refracted, Azimuth: p.Azimuth}.Vector()
	plane := sun.Position{Altitude: degrees(60), Azimuth: degrees(170)}.Vector()
	l.add("incidence on a 30° slope, 10° east of south", 25.18700, math.Acos(toSun.Dot(plane))*180/math.Pi, 5e-5, "°")
}

func handbookAngles(l *list) {
	l.from("Duffie & Beckman 2013, ex. 1.5.1", read)
	l.add("equation of time, 3 February", -13.5, sun.SpencerEquationOfTime(34), 0.05, "min")
	at := time.Date(2026, 2, 3, 16, 30, 0, 0, time.UTC)
	l.add("solar time at Madison, 10:30 CST (10:19)", 10+19.0/60, sun.SolarTime(at, degrees(-89.4)), 0.012, "h")
	l.from("Duffie & Beckman 2013, ex. 1.6.2", read)
	altitude, azimuth := sun.AtHourAngle(degrees(43), degrees(-14), degrees(-37.5))
	l.add("zenith, 43° N, 13 February 9:30", 66.5, 90-altitude.Degrees(), 0.1, "°")
	l.add("azimuth from south", -40.0, azimuth.Degrees()-180, 0.1, "°")
	altitude, azimuth = sun.AtHourAngle(degrees(43), degrees(23.1), degrees(97.5))
	l.add("zenith, 43° N, 1 July 18:30", 79.6, 90-altitude.Degrees(), 0.1, "°")
	l.add("azimuth from south", 112.0, azimuth.Degrees()-180, 0.1, "°")
	l.from("Duffie & Beckman 2013, ex. 1.6.3", read)
	l.add("sunset hour angle, 43° N, 16 March", 87.8, sun.SunsetHourAngle(degrees(43), degrees(-2.4)).Degrees(), 0.05, "°")
	l.from("ASHRAE and architecture handbooks, 40° N table", fromMemory)
	for _, c := range []struct {
		what                        string
		declination, hour, alt, azi float64
	}{
		{"21 December 9:00", -23.45, -45, 14.0, 41.9},
		{"21 December 12:00", -23.45, 0, 26.55, 0},
		{"equinox 8:00", 0, -60, 22.5, 69.6},
		{"21 June 8:00", 23.45, -60, 37.4, 90.7},
	} {
		altitude, azimuth := sun.AtHourAngle(degrees(40), degrees(c.declination), degrees(c.hour))
		l.add("altitude, "+c.what, c.alt, altitude.Degrees(), 0.051, "°")
		l.add("azimuth from south, "+c.what, c.azi, 180-azimuth.Degrees(), 0.051, "°")
	}
}

func astronomyLibrary(l *list) error {
	l.from("astropy 5.2.1", computed)
	rows, err := testdata.Read("sun_astropy.csv")
	if err != nil {
		return err
	}
	worst := 0.0
	for i, r := range rows {
		at, err := time.Parse(time.RFC3339, r["utc"])
		if err != nil {
			return fmt.Errorf("sun_astropy.csv row %s: %w", r["id"], err)
		}
		p := sun.At(at, s2.LatLngFromDegrees(r.Number("lat_deg"), r.Number("lon_deg_east")), r.Number("elev_m"))
		altitude, azimuth := r.Number("altitude_deg_no_refraction"), r.Number("azimuth_deg_from_north")
		want := sun.Position{Altitude: degrees(altitude), Azimuth: degrees(azimuth)}
		worst = max(worst, p.Vector().Angle(want.Vector()).Degrees())
		if i%4 == 0 {
			where := r["site"] + ", " + r["local_standard_time"]
			l.add("altitude, "+where, altitude, p.Altitude.Degrees(), 0.01, "°")
			l.add("azimuth, "+where, azimuth, p.Azimuth.Degrees(), 0.01, "°")
		}
	}
	l.add(fmt.Sprintf("largest angle apart over all %d rows", len(rows)), 0, worst, 0.01, "°")
	return nil
}

func handbookForms(l *list) error {
	rows, err := testdata.Read("declination_eot_2026.csv")
	if err != nil {
		return err
	}
	var declination, equation float64
	for _, r := range rows {
		day, err := time.Parse(time.DateOnly, r["date_12utc"])
		if err != nil {
			return fmt.Errorf("declination_eot_2026.csv: %w", err)
		}
		p := sun.At(day.Add(12*time.Hour), s2.LatLng{}, 0)
		declination = max(declination, math.Abs(p.Declination.Degrees()-r.Number("declination_deg")))
		equation = max(equation, math.Abs(p.EquationOfTime-r.Number("equation_of_time_min")))
	}
	l.add(fmt.Sprintf("largest difference of declination, %d days of 2026", len(rows)), 0, declination, 0.001, "°")
	l.add("largest difference of the equation of time", 0, equation, 0.006, "min")
	l.from("Duffie & Beckman 2013, table 1.6.1", read)
	for _, c := range []struct {
		month time.Month
		want  float64
	}{{time.January, -20.9}, {time.April, 9.4}, {time.July, 21.2}, {time.October, -9.6}} {
		l.add("mean declination of "+c.month.String(), c.want, sun.CooperDeclination(sun.MeanDay(c.month)).Degrees(), 0.051, "°")
	}
	return nil
}
