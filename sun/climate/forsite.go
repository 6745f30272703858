package climate

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun"
)

// defaultSwing is the mean difference between the day's highest and lowest
// temperature, °C, where neither figures nor a station say: our own rule.
const defaultSwing = 10.0

// ForSite makes the typical year a site asks for, and the monthly figures
// behind it with their degree-days: the nearest stations blended, one station
// by name, an hourly file (read through readFile), or twelve monthly figures.
// The seed orders the days of a synthesised year; an hourly file needs none.
// With an hourly file the year is that of the file's own place and zone, so
// that its beam and its sun stay together, and its albedo is the file's where
// it has a trusted column, the snow rule's elsewhere.
func ForSite(place model.Place, choice model.ClimateChoice, readFile func(string) ([]byte, error), seed uint64) (sun.Year, Monthly, error) {
	if choice.File != "" {
		return fromFile(place, choice, readFile)
	}
	offset, zoneNote, err := standardZone(place)
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: %w", err)
	}
	var m Monthly
	switch {
	case choice.Station != "":
		m, err = fromStation(place, choice.Station)
	case choice.Monthly:
		m = fromFigures(place, choice)
	default:
		m, err = Blend(place.LatLng, place.Elevation)
	}
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: %w", err)
	}
	if zoneNote != "" {
		m.Notes = append(m.Notes, zoneNote)
	}
	if choice.Albedo != nil {
		m.Albedo = *choice.Albedo
	}
	y, err := Synthesize(m, place.LatLng, place.Elevation, offset, seed)
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: %s: %w", m.Source, err)
	}
	m.Diffuse = monthlyMean(y, func(h sun.Hour) float64 { return h.Diffuse })
	m.Notes = y.Notes
	return y, m, nil
}

// standardZone is local standard time less UTC at a place.
func standardZone(place model.Place) (offset time.Duration, note string, err error) {
	if place.Zone == "" {
		if near := Nearest(place.LatLng, 1); len(near) > 0 && near[0].Distance < coverage {
			return near[0].Offset, fmt.Sprintf("time zone not stated: standard time %s of the nearest station taken", utc(near[0].Offset)), nil
		}
		offset = solarZone(place.Longitude())
		return offset, fmt.Sprintf("time zone not stated: standard time %s taken from the longitude", utc(offset)), nil
	}
	location, err := time.LoadLocation(place.Zone)
	if err != nil {
		return 0, "", fmt.Errorf("time zone %q is not known: give an IANA name such as America/New_York", place.Zone)
	}
	offset = sun.StandardOffset(location, typicalCalendar)
	if apart := math.Remainder(offset.Hours()-place.Longitude()/15, 24); math.Abs(apart) > 4 {
		return 0, "", fmt.Errorf("time zone %s is %.0f hours from the sun's time at longitude %.2f: check the zone, and that a west longitude is negative", place.Zone, math.Abs(apart), place.Longitude())
	}
	return offset, "", nil
}

// utc names an offset: UTC-5, UTC+5:30.
func utc(offset time.Duration) string {
	minutes := int(offset.Minutes())
	text := fmt.Sprintf("UTC%+d", minutes/60)
	if rest := minutes % 60; rest != 0 {
		text += fmt.Sprintf(":%02d", max(rest, -rest))
	}
	return text
}

// solarZone is the whole-hour zone around a longitude in degrees.
func solarZone(longitude float64) time.Duration {
	return time.Duration(math.Round(longitude/15)) * time.Hour
}

// nearestNames tells which stations stand nearest to a place.
func nearestNames(place s2.LatLng) string {
	var near []string
	for _, s := range Nearest(place, 3) {
		near = append(near, s.Label()+", "+far(s.Distance))
	}
	return "the stations nearest to the lot's latitude and longitude are " + strings.Join(near, "; ") + ": write one of them, or climate: nearest to have them blended"
}

// far is a distance in metres for readers of either unit.
func far(metres float64) string {
	return fmt.Sprintf("%.0f km (%.0f mi)", metres/1000, metres/1609.344)
}

func fromStation(place model.Place, name string) (Monthly, error) {
	found, err := Find(name)
	if err != nil {
		return Monthly{}, fmt.Errorf("%w; %s", err, nearestNames(place.LatLng))
	}
	if len(found) > 1 {
		var labels []string
		for _, s := range found[:min(5, len(found))] {
			labels = append(labels, s.Label())
		}
		return Monthly{}, fmt.Errorf("%d stations are called %q: write one of %s", len(found), name, strings.Join(labels, "; "))
	}
	s := found[0]
	away := distance(place.LatLng, s.LatLng)
	if !math.IsNaN(place.Elevation) {
		s = atElevation(s, place.Elevation)
	}
	m := OfStation(s)
	m.From = []Near{{Station: found[0], Distance: away, Weight: 1}}
	if !math.IsNaN(place.Elevation) {
		m.Elevation = place.Elevation
	}
	if away > blendReach {
		m.Notes = append(m.Notes, fmt.Sprintf("station %s is %s away", s.Label(), far(away)))
	}
	moveSun(&m, found[0], place.LatLng)
	return m, nil
}

// moveSun keeps a station's clearness under the sun of another latitude.
func moveSun(m *Monthly, s Station, place s2.LatLng) {
	one := Monthly{From: []Near{{Station: s, Weight: 1}}}
	blendSun(&one, place)
	m.Global, m.Diffuse = one.Global, one.Diffuse
}

func fromFigures(place model.Place, choice model.ClimateChoice) Monthly {
	m := Monthly{
		Source: "twelve monthly figures of the site file",
		Global: choice.Global, Diffuse: unknown(), BeamNormal: unknown(),
		Mean: choice.Temp, HDD: DegreeDays(choice.Temp), Albedo: SnowAlbedo(choice.Temp),
		Elevation: place.Elevation,
	}
	if choice.Diffuse != nil {
		m.Diffuse = *choice.Diffuse
	} else {
		m.Notes = append(m.Notes, "diffuse sun not stated: from the monthly correlation of Erbs, Klein & Duffie 1982")
	}
	near, err := Blend(place.LatLng, place.Elevation)
	for i := range 12 {
		above, below := defaultSwing/2, defaultSwing/2
		if err == nil {
			above, below = near.Max[i]-near.Mean[i], near.Mean[i]-near.Min[i]
		}
		m.Max[i], m.Min[i] = m.Mean[i]+above, m.Mean[i]-below
	}
	if err == nil {
		m.Notes = append(m.Notes, "daily swing of temperature taken from the nearest stations")
	} else {
		m.Notes = append(m.Notes, fmt.Sprintf("daily swing of temperature not known: %.0f °C (%.0f °F) taken", defaultSwing, defaultSwing*1.8))
	}
	m.Notes = append(m.Notes, "heating degree-days worked out from the monthly means")
	return m
}

// fileFar is the distance, m, beyond which an hourly file's own place is
// pointed out: our own rule.
const fileFar = 50e3

func fromFile(place model.Place, choice model.ClimateChoice, readFile func(string) ([]byte, error)) (sun.Year, Monthly, error) {
	if readFile == nil {
		return sun.Year{}, Monthly{}, errors.New("climate: an hourly file is asked for, but none can be read here")
	}
	content, err := readFile(choice.File)
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: hourly file: %w", err)
	}
	f, err := ReadHourly(choice.File, bytes.NewReader(content))
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: %w", err)
	}
	y, err := f.Year()
	if err != nil {
		return sun.Year{}, Monthly{}, fmt.Errorf("climate: %w", err)
	}
	m := OfHours(y)
	if choice.Albedo != nil || !f.stated[albedo] {
		m.Albedo = SnowAlbedo(m.Mean)
		if choice.Albedo != nil {
			m.Albedo = *choice.Albedo
		}
		for i := range y.Hours {
			month, _ := sun.Month(i)
			y.Hours[i].Albedo = m.Albedo[month-1]
		}
	}
	if away := distance(place.LatLng, s2.LatLngFromDegrees(f.Latitude, f.Longitude)); away > fileFar {
		y.Notes = append(y.Notes, fmt.Sprintf("the hourly file's place is %s away; its own sun is used with its weather", far(away)))
	}
	m.Notes = y.Notes
	return y, m, nil
}
