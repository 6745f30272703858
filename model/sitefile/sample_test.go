package sitefile

import (
	"regexp"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/measure"
)

func TestExamplesAreInTheReadersUnit(t *testing.T) {
	for feet, metres := range map[string]string{
		"wall height: 17 ft 6 in (from the base)": "wall height: 5.3 m (from the base)",
		"width: 32 in":                           "width: 81 cm",
		"elevation: 585 ft":                      "elevation: 180 m",
		"left: 3 ft (from the wall's left end)":  "left: 0.91 m (from the wall's left end)",
		"[[8, 38], [30, 38], [30, 66], [8, 66]]": "[[2.4, 12], [9.1, 12], [9.1, 20], [2.4, 20]]",
		"[8, 38, 17]":                            "[2.4, 12, 5.2]",
		"[0, 0]":                                 "[0, 0]",
		"[30 ft, 36 ft]":                         "[9.1 m, 11 m]",
		"or with eye height: 5 ft 4 in in place of the angle": "or with eye height: 1.6 m in place of the angle",
		"pitch: 9/12 (rise in 12, or degrees)":                "pitch: 9/12 (rise in 12, or degrees)",
		"in leaf: 30 %, bare: 75 %":                           "in leaf: 30 %, bare: 75 %",
		"{sun: [1.7, 2.6]}":                                   "{sun: [1.7, 2.6]}",
		"R-13, 7° W, $1900, T1":                               "R-13, 7° W, $1900, T1",
	} {
		if got := (&reader{unit: measure.Metres}).sample(feet); got != metres {
			t.Errorf("%q becomes %q, want %q", feet, got, metres)
		}
		if got := (&reader{unit: measure.Feet}).sample(feet); got != feet {
			t.Errorf("a file in feet reads %q for %q", got, feet)
		}
	}
}

// A file in metres from which something was left out is not told of feet.
func TestWhatIsMissingFromAFileInMetresIsAskedForInMetres(t *testing.T) {
	feet := regexp.MustCompile(`\d (ft|in)\b`)
	metric := strings.Replace(sound, "units: feet", "units: metres", 1)
	for from, to := range map[string]string{
		" left: 2 ft,": "", " sill: 3 ft, width: 32 in, height: 60 in}\n    - ": " height: 60 in}\n    - ", "  wall height: 13 ft 6 in\n": "",
		"footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]": "footprint: 8 x 10", "{id: T2, species: red maple, at: [28, 20]}": "T2", ", at: [28, 20]": ", at: 28",
		"height: 52 ft": "top angle: 38°", "place: {latitude: 41.5, longitude: -83, elevation: 600 ft, time zone: America/New_York}\n": "",
		"{name: both, remove: [T1, T2]}": "{name: both, raise: [{tree: T1}]}", "roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}": "roof: gable",
		"spread: 36 ft": "spread: [36]", ", at: [18, 14]": "",
	} {
		if !strings.Contains(metric, from) {
			t.Fatalf("the file has no %q", from)
		}
		_, faults := Read("site.yaml", []byte(strings.Replace(metric, from, to, 1)))
		if Wrong(faults) == 0 {
			t.Errorf("without %q there is no fault", from)
		}
		for _, f := range faults {
			if !f.Warning && feet.MatchString(f.Right) {
				t.Errorf("a reader of metres is told: %v", f)
			}
		}
	}
}
