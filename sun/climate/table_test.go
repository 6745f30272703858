package climate

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/southyard/southyard/sun"
)

// tableText writes a year in southyard's own layout.
func tableText(y sun.Year, ending bool, columns string, row func(h sun.Hour) string) string {
	var b strings.Builder
	word, shift := "beginning", 0
	if ending {
		word, shift = "ending", 1
	}
	fmt.Fprintf(&b, "# an invented year\n# latitude: 41.5\n# longitude: -83\n# elevation: 590.55 ft\n# utc offset: -5\n# interval: %s\n%s\n", word, columns)
	day := time.Date(2023, 1, 1, 0, 0, 0, 0, time.UTC)
	for i, h := range y.Hours {
		stamp := day.Add(time.Duration(i+shift) * time.Hour)
		fmt.Fprintf(&b, "%s,%s\n", stamp.Format("2006-01-02 15:04"), row(h))
	}
	return b.String()
}

func TestOwnTableInItsForms(t *testing.T) {
	want := inventYear(t)
	all := func(h sun.Hour) string {
		return fmt.Sprintf("%.3f,%.3f,%.3f,%.3f", h.Global, h.Beam, h.Diffuse, h.Air*1.8+32)
	}
	for name, text := range map[string]string{
		"beginning":         tableText(want, false, "time,global W/m2,beam W/m2,diffuse W/m2,air F", all),
		"ending, 0:00 last": tableText(want, true, "time, Global Wh/m², Beam Wh/m², Diffuse Wh/m², Air F", all),
		"no diffuse": tableText(want, false, "time,global W/m2,beam W/m2,air C", func(h sun.Hour) string {
			return fmt.Sprintf("%.3f,%.3f,%.3f", h.Global, h.Beam, h.Air)
		}),
		"no beam, wind too": tableText(want, false, "time,air C,global W/m2,diffuse W/m2,wind", func(h sun.Hour) string {
			return fmt.Sprintf("%.3f,%.3f,%.3f,calm", h.Air, h.Global, h.Diffuse)
		}),
	} {
		got, err := readText(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for i := range got.Hours {
			a, b := want.Hours[i], got.Hours[i]
			if math.Abs(a.Global-b.Global) > 0.1 || math.Abs(a.Beam-b.Beam)*a.Incidence(up) > 0.1 || math.Abs(a.Diffuse-b.Diffuse) > 0.1 || math.Abs(a.Air-b.Air) > 0.01 {
				t.Fatalf("%s hour %d: %+v\n%+v", name, i, a, b)
			}
		}
	}
}

func TestLeapDayIsLeftOutAndCounted(t *testing.T) {
	want := inventYear(t)
	for _, ending := range []bool{false, true} {
		text := tableText(want, ending, "time,global W/m2,beam W/m2,diffuse W/m2,air C", func(h sun.Hour) string {
			return fmt.Sprintf("%.3f,%.3f,%.3f,%.3f", h.Global, h.Beam, h.Diffuse, h.Air)
		})
		head, tail, _ := strings.Cut(text, map[bool]string{false: "2023-03-01 00:00", true: "2023-03-01 01:00"}[ending])
		if ending { // the hour to midnight of 28 February is then stamped 29 February 0:00
			head = strings.Replace(head, "2023-03-01 00:00", "2024-02-29 00:00", 1)
		}
		var leap strings.Builder
		for h := range 24 {
			stamp := time.Date(2024, 2, 29, h, 0, 0, 0, time.UTC)
			if ending {
				stamp = stamp.Add(time.Hour)
			}
			fmt.Fprintf(&leap, "%s,999,0,999,40\n", stamp.Format("2006-01-02 15:04"))
		}
		got, err := readText(head + leap.String() + map[bool]string{false: "2023-03-01 00:00", true: "2023-03-01 01:00"}[ending] + tail)
		if err != nil {
			t.Errorf("ending %v: %v", ending, err)
			continue
		}
		if !strings.Contains(strings.Join(got.Notes, ";"), "29 February: 24 hours left out") {
			t.Errorf("ending %v: notes %q", ending, got.Notes)
		}
		for i := range got.Hours {
			if math.Abs(got.Hours[i].Global-want.Hours[i].Global) > 0.1 {
				t.Fatalf("ending %v: hour %d moved", ending, i)
			}
		}
	}
}

func TestTableHeadingsSayWhatIsMissing(t *testing.T) {
	head := "# latitude: 41.5\n# longitude: -83\n# elevation: 180 m\n# utc offset: -5\n# interval: ending\n"
	for name, c := range map[string]struct{ text, want string }{
		"empty":          {"", "neither the TMY3 layout nor a table"},
		"prose":          {"Dear reader\nhello", "latitude, longitude, elevation, utc offset, interval"},
		"no interval":    {strings.Replace(head, "# interval: ending\n", "", 1) + "time\n", "its interval"},
		"interval":       {strings.Replace(head, "ending", "middle", 1), "line 5: interval"},
		"no unit":        {head + "time,global,air C\n", `"global W/m2"`},
		"twice":          {head + "time,air C,air F,global W/m2\n", "two columns of air"},
		"no global":      {head + "time,beam W/m2,air C\n", "no column of global"},
		"no rows":        {head + "time,global W/m2,air C\n", "no hours"},
		"time":           {head + "time,global W/m2,air C\nnoon,1,2\n", "line 7: time"},
		"latitude":       {strings.Replace(head, "41.5", "141.5", 1) + "time,global W/m2,air C\n01-01 01:00,0,2\n", "latitude 141.5"},
		"zone":           {strings.Replace(head, "-83", "83", 1) + "time,global W/m2,air C\n01-01 01:00,0,2\n", "west longitudes are negative"},
		"too few fields": {head + "time,global W/m2,air C\n01-01 01:00,0\n", "line 7: 2 fields"},
	} {
		_, err := readText(c.text)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", name, err, c.want)
		}
	}
}
