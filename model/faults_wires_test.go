package model

import (
	"strings"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// The house stands from [8, 38] to [30, 66] ft; walls 17 ft 6 in, gable of
// 9/12 along 22 ft, ridge east to west over y = 52: 28 ft up.
func TestWireDrawnThroughTheHouseIsLookedAtAgain(t *testing.T) {
	at := func(xy ...float64) (line orb.LineString) {
		for i := 0; i < len(xy); i += 2 {
			line = append(line, orb.Point{xy[i] * ft, xy[i+1] * ft})
		}
		return line
	}
	for name, c := range map[string]struct {
		line   orb.LineString
		height float64 // ft
		run    string  // told; empty: nothing is
	}{
		"right through":                   {at(0, 50, 40, 50), 17, "22 ft"},
		"through, upstairs":               {at(0, 52, 40, 52), 25, "22 ft"},
		"over the ridge":                  {at(0, 52, 40, 52), 29, ""},
		"over the eave, through the roof": {at(20, 0, 20, 115), 22, "16 ft"}, // 28 ft less 4.5 ft / 0.75 at each side
		"ends at the wall":                {at(2, -6, 8, 47), 17, ""},
		"ends a foot behind the wall":     {at(0, 0, 9, 47), 17, ""},
		"ends in the middle":              {at(0, 52, 19, 52), 17, "11 ft"},
		"along the wall":                  {at(0, 38.5, 40, 38.5), 17, ""},
		"beside the house":                {at(0, 36, 40, 36), 17, ""},
		"under the overhang":              {at(0, 37.5, 40, 37.5), 17, ""},
		"across a corner by a foot":       {at(7, 40, 10, 37), 17, ""},
		"two legs that meet at the wall":  {at(0, 0, 8, 50, 0, 90), 17, ""},
		"height not known":                {at(0, 50, 40, 50), 0, ""},
		"a point twice":                   {at(0, 50, 0, 50, 40, 50), 17, "22 ft"},
	} {
		t.Run(name, func(t *testing.T) {
			site := soundSite()
			site.Wires = []Wire{{ID: "near", Line: at(0, 0, 0, 90), Height: 20 * ft}, {ID: "line", Line: c.line, Height: c.height * ft}}
			var told []Fault
			for _, f := range site.Faults() {
				if strings.Contains(f.Wrong, "through the house") {
					told = append(told, f)
				}
			}
			switch {
			case c.run == "" && len(told) == 0:
			case c.run == "" || len(told) != 1:
				t.Errorf("told %v", told)
			case told[0].Severity != FaultWarning || told[0].Field != "wires[1].line" || !strings.Contains(told[0].Wrong, "runs "+c.run+" through"):
				t.Errorf("told as %v", told)
			}
		})
	}
}

// Two parts side by side are one stretch; a roof on posts is none.
func TestWireThroughTwoPartsIsOneStretch(t *testing.T) {
	site := soundSite()
	site.Windows = nil
	flat := func(x0, x1 float64, open bool) Part {
		return Part{Footprint: box(x0*ft, 38*ft, x1*ft, 66*ft), WallHeight: 17.5 * ft, Roof: Roof{Kind: Flat, Pitch: 0 * s1.Degree}, Open: open}
	}
	site.House.Parts = []Part{flat(8, 18, false), flat(18, 26, false), flat(26, 40, true)}
	site.Wires = []Wire{{ID: "line", Line: orb.LineString{{0, 50 * ft}, {40 * ft, 50 * ft}}, Height: 16 * ft}}
	for _, f := range site.Faults() {
		if strings.Contains(f.Wrong, "runs 18 ft through the house, 16 ft up") {
			return
		}
	}
	t.Error(site.Faults())
}
