package sun

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
)

func zone(hours float64) *time.Location {
	return time.FixedZone("", int(hours*3600))
}

func location(t *testing.T, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// secondsOff between an event and a time of day on the same clock, over
// midnight if need be.
func secondsOff(got time.Time, clock string) float64 {
	want, err := time.Parse("15:04:05", clock)
	if err != nil {
		return math.NaN()
	}
	of := func(t time.Time) float64 {
		return float64(t.Hour()*3600+t.Minute()*60+t.Second()) + float64(t.Nanosecond())*1e-9
	}
	return math.Mod(of(got)-of(want)+1.5*86400, 86400) - 43200
}

func TestRiseTransitSetAgreeWithAReferenceLibrary(t *testing.T) {
	worst := 0.0
	for _, r := range rows(t, "sun_events_astropy.csv") {
		date, err := time.Parse(time.DateOnly, r["date"])
		if err != nil {
			t.Fatal(err)
		}
		loc := zone(r.Number("utc_offset_h"))
		day := DayAt(time.Date(date.Year(), date.Month(), date.Day(), 12, 0, 0, 0, loc),
			s2.LatLngFromDegrees(r.Number("lat_deg"), r.Number("lon_deg_east")))
		if day.Kind != Ordinary {
			t.Errorf("%s: %v", r["id"], day.Kind)
		}
		for _, e := range []struct {
			name string
			got  time.Time
			want string
		}{{"rise", day.Rise, r["sunrise_lst"]}, {"transit", day.Transit, r["transit_lst"]}, {"set", day.Set, r["sunset_lst"]}} {
			if e.got.Day() != date.Day() {
				t.Errorf("%s %s on %v", r["id"], e.name, e.got)
			}
			off := secondsOff(e.got, e.want)
			worst = max(worst, math.Abs(off))
			near(t, r["id"]+" "+e.name+" seconds off", off, 0, 5)
		}
	}
	t.Logf("worst %.1f s", worst)
}

// Reda & Andreas 2008, table A2.1: longitude 0, UT.
func TestPublishedSunrises(t *testing.T) {
	for _, c := range []struct {
		date      time.Time
		latitude  float64
		rise, set string
	}{
		{time.Date(1994, 1, 2, 0, 0, 0, 0, time.UTC), 35, "07:08:12.8", "16:59:55.9"},
		{time.Date(1996, 7, 5, 0, 0, 0, 0, time.UTC), -35, "07:08:15.4", "17:01:04.5"},
		{time.Date(2004, 12, 4, 0, 0, 0, 0, time.UTC), -35, "04:38:57.1", "19:02:02.5"},
	} {
		day := DayAt(c.date, s2.LatLngFromDegrees(c.latitude, 0))
		near(t, c.date.String()+" rise", secondsOff(day.Rise, c.rise), 0, 5)
		near(t, c.date.String()+" set", secondsOff(day.Set, c.set), 0, 5)
	}
}

// The report's example names the sunset of 16 October; a civil day must not.
func TestCivilDayDoesNotFoldOverAtGreenwichMidnight(t *testing.T) {
	day := DayAt(time.Date(2003, 10, 17, 12, 0, 0, 0, zone(-7)), s2.LatLngFromDegrees(39.742476, -105.1786))
	near(t, "rise", secondsOff(day.Rise, "06:12:44"), 0, 5)
	near(t, "transit", secondsOff(day.Transit, "11:46:05"), 0, 5)
	near(t, "set", secondsOff(day.Set, "17:18:51"), 0, 5)
	if day.Set.Day() != 17 {
		t.Errorf("sunset on %v", day.Set)
	}
	before := DayAt(time.Date(2003, 10, 16, 1, 0, 0, 0, zone(-7)), s2.LatLngFromDegrees(39.742476, -105.1786))
	near(t, "set the day before", secondsOff(before.Set, "17:20:18"), 0, 5)
}

func TestPolarDayAndNight(t *testing.T) {
	svalbard := s2.LatLngFromDegrees(78.2, 15.6)
	for _, c := range []struct {
		name  string
		month time.Month
		place s2.LatLng
		want  DayKind
	}{
		{"Svalbard June", time.June, svalbard, AllDay},
		{"Svalbard December", time.December, svalbard, AllNight},
		{"North Pole June", time.June, s2.LatLngFromDegrees(90, 0), AllDay},
		{"South Pole June", time.June, s2.LatLngFromDegrees(-90, 0), AllNight},
		{"equator June", time.June, s2.LatLngFromDegrees(0, 0), Ordinary},
	} {
		day := DayAt(time.Date(2026, c.month, 21, 12, 0, 0, 0, zone(1)), c.place)
		if day.Kind != c.want {
			t.Errorf("%s: %v", c.name, day.Kind)
		}
		if c.want != Ordinary && !(day.Rise.IsZero() && day.Set.IsZero()) {
			t.Errorf("%s: %v", c.name, day)
		}
		if day.Transit.IsZero() {
			t.Errorf("%s: no transit", c.name)
		}
	}
}

func TestPolarSummerBeginsWithARiseAndNoSet(t *testing.T) {
	svalbard := s2.LatLngFromDegrees(78.2, 15.6)
	kinds := map[DayKind]int{}
	riseOnly, setOnly := 0, 0
	var last bool // whether the sun was left up
	for d := 1; d <= 365; d++ {
		date := time.Date(2026, 1, d, 12, 0, 0, 0, zone(1))
		day := DayAt(date, svalbard)
		kinds[day.Kind]++
		up := At(time.Date(2026, 1, d+1, 0, 0, 0, 0, zone(1)), svalbard, 0).Altitude.Degrees() > horizonAltitude
		switch {
		case day.Kind != Ordinary:
			if up != (day.Kind == AllDay) {
				t.Errorf("%v: %v, up at midnight %v", date, day.Kind, up)
			}
		case day.Set.IsZero():
			riseOnly++
			if last || !up {
				t.Errorf("%v: rises, yet up %v then %v", date, last, up)
			}
		case day.Rise.IsZero():
			setOnly++
			if up {
				t.Errorf("%v: sets, yet up at midnight", date)
			}
		}
		last = up
	}
	t.Logf("%v, rise only %d, set only %d", kinds, riseOnly, setOnly)
	if riseOnly == 0 || kinds[AllDay] < 110 || kinds[AllNight] < 100 {
		t.Errorf("%v, rise only %d", kinds, riseOnly)
	}
}

func TestDateLine(t *testing.T) {
	// Two sides of the date line share the sun and not the date.
	west := DayAt(time.Date(2026, 3, 21, 0, 0, 0, 0, zone(12)), s2.LatLngFromDegrees(-17, 179.999))
	east := DayAt(time.Date(2026, 3, 20, 0, 0, 0, 0, zone(-12)), s2.LatLngFromDegrees(-17, -179.999))
	near(t, "rise", west.Rise.Sub(east.Rise).Seconds(), 0, 2)
	near(t, "set", west.Set.Sub(east.Set).Seconds(), 0, 2)
	if west.Rise.Day() != 21 || east.Rise.Day() != 20 {
		t.Errorf("rise %v and %v", west.Rise, east.Rise)
	}
}

func TestZoneFarFromItsPlaceKeepsEventsInTheDay(t *testing.T) {
	// Solar noon near clock midnight: set comes before rise, both on the day.
	day := DayAt(time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC), s2.LatLngFromDegrees(40, 178))
	if day.Rise.Day() != 20 || day.Set.Day() != 20 || !day.Set.Before(day.Rise) {
		t.Errorf("%+v", day)
	}
}

func TestSwitchDaysKeepTheSunAndMoveTheClock(t *testing.T) {
	toledo := s2.LatLngFromDegrees(41.65, -83.54)
	loc := location(t, "America/New_York")
	for _, c := range []struct {
		name       string
		month      time.Month
		day, hours int
	}{{"spring", time.March, 8, 23}, {"fall", time.November, 1, 25}, {"plain", time.May, 5, 24}} {
		date := time.Date(2026, c.month, c.day, 12, 0, 0, 0, loc)
		start, end := civilDay(date)
		near(t, c.name+" hours", end.Sub(start).Hours(), float64(c.hours), 0)
		clock := DayAt(date, toledo)
		standard := DayAt(date.In(zone(-5)), toledo)
		near(t, c.name+" rise", clock.Rise.Sub(standard.Rise).Seconds(), 0, 0.01)
		near(t, c.name+" transit", clock.Transit.Sub(standard.Transit).Seconds(), 0, 0.01)
		near(t, c.name+" set", clock.Set.Sub(standard.Set).Seconds(), 0, 0.01)
		if c.name == "spring" && (!clock.Rise.IsDST() || clock.Rise.Hour() != standard.Rise.In(zone(-5)).Hour()+1) {
			t.Errorf("spring sunrise %v", clock.Rise)
		}
	}
	// Zones whose midnight is skipped, or whose whole day is.
	for _, c := range []struct {
		zone  string
		y     int
		m     time.Month
		d     int
		hours float64
		begin string
	}{
		{"America/Sao_Paulo", 2018, time.November, 4, 23, "01:00"},
		{"America/Havana", 2025, time.November, 2, 25, "00:00"},
		{"Asia/Beirut", 2025, time.March, 30, 23, "01:00"},
	} {
		start, end := civilDay(time.Date(c.y, c.m, c.d, 12, 0, 0, 0, location(t, c.zone)))
		near(t, c.zone, end.Sub(start).Hours(), c.hours, 0)
		if got := start.Format("15:04"); got != c.begin {
			t.Errorf("%s begins at %s", c.zone, got)
		}
	}
}

func TestGrazingSunIsFound(t *testing.T) {
	// Walk latitude through the edge of the midnight sun: the day goes from
	// ordinary to all day once and stays, after ever shorter nights.
	turned := false
	shortest := 24 * time.Hour
	for latitude := 65.72; latitude < 65.78; latitude += 0.0005 {
		day := DayAt(time.Date(2026, 6, 21, 12, 0, 0, 0, zone(2)), s2.LatLngFromDegrees(latitude, 25))
		if day.Kind == AllDay {
			turned = true
			continue
		}
		if turned {
			t.Errorf("ordinary again at %g", latitude)
		}
		night := day.Rise.Sub(day.Set)
		if night < 0 {
			night += 24 * time.Hour
		}
		shortest = min(shortest, night)
	}
	if !turned {
		t.Error("never all day")
	}
	if shortest > 12*time.Minute {
		t.Errorf("shortest night found %v", shortest)
	}
}

// At latitude 0 the day lasts 12 h 7 min the year round: the sun moves 15° an
// hour and starts and ends 0.8333° below the horizon.
func TestEquatorsDayIsTwelveHoursAndSome(t *testing.T) {
	for m := time.January; m <= time.December; m++ {
		day := DayAt(time.Date(2026, m, 15, 12, 0, 0, 0, time.UTC), s2.LatLng{})
		near(t, m.String(), day.Set.Sub(day.Rise).Minutes(), 727, 0.8)
	}
}

func TestTextsNameTheirTime(t *testing.T) {
	loc := location(t, "America/New_York")
	at := time.Date(2026, 7, 1, 13, 21, 0, 0, loc)
	longitude := s1.Angle(-83.54) * s1.Degree
	for _, c := range []struct{ got, want string }{
		{ClockText(at), "13:21 clock time (EDT, daylight saving)"},
		{ClockText(time.Date(2026, 1, 1, 9, 5, 0, 0, loc)), "09:05 clock time (EST)"},
		{ClockText(time.Date(2026, 1, 1, 9, 5, 0, 0, zone(5.5))), "09:05 clock time (UTC+5:30)"},
		{StandardText(at, StandardOffset(loc, 2026)), "12:21 local standard time (UTC−5)"},
		{StandardText(at, 0), "17:21 local standard time (UTC)"},
		{SolarText(at, longitude), "11:43 solar time"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestStandardOffsets(t *testing.T) {
	for name, hours := range map[string]float64{
		"America/New_York": -5, "America/Phoenix": -7, "America/St_Johns": -3.5,
		"Australia/Sydney": 10, "Pacific/Auckland": 12, "Asia/Kolkata": 5.5, "Europe/Dublin": 0, "UTC": 0,
	} {
		near(t, name, StandardOffset(location(t, name), 2026).Hours(), hours, 0)
	}
}

// The clock at a zone's edge is far from the sun; the sun itself is not moved.
// Ohio's west and Maine's east keep one clock.
func TestZonesEdge(t *testing.T) {
	loc := location(t, "America/New_York")
	noon := time.Date(2026, 2, 11, 12, 0, 0, 0, loc)
	west := SolarTime(noon, -84.8*s1.Degree)
	east := SolarTime(noon, -67.0*s1.Degree)
	near(t, "across the zone, minutes", (east-west)*60, 4*(84.8-67.0), 1e-6)
	near(t, "west edge", west, 12+(4*(75-84.8)-14.17)/60, 0.02/60)
	// crossing the line into the next zone moves the clock, not the sun
	chicago := noon.In(location(t, "America/Chicago"))
	near(t, "same sun", SolarTime(chicago, -84.8*s1.Degree), west, 0)
	if chicago.Hour() != 11 {
		t.Error(chicago)
	}
	// on the switch night two clocks an hour apart name successive instants
	first := time.Date(2026, 3, 8, 1, 59, 0, 0, loc)
	next := first.Add(time.Minute)
	if next.Hour() != 3 || StandardText(next, -5*time.Hour) != "02:00 local standard time (UTC−5)" {
		t.Errorf("%v, %s", next, StandardText(next, -5*time.Hour))
	}
	near(t, "sun's minute", (SolarTime(next, 0)-SolarTime(first, 0))*60, 1, 1e-3)
}

func TestSolarTimeIsTwelveAtTransit(t *testing.T) {
	for _, longitude := range []float64{-179, -83.54, 0, 100, 179} {
		day := DayAt(time.Date(2026, 9, 1, 12, 0, 0, 0, zone(math.Round(longitude/15))), s2.LatLngFromDegrees(30, longitude))
		near(t, "solar time", SolarTime(day.Transit, s1.Angle(longitude)*s1.Degree), 12, 1e-5)
	}
}
