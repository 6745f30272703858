package study

import (
	"fmt"
	"time"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// printCollectors says where each collector hangs and what it gives.
func (st *Study) printCollectors(p printer) {
	h := st.Heat
	if len(h.Collectors) == 0 {
		p("")
		size := "width: 4 ft, height: 8 ft"
		if st.Site.Metric {
			size = "width: 1.2 m, height: 2.4 m"
		}
		p("No collectors asked for. In the site file: collectors: - {kind: air heater, on: south, %s, count: 2}", size)
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
			p.paragraph(fmt.Sprintf("%d: %s%s; %s kWh of sun", i+1, words, turned, two(c.Layout.Places[i].Value)), "  ", "     ")
		}
		for _, line := range c.Caution {
			p.paragraph(line, "! ", "  ")
		}
	}
	months := func(name string, of func(m int) float64) {
		line := fmt.Sprintf("  %-22s", name)
		for m := range 12 {
			line += fmt.Sprintf(" %6s", st.monthFigure(of(m)))
		}
		p("%s", line)
	}
	head := fmt.Sprintf("%-24s", "By month, "+st.heatUnit())
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
		p.paragraph(fmt.Sprintf("Air heaters: %s of sun on the glass, %s could be given, %s given while the house wants heat, %s less to buy; fan %s kWh in %s hours.",
			st.heatWithUnit(a.Sun), st.heatFigure(a.Offered), st.heatFigure(a.Delivered), st.heatFigure(a.Useful), two(a.Fan), two(a.Hours)), "", "  ")
	}
	if y := h.WaterHeat; y != nil {
		p.paragraph(fmt.Sprintf("Hot water: the sun gives %s of %s, %s (EN 15316-4-3); two other published methods say %s and %s, our hourly tank %s; tank %s, hottest %s; pump %s kWh.",
			st.heatFigure(y.Solar), st.heatWithUnit(y.Demand), measure.FormatPercent(y.Share, 0), st.heatFigure(y.Chart), st.heatFigure(y.Yearly), st.heatFigure(y.Tank.Useful), st.litres(h.Water.Tank), measure.FormatTemperature(y.Tank.Hottest, st.unit()), two(y.Pump)), "", "  ")
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
	gives := st.heatWithUnit(c.Given)
	if c.Useful < 0.99*c.Given {
		gives += fmt.Sprintf(" (%s counted: in some months the house has no more to buy)", st.heatFigure(c.Useful))
	}
	p.paragraph(fmt.Sprintf("Duct coil: while the tank is above %s and the house wants heat it gives %s in %s hours; hot water gets %s less; blower and pump %s kWh.",
		measure.FormatTemperature(coil.KeepAbove, st.unit()), gives, two(c.Hours), st.heatWithUnit(c.WaterLess), two(c.Blower+c.Pump)), "", "  ")
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
