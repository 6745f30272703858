package study

import (
	"fmt"
	"io"
	"strings"
	"time"

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
	p("%s   heat and money a year, in %s unless said", strings.ToUpper(st.Site.Name), st.heatUnit())
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
		for _, line := range heat.Cautions(topic) {
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
		p.paragraph(fmt.Sprintf("Pane and storm by the builder's sum: pane 1, storm 1, air space ½, together %s (common practice); tables say R 2.0, and that is what is used here.", measure.FormatRValue(heat.AddedLayersR(2), measure.Feet)), "  ", "  ")
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

// printCollectors says where each collector hangs and what it gives.
func (st *Study) printCollectors(p printer) {
	h := st.Heat
	if len(h.Collectors) == 0 {
		p("")
		p("No collectors asked for. In the site file: collectors: - {kind: air heater, on: south, width: 4 ft, height: 8 ft, count: 2}")
		return
	}
	for _, c := range h.Collectors {
		p("")
		head := fmt.Sprintf("%s (%s): %d of %d", c.ID, c.Kind, len(c.Layout.Places), c.Layout.Wanted)
		if c.Face != "" {
			head += " on " + c.Face + ", placed by the " + c.Chosen + " once the best set is gone"
		}
		p.paragraph(head, "", "  ")
		if c.Layout.Note != "" {
			p("  %s", c.Layout.Note)
		}
		for i, words := range c.Words {
			turned := ""
			if c.Layout.Places[i].Turned {
				turned = " (lying)"
			}
			p.paragraph(fmt.Sprintf("%d: %s%s; %.0f kWh of sun", i+1, words, turned, c.Layout.Places[i].Value), "  ", "     ")
		}
		for _, line := range c.Caution {
			p.paragraph(line, "! ", "  ")
		}
	}
	months := func(name string, of func(m int) float64) {
		line := fmt.Sprintf("  %-22s", name)
		for m := range 12 {
			line += fmt.Sprintf(" %6s", measure.Number(of(m), 0))
		}
		p("%s", line)
	}
	head := fmt.Sprintf("%-24s", "kWh by month")
	for m := time.January; m <= time.December; m++ {
		head += fmt.Sprintf(" %6s", m.String()[:3])
	}
	if h.AirHeat != nil || h.WaterHeat != nil {
		p("")
		p("%s", head)
	}
	if a := h.AirHeat; a != nil {
		months("air heaters, useful", func(m int) float64 { return a.UsefulBy[m] })
	}
	if y := h.WaterHeat; y != nil {
		months("hot water wanted", func(m int) float64 { return y.Months[m].Demand })
		months("  from the sun", func(m int) float64 { return y.Months[m].Solar })
		months("  check by the hour", func(m int) float64 { return y.Months[m].Hourly })
	}
	if c := h.Coil; c != nil {
		months("surplus to the house", func(m int) float64 { return c.UsefulBy[m] })
		months("  house has still to buy", func(m int) float64 { return h.stillToBuy(m) })
	}
	if a := h.AirHeat; a != nil {
		p.paragraph(fmt.Sprintf("Air heaters: %s kWh of sun on the glass, %s could be given, %s given while the house wants heat, %s less to buy; fan %s kWh in %s hours.",
			two(a.Sun), two(a.Offered), two(a.Delivered), two(a.Useful), two(a.Fan), two(a.Hours)), "", "  ")
	}
	if y := h.WaterHeat; y != nil {
		p.paragraph(fmt.Sprintf("Hot water: the sun gives %s of %s kWh, %s (EN 15316-4-3); two other published methods say %s and %s kWh, our hourly tank %s kWh; tank %s, hottest %s; pump %s kWh.",
			two(y.Solar), two(y.Demand), measure.FormatPercent(y.Share, 0), two(y.Chart), two(y.Yearly), two(y.Tank.Useful), st.litres(h.Water.Tank), measure.FormatTemperature(y.Tank.Hottest, st.unit()), two(y.Pump)), "", "  ")
	}
	st.printCoil(p)
}

// printCoil is what the duct coil makes of the panels' surplus.
func (st *Study) printCoil(p printer) {
	h := st.Heat
	c := h.Coil
	if c == nil {
		if h.asksForCoil {
			p("The duct coil has no tank to draw on: no hot-water panel found a place.")
		}
		return
	}
	coil := h.Water.Coil
	gives := two(c.Given) + " kWh"
	if c.Useful < 0.99*c.Given {
		gives += fmt.Sprintf(" (%s counted: in some months the house has no more to buy)", two(c.Useful))
	}
	p.paragraph(fmt.Sprintf("Duct coil: while the tank is above %s and the house wants heat it gives %s in %s hours; hot water gets %s kWh less; blower and pump %s kWh.",
		measure.FormatTemperature(coil.KeepAbove, st.unit()), gives, two(c.Hours), two(c.WaterLess), two(c.Blower+c.Pump)), "", "  ")
	st.printCautions(p, "duct coil")
}

// stillToBuy is the heat the house buys in month m (0 for January) after the
// best set, air heaters and coil, kWh.
func (h *Heat) stillToBuy(m int) float64 {
	left := h.Columns[h.Best].Months[m].Need
	if h.AirHeat != nil {
		left -= h.AirHeat.UsefulBy[m]
	}
	if h.Coil != nil {
		left = max(0, left) - h.Coil.UsefulBy[m]
	}
	return max(0, left)
}

// litres in the reader's unit.
func (st *Study) litres(x float64) string {
	if st.Site.Metric {
		return measure.Number(x, 0) + " L"
	}
	return measure.Number(x/heat.LitresPerGal, 0) + " gal"
}

func two(x float64) string { return measure.FormatSignificant(x, 2) }

// printMoney is what each part does for what it costs.
func (st *Study) printMoney(p printer) {
	h := st.Heat
	e := h.Economy
	p("")
	p("%-28s %10s %10s %10s %16s %14s %14s", "Money", "cost", "heat", "saves", "paid back in", "worth today", "per mil. Btu")
	for i, r := range h.Returns {
		if i == len(h.Returns)-1 && i < 2 {
			break
		}
		per := "–"
		if r.CostPerMMBtu > 0 && r.Cost > 0 {
			per = heat.Dollars(r.CostPerMMBtu)
		}
		p("  %-26s %10s %10s %10s %16s %14s %14s", r.Name, quoted(r), st.heatFigure(r.Heat), dollars(r.Saving), payback(r), dollars(r.Present), per)
	}
	water := ""
	if e.WaterFuel != e.Fuel {
		water = fmt.Sprintf(" (hot water, with %s: %s)", e.WaterFuel.Name, heat.Dollars(e.WaterFuel.PerMMBtu()))
	}
	p.paragraph(fmt.Sprintf("Fuel costs %s a million Btu of useful heat now%s. Worth today: %d years of savings, fuel rising %s, money worth %s a year. Payback at today's prices.",
		heat.Dollars(e.Fuel.PerMMBtu()), water, e.Years, measure.FormatPercent(e.Rise, 1), measure.FormatPercent(e.Discount, 1)), "  ", "  ")
	together := h.Together()
	p("  Together %s of CO₂ a year stay out of the air.", st.mass(together.CO2))
	if list := h.CostsMissing(); len(list) > 0 {
		p.paragraph(fmt.Sprintf("* The cost of %s is not stated: the usual one is taken, with no quote behind it (see Assumed).", listText(list)), "  ", "  ")
	}
}

// printTornado shows how far each doubt moves the yearly saving and the payback
// of all together.
func (st *Study) printTornado(p printer) {
	bars := st.Heat.Tornado
	if len(bars) == 0 {
		return
	}
	low, high := bars[0].AtLow, bars[0].AtLow
	for _, b := range bars {
		low, high = min(low, b.AtLow, b.AtHigh), max(high, b.AtLow, b.AtHigh)
	}
	paid := st.Heat.Together().Cost > 0
	p("")
	p("What all together saves, dollars a year, with each doubt alone at its low and high figure")
	const wide = 26
	at := func(x float64) int {
		if high <= low {
			return 0
		}
		return int((x - low) / (high - low) * (wide - 1))
	}
	for _, b := range bars {
		from, to := min(b.AtLow, b.AtHigh), max(b.AtLow, b.AtHigh)
		a, z := at(from), at(to)
		line := strings.Repeat(" ", a) + strings.Repeat("▬", z-a+1) + strings.Repeat(" ", wide-1-z)
		back := ""
		if paid {
			if back = "paid back in " + BackText(b); !strings.HasSuffix(back, "never") {
				back += " years"
			}
		}
		p("%s", strings.TrimRight(fmt.Sprintf("  %-31s%1s %7s %s %-7s %-13s %s", shorten(b.Name, 31), mark(b.Assumed), heat.Dollars(from), line, heat.Dollars(to), st.doubtText(b), back), " "))
	}
	p("  (* assumed, not stated in the site file)")
}

// BackText is the payback in years at the two ends of a doubt, the shorter first.
func BackText(b heat.Bar) string {
	one, other := b.BackLow, b.BackHigh
	if one.Never || !other.Never && other.Years < one.Years {
		one, other = other, one
	}
	word := func(x heat.Payback) string {
		switch {
		case x.Never:
			return "never"
		case x.Years > 100:
			return "over 100"
		}
		return measure.FormatSignificant(x.Years, 2)
	}
	from, to := word(one), word(other)
	if from == to {
		to = ""
	} else {
		to = "–" + to
	}
	if one.Never {
		return "never"
	}
	return from + strings.Replace(to, "–never", " or never", 1)
}

func (st *Study) doubtText(b heat.Bar) string {
	switch {
	case strings.HasPrefix(b.Unit, "of "):
		return fmt.Sprintf("%.0f–%.0f %%", 100*b.Low, 100*b.High)
	case b.Unit == "°C":
		return measure.FormatTemperature(b.Low, st.unit()) + "–" + measure.FormatTemperature(b.High, st.unit())
	}
	return fmt.Sprintf("%.3g–%.3g %s", b.Low, b.High, b.Unit)
}
