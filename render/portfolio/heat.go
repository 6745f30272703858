package portfolio

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/study"
)

// heat are the pictures of what the sun is worth: the collectors in their
// places, heat by month, and what the saving hangs on.
func (s set) heat() []Picture {
	var out []Picture
	done := map[int]bool{}
	for _, p := range s.st.Heat.Collectors {
		if len(p.Layout.Places) == 0 || done[p.Surface] {
			continue
		}
		done[p.Surface] = true
		out = append(out, Picture{"collectors-" + p.Face, s.mounted(p)})
	}
	for _, p := range s.st.Heat.Collectors {
		if len(p.Layout.Places) == 0 {
			continue
		}
		name := "sky-collectors-" + plainName(p.ID)
		panel, where := mostShaded(p)
		out = append(out, Picture{name, s.skyFrom(&s.st.Scene.Surfaces[p.Surface], panel.Bound().Center(), where)})
	}
	out = append(out, Picture{"heat-by-month", s.heatMonths()})
	if len(s.st.Heat.Tornado) > 0 {
		out = append(out, Picture{"saving-doubts", s.savingDoubts()})
	}
	return out
}

// mostShaded is the panel of a group that gets least sun, and its middle in
// words. Equal ones: the lowest, then the first.
func mostShaded(p study.Placed) (heat.Place, string) {
	worst := 0
	for i, q := range p.Layout.Places {
		w := p.Layout.Places[worst]
		if q.Value < 0.999*w.Value || q.Value <= w.Value && q.Bottom < w.Bottom-0.01 {
			worst = i
		}
	}
	if len(p.Layout.Places) == 1 {
		return p.Layout.Places[0], "the middle of the collector “" + p.ID + "”"
	}
	return p.Layout.Places[worst], fmt.Sprintf("“%s %d”, the one with least sun of %d", p.ID, worst+1, len(p.Layout.Places))
}

// mounted is a face with all its collectors, over the sun that chose their
// places.
func (s set) mounted(first study.Placed) render.FaceMap {
	st := s.st
	best := st.BestState(0)
	d := s.face(first.Surface, best, "once the best set is gone")
	season := study.MonthsText(st.Heating)
	if !first.Air() {
		season = "the year"
		m := st.Map(first.Surface)
		d.Sun, d.Unit, d.Breaks = grid(m.Cells, m.Read(best)), "kWh/m² a year", s.scale()
		for k := range d.Openings {
			d.Openings[k].Sun = "" // of the season, not of the year
		}
	}
	unit := measure.Feet
	if st.Site.Metric {
		unit = measure.Metres
	}
	tape := func(m float64) string { return measure.FormatTape(m, unit) }
	gets := 0.0
	for _, p := range st.Heat.Collectors {
		if p.Surface != first.Surface {
			continue
		}
		for i, q := range p.Layout.Places {
			if p.Air() == first.Air() {
				gets += q.Value
			}
			name := p.ID
			if len(p.Layout.Places) > 1 {
				name = ""
			}
			b := q.Bound()
			d.Collectors = append(d.Collectors, render.Collector{
				ID: name, Ring: orb.Ring{b.Min, {b.Max[0], b.Min[1]}, b.Max, {b.Min[0], b.Max[1]}},
				FromLeft: tape(q.Left), Up: tape(q.Bottom), Width: tape(q.Width), Height: tape(q.Height),
			})
			if name == "" {
				d.Collectors[len(d.Collectors)-1].ID = fmt.Sprintf("%s %d", p.ID, i+1)
			}
		}
	}
	face := d.Outline.Bound()
	for _, k := range st.KeepOuts(first.Surface) {
		r := orb.Bound{Min: orb.Point{max(k.Rect.Min[0], face.Min[0]), max(k.Rect.Min[1], face.Min[1])},
			Max: orb.Point{min(k.Rect.Max[0], face.Max[0]), min(k.Rect.Max[1], face.Max[1])}}
		shown := slices.ContainsFunc(d.Openings, func(o render.Opening) bool { return o.Solid && o.ID == k.What })
		if !shown && r.Max[0] > r.Min[0] && r.Max[1] > r.Min[1] { // a chimney beyond the ridge stands on the other plane
			d.Openings = append(d.Openings, render.Opening{ID: k.What, Ring: r.ToRing(), Solid: true})
		}
	}
	surface := &st.Scene.Surfaces[first.Surface]
	d.Title = fmt.Sprintf("%s: collectors on %s", st.Site.Name, theSurface(surface))
	from := "the foot of the wall"
	if surface.Face.N.Z > 0.1 {
		from = "the eave, up the slope"
	}
	glass := ""
	if slices.ContainsFunc(d.Openings, func(o render.Opening) bool { return o.Sun != "" }) {
		glass = " Figures in windows: kWh/m² that reach the glass."
	}
	d.Caption = fmt.Sprintf("Seen square-on from outside. Tapes run from the %s to each left edge and from %s to each lower edge. Placed by the sun of %s once the best set is gone: about %s kWh reach them.%s Room kept to edges, windows, chimneys and vents is common practice; the local code rules. %s",
		d.Left, from, season, measure.FormatSignificant(gets, 2), glass, s.source())
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// heatMonths sets the heat to buy by month side by side.
func (s set) heatMonths() render.Bars {
	h := s.st.Heat
	per, unit := heat.KWhPerMMBtu, "million Btu"
	if s.st.Site.Metric {
		per, unit = 1, "kWh"
	}
	d := render.Bars{Unit: unit, Groups: render.Months()}
	add := func(i int, name string) {
		q := render.Series{Name: name}
		for _, m := range h.Columns[i].Months {
			q.Values = append(q.Values, m.Need/per)
		}
		d.Series = append(d.Series, q)
	}
	add(study.AsFound, "as found")
	add(study.Rehab, "after the rehab")
	if h.BestName != "" {
		add(h.Best, "and the best set removed")
	}
	d.Title = s.st.Site.Name + ": heat to buy by month"
	d.Caption = fmt.Sprintf("Useful heat by the monthly balance of ISO 13790. A year, %s: as found %s, after the rehab %s", unit, s.amount(h.Columns[study.AsFound].Need), s.amount(h.Columns[study.Rehab].Need))
	if h.BestName != "" {
		if saved := h.Columns[study.Rehab].Need - h.Columns[h.Best].Need; saved > 0.5 {
			d.Caption += fmt.Sprintf(", with the %s removed %s less", h.BestName, s.amount(saved))
		} else {
			d.Caption += fmt.Sprintf("; removing the %s saves none, as no window gains by it", h.BestName)
		}
	}
	d.Caption += ". " + s.source()
	if n := len(h.Assumed); n > 0 { // on a list of their own
		more := " more"
		if len(s.st.Site.Assumed) == 0 {
			more = ""
		}
		d.Caption += fmt.Sprintf(" Of the house and its heating %d%s are assumed.", n, more)
	}
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// amount of heat in the reader's unit, with two digits, three above 100, as
// the study's text has it.
func (s set) amount(kWh float64) string {
	if !s.st.Site.Metric {
		kWh /= heat.KWhPerMMBtu
	}
	if kWh >= 100 {
		return measure.FormatSignificant(kWh, 3)
	}
	return measure.FormatSignificant(kWh, 2)
}

// savingDoubts shows how far each doubt moves what all together saves.
func (s set) savingDoubts() render.Tornado {
	h := s.st.Heat
	all := h.Together()
	d := render.Tornado{Unit: "dollars a year", Base: all.Saving, Said: measure.FormatSignificant(all.Saving, 2)}
	for _, b := range h.Tornado {
		if b.Swing < 0.01*all.Saving { // such as the cost, which moves the payback alone
			continue
		}
		row := render.TornadoRow{Name: b.Name, Low: b.AtLow, High: b.AtHigh}
		row.LowAt, row.HighAt = s.doubt(b, b.Low), s.doubt(b, b.High)
		if b.Assumed {
			row.Name += " *"
		}
		d.Rows = append(d.Rows, row)
	}
	d.Title = s.st.Site.Name + ": what the saving hangs on"
	d.Caption = "Dollars a year that tree work and panels together save in the mended house"
	if all.Cost > 0 {
		d.Caption += fmt.Sprintf(" for %s, paid back in %s at today's prices", measure.FormatMoney(all.Cost), study.PaybackText(all))
	}
	d.Caption += ". Each bar changes one figure alone, from its low to its high value; what moves the saving by less than 1 % is left out. * assumed, not stated in the site file. " + s.source()
	d.Alt = d.Title + ". " + d.Caption
	return d
}

func (s set) doubt(b heat.Bar, x float64) string {
	unit := measure.Feet
	if s.st.Site.Metric {
		unit = measure.Metres
	}
	switch {
	case b.Unit == "°C":
		return measure.FormatTemperature(x, unit)
	case b.Name == b.Unit: // persons
		return fmt.Sprintf("%.3g", x)
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}
