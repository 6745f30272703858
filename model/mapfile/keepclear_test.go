package mapfile

import (
	"strings"
	"testing"
)

func TestPatchWithHalfItsMeasuresAsksForTheRest(t *testing.T) {
	l := newLot().box(`"kind":"house","keep_clear":[{"on":"south","left_ft":3,"up":"30 in","width_in":12},{"id":"vent","left_m":1,"up_m":1,"width_m":0.1,"height_m":0.1}],`+walls, 0, 0, 9, 9)
	yaml, notes, err := fromMap("lot.geojson", l.text())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"keep clear clear 1: height", "keep clear vent: on which wall or roof plane"} {
		if !told(notes, want) {
			t.Errorf("%q is not among the notes %q", want, notes)
		}
	}
	for _, want := range []string{"on: south\n    left: 3 ft\n    up: 2.5 ft\n    width: 1 ft\n", "# height:   # TO BE MEASURED"} {
		if !strings.Contains(string(yaml), want) {
			t.Errorf("the site file lacks %q:\n%s", want, yaml)
		}
	}
}

func TestPatchOfUnknownSizeIsRefusedByName(t *testing.T) {
	for rows, want := range map[string]string{
		`{"id":"vent","on":"south","left":3}`:                   "keep_clear[vent]: left: 3 could be feet or metres",
		`{"id":"vent","on":"south","width":"400 ft"}`:           "keep_clear[vent]: width: 400 ft cannot be right",
		`{"id":"a vent","on":"south"},{"id":"a-vent","on":"x"}`: "was given before",
	} {
		_, _, err := fromMap("lot.geojson", newLot().box(`"kind":"house","keep_clear":[`+rows+`],`+walls, 0, 0, 9, 9).text())
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", rows, err)
		}
	}
}
