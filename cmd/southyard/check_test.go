package main

import (
	"bytes"
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
		"T2", "Norway spruce", "51 ft 1 in", "clinometer", // 60 ft × (tan 38° + tan 4°)
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
