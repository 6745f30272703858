package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/southyard/southyard/testdata"
)

func TestSunAtAnInstantAsJSON(t *testing.T) {
	out, _, err := runWords("sun", "--latitude", "41.65", "--longitude", "-83.54", "--at", "2026-12-21T12:00:00-05:00", "--json")
	if err != nil {
		t.Fatal(err)
	}
	var s map[string]any
	if err := json.Unmarshal([]byte(out), &s); err != nil {
		t.Fatal(err)
	}
	// Noon altitude is 90° less the latitude and the 23.44° of the solstice,
	// less what half an hour before noon takes; the equation of time of the
	// solstice is +2 minutes within a half (any almanac).
	for name, want := range map[string]struct{ value, within float64 }{
		"altitude": {24.9, 0.6}, "altitude_refracted": {24.95, 0.6}, "azimuth": {172, 1}, "equation_of_time": {2, 0.5},
	} {
		got, ok := s[name].(float64)
		if !ok || math.Abs(got-want.value) > want.within {
			t.Errorf("%s = %v, want about %g", name, s[name], want.value)
		}
	}
	if s["altitude_refracted"].(float64) <= s["altitude"].(float64) {
		t.Error("the air does not lift the sun")
	}
}

func TestSameInstantInAnotherOffsetIsTheSameSun(t *testing.T) {
	at := func(text string) (s sunInstant) {
		out, _, err := runWords("sun", "--latitude=-38", "--longitude=145", "--json", "--at", text)
		if err != nil || json.Unmarshal([]byte(out), &s) != nil {
			t.Fatal(err)
		}
		s.Time = ""
		return s
	}
	if a, b := at("2026-06-21T12:00:00+10:00"), at("2026-06-21T02:00:00Z"); a != b {
		t.Errorf("%+v, %+v", a, b)
	}
}

func TestEveryPrintedTimeNamesItsKind(t *testing.T) {
	out, _, err := runWords("sun", "--latitude", "41.65", "--longitude", "-83.54", "--on", "2026-07-04", "--zone", "America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out, "\n") {
		if strings.Contains(line, "sunrise ") || strings.Contains(line, "transit ") || strings.Contains(line, "sunset ") {
			for _, kind := range []string{"clock time (EDT, daylight saving)", "local standard time (UTC−5)", "solar time"} {
				if !strings.Contains(line, kind) && !strings.HasPrefix(line, "Altitudes") && !strings.HasPrefix(line, "Azimuth") {
					t.Errorf("no %q in %q", kind, line)
				}
			}
		}
	}
	if !strings.Contains(out, "12:00 solar time") {
		t.Errorf("transit is not solar noon:\n%s", out)
	}
}

func TestDaysOfTheSwitchHave23And25Hours(t *testing.T) {
	for date, want := range map[string]int{"2026-03-08": 23, "2026-11-01": 25, "2026-06-01": 24} {
		out, _, err := runWords("sun", "--latitude", "41.65", "--longitude", "-83.54", "--on", date, "--zone", "America/New_York", "--json")
		if err != nil {
			t.Fatal(err)
		}
		var d sunDay
		if err := json.Unmarshal([]byte(out), &d); err != nil {
			t.Fatal(err)
		}
		if len(d.Hours) != want {
			t.Errorf("%s: %d hours, want %d", date, len(d.Hours), want)
		}
	}
}

func TestPolarDaysSaySo(t *testing.T) {
	for date, want := range map[string]string{"2026-12-21": "sun down all day", "2026-06-21": "sun up all day"} {
		out, _, err := runWords("sun", "--latitude", "78", "--longitude", "15", "--on", date)
		if err != nil || !strings.Contains(out, want) || strings.Contains(out, "sunrise  ") {
			t.Errorf("%s: %v\n%s", date, err, out)
		}
	}
}

func TestSunFaultsSayWhatWouldBeRight(t *testing.T) {
	place := []string{"sun", "--latitude", "41.65", "--longitude", "-83.54"}
	for _, c := range []struct {
		words []string
		want  string
	}{
		{[]string{"sun", "--at", "2026-12-21T12:00:00-05:00"}, "--latitude 41.65"},
		{append(place, "--at", "noon"), "2026-12-21T12:00:00-05:00"},
		{append(place, "--at", "2026-12-21T12:00:00"), "offset from UTC"},
		{append(place, "--on", "2026-02-30"), "year-month-day"},
		{append(place, "--on", "2026-12-21", "--zone", "Ohio"), "IANA"},
		{append(place, "--on", "1066-10-14"), "1800 to 2200"},
		{place, "one of --at"},
		{append(place, "41.65,-83.54", "--on", "2026-12-21"), "--latitude"},
		{[]string{"sun", "--latitude", "141", "--longitude", "-83.54", "--on", "2026-12-21"}, "-90"},
		{[]string{"sun", "--latitude", "NaN", "--longitude", "0", "--on", "2026-12-21"}, "-90"},
	} {
		out, code, err := runWords(c.words...)
		if err == nil || code != 2 || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: code %d, %v\n%s", c.words, code, err, out)
		}
	}
}

// Sunrise, transit and sunset of the reference table, to 10 s: the command
// adds nothing to them.
func TestDayAgainstTheReferenceTable(t *testing.T) {
	rows, err := testdata.Read("sun_events_astropy.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[:6] {
		out, _, err := runWords("sun", "--latitude="+r["lat_deg"], "--longitude="+r["lon_deg_east"], "--on", r["date"], "--zone", "UTC", "--json")
		if err != nil {
			t.Fatal(err)
		}
		var d sunDay
		if err := json.Unmarshal([]byte(out), &d); err != nil {
			t.Fatal(err)
		}
		offset := time.Duration(r.Number("utc_offset_h") * float64(time.Hour))
		for what, c := range map[string][2]string{"sunrise_lst": {d.Sunrise, r["sunrise_lst"]}, "transit_lst": {d.Transit, r["transit_lst"]}} {
			got, err := time.Parse(time.RFC3339, c[0])
			if err != nil {
				t.Fatal(err)
			}
			want, err := time.Parse("2006-01-02 15:04:05", r["date"]+" "+c[1])
			if err != nil {
				t.Fatal(err)
			}
			if off := got.Sub(want.Add(-offset)); off.Abs() > 10*time.Second {
				t.Errorf("%s %s: %s off by %v", r["site"], r["date"], what, off)
			}
		}
	}
}

func TestHelpIsGivenWhereverItIsAskedFor(t *testing.T) {
	for _, words := range [][]string{{"climate", "--help"}, {"climate", "Toledo", "--help"}, {"climate", "Toledo", "-h", "--metric"}, {"sun", "--latitude", "41", "-h"}} {
		if out, code, err := runWords(words...); code != 0 || !strings.Contains(out, "USAGE:") {
			t.Errorf("%q: code %d, %v\n%s", words, code, err, out)
		}
	}
}
