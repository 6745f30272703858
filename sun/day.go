package sun

import (
	"math"
	"sort"
	"time"

	"github.com/golang/geo/s2"
)

// horizonAltitude of the sun's centre at sunrise and sunset, degrees: 0.5667°
// of refraction and 0.26667° of half its disk (Reda & Andreas 2008, A.2).
const horizonAltitude = -0.8333

// DayKind says whether the sun crosses the horizon on a day.
type DayKind int

// The kinds of day.
const (
	Ordinary DayKind = iota // it rises, sets or does both
	AllDay                  // it is up the whole day
	AllNight                // it is down the whole day
)

// String names the kind in plain words.
func (k DayKind) String() string {
	switch k {
	case AllDay:
		return "sun up all day"
	case AllNight:
		return "sun down all day"
	}
	return "ordinary day"
}

// Day holds what the sun does on one civil day. An event that does not happen
// on that day is the zero time: near the poles a day may have a sunrise and no
// sunset. Times are in the day's own location, clock time.
type Day struct {
	Rise    time.Time // the first sunrise of the day
	Transit time.Time // the first time the sun stands on the meridian, whether up or not
	Set     time.Time // the last sunset of the day
	Kind    DayKind
}

// DayAt gives the events of the civil day of date in its Location, midnight
// to midnight on the clock, whatever day it is at Greenwich and however long
// daylight saving makes it. The sun rises and sets when its centre, seen from
// sea level at the place, is 0.8333° below the horizon; hills and houses are
// left out. Events are good to a few seconds up to 65° of latitude; where the
// sun grazes the horizon, no better than the weather's refraction lets them be.
func DayAt(date time.Time, place s2.LatLng) Day {
	start, end := civilDay(date)
	above := func(t time.Time) float64 {
		return At(t, place, 0).Altitude.Degrees() - horizonAltitude
	}
	var day Day
	const look = 10 * time.Minute
	before, from := above(start), start
	angle := At(start, place, 0).HourAngle.Degrees()
	for from.Before(end) {
		to := from.Add(look)
		if to.After(end) {
			to = end
		}
		after := above(to)
		for _, mark := range marksIn(from, to, before, after, above) {
			switch high := above(mark.to) > 0; {
			case high && above(mark.from) <= 0 && day.Rise.IsZero():
				day.Rise = crossing(mark.from, mark.to, above)
			case !high && above(mark.from) > 0:
				day.Set = crossing(mark.from, mark.to, above)
			}
		}
		nextAngle := At(to, place, 0).HourAngle.Degrees()
		if angle < 0 && angle > -90 && nextAngle >= 0 && day.Transit.IsZero() {
			day.Transit = crossing(from, to, func(t time.Time) float64 {
				return At(t, place, 0).HourAngle.Degrees()
			})
		}
		before, from, angle = after, to, nextAngle
	}
	if day.Rise.IsZero() && day.Set.IsZero() {
		day.Kind = AllNight
		if before > 0 {
			day.Kind = AllDay
		}
	}
	return day
}

type span struct{ from, to time.Time }

// marksIn splits a short span at a turn of the sun's height inside it, where
// both ends are on the same side of the horizon and near enough for the sun to
// cross it twice in between.
func marksIn(from, to time.Time, before, after float64, above func(time.Time) float64) []span {
	const reach = 0.05 // degrees the sun's height turns by in half of ten minutes, at most
	if before > 0 != (after > 0) || math.Min(math.Abs(before), math.Abs(after)) > reach {
		return []span{{from, to}}
	}
	sign := 1.0
	if before > 0 {
		sign = -1
	}
	// ternary search for the turn toward the other side
	lo, hi := from, to
	for hi.Sub(lo) > 100*time.Millisecond {
		third := hi.Sub(lo) / 3
		a, b := lo.Add(third), hi.Add(-third)
		if sign*above(a) < sign*above(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return []span{{from, lo}, {lo, to}}
}

// crossing is where f changes sign between two instants, to a millisecond.
func crossing(from, to time.Time, f func(time.Time) float64) time.Time {
	rising := f(to) > f(from)
	for to.Sub(from) > time.Millisecond {
		middle := from.Add(to.Sub(from) / 2)
		if f(middle) > 0 == rising {
			to = middle
		} else {
			from = middle
		}
	}
	return to
}

// civilDay is the first instant of date's civil day in its location and the
// first instant of a later one. A midnight that daylight saving skips or
// repeats is met by searching instead of naming it.
func civilDay(date time.Time) (start, end time.Time) {
	y, m, d := date.Date()
	return firstInstant(y, m, d, date.Location()), firstInstant(y, m, d+1, date.Location())
}

func firstInstant(y int, m time.Month, d int, loc *time.Location) time.Time {
	wanted := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	from := wanted.Add(-30 * time.Hour)
	seconds := sort.Search(60*3600, func(s int) bool {
		cy, cm, cd := from.Add(time.Duration(s) * time.Second).In(loc).Date()
		return !time.Date(cy, cm, cd, 0, 0, 0, 0, time.UTC).Before(wanted)
	})
	return from.Add(time.Duration(seconds) * time.Second).In(loc)
}
