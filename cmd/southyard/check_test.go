package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/sitefile"
)

func TestCheckShowsWhatWasUnderstood(t *testing.T) {
	site, faults := sitefile.Read("starter.yaml", sitefile.Starter())
	var out bytes.Buffer
	understood{&out, site, measure.Feet}.write()
	if n := writeFaults(&out, faults); n != 0 {
		t.Error(faults)
	}
	for _, want := range []string{
		"4,600 sq ft, sides 40 ft, 115 ft",    // the lot
		"180° (south)", "23 ft", "13 ft 6 in", // the south wall
		"310 sq ft", "2, 26.7 sq ft", "9/12 (36.9°)", // its area, its windows, the roof
		"T2", "Norway spruce", "51 ft   ± 3 ft", "clinometer", // 60 ft × (tan 38° + tan 4°)
		"Assumed, not measured", "Hopkins", "No faults.",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not shown", want)
		}
	}
}

func TestCheckTellsFaultsAndCountsThem(t *testing.T) {
	text := strings.Replace(string(sitefile.Starter()), "silver maple", "sliver maple", 1)
	_, faults := sitefile.Read("lot.yaml", []byte(text))
	var out bytes.Buffer
	if n := writeFaults(&out, faults); n != 1 || !strings.Contains(out.String(), "1 fault:") || !strings.Contains(out.String(), "lot.yaml:63:14: trees[T1].species") {
		t.Errorf("%d: %s", n, out.String())
	}
	out.Reset()
	site, _ := sitefile.Read("empty", nil)
	understood{&out, site, measure.Feet}.write()
	if out.Len() > 0 {
		t.Errorf("an empty file is said to mean %q", out.String())
	}
}

func TestCheckTellsTheLieOfTheLand(t *testing.T) {
	bank, err := os.ReadFile(filepath.Join("testdata", "bank.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]string{
		"":      "ground     9 spot heights, to 4 ft below and 6 ft above the ground at the house; flat triangles between them",
		"level": "ground     1 spot height, to none above or below the ground at the house",
	} {
		data := bank
		if text == "level" {
			head, rest, _ := strings.Cut(string(bank), "    - {at: [0, 0], up: 6 ft}\n")
			data = []byte(head + "    - {at: [0, 0], up: 0}\n" + rest[strings.Index(rest, "house:"):])
		}
		site, faults := sitefile.Read("bank.yaml", data)
		var out bytes.Buffer
		understood{&out, site, measure.Feet}.write()
		if n := writeFaults(&out, faults); n != 0 || !strings.Contains(out.String(), want) {
			t.Errorf("%q is not shown in\n%s", want, out.String())
		}
		if shown := strings.Contains(out.String(), "between the spot heights"); shown != (text == "") {
			t.Errorf("grounds of trees among what was assumed: %v", shown)
		}
	}
}

// One reading is a horizon all round, which who reads one hill does not expect.
func TestCheckTellsWhatLiesBetweenTheReadingsOfASkyline(t *testing.T) {
	for terrain, want := range map[string]string{
		"[{bearing: S 30° E, altitude: 15°}]": "1 reading: the land stands 15° high all round",
		"[{bearing: S 30° E, altitude: 15°}, {bearing: S 60° E, altitude: 0°}, {bearing: south, altitude: 0°}]": "3 readings: 0° to 15° high, straight from each to the next",
	} {
		site, _ := sitefile.Read("lot.yaml", append(sitefile.Starter(), "\nterrain: {skyline: "+terrain+"}\n"...))
		var out bytes.Buffer
		understood{&out, site, measure.Feet}.write()
		if !strings.Contains(out.String(), want) {
			t.Errorf("%s: %q is not said:\n%s", terrain, want, out.String())
		}
	}
}
