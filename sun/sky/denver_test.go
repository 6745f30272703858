package sky

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/testdata"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, within)
	}
}

// facing is the normal of a plane by tilt from horizontal and azimuth from
// south, west positive, degrees.
func facing(tilt, fromSouth float64) r3.Vector {
	sinT, cosT := math.Sincos(tilt * math.Pi / 180)
	sinA, cosA := math.Sincos(fromSouth * math.Pi / 180)
	return r3.Vector{X: -sinT * sinA, Y: -sinT * cosA, Z: cosT}
}

func rows(t *testing.T, name string) []testdata.Row {
	t.Helper()
	r, err := testdata.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// denver is the typical year of the standard's test cases.
func denver(t *testing.T) sun.Year {
	t.Helper()
	y := sun.NewYear(39.83, -104.65, 1650, -7*time.Hour, 2025)
	weather := rows(t, "denver_tmy3.csv")
	if len(weather) != sun.HoursAYear {
		t.Fatalf("%d hours", len(weather))
	}
	for i, r := range weather {
		h := &y.Hours[i]
		h.Global, h.Beam, h.Diffuse = r.Number("ghi_wh_m2"), r.Number("dni_wh_m2"), r.Number("dhi_wh_m2")
	}
	return y
}

// ANSI/ASHRAE Standard 140-2020, case 600: hour by hour between the lowest and
// the highest of six programs, which differ in how they place the sun within
// the hour and in their sky model; the day's sum inside theirs.
func TestStandardTestDaysHourByHour(t *testing.T) {
	y := denver(t)
	first := map[string]int{
		"july_14": (31 + 28 + 31 + 30 + 31 + 30 + 13) * 24,
		"may_4":   (31 + 28 + 31 + 30 + 3) * 24,
	}
	normal := map[string]r3.Vector{"horizontal": facing(0, 0), "south": facing(90, 0)}
	const outside = 0.5 // Wh/m²
	type day struct{ ours, low, high float64 }
	sums := map[string]day{}
	worst := 0.0
	for _, r := range rows(t, "std140_hourly_incident.csv") {
		i := first[r["day"]] + int(r.Number("hour_ending_lst")) - 1
		got := OnPlane(y.Hours[i], normal[r["surface"]], Anisotropic).Sum()
		low, high := r.Number("min_wh_m2"), r.Number("max_wh_m2")
		miss := max(low-got, got-high, 0)
		worst = max(worst, miss)
		what := r["day"] + " " + r["surface"]
		if miss > outside {
			t.Errorf("%s hour %s: %.1f, range %.1f to %.1f", what, r["hour_ending_lst"], got, low, high)
		}
		s := sums[what]
		sums[what] = day{s.ours + got, s.low + low, s.high + high}
	}
	if len(sums) != 4 {
		t.Fatalf("%d days and surfaces", len(sums))
	}
	for what, s := range sums {
		t.Logf("%s: %.0f Wh/m², range %.0f to %.0f", what, s.ours, s.low, s.high)
		if s.ours < s.low || s.ours > s.high {
			t.Errorf("%s: day's sum %.0f outside %.0f to %.0f", what, s.ours, s.low, s.high)
		}
	}
	t.Logf("furthest outside the range: %.1f Wh/m²", worst)
}

// Yearly and monthly sums at Denver computed for this project's handbook of
// figures with the same formulas, but with the sun at each hour's middle; ours
// is averaged over the hour.
func TestDenverYearOnTiltedPlanes(t *testing.T) {
	y := denver(t)
	months := []time.Month{time.January, time.April, time.July, time.October, time.December}
	for _, c := range []struct {
		tilt, azimuth float64
		year, winter  float64
		month         [5]float64
	}{
		{0, 0, 1671, 564, [5]float64{77.7, 143.8, 208.1, 114.3, 64.3}},
		{20, 0, 1928, 769, [5]float64{119.0, 155.6, 208.9, 148.5, 101.1}},
		{30, 0, 1989, 844, [5]float64{135.2, 156.2, 202.4, 160.1, 115.8}},
		{40, 0, 2000, 896, [5]float64{147.8, 153.0, 191.1, 167.5, 127.4}},
		{50, 0, 1960, 925, [5]float64{156.4, 146.3, 175.3, 170.6, 135.6}},
		{60, 0, 1873, 930, [5]float64{160.7, 136.2, 155.8, 169.2, 140.1}},
		{90, 0, 1367, 798, [5]float64{147.3, 89.9, 84.5, 139.2, 130.6}},
		{40, 30, 1909, 841, [5]float64{136.6, 146.8, 183.9, 159.2, 118.2}},
		{40, -30, 1964, 841, [5]float64{136.9, 154.4, 200.4, 156.8, 117.1}},
		{40, 45, 1823, 779, [5]float64{124.1, 142.2, 180.5, 148.9, 107.2}},
		{40, -45, 1898, 779, [5]float64{124.5, 152.4, 203.5, 146.5, 105.4}},
		{40, 90, 1461, 526, [5]float64{74.7, 122.6, 167.1, 106.4, 62.9}},
	} {
		year, byMonth := sums(y, facing(c.tilt, c.azimuth), Anisotropic)
		winter := 0.0
		for _, m := range []time.Month{time.October, time.November, time.December, time.January, time.February, time.March} {
			winter += byMonth[m-1]
		}
		name := func(what string) string { return fmt.Sprintf("tilt %g azimuth %g %s", c.tilt, c.azimuth, what) }
		t.Logf("tilt %g azimuth %g: year %.0f (%.0f), winter %.0f (%.0f)", c.tilt, c.azimuth, year, c.year, winter, c.winter)
		near(t, name("year"), year, c.year, 0.003*c.year)
		near(t, name("October to March"), winter, c.winter, 0.004*c.winter)
		for i, m := range months {
			near(t, name(m.String()), byMonth[m-1], c.month[i], 0.01*c.month[i])
		}
	}
}

// sums of the year and its months, kWh/m².
func sums(y sun.Year, n r3.Vector, m Model) (year float64, byMonth [12]float64) {
	for i, h := range y.Hours {
		month, _ := sun.Month(i)
		e := OnPlane(h, n, m).Sum() / 1000
		byMonth[month-1] += e
		year += e
	}
	return year, byMonth
}

// The same south wall under each model.
func TestModelsSpreadOnASouthWall(t *testing.T) {
	y := denver(t)
	for m, want := range map[Model][2]float64{
		Isotropic: {1279, 1283}, HayDavies: {1319, 1322}, HDKR: {1354, 1357}, Anisotropic: {1365, 1367},
	} {
		got, _ := sums(y, facing(90, 0), m)
		t.Logf("%s: %.0f, computed elsewhere %g to %g", m, got, want[0], want[1])
		near(t, string(m), got, (want[0]+want[1])/2, 0.005*want[0])
	}
}

func BenchmarkOnPlane(b *testing.B) {
	h := sun.NewYear(40, 0, 0, 0, 2025).Hours[172*24+10]
	h.Beam, h.Diffuse, h.Global, h.Albedo = 600, 150, 600, 0.2
	n := facing(35, 10)
	for b.Loop() {
		OnPlane(h, n, Anisotropic)
	}
}
