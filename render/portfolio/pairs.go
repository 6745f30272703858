package portfolio

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model"
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
		before.Words, after.Words = render.Words{Title: "today"}, render.Words{Title: "after"}
		before.NoLegend, after.NoLegend = true, true
		now, then := s.st.Today[i], p.Reached[i]
		words := render.Words{
			Title: fmt.Sprintf("%s: plan “%s” on %s", s.st.Site.Name, p.Name, theSurface(surface)),
			Caption: fmt.Sprintf("Heating-season sun (%s): %.0f kWh/m² today, %.0f after, of %.0f in an open field. One scale for all faces of this lot; dotted: half a class. %s",
				study.MonthsText(s.st.Heating), now.Total(s.st.Heating...), then.Total(s.st.Heating...), now.OpenTotal(s.st.Heating...), s.source()),
		}
		words.Alt = words.Title + ". " + words.Caption
		out = append(out, Picture{
			Name:    fmt.Sprintf("plan-%d-%s-%s", at+1, plainName(p.Name), surface.ID),
			Picture: render.Pair{Words: words, Left: before, Right: after, Breaks: breaks, Unit: before.Unit},
		})
	}
	return out
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
