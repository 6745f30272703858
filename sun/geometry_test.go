package sun

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s2"
)

var places = []struct {
	name                string
	latitude, longitude float64
	offset              time.Duration
}{
	{"Ohio lake shore", 41.65, -83.54, -5 * time.Hour},
	{"New Zealand", -43.5, 172.6, 12 * time.Hour},
	{"equator", 0, -78.5, -5 * time.Hour},
	{"Arctic circle", 66.6, 25, 2 * time.Hour},
	{"Svalbard", 78.2, 15.6, time.Hour},
	{"North Pole", 90, 0, 0},
	{"South Pole", -90, 0, 12 * time.Hour},
	{"west of the date line", -16.8, 179.9, 12 * time.Hour},
	{"half-hour zone", 18.9, 72.8, 5*time.Hour + 30*time.Minute},
}

func TestYearsSunAgreesWithTheFullAlgorithm(t *testing.T) {
	for _, p := range places {
		y := NewYear(p.latitude, p.longitude, 0, p.offset, 2025)
		place := s2.LatLngFromDegrees(p.latitude, p.longitude)
		worst := 0.0
		for i := 0; i < HoursAYear; i += 13 {
			h := y.Hours[i]
			start := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(i)*time.Hour - p.offset)
			if h.Up == 1 {
				full := At(start.Add(30*time.Minute), place, 0)
				worst = max(worst, full.Vector().Angle(h.Sun).Degrees())
				for q, step := range h.Steps {
					at := start.Add(time.Duration(2*q+1) * time.Hour / 8)
					worst = max(worst, At(at, place, 0).Vector().Angle(step).Degrees())
				}
				near(t, "extraterrestrial", h.Extra, SolarConstant/full.Distance/full.Distance, 0.05)
			}
			// the share of the hour with the sun up, by sampling each minute
			if i%39 == 0 {
				up := 0.0
				for m := range 60 {
					if At(start.Add(time.Duration(2*m+1)*30*time.Second), place, 0).Altitude > 0 {
						up++
					}
				}
				near(t, p.name+" up", h.Up, up/60, 1.01/60)
			}
		}
		t.Logf("%s: worst angle %.4f°", p.name, worst)
		if worst > 0.01 {
			t.Errorf("%s: %.4f° from the full algorithm", p.name, worst)
		}
	}
}

func TestEverySunUpHourHasASunAndNoOtherHas(t *testing.T) {
	for _, p := range places {
		for i, h := range NewYear(p.latitude, p.longitude, 0, p.offset, 2025).Hours {
			if h.Up < 0 || h.Up > 1+1e-12 || math.IsNaN(h.Up) {
				t.Fatalf("%s hour %d: up %g", p.name, i, h.Up)
			}
			suns := append([]r3.Vector{h.Sun}, h.Steps[:]...)
			for _, s := range suns {
				if h.Up == 0 && s != (r3.Vector{}) {
					t.Fatalf("%s hour %d: a sun at night", p.name, i)
				}
				if h.Up > 0 && (math.Abs(s.Norm()-1) > 1e-9 || s.Z < 0) {
					t.Fatalf("%s hour %d: sun %v", p.name, i, s)
				}
			}
		}
	}
}

func TestLeapYearLeavesOut29February(t *testing.T) {
	y := NewYear(41.65, -83.54, 0, -5*time.Hour, 2024)
	if len(y.Hours) != HoursAYear {
		t.Fatal(len(y.Hours))
	}
	march1 := time.Date(2024, 3, 1, 17, 30, 0, 0, time.UTC)
	full := At(march1, s2.LatLngFromDegrees(41.65, -83.54), 0)
	near(t, "1 March noon", full.Vector().Angle(y.Hours[59*24+12].Sun).Degrees(), 0, 0.01)
}

func TestSunDippingWithinAnHourKeepsOnlySunUpMinutes(t *testing.T) {
	// 25° E, 22:00 UTC on a June night: the hour has solar midnight in it.
	found := 0
	for d := 1; d < 30; d++ {
		for latitude := 65.5; latitude < 68; latitude += 0.05 {
			c := courseOf(time.Date(2025, 6, d, 21, 50, 0, 0, time.UTC), latitude, 25)
			up, n := c.sunUp(0)
			if n < 2 {
				continue
			}
			found++
			if up[0].start != 0 || up[1].end != 1 || up[0].end >= up[1].start {
				t.Errorf("pieces %v", up)
			}
			h := c.hour(0)
			near(t, "up", h.Up, up[0].end-up[0].start+up[1].end-up[1].start, 1e-12)
			for _, s := range h.Steps {
				if s.Z < 0 {
					t.Errorf("step %v below the horizon", s)
				}
			}
		}
	}
	if found == 0 {
		t.Error("no hour in two pieces found")
	}
}

func TestSouthernYearMirrorsTheNorthern(t *testing.T) {
	// What one hemisphere's orbit takes in hours of sun the other is given.
	for _, latitude := range []float64{0, 20, 41.65, 60} {
		sum := [2]float64{}
		for k, s := range []float64{1, -1} {
			for _, h := range NewYear(s*latitude, 0, 0, 0, 2025).Hours {
				sum[k] += h.Up
			}
		}
		near(t, "hours of sun, north and south", sum[0]+sum[1], HoursAYear, 2)
	}
}

func BenchmarkNewYear(b *testing.B) {
	for b.Loop() {
		NewYear(41.65, -83.54, 180, -5*time.Hour, 2025)
	}
}

func BenchmarkAt(b *testing.B) {
	at := time.Date(2025, 6, 1, 12, 0, 0, 0, time.UTC)
	for b.Loop() {
		At(at, s2.LatLng{}, 0)
	}
}
