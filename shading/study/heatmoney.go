package study

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// printMoney is what each part does for what it costs.
func (st *Study) printMoney(p printer) {
	h := st.Heat
	e := h.Economy
	p("")
	p("%-28s %10s %10s %10s %16s %14s %14s", "Money", "cost", "heat", "saves", "paid back in", "worth today", map[bool]string{false: "per mil. Btu", true: "per kWh"}[st.Site.Metric])
	for i, r := range h.Returns {
		if i == len(h.Returns)-1 && i < 2 {
			break
		}
		per := "–"
		if r.CostPerMMBtu > 0 && r.Cost > 0 {
			per = st.heatPrice(r.CostPerMMBtu)
		}
		p("  %-26s %10s %10s %10s %16s %14s %14s", r.Name, quoted(r), st.heatFigure(r.Heat), dollars(r.Saving), payback(r), dollars(r.Present), per)
	}
	water := ""
	if e.WaterFuel != e.Fuel {
		water = fmt.Sprintf(" (hot water, with %s: %s)", e.WaterFuel.Name, st.heatPrice(e.WaterFuel.PerMMBtu()))
	}
	p.paragraph(fmt.Sprintf("Fuel costs %s a %s of useful heat now%s. Worth today: %s of savings, fuel rising %s, money worth %s a year. Payback at today's prices.",
		st.heatPrice(e.Fuel.PerMMBtu()), st.heatUnit(), water, measure.Count(e.Years, "year"), measure.FormatPercent(e.Rise, 1), measure.FormatPercent(e.Discount, 1)), "  ", "  ")
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
