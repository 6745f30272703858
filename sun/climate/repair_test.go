package climate

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestRepairsAreCounted(t *testing.T) {
	y := inventYear(t)
	sunny := 196*24 + 12
	for name, c := range map[string]struct {
		change func(i int, f []string) []string
		want   string
	}{
		"missing figure": {func(i int, f []string) []string {
			if i == sunny {
				f[5] = "-9900"
			}
			return f
		}, "1 missing figures filled"},
		"missing rows": {func(i int, f []string) []string {
			if i >= sunny && i < sunny+6 {
				return nil
			}
			return f
		}, "24 missing figures filled"},
		"too bright": {func(i int, f []string) []string {
			if i == sunny {
				f[4] = "1500"
			}
			return f
		}, "1 hours held figures that cannot be, the first at 16 July 12:00"},
		"light at night": {func(i int, f []string) []string {
			if i == 3 {
				f[5] = "80"
			}
			return f
		}, "1 hours with light while the sun is down, the first at 1 January 3:00"},
	} {
		got, err := readText(tmy3Text(y, c.change))
		if err != nil || len(got.Notes) == 0 || !strings.Contains(strings.Join(got.Notes, "; "), c.want) {
			t.Errorf("%s: %v, notes %q; want %q", name, err, got.Notes, c.want)
			continue
		}
		for i, h := range got.Hours {
			if math.IsNaN(h.Global+h.Beam+h.Diffuse+h.Air) || h.Beam > h.Extra || h.Up == 0 && h.Global > 0 {
				t.Fatalf("%s: hour %d %+v", name, i, h)
			}
		}
	}
}

func TestWhatCannotBeRepairedIsRefused(t *testing.T) {
	y := inventYear(t)
	for name, c := range map[string]struct {
		change func(i int, f []string) []string
		want   string
	}{
		"long gap": {func(i int, f []string) []string {
			if i >= 5000 && i < 5007 {
				return nil
			}
			return f
		}, "7 hours in a row"},
		"beam and diffuse swapped": {func(i int, f []string) []string {
			f[3], f[4] = f[4], f[3]
			return f
		}, `beam under "diffuse"`},
		"global and beam swapped": {func(i int, f []string) []string {
			f[4], f[5] = f[5], f[4]
			return f
		}, `global stands under "beam"`},
		"half a day off": {func(i int, f []string) []string {
			h := y.Hours[(i+12)%len(y.Hours)]
			return append(f[:3:3], fmt.Sprintf("%.0f", h.Diffuse), fmt.Sprintf("%.0f", h.Beam), fmt.Sprintf("%.0f", h.Global))
		}, "check the"},
		"kilojoules": {func(i int, f []string) []string {
			h := y.Hours[i]
			return append(f[:3:3], fmt.Sprintf("%.0f", h.Diffuse*3.6), fmt.Sprintf("%.0f", h.Beam*3.6), fmt.Sprintf("%.0f", h.Global*3.6))
		}, "check the units"},
		"Fahrenheit": {func(i int, f []string) []string {
			f[2] = "75"
			return f
		}, "line 3"},
		"one hour twice": {func(i int, f []string) []string {
			if i == 100 {
				f[1] = "04:00"
			}
			return f
		}, "line 103: a second row"},
		"half hour": {func(i int, f []string) []string {
			if i == 100 {
				f[1] = "05:30"
			}
			return f
		}, "line 103: time"},
		"no such day": {func(i int, f []string) []string {
			if i == 100 {
				f[0] = "02/30/2023"
			}
			return f
		}, "line 103: month 2 day 30"},
		"word": {func(i int, f []string) []string {
			if i == 100 {
				f[5] = "sunny"
			}
			return f
		}, "line 103: GHI"},
		"short": {func(i int, f []string) []string {
			if i == 100 {
				return f[:4]
			}
			return f
		}, "line 103: 4 fields"},
	} {
		_, err := readText(tmy3Text(y, c.change))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "test") {
			t.Errorf("%s: %v; want %q", name, err, c.want)
		}
	}
}
