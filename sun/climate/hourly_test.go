package climate

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/testdata"
)

// published finds an hourly file as published, which stays out of the
// repository; the test is skipped where it is absent.
func published(t testing.TB, name string) File {
	t.Helper()
	path := filepath.Join("..", "..", "..", "shared", "climate", "hourly", name)
	in, err := os.Open(path)
	if err != nil {
		t.Skipf("the published file %s is not here", name)
	}
	defer in.Close()
	f, err := ReadHourly(name, in)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func yearOf(t testing.TB, f File) sun.Year {
	t.Helper()
	y, err := f.Year()
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// denver is the test year of ANSI/ASHRAE Standard 140 (see testdata).
func denver(t testing.TB) sun.Year {
	t.Helper()
	rows, err := testdata.Read("denver_tmy3.csv")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("# name: Denver Intl Airport\n# latitude: 39.83\n# longitude: -104.65\n# elevation: 1650 m\n# utc offset: -7\n# interval: ending\n")
	b.WriteString("time,global W/m2,beam W/m2,diffuse W/m2,air C\n")
	for _, r := range rows {
		fmt.Fprintf(&b, "%s-%s %s:00,%s,%s,%s,%s\n", r["month"], r["day"], r["hour_ending_lst"], r["ghi_wh_m2"], r["dni_wh_m2"], r["dhi_wh_m2"], r["drybulb_c"])
	}
	f, err := ReadHourly("denver", strings.NewReader(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	return yearOf(t, f)
}

// inventYear is a whole year of our own invention.
func inventYear(t testing.TB) sun.Year {
	place := at(41.5, -83)
	y, err := Synthesize(steady(place, 0.45), place, 180, -5*time.Hour, 11)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// tmy3Text writes a year in the TMY3 layout, with only some of its columns
// and those in another order; change may alter a row's fields
// (date, time, air, diffuse, beam, global) by its hour.
func tmy3Text(y sun.Year, change func(i int, fields []string) []string) string {
	var b strings.Builder
	b.WriteString("999901,\"INVENTED HARBOR\",OH,-5.0,41.500,-83.000,180\r\n")
	b.WriteString("Date (MM/DD/YYYY),Time (HH:MM),Dry-bulb (C),DHI (W/m^2),DNI (W/m^2),GHI (W/m^2)\r\n")
	day := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	for i, h := range y.Hours {
		date := day.AddDate(0, 0, i/24)
		fields := []string{date.Format("01/02/2006"), fmt.Sprintf("%02d:00", i%24+1), fmt.Sprintf("%.1f", h.Air), fmt.Sprintf("%.0f", h.Diffuse), fmt.Sprintf("%.0f", h.Beam), fmt.Sprintf("%.0f", h.Global)}
		if change != nil {
			fields = change(i, fields)
		}
		if fields != nil {
			b.WriteString(strings.Join(fields, ",") + "\r\n")
		}
	}
	return b.String()
}

func readText(text string) (sun.Year, error) {
	f, err := ReadHourly("test", strings.NewReader(text))
	if err != nil {
		return sun.Year{}, err
	}
	return f.Year()
}

func TestInventedFileInTheTMY3Layout(t *testing.T) {
	in, err := os.ReadFile(filepath.Join("..", "..", "testdata", "tmy3_invented.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"CRLF": string(in), "LF": strings.ReplaceAll(string(in), "\r\n", "\n"), "BOM": "\xef\xbb\xbf" + string(in)} {
		f, err := ReadHourly("tmy3_invented.csv", strings.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if f.Layout != "TMY3" || f.Station != "INVENTED HARBOR OH" || f.Latitude != 41.5 || f.Longitude != -83 || f.Elevation != 180 || f.Offset != -5*time.Hour {
			t.Errorf("%s: %+v", name, []any{f.Layout, f.Station, f.Latitude, f.Longitude, f.Elevation, f.Offset})
		}
		noon := f.hours[(31+26)*24+12] // stamped 13:00 on 27 February
		if noon.line != 15 || noon.values[global] < 400 || noon.values[beam] < 500 {
			t.Errorf("%s: the hour to 13:00 is %+v", name, noon)
		}
		if v := f.hours[(31+27)*24+9].values[global]; !math.IsNaN(v) {
			t.Errorf("%s: -9900 read as %g", name, v)
		}
		if v := f.hours[(31+28)*24].line; v != 51 {
			t.Errorf("%s: 1 March 1:00 from line %d, want 51", name, v)
		}
		_, err = f.Year()
		if err == nil || !strings.Contains(err.Error(), "missing for") {
			t.Errorf("%s: three days taken for a year: %v", name, err)
		}
	}
}

func TestYearComesBackThroughTheTMY3Layout(t *testing.T) {
	want := inventYear(t)
	got, err := readText(tmy3Text(want, nil))
	if err != nil {
		t.Fatal(err)
	}
	for i := range got.Hours {
		a, b := want.Hours[i], got.Hours[i]
		if math.Abs(a.Global-b.Global) > 0.51 || math.Abs(a.Beam-b.Beam) > 0.51 || math.Abs(a.Diffuse-b.Diffuse) > 0.51 || math.Abs(a.Air-b.Air) > 0.051 || a.Sun != b.Sun {
			t.Fatalf("hour %d: %+v\n%+v", i, a, b)
		}
	}
	for _, n := range got.Notes {
		t.Error("a clean file has a note:", n)
	}
}

// Sums printed with the Denver test year: 1670.2 global, 1977.6 direct normal
// and 556.5 kWh/m² diffuse.
func TestDenverSums(t *testing.T) {
	m := OfHours(denver(t))
	for name, c := range map[string]struct{ got, want float64 }{
		"global": {yearTotal(m.Global), 1670.2}, "beam": {yearTotal(m.BeamNormal), 1977.6}, "diffuse": {yearTotal(m.Diffuse), 556.5},
	} {
		t.Logf("%s %.1f, published %.1f", name, c.got, c.want)
		if math.Abs(c.got-c.want) > 0.0015*c.want {
			t.Errorf("%s %.1f, want %.1f", name, c.got, c.want)
		}
	}
}

func yearTotal(daily [12]float64) float64 {
	sum := 0.0
	for m, v := range daily {
		sum += v * days(m)
	}
	return sum
}

// The table's rows were derived from the same published files.
func TestPublishedFilesGiveTheTablesRows(t *testing.T) {
	for _, name := range []string{"723170TYA.CSV"} { // 703165 is no station of the table
		t.Run(name, func(t *testing.T) {
			f := published(t, name)
			y := yearOf(t, f)
			t.Log(y.Notes)
			found, err := Find(name[:6])
			if err != nil {
				t.Fatal(err)
			}
			s, m := found[0], OfHours(y)
			for i := range 12 {
				for what, d := range map[string]float64{
					"global": m.Global[i] - s.Global[i], "diffuse": m.Diffuse[i] - s.Diffuse[i], "beam": (m.BeamNormal[i] - s.BeamNormal[i]) / 2,
					"mean": (m.Mean[i] - s.Mean[i]) / 10, "high": (m.Max[i] - s.Max[i]) / 10, "low": (m.Min[i] - s.Min[i]) / 10, "degree-days": (m.HDD[i] - s.HDD[i]) / 100,
				} {
					if math.Abs(d) > 0.0115 {
						t.Errorf("month %d: %s off by %.3f", i+1, what, d)
					}
				}
			}
		})
	}
}

func TestEndlessFileIsRefused(t *testing.T) {
	_, err := ReadHourly("endless", zeros{})
	if err == nil || !strings.Contains(err.Error(), "64 MB") {
		t.Errorf("%v", err)
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { return len(p), nil }

func FuzzReadHourly(f *testing.F) {
	in, err := os.ReadFile(filepath.Join("..", "..", "testdata", "tmy3_invented.csv"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(in[:3000]))
	f.Add("# latitude: 41.5\n# longitude: -83\n# elevation: 180 m\n# utc offset: -5\n# interval: ending\ntime,global W/m2,beam W/m2,air F\n2023-02-29 00:00,1,2,3\n03-01 00:00,1,,NaN\n")
	f.Fuzz(func(t *testing.T, text string) {
		y, err := readText(text)
		if err != nil {
			return
		}
		for i, h := range y.Hours {
			if !(h.Global >= 0 && h.Beam >= 0 && h.Diffuse >= 0 && h.Air > -81 && h.Air < 61 && h.Albedo >= 0 && h.Albedo <= 1) {
				t.Fatalf("hour %d: %+v", i, h)
			}
		}
	})
}

// One row of a whole year is replaced by anything: the year comes out whole
// or is refused, never half read.
func FuzzOneRowOfAYear(f *testing.F) {
	text := tableText(inventYear(f), true, "time,global W/m2,beam W/m2,diffuse W/m2,air F", func(h sun.Hour) string {
		return fmt.Sprintf("%.1f,%.1f,%.1f,%.1f", h.Global, h.Beam, h.Diffuse, h.Air*1.8+32)
	})
	lines := strings.Split(text, "\n")
	f.Add(uint16(4000), "2023-06-16 17:00,1e5,0,0,70")
	f.Add(uint16(3), "# elevation: 1e300 ft")
	f.Add(uint16(1500), "2024-02-29 00:00,,,,")
	f.Add(uint16(9), "\"")
	f.Fuzz(func(t *testing.T, at uint16, row string) {
		changed := append([]string(nil), lines...)
		changed[int(at)%len(lines)] = row
		y, err := readText(strings.Join(changed, "\n"))
		if err != nil {
			return
		}
		for i, h := range y.Hours {
			if !(h.Global >= 0 && h.Global < 2200 && h.Beam >= 0 && h.Beam <= h.Extra && h.Diffuse >= 0 && h.Air > -81 && h.Air < 61) {
				t.Fatalf("hour %d: %+v", i, h)
			}
		}
	})
}
