package climate

import (
	"math"
	"reflect"
	"testing"
	"time"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
)

// steady is a month-by-month sky of one clearness under the sun of a place.
func steady(place s2.LatLng, clearness float64) Monthly {
	lng := place.Lng.Degrees()
	above := extraterrestrial(sun.NewYear(place.Lat.Degrees(), lng, 0, solarZone(lng), typicalCalendar))
	m := Monthly{Source: "steady", Diffuse: unknown(), BeamNormal: unknown()}
	for i := range 12 {
		m.Global[i] = clearness * above[i]
		m.Mean[i] = 12 - 10*math.Cos(2*math.Pi*(float64(i)+0.5)/12)
		m.Max[i], m.Min[i] = m.Mean[i]+6, m.Mean[i]-5
	}
	m.Albedo = SnowAlbedo(m.Mean)
	return m
}

var places = map[string]s2.LatLng{
	"Ohio":             at(41.65, -83.54),
	"south of equator": at(-38, 145),
	"equator":          at(0, 0),
	"polar":            at(78, 15),
	"north pole":       at(90, 0),
	"south pole":       at(-90, 0),
	"date line east":   at(52, 179.9),
	"date line west":   at(52, -179.9),
}

func TestEveryHourIsPossible(t *testing.T) {
	for name, place := range places {
		for _, k := range []float64{0.25, 0.5, 0.72} {
			y, err := Synthesize(steady(place, k), place, 100, solarZone(place.Lng.Degrees()), 1)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			for i, h := range y.Hours {
				s := h.Incidence(up)
				switch {
				case !(h.Global >= 0 && h.Beam >= 0 && h.Diffuse >= 0 && h.Air > -60 && h.Air < 60):
					t.Fatalf("%s hour %d: %+v", name, i, h)
				case h.Up == 0 && (h.Global > 0 || h.Beam > 0):
					t.Fatalf("%s hour %d: sun while it is down", name, i)
				case h.Beam > 0.95*h.Extra*h.Up || h.Global > outside(h)*1.0001:
					t.Fatalf("%s hour %d: more than arrives: %+v", name, i, h)
				case math.Abs(h.Global-h.Beam*s-h.Diffuse) > 1e-6:
					t.Fatalf("%s hour %d: global %.3f is not beam and diffuse %.3f", name, i, h.Global, h.Beam*s+h.Diffuse)
				}
			}
		}
	}
}

func TestMonthsAreMetExactly(t *testing.T) {
	for k, s := range Stations() {
		if k%24 != 0 {
			continue // one in twenty-four, Alaska and Hawaii among them
		}
		m := OfStation(s)
		y, err := Synthesize(m, s.LatLng, s.Elevation, s.Offset, 7)
		if err != nil {
			t.Errorf("%s: %v", s.Label(), err)
			continue
		}
		global := monthlyMean(y, func(h sun.Hour) float64 { return h.Global })
		diffuse := monthlyMean(y, func(h sun.Hour) float64 { return h.Diffuse })
		for i := range 12 {
			if math.Abs(global[i]-s.Global[i]) > 1e-6 && s.Global[i] > 0.15 {
				t.Errorf("%s month %d: global %.4f, want %.4f (%v)", s.Label(), i+1, global[i], s.Global[i], y.Notes)
			}
			if math.Abs(diffuse[i]-s.Diffuse[i]) > 0.002*s.Global[i] && s.Global[i] > 0.15 {
				t.Errorf("%s month %d: diffuse %.4f, want %.4f (%v)", s.Label(), i+1, diffuse[i], s.Diffuse[i], y.Notes)
			}
		}
	}
}

func TestTemperatureMeetsMeanHighestAndLowest(t *testing.T) {
	s, _ := Find("Toledo Express Airport")
	y, err := Synthesize(OfStation(s[0]), s[0].LatLng, math.NaN(), s[0].Offset, 1)
	if err != nil {
		t.Fatal(err)
	}
	var mean, high, low [12]float64
	for d := range 365 {
		m, _ := sun.Month(d * 24)
		top, bottom := math.Inf(-1), math.Inf(1)
		for _, h := range y.Hours[d*24 : d*24+24] {
			mean[m-1] += h.Air / 24 / days(int(m)-1)
			top, bottom = max(top, h.Air), min(bottom, h.Air)
		}
		high[m-1] += top / days(int(m)-1)
		low[m-1] += bottom / days(int(m)-1)
	}
	for i := range 12 {
		for name, d := range map[string]float64{"mean": mean[i] - s[0].Mean[i], "highest": high[i] - s[0].Max[i], "lowest": low[i] - s[0].Min[i]} {
			if math.Abs(d) > 0.01 {
				t.Errorf("month %d: %s off by %.3f", i+1, name, d)
			}
		}
	}
}

func TestSameSeedSameYear(t *testing.T) {
	place := at(41.65, -83.54)
	m := steady(place, 0.45)
	a, _ := Synthesize(m, place, 0, -5*time.Hour, 3)
	b, _ := Synthesize(m, place, 0, -5*time.Hour, 3)
	c, _ := Synthesize(m, place, 0, -5*time.Hour, 4)
	if !reflect.DeepEqual(a, b) {
		t.Error("two years of one seed differ")
	}
	if reflect.DeepEqual(a.Hours, c.Hours) {
		t.Error("two seeds give one year")
	}
}

// Hours are local standard time all year: July's noon sun stands as near to
// twelve as January's.
func TestNoDaylightSavingInTheHours(t *testing.T) {
	place := at(41.65, -75)
	y, err := Synthesize(steady(place, 0.5), place, 0, -5*time.Hour, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, h := range y.Hours {
		if _, hour := sun.Month(i); hour == 11 || hour == 12 {
			if south := math.Abs(math.Atan2(h.Sun.X, -h.Sun.Y)) * 180 / math.Pi; south > 30 {
				t.Fatalf("hour %d: the sun is %.0f° from south", i, south)
			}
		}
	}
}

func TestImpossibleFiguresAreRefusedByMonth(t *testing.T) {
	place := at(41.65, -83.54)
	for name, spoil := range map[string]func(*Monthly){
		"MJ":              func(m *Monthly) { m.Global[2] *= 3.6 },
		"not a number":    func(m *Monthly) { m.Global[2] = math.NaN() },
		"negative":        func(m *Monthly) { m.Global[2] = -1 },
		"diffuse over":    func(m *Monthly) { m.Diffuse[2] = m.Global[2] + 1 },
		"Fahrenheit":      func(m *Monthly) { m.Mean[2], m.Max[2] = 70, 80 },
		"lowest over":     func(m *Monthly) { m.Min[2] = m.Mean[2] + 1 },
		"albedo too much": func(m *Monthly) { m.Albedo[2] = 20 },
	} {
		m := steady(place, 0.5)
		spoil(&m)
		_, err := Synthesize(m, place, 0, -5*time.Hour, 1)
		if err == nil || err.Error()[:5] != "March" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestDailyClearnessKeepsMeanAndSpread(t *testing.T) {
	for _, k := range []float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.7} {
		mean, square := 0.0, 0.0
		values := dailyClearness(k, 31)
		for _, v := range values {
			mean += v / 31
			square += v * v / 31
		}
		if math.Abs(mean-k) > 0.01 {
			t.Errorf("K %.1f: mean %.3f", k, mean)
		}
		t.Logf("K %.1f: sd %.3f, from %.2f to %.2f", k, math.Sqrt(square-mean*mean), values[0], values[30])
	}
}
