package portfolio

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading/study"
)

// plan is before beside after for a plan: on the sun-side wall that has most
// windows, or the largest, and on the roof plane with most sun.
func (s set) plan(at int) []Picture {
	p := s.st.Plans[at]
	var out []Picture
	for _, i := range s.shown() {
		surface := &s.st.Scene.Surfaces[i]
		before, after := s.face(i, nil, "today"), s.face(i, p.State, "after")
		breaks := before.Breaks
		now, then := s.st.Today[i], p.Reached[i]
		months := s.st.Heating
		before.Words = render.Words{Title: fmt.Sprintf("today: %.0f %%", 100*now.Access(months...))}
		after.Words = render.Words{Title: fmt.Sprintf("after: %.0f %%", 100*then.Access(months...))}
		before.NoLegend, after.NoLegend = true, true
		glass, dotted := "", ""
		if slices.ContainsFunc(before.Openings, func(o render.Opening) bool { return o.Sun != "" }) {
			glass = " Figures in windows: kWh/m² that reach the glass."
		}
		if before.Dotted() || after.Dotted() {
			dotted = "; dotted: half a step"
		}
		words := render.Words{
			Title: fmt.Sprintf("%s: plan “%s” on %s", s.st.Site.Name, p.Name, theSurface(surface)),
			Caption: fmt.Sprintf("%s Heating-season sun (%s): %.0f kWh/m² today, %.0f after, of %.0f in an open field, which is 100 %%.%s One colour scale for all faces of this lot%s. %s",
				work(p), study.MonthsText(months), now.Total(months...), then.Total(months...), now.OpenTotal(months...), glass, dotted, s.source()),
		}
		words.Alt = words.Title + ". " + words.Caption
		out = append(out, Picture{
			Name:    fmt.Sprintf("plan-%d-%s-%s", at+1, plainName(p.Name), surface.ID),
			Picture: render.Pair{Words: words, Left: before, Right: after, Breaks: breaks, Unit: before.Unit},
		})
	}
	return out
}

// work is what a plan does and costs: "Taken out: T2, T7. Planted: N1. $2,830."
func work(p study.Plan) string {
	done := map[model.StepKind]string{
		model.Remove: "Taken out", model.Raise: "Raised", model.Reduce: "Reduced", model.Thin: "Thinned",
		model.Plant: "Planted", model.Build: "Built", model.Demolish: "Pulled down",
	}
	var order []model.StepKind
	things := map[model.StepKind][]string{}
	for _, x := range p.Steps {
		if things[x.Kind] == nil {
			order = append(order, x.Kind)
		}
		things[x.Kind] = append(things[x.Kind], x.Thing())
	}
	const most = 12 // names a kind
	var out strings.Builder
	for _, kind := range order {
		ids, more := things[kind], ""
		if len(ids) > most {
			ids, more = ids[:most], fmt.Sprintf(" and %d more", len(ids)-most)
		}
		out.WriteString(done[kind] + ": " + strings.Join(ids, ", ") + more + ". ")
	}
	cost := measure.FormatMoney(p.Cost)
	if p.Unknown {
		cost += ", partly assumed"
	}
	return out.String() + "Cost: " + cost + "."
}

// shown are the one wall and the one roof plane that stand for the house.
func (s set) shown() []int {
	best := map[model.FaceKind]int{}
	for _, i := range s.sunSide() {
		f := &s.st.Scene.Surfaces[i]
		if j, ok := best[f.Kind]; !ok || f.Face.Area*s.st.NoTrees[i].Total() > s.st.Scene.Surfaces[j].Face.Area*s.st.NoTrees[j].Total() {
			best[f.Kind] = i
		}
	}
	var out []int
	for _, kind := range []model.FaceKind{model.WallFace, model.RoofFace} {
		if i, ok := best[kind]; ok {
			out = append(out, i)
		}
	}
	return out
}

// plainName is a plan's name fit for a file.
func plainName(s string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return '-'
	}, strings.ToLower(s))
	for strings.Contains(clean, "--") {
		clean = strings.ReplaceAll(clean, "--", "-")
	}
	clean = strings.Trim(clean, "-")
	if len(clean) > 40 {
		clean = clean[:40]
	}
	return clean
}
