package checks

import (
	"math"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
)

// Synthesis compares hours made from monthly figures, and what goes with
// them, with hourly data and published normals. More of it, month by month,
// is in climate/SYNTHESIS.md.
func Synthesis() ([]Check, error) {
	l := list{group: "Hours made from monthly figures"}
	if err := madeDenver(&l); err != nil {
		return nil, err
	}

	l.from("National climate normals, mean daily minimum, as quoted in Comparative Climatic Data", read)
	for _, c := range []struct {
		station string
		want    float64 // °F
	}{{"Birmingham Municipal", 52.7}, {"Huntsville", 51.4}, {"Mobile Regional", 58.1}, {"Montgomery", 53.7}} {
		s, err := climate.Find(c.station)
		if err != nil {
			return nil, err
		}
		y, err := climate.Synthesize(climate.OfStation(s[0]), s[0].LatLng, s[0].Elevation, s[0].Offset, 1)
		if err != nil {
			return nil, err
		}
		l.add("mean daily lowest of a made year, "+s[0].Label(), c.want, meanLowest(y)*1.8+32, 2, "°F")
	}

	l.from("ASHRAE Handbook of Fundamentals 2009", fromMemory)
	if err := degreeDays(&l, "Chicago Ohare", 6311); err != nil {
		return nil, err
	}
	l.from("National climate normals 1971–2000", fromMemory)
	for _, c := range []struct {
		station string
		want    float64 // °F·days
	}{{"Boston Logan", 5630}, {"Minneapolis-St Paul Intl", 7876}, {"Madison Dane", 7493}} {
		if err := degreeDays(&l, c.station, c.want); err != nil {
			return nil, err
		}
	}
	return l.checks, nil
}

// madeDenver makes Denver's year from the test year's own monthly means.
func madeDenver(l *list) error {
	file, err := denver()
	if err != nil {
		return err
	}
	m := climate.OfHours(file)
	place := s2.LatLngFromDegrees(file.Latitude, file.Longitude)
	made, err := climate.Synthesize(m, place, file.Elevation, file.Offset, 1)
	if err != nil {
		return err
	}
	l.from("NREL TMY3 Denver (Wilcox & Marion 2008), its printed sums", read)
	sum := func(of func(sun.Hour) float64) (total float64) {
		for _, h := range made.Hours {
			total += of(h) / 1000
		}
		return total
	}
	l.add("global of a year made from the monthly means", 1670.2, sum(func(h sun.Hour) float64 { return h.Global }), 0.1, "kWh/m²")
	l.add("diffuse of it", 556.5, sum(func(h sun.Hour) float64 { return h.Diffuse }), 0.5, "kWh/m²")
	l.add("beam normal of it, which the method is not given", 1977.6, sum(func(h sun.Hour) float64 { return h.Beam }), 40, "kWh/m²")
	l.from("the same file's hours under our own tilted-plane model", computed)
	for _, p := range []struct {
		what          string
		tilt, azimuth float64
		within        float64 // share
	}{{"south wall", 90, 180, 0.02}, {"30° south roof", 30, 180, 0.02}, {"east wall", 90, 90, 0.05}} {
		n := climate.Normal(degrees(p.tilt), degrees(p.azimuth))
		year := func(y sun.Year) (total float64) {
			for _, q := range climate.PlaneSun(y, n, sky.Anisotropic) {
				total += q.Sum()
			}
			return total
		}
		want := year(file)
		l.add(p.what+" from made hours", math.Round(want), year(made), math.Round(p.within*want), "kWh/m²")
	}
	return nil
}

func meanLowest(y sun.Year) float64 {
	sum := 0.0
	for d := range 365 {
		lowest := math.Inf(1)
		for _, h := range y.Hours[d*24 : d*24+24] {
			lowest = min(lowest, h.Air)
		}
		sum += lowest / 365
	}
	return sum
}

// degreeDays adds a station's yearly sum worked out from its monthly means;
// typical years and normals differ by a few percent.
func degreeDays(l *list, station string, want float64) error {
	s, err := climate.Find(station)
	if err != nil {
		return err
	}
	sum := 0.0
	for _, v := range climate.DegreeDays(s[0].Mean) {
		sum += v * 1.8
	}
	l.add("heating degree-days below 65 °F from monthly means, "+s[0].Label(), want, sum, math.Round(0.05*want), "°F·days")
	return nil
}
