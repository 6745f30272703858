package portfolio

import (
	"fmt"
	"math"

	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
)

// faceCaption says how the picture of a wall or roof plane is seen, how the
// plane lies, and what reaches it.
func (s set) faceCaption(d render.FaceMap, i int, how string) string {
	reached, months := s.st.Today[i], s.st.Heating
	more := ""
	for _, o := range d.Openings {
		if o.Sun != "" {
			more = " Figures in windows: kWh/m² that reach the glass."
		}
	}
	dots := ""
	if d.Dotted() {
		dots = "; dotted: half a step"
	}
	return fmt.Sprintf("Seen square-on from outside, %s. %s. Whole face: %.0f of %.0f kWh/m² in %s, access %.0f %%.%s One colour scale for all faces of this lot%s. %s",
		how, s.lies(s.st.Scene.Surfaces[i].Face), reached.Total(months...), reached.OpenTotal(months...), study.MonthsText(months), 100*reached.Access(months...), more, dots, s.source())
}

// lies says where a face looks, how steep it is and how large: "Faces S 12° E,
// pitch 2/12 (9.5°), 640 sq ft".
func (s set) lies(f model.Face) string {
	unit := measure.Feet
	if s.st.Site.Metric {
		unit = measure.Metres
	}
	pitch := ""
	if f.Kind == model.RoofFace {
		pitch = "pitch " + measure.FormatPitch(f.Tilt()) + ", "
		if f.Tilt() < 1*s1.Degree {
			return "Flat, " + measure.FormatArea(f.Area, unit)
		}
	}
	return "Faces " + measure.FormatBearing(f.Azimuth()) + ", " + pitch + measure.FormatArea(f.Area, unit)
}

// onGlass letters in the windows of a wall what reaches them in a state over
// the heating season.
func (s set) onGlass(d *render.FaceMap, state shading.State) {
	var totals []float64
	for k := range d.Openings {
		for j := range s.st.Scene.Surfaces {
			if w := &s.st.Scene.Surfaces[j]; w.Kind == model.WindowFace && w.ID == d.Openings[k].ID {
				if totals == nil {
					totals = s.st.Account.Totals(state, s.st.Heating...)
				}
				d.Openings[k].Sun = measure.Number(totals[j], 0)
			}
		}
	}
}

// monthTable is the study's table without the hours that count for nothing: a
// share of the few minutes around sunrise says much about one ray and little
// about the place.
func monthTable(r shading.Reached) [12][24]float64 {
	const least = 1e-4 // of the year's sun
	out, year := study.MonthTable(r), r.OpenTotal()
	for m := range out {
		for h := range out[m] {
			if r.Open[m][h] < least*year {
				out[m][h] = math.NaN()
			}
		}
	}
	return out
}
