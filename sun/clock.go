package sun

import (
	"fmt"
	"time"
	_ "time/tzdata" // zones by name on any machine

	"github.com/golang/geo/s1"
)

// SolarTime is apparent solar time at a longitude (east positive), hours
// 0..24: 12 when the sun stands on the meridian.
func SolarTime(t time.Time, longitude s1.Angle) float64 {
	s := apparentAt(t)
	return fold(s.sidereal+longitude.Degrees()-s.ascension+180) / 15
}

// StandardOffset is local standard time minus UTC in a location: what its
// clocks show without daylight saving. It is the smaller of the offsets of
// mid-January and mid-July, so a zone that calls its summer time "standard"
// (Ireland) is taken by its winter time, and a zone that moved for good within
// the year by the smaller of its two.
func StandardOffset(loc *time.Location, year int) time.Duration {
	_, january := time.Date(year, time.January, 15, 12, 0, 0, 0, loc).Zone()
	_, july := time.Date(year, time.July, 15, 12, 0, 0, 0, loc).Zone()
	return time.Duration(min(january, july)) * time.Second
}

// ClockText prints an instant as the clock on the wall shows it, naming the
// zone and daylight saving: "13:21 clock time (EDT, daylight saving)".
func ClockText(t time.Time) string {
	saving := ""
	if t.IsDST() {
		saving = ", daylight saving"
	}
	zone, offset := t.Zone()
	if zone == "" || zone[0] == '+' || zone[0] == '-' {
		zone = offsetText(time.Duration(offset) * time.Second)
	}
	return fmt.Sprintf("%s clock time (%s%s)", t.Round(time.Minute).Format("15:04"), zone, saving)
}

// StandardText prints an instant in local standard time, the time of hourly
// weather files: "12:21 local standard time (UTC−5)".
func StandardText(t time.Time, offset time.Duration) string {
	at := t.UTC().Add(offset).Round(time.Minute)
	return fmt.Sprintf("%s local standard time (%s)", at.Format("15:04"), offsetText(offset))
}

// SolarText prints an instant in solar time at a longitude: "11:58 solar time".
func SolarText(t time.Time, longitude s1.Angle) string {
	minutes := int(SolarTime(t, longitude)*60+0.5) % (24 * 60)
	return fmt.Sprintf("%02d:%02d solar time", minutes/60, minutes%60)
}

func offsetText(offset time.Duration) string {
	if offset == 0 {
		return "UTC"
	}
	sign := "+"
	if offset < 0 {
		sign, offset = "−", -offset
	}
	hours, minutes := int(offset.Hours()), int(offset.Minutes())%60
	if minutes == 0 {
		return fmt.Sprintf("UTC%s%d", sign, hours)
	}
	return fmt.Sprintf("UTC%s%d:%02d", sign, hours, minutes)
}
