package report

import (
	"fmt"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
)

// access is a table for each surface: sun unshaded and shaded by month, and
// the share that is left, today and after the best set.
func (r Report) access() section {
	st := r.Study
	s := section{Name: "access", Title: "Solar access, month by month"}
	s.Blocks = append(s.Blocks, paragraph(fmt.Sprintf("Sun on each surface in kWh/m², direct, sky and ground together. Unshaded: with nothing around the house. "+
		"Shaded: as the lot stands. Access is shaded over unshaded, so weighted by energy. Heating season: %s. %s", study.MonthsText(st.Heating), r.bestWords())))
	best := st.Account.Read(st.BestState(0))
	work := len(st.Targets) > 0 && len(st.Targets[0].Best.IDs) > 0
	plane := st.BestPlane()
	results := st.Results()
	var windows []int
	for _, i := range r.shown() {
		x := results.Surfaces[i]
		if !r.Full && x.Kind == string(model.WindowFace) {
			windows = append(windows, i)
			continue
		}
		s.Blocks = append(s.Blocks, subtitle(fmt.Sprintf("%s, %s, %s", surfaceName(x.Kind, x.ID), measure.FormatArea(x.Area, r.unit()), faces(x))),
			accessTable(x, best[i], st.Heating, work), note(resourceWords(x, best[i].Total(), plane, work)))
	}
	if len(windows) > 0 {
		s.Blocks = append(s.Blocks, subtitle("Windows, access in percent"), windowTable(results, windows, best, st.Heating, work))
	}
	if left := len(results.Surfaces) - len(r.shown()); left > 0 {
		s.Blocks = append(s.Blocks, note(fmt.Sprintf("%s left out here; access.csv, which southyard study writes, has every one.", counted(left, "surface is", "surfaces are"))))
	}
	return s
}

// resourceWords is what tilt and turn, and then shade, leave of a year's sun on
// the best fixed plane.
func resourceWords(x study.SurfaceResult, best, plane float64, work bool) string {
	if plane <= 0 {
		return ""
	}
	open := 0.0
	for _, e := range x.Open {
		open += e
	}
	text := fmt.Sprintf("Over the year, tilt and turn leave %s of the sun on the best fixed plane (%s kWh/m²); with the shade %s", percent(open/plane), whole(plane), percent(x.Today.Year/plane))
	if work {
		text += fmt.Sprintf(", after the best set %s", percent(best/plane))
	}
	return text + "."
}

func surfaceName(kind, id string) string {
	switch kind {
	case "wall":
		return "Wall " + id
	case "window":
		return "Window " + id
	}
	return "Roof plane " + id
}

func faces(x study.SurfaceResult) string {
	return fmt.Sprintf("tilt %s°, facing %s°", measure.Number(x.Tilt, 0), measure.Number(x.Azimuth, 0))
}

// mostTables of access in the short report.
const mostTables = 9

// shown are the surfaces that get a table: in the full report all; otherwise
// walls and windows within 45° of the equator, and roof planes that look toward
// it, level ones too; without any, all that look toward it; without those, all.
func (r Report) shown() []int {
	st := r.Study
	if r.Full {
		all := make([]int, len(st.Scene.Surfaces))
		for i := range all {
			all[i] = i
		}
		return all
	}
	sign := -1.0
	if st.SunSide() == "north" {
		sign = 1
	}
	var near, toward, all []int
	for i := range st.Scene.Surfaces {
		all = append(all, i)
		n := st.Scene.Surfaces[i].Face.N
		if n.Y*sign > 0.02 || n.Z > 0.999 {
			toward = append(toward, i)
			if st.Scene.Surfaces[i].Kind == model.RoofFace || n.Y*sign > 0.7 {
				near = append(near, i)
			}
		}
	}
	if len(toward) == 0 {
		return all
	}
	if len(near) == 0 {
		return toward
	}
	return near[:min(len(near), mostTables)]
}

var monthHeads = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// windowTable is the access of many windows, two lines each.
func windowTable(results study.Results, which []int, best []shading.Reached, season []time.Month, work bool) *table {
	t := &table{Small: true, Columns: []column{words("percent of open")}}
	for _, m := range monthHeads {
		t.Columns = append(t.Columns, figure(m))
	}
	t.Columns = append(t.Columns, figure("season"), figure("year"))
	for _, i := range which {
		one := accessTable(results.Surfaces[i], best[i], season, work)
		name := fmt.Sprintf("%s, facing %s°", results.Surfaces[i].ID, measure.Number(results.Surfaces[i].Azimuth, 0))
		t.strong(append([]string{name}, one.Rows[2][1:]...)...)
		if work {
			t.add(append([]string{"after best set"}, one.Rows[4][1:]...)...)
		}
	}
	return t
}

// accessTable is one surface's.
func accessTable(x study.SurfaceResult, best shading.Reached, season []time.Month, work bool) *table {
	t := &table{Small: true, Columns: []column{words("kWh/m²")}}
	for _, m := range monthHeads {
		t.Columns = append(t.Columns, figure(m))
	}
	t.Columns = append(t.Columns, figure("season"), figure("year"))
	var then [12]float64
	for m := range then {
		then[m] = best.Total(time.Month(m + 1))
	}
	sums := func(by [12]float64) (inSeason, year float64) {
		for _, m := range season {
			inSeason += by[m-1]
		}
		for _, e := range by {
			year += e
		}
		return
	}
	energy := func(name string, by [12]float64) {
		row := []string{name}
		for _, e := range by {
			row = append(row, tenths(e))
		}
		inSeason, year := sums(by)
		t.add(append(row, whole(inSeason), whole(year))...)
	}
	share := func(name string, by [12]float64) {
		row := []string{name}
		for m, e := range by {
			row = append(row, of(e, x.Open[m]))
		}
		inSeason, year := sums(by)
		openSeason, openYear := sums(x.Open)
		t.strong(append(row, of(inSeason, openSeason), of(year, openYear))...)
	}
	energy("unshaded", x.Open)
	energy("shaded", x.Today.ByMonth)
	share("access, percent", x.Today.ByMonth)
	if work {
		energy("after best set", then)
		share("access, percent", then)
	}
	return t
}

// tenths below 10, whole numbers from there.
func tenths(x float64) string {
	if x < 9.95 {
		return measure.Number(x, 1)
	}
	return measure.Number(x, 0)
}

// of is a share in percent without the sign.
func of(part, all float64) string {
	if all <= 1e-9 {
		return "–"
	}
	return measure.Number(100*min(1, part/all), 0)
}
