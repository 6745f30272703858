package report

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// plans side by side for every target.
func (r Report) plans() section {
	st := r.Study
	s := section{Name: "plans", Title: "The plans side by side"}
	put := func(b ...block) { s.Blocks = append(s.Blocks, b...) }
	if len(st.Plans) == 0 {
		put(paragraph("No plan is in the site file; the best set is the program's own."))
	}
	var contents []string
	for _, p := range st.Plans {
		var steps []string
		for _, x := range p.Steps {
			steps = append(steps, stepWords(x))
		}
		contents = append(contents, p.Name+": "+strings.Join(steps, "; "))
	}
	put(list(contents))
	rows := st.PlanTable()
	for i, t := range st.Targets {
		table := &table{Columns: []column{words("for " + t.Name), figure("kWh"), figure("access"), figure("gain, kWh"), figure("cost"), figure("$/kWh"), figure("summer on glass, kWh")}}
		season := ""
		for _, row := range rows {
			if row.Target != t.Name {
				continue
			}
			season = row.Season
			cost := "–"
			if row.Cost != nil {
				cost = money(*row.Cost, row.Assumed)
			}
			table.add(row.Plan, whole(row.Sun), percent(row.Access), signed(row.Gain), cost, perKWh(row.CostPerKWh), signed(row.Summer))
		}
		put(subtitle(fmt.Sprintf("%s, %s", t.Name, season)), table)
		if grown := r.grown(t.Name); grown != nil && (r.Full || i == 0 && !r.has("growth-")) {
			put(note("Access in the season as the trees grow:"), grown)
		}
	}
	put(note("kWh in the season on all the target's surfaces together. $/kWh: cost over one season's gain of sun, not of heat. Summer on glass: more sun on the windows in the cooling season, which is the price. * part of the cost is assumed."))
	return s
}

// grown is a target's access over the years, or nil where that was not asked.
func (r Report) grown(target string) *table {
	var out *table
	for _, c := range r.Study.Growth {
		if c.Target != target {
			continue
		}
		if out == nil {
			out = &table{Columns: []column{words("plan")}}
			for _, y := range c.Years {
				name := "now"
				if y > 0 {
					name = "in " + measure.Number(y, 0) + " years"
				}
				out.Columns = append(out.Columns, figure(name))
			}
		}
		row := []string{c.Plan}
		for _, a := range c.Access {
			row = append(row, percent(a))
		}
		if len(row) == len(out.Columns) {
			out.add(row...)
		}
	}
	return out
}

// stepWords is one step of a plan.
func stepWords(s model.Step) string {
	switch {
	case s.NewTree != nil:
		return "plant " + s.NewTree.ID + " (" + s.NewTree.Species + ")"
	case s.NewBuilding != nil:
		return "build " + s.NewBuilding.ID
	case s.NewFence != nil:
		return "build the fence " + s.NewFence.ID
	case s.Structure != "":
		return "take away " + s.Structure
	}
	return string(s.Kind) + " " + s.Tree
}

func signed(x float64) string {
	text := measure.Number(x, 0)
	if x > 0 && text != "0" {
		return "+" + text
	}
	return text
}

func perKWh(x *float64) string {
	if x == nil {
		return "–"
	}
	return measure.FormatSignificant(*x, 2)
}
