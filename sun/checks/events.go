package checks

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/testdata"
)

func events() ([]Check, error) {
	l := list{group: "Sunrise, transit, sunset"}
	hours := func(t time.Time) float64 {
		return float64(t.Hour()) + float64(t.Minute())/60 + (float64(t.Second())+float64(t.Nanosecond())*1e-9)/3600
	}
	clock := func(h, m int, s float64) float64 { return float64(h) + float64(m)/60 + s/3600 }
	const seconds = 5.0 / 3600

	l.from("Reda & Andreas 2008, table A2.1", read)
	for _, c := range []struct {
		date      time.Time
		latitude  float64
		rise, set float64
	}{
		{time.Date(1994, 1, 2, 0, 0, 0, 0, time.UTC), 35, clock(7, 8, 12.8), clock(16, 59, 55.9)},
		{time.Date(1996, 7, 5, 0, 0, 0, 0, time.UTC), -35, clock(7, 8, 15.4), clock(17, 1, 4.5)},
		{time.Date(2004, 12, 4, 0, 0, 0, 0, time.UTC), -35, clock(4, 38, 57.1), clock(19, 2, 2.5)},
	} {
		day := sun.DayAt(c.date, s2.LatLngFromDegrees(c.latitude, 0))
		what := fmt.Sprintf("%s, latitude %+g", c.date.Format("2 January 2006"), c.latitude)
		l.add("sunrise "+what, c.rise, hours(day.Rise), seconds, "h UT")
		l.add("sunset "+what, c.set, hours(day.Set), seconds, "h UT")
	}

	l.from("astropy 5.2.1", computed)
	rows, err := testdata.Read("sun_events_astropy.csv")
	if err != nil {
		return nil, err
	}
	worst := 0.0
	for _, r := range rows {
		date, err := time.Parse(time.DateOnly, r["date"])
		if err != nil {
			return nil, fmt.Errorf("sun_events_astropy.csv row %s: %w", r["id"], err)
		}
		loc := time.FixedZone("", int(r.Number("utc_offset_h")*3600))
		day := sun.DayAt(time.Date(date.Year(), date.Month(), date.Day(), 12, 0, 0, 0, loc),
			s2.LatLngFromDegrees(r.Number("lat_deg"), r.Number("lon_deg_east")))
		for column, got := range map[string]time.Time{"sunrise_lst": day.Rise, "transit_lst": day.Transit, "sunset_lst": day.Set} {
			want, err := time.Parse("15:04:05", r[column])
			if err != nil {
				return nil, fmt.Errorf("sun_events_astropy.csv row %s: %w", r["id"], err)
			}
			worst = max(worst, math.Abs(hours(got)-hours(want))*3600)
		}
	}
	l.add(fmt.Sprintf("largest difference over %d days, three events each", len(rows)), 0, worst, 5, "s")
	return l.checks, nil
}
