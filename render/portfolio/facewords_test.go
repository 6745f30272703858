package portfolio

import (
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
)

func TestFacesLetterTheStudysFiguresAndHowTheyLie(t *testing.T) {
	s := ofExample(t, "foundry-lane")
	t.Run("table leaves out hours with next to no sun", func(t *testing.T) { leavesOutThinHours(t, s) })
	byID := map[string]int{}
	for i := range s.st.Scene.Surfaces {
		byID[s.st.Scene.Surfaces[i].ID] = i
	}
	wall := s.face(byID["south-1"], nil, "as it stands")
	seen := 0
	for _, o := range wall.Openings {
		i, ok := byID[o.ID]
		if !ok {
			continue
		}
		seen++
		if want := measure.Number(s.st.Today[i].Total(s.st.Heating...), 0); o.Sun != want {
			t.Errorf("window %s letters %q, the study has %s", o.ID, o.Sun, want)
		}
	}
	if seen != 4 {
		t.Errorf("%d windows in the wall, want 4", seen)
	}
	// The site file: up is 12° west of true north, so the south wall looks
	// 12° east of south; the roof falls 2 in 12.
	if !strings.Contains(wall.Caption, "Faces S 12° E, ") || !strings.Contains(wall.Caption, "Figures in windows") {
		t.Errorf("the wall's caption: %s", wall.Caption)
	}
	roof := s.face(byID["roof-south"], nil, "as it stands")
	if !strings.Contains(roof.Caption, "Faces S 12° E, pitch 2/12 (9.5°), ") || strings.Contains(roof.Caption, "Figures in windows") {
		t.Errorf("the roof's caption: %s", roof.Caption)
	}
	for _, d := range []render.FaceMap{wall, roof} {
		if strings.Contains(d.Caption, "dotted") != d.Dotted() {
			t.Errorf("dotted lines: %v; the caption: %s", d.Dotted(), d.Caption)
		}
	}
}

func leavesOutThinHours(t *testing.T, s set) {
	r := s.st.Today[0]
	year, blanks := r.OpenTotal(), 0
	for m, row := range monthTable(r) {
		for h, v := range row {
			if sun := r.Open[m][h]; math.IsNaN(v) != (sun < 1e-4*year) {
				t.Errorf("month %d hour %d: %g of %g kWh/m² a year, share %g", m+1, h, sun, year, v)
			} else if math.IsNaN(v) && sun > 1e-6 {
				blanks++
			}
		}
	}
	if blanks == 0 {
		t.Error("nothing was left out; the test sees nothing")
	}
}
