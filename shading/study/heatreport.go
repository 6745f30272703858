package study

import (
	"fmt"
	"io"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// HeatText prints the heat and money of a lot: the columns a committee asks
// for, what each plan and tree is worth, collectors with their places, money,
// what the figures hang on, cautions, and what was assumed.
func (st *Study) HeatText(w io.Writer) {
	p := printerTo(w)
	h := st.Heat
	each := ""
	if !st.Site.Metric {
		each = " (of 293 kWh)"
	}
	p("%s   heat and money a year, in %s%s unless said", strings.ToUpper(st.Site.Name), st.heatUnit(), each)
	p("")
	p.paragraph(h.Verdict.Headline, "", "")
	for _, reason := range h.Verdict.Reasons {
		p.paragraph(reason, "- ", "  ")
	}
	st.printColumns(p)
	st.printStates(p)
	st.printTreeWorth(p)
	st.printCollectors(p)
	st.printMoney(p)
	st.printTornado(p)
	st.printChange(p, len(h.Verdict.WouldChange))
	if len(h.Verdict.MeasureFirst) > 0 {
		p.paragraph("Measure first: "+strings.Join(h.Verdict.MeasureFirst, "; ")+".", "", "  ")
	}
	p("")
	p("Assumed, not stated in the site file (site file: heat, collectors)")
	for _, a := range h.Assumed {
		p.paragraph(fmt.Sprintf("%s: %s (%s)", a.Name, a.Value, a.Source), "* ", "  ")
	}
}

func (st *Study) printCautions(p printer, topics ...string) {
	seen := map[string]bool{}
	for _, topic := range topics {
		for _, line := range heat.Cautions(topic, st.unit()) {
			if !seen[line] {
				seen[line] = true
				p.paragraph(line, "! ", "  ")
			}
		}
	}
}

// printColumns sets the house as found, after the rehab and after the best set
// side by side.
func (st *Study) printColumns(p printer) {
	h := st.Heat
	list := []heat.Column{h.Columns[AsFound], h.Columns[Rehab], h.Columns[h.Best]}
	row := func(name string, value func(c heat.Column) string) {
		line := fmt.Sprintf("  %-46s", name)
		for _, c := range list {
			line += fmt.Sprintf(" %18s", value(c))
		}
		p("%s", line)
	}
	third := "and the best set"
	if h.BestName == "" {
		third = "(no set to cut)"
	}
	p("")
	p("%-48s %18s %18s %18s", "The house", "as found", "after the rehab", third)
	row("heat to buy", func(c heat.Column) string { return st.heatFigure(c.Need) })
	fuel := h.Economy.Fuel
	row(fmt.Sprintf("its %s at %s a %s, %.0f %%", fuel.Name, measure.FormatMoneyExact(fuel.Price), fuel.Unit, 100*fuel.Efficiency), func(c heat.Column) string { return dollars(c.Need * fuel.PerKWh()) })
	row("CO₂ of that fuel", func(c heat.Column) string { return st.mass(fuel.CO2Saved(c.Need)) })
	row("sun let in by the windows, year", func(c heat.Column) string { return st.heatFigure(c.Solar) })
	row("  of it heating the house", func(c heat.Column) string { return st.heatFigure(c.SolarUseful) })
	row("  let in outside the heating season: the price", func(c heat.Column) string { return st.heatFigure(c.SummerSolar) })
	row("heat lost a degree: windows, share", func(c heat.Column) string { return share(c.Conductance.Windows, c.Conductance.Total) })
	row("  windows, mean R", func(c heat.Column) string { return st.meanWindowR(c) })
	row("  walls, ceiling and floor", func(c heat.Column) string {
		return share(c.Conductance.Walls+c.Conductance.Ceiling+c.Conductance.Floor, c.Conductance.Total)
	})
	row("  air changes", func(c heat.Column) string { return share(c.Conductance.Air, c.Conductance.Total) })
	row("check: an hour-by-hour balance differs by", func(c heat.Column) string { return fmt.Sprintf("%+.0f %%", 100*c.HourlyDiffer) })
	if st.hasTwoPanes() {
		sum, table := heat.AddedLayersR(2), "R 2.0"
		together := measure.FormatRValue(sum, measure.Feet)
		if st.Site.Metric {
			together, table = measure.FormatRValue(sum, measure.Metres)+" ("+together+")", "RSI 0.35 (R 2.0)"
		}
		p.paragraph(fmt.Sprintf("Pane and storm by the builder's sum: pane 1, storm 1, air space ½, together %s (common practice); tables say %s, and that is what is used here.", together, table), "  ", "  ")
	}
	st.printCautions(p, "tightening", "windows")
}

// meanWindowR is the R-value of all windows together in a column.
func (st *Study) meanWindowR(c heat.Column) string {
	area := 0.0
	for i := range st.Scene.Surfaces {
		if s := &st.Scene.Surfaces[i]; s.Kind == model.WindowFace {
			area += s.Face.Area
		}
	}
	if c.Conductance.Windows <= 0 {
		return "–"
	}
	return measure.FormatRValue(area/c.Conductance.Windows, st.unit())
}

// hasTwoPanes tells whether the house has windows of pane and storm, before or
// after the rehab.
func (st *Study) hasTwoPanes() bool {
	h := st.Heat
	two := len(st.Site.Windows) > 0 && (h.After.AddStorms || h.After.Glazing == "single + storm" || h.Before.Glazing == "single + storm")
	for _, w := range st.Site.Windows {
		two = two || w.Glazing == "single + storm"
	}
	return two
}

// mass in the reader's unit. A pound is 0.45359237 kg, exactly.
func (st *Study) mass(kg float64) string {
	if st.Site.Metric {
		return two(kg) + " kg"
	}
	return two(kg/0.45359237) + " lb"
}

func share(x, of float64) string {
	if of <= 0 {
		return "–"
	}
	return measure.FormatPercent(x/of, 0)
}

// printStates compares the plans in the mended house.
func (st *Study) printStates(p printer) {
	h := st.Heat
	p("")
	coil := func(text string) string { // a column only where there is a coil
		if h.Coil == nil {
			return ""
		}
		return fmt.Sprintf(" %12s", text)
	}
	p("%-36s %12s %12s %12s %12s%s %9s %9s", "After the rehab, with", "heat to buy", "windows save", "air heaters", "hot water", coil("surplus"), "summer", "worth")
	for i := Rehab; i < len(h.Columns); i++ {
		s := h.States[i]
		name, worth := s.Name, dollars(s.Saving)
		if i == Rehab {
			name, worth = "the trees as they stand", "–"
		}
		p("  %-34s %12s %12s %12s %12s%s %9s %9s", shorten(name, 34), st.heatFigure(h.Columns[i].Need), st.heatFigure(s.Windows.Saved), st.heatFigure(s.Air), st.heatFigure(s.Water), coil(st.heatFigure(s.Coil)),
			st.heatFigure(h.Columns[i].SummerSolar), worth)
	}
	p("  (worth: dollars a year more than with today's trees, through windows and panels, fans and pumps taken off;")
	p("  summer: sun let in outside the heating season)")
	if h.Coil != nil {
		p("  (surplus: heat the duct coil gives the house, hot water less by what it takes from it)")
	}
	if h.BestName != "" {
		st.printCautions(p, "felling", "digging")
	}
}

// printTreeWorth is what each tree's removal alone would be worth.
func (st *Study) printTreeWorth(p printer) {
	if len(st.Heat.Trees) == 0 {
		return
	}
	p("")
	p("%-28s %14s %14s %14s %10s %12s", "One tree gone, others standing", "windows save", "air heaters", "hot water", "summer", "worth a year")
	for _, t := range st.Heat.Trees {
		kind := ""
		if tree := st.tree(t.ID); tree != nil {
			kind = tree.Species
		}
		p("  %-5s %-22s %14s %14s %14s %10s %12s", shorten(t.ID, 5), shorten(kind, 22), st.heatFigure(t.Windows), st.heatFigure(t.Air), st.heatFigure(t.Water), st.heatFigure(t.SummerGain), dollars(t.Dollars))
	}
	p("  (trees shade each other's sun: the worths of several do not add up)")
}
