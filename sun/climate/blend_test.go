package climate

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
)

func at(lat, lon float64) s2.LatLng { return s2.LatLngFromDegrees(lat, lon) }

func TestBlendAtAStationIsMostlyThatStation(t *testing.T) {
	s, _ := Find("Toledo Express Airport")
	m, err := Blend(s[0].LatLng, math.NaN())
	if err != nil {
		t.Fatal(err)
	}
	if len(m.From) < 2 || m.From[0].ID != s[0].ID || m.From[0].Weight < 0.5 {
		t.Errorf("from %+v", m.From)
	}
	sum := 0.0
	for _, n := range m.From {
		sum += n.Weight
		if n.Distance > blendReach {
			t.Errorf("%s at %.0f km takes part", n.Label(), n.Distance/1000)
		}
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Errorf("weights add up to %g", sum)
	}
	for i := range 12 {
		if r := m.Global[i] / s[0].Global[i]; r < 0.85 || r > 1.15 {
			t.Errorf("month %d: global %.2f, station %.2f", i+1, m.Global[i], s[0].Global[i])
		}
		if !(m.Diffuse[i] > 0 && m.Diffuse[i] < m.Global[i] && m.Min[i] < m.Mean[i] && m.Mean[i] < m.Max[i] && m.HDD[i] >= 0) {
			t.Errorf("month %d: %+v", i+1, m)
		}
	}
}

// Each station made from the others, those within 200 km of another: what the
// blend is worth away from a station, by the table's own figures.
func TestBlendFindsAStationFromItsNeighbours(t *testing.T) {
	var month, year, air, months, stations float64
	for _, s := range Stations() {
		others := Nearest(s.LatLng, blendCount+2)
		if others[0].ID != s.ID { // two masts in one town
			continue
		}
		others = others[1:]
		if others[0].Distance > 200e3 {
			continue
		}
		m := blend(s.LatLng, s.Elevation, weighted(others))
		ours, theirs := 0.0, 0.0
		for i := range 12 {
			if s.Global[i] < 0.2 {
				continue
			}
			month += math.Pow(m.Global[i]/s.Global[i]-1, 2)
			air += math.Pow(m.Mean[i]-s.Mean[i], 2)
			months++
			ours, theirs = ours+m.Global[i], theirs+s.Global[i]
		}
		year += math.Pow(ours/theirs-1, 2)
		stations++
	}
	rms := func(sum, n float64) float64 { return math.Sqrt(sum / n) }
	t.Logf("%.0f stations: month %.2f %%, year %.2f %%, mean %.2f K", stations, 100*rms(month, months), 100*rms(year, stations), rms(air, months))
	if stations < 240 || rms(month, months) > 0.065 || rms(year, stations) > 0.04 || rms(air, months) > 1.7 {
		t.Error("worse than README says")
	}
}

// Walking across the country the figures never jump: where another station
// comes into the blend it weighs nothing yet.
func TestBlendNeverJumpsFromOneLotToTheNext(t *testing.T) {
	before := Monthly{}
	for i := range 4001 {
		m, err := Blend(at(41.5, -85+0.001*float64(i)), 200) // steps of 83 m
		if err != nil {
			t.Fatal(err)
		}
		if i > 0 {
			for month := range 12 {
				if step := math.Abs(m.Global[month]/before.Global[month] - 1); step > 0.0008 {
					t.Errorf("at %.3f west, month %d: %.2f %% in 83 m", -85+0.001*float64(i), month+1, 100*step)
				}
			}
		}
		before = m
	}
}

// What blending scales by is the ratio between two latitudes: the handbook's
// against the sum over the hours of the year, over 1.5° (104 miles).
func TestSunOfAnotherLatitudeByTheHandbookIsTheHours(t *testing.T) {
	hours := func(latitude float64) [12]float64 {
		return extraterrestrial(sun.NewYear(latitude, -90, 0, -6*time.Hour, typicalCalendar))
	}
	for _, latitude := range []float64{25, 41.5, 49, 56} {
		south, north := outsideAir(s1.Angle(latitude)*s1.Degree), outsideAir(s1.Angle(latitude+1.5)*s1.Degree)
		southHours, northHours := hours(latitude), hours(latitude+1.5)
		for m := range 12 {
			if r, want := north[m]/south[m], northHours[m]/southHours[m]; math.Abs(r/want-1) > 0.01 {
				t.Errorf("%g°, month %d: ratio %.4f, by the hours %.4f", latitude, m+1, r, want)
			}
		}
	}
}

func TestHigherPlaceIsColderByTheStandardLapse(t *testing.T) {
	low, err := Blend(at(41.65, -83.54), 180)
	if err != nil {
		t.Fatal(err)
	}
	high, err := Blend(at(41.65, -83.54), 1180)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 12 {
		if d := low.Mean[i] - high.Mean[i]; math.Abs(d-6.5) > 1e-9 {
			t.Errorf("month %d: %.3f K over 1000 m", i+1, d)
		}
		if high.Global[i] != low.Global[i] {
			t.Errorf("month %d: height changed the sun", i+1)
		}
	}
	// A month wholly below the base gains 6.5 K on each of its days.
	if d := high.HDD[0] - low.HDD[0]; math.Abs(d-6.5*31) > 2 {
		t.Errorf("January degree-days grew by %.1f, want about %.1f", d, 6.5*31)
	}
}

func TestOutsideCoverageSaysWhatToGive(t *testing.T) {
	for name, place := range map[string]s2.LatLng{"Lisbon": at(38.7, -9.1), "southern ocean": at(-60, 0), "pole": at(-90, 0)} {
		_, err := Blend(place, 0)
		if err == nil || !strings.Contains(err.Error(), "twelve monthly figures") || !strings.Contains(err.Error(), "mi) away") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The 936 station-months of the table with snow days: our rule's root mean
// square error is 0.12 of the month (the source's days are those of one year).
func TestSnowRuleAgainstTheDaysWithSnow(t *testing.T) {
	sum, n := 0.0, 0
	for _, s := range Stations() {
		if math.IsNaN(s.SnowDays[0]) {
			continue
		}
		for m, share := range snowShare(s.Mean) {
			d := share - min(1, s.SnowDays[m]/days(m))
			sum += d * d
			n++
		}
	}
	rms := math.Sqrt(sum / float64(n))
	t.Logf("%d station-months, rms %.3f", n, rms)
	if n != 936 || rms > 0.125 {
		t.Errorf("%d station-months, rms %.3f", n, rms)
	}
}

// Erbs, Klein & Beckman 1983 quote a few percent a year; the table's figures
// were summed from hours. Yearly root mean square 3 %, mean error under 2 %.
func TestDegreeDaysFromMeansAgainstTheTable(t *testing.T) {
	square, mean, n := 0.0, 0.0, 0.0
	for _, s := range Stations() {
		ours, table := 0.0, 0.0
		for m, v := range DegreeDays(s.Mean) {
			ours += v
			table += s.HDD[m]
		}
		if table < 500 {
			continue
		}
		e := ours/table - 1
		square += e * e
		mean += e
		n++
	}
	rms, bias := 100*math.Sqrt(square/n), 100*mean/n
	t.Logf("%.0f stations: rms %.2f %%, bias %.2f %%", n, rms, bias)
	if n < 270 || rms > 3.2 || math.Abs(bias) > 2 {
		t.Errorf("%.0f stations: rms %.2f %%, bias %.2f %%", n, rms, bias)
	}
}
