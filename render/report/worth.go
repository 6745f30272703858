package report

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/study"
)

// worth is what the sun does for heat and money.
func (r Report) worth() section {
	st, h := r.Study, r.Study.Heat
	unit := st.HeatUnit()
	s := section{Name: "heat", Title: "Heat and money"}
	put := func(b ...block) { s.Blocks = append(s.Blocks, b...) }

	need := &table{Columns: []column{words("a year, " + unit), figure("heat to buy"), figure("saved through windows"), figure("air heaters"), figure("hot water"), figure("summer gain"), figure("saved, $")}}
	for i, c := range h.Columns {
		w := h.States[i]
		row := []string{c.Name, st.HeatFigure(c.Need), "–", orDash(st, w.Air), orDash(st, w.Water), st.HeatFigure(c.SummerSolar), "–"}
		if i > study.Rehab {
			row[2], row[6] = st.HeatFigure(w.Windows.Saved), heat.Dollars(w.Saving)
		}
		need.add(row...)
	}
	put(need, note("Heat to buy: what the house wants from its heater, before the heater's losses, without air heaters and hot water. Saved: against the mended house with the trees as they stand. Summer gain: sun through the windows outside the heating season."))

	money := &table{Columns: []column{words("what the money does"), figure("cost"), figure("heat a year, " + unit), figure("saves a year"), figure("paid back in"), figure("net worth over " + fmt.Sprint(h.Economy.Years) + " years")}}
	for i, x := range h.Returns {
		if i == len(h.Returns)-1 && i < 2 {
			break // together with nothing
		}
		money.add(x.Name, cost(x.Cost)+star(x.Guess), st.HeatFigure(x.Heat), heat.Dollars(x.Saving), study.PaybackText(x), heat.Dollars(x.Net))
	}
	if len(money.Rows) > 0 {
		put(subtitle("Money"), money)
	}
	e := h.Economy
	put(note(fmt.Sprintf("%s at %s a kWh of useful heat, rising %s a year; discount %s; %s. Paid back at today's prices; net worth with the price rise, less cost.%s",
		strings.ToUpper(e.Fuel.Name[:min(1, len(e.Fuel.Name))])+e.Fuel.Name[min(1, len(e.Fuel.Name)):], cents(e.Fuel.PerKWh()), measure.FormatPercent(e.Rise, 1), measure.FormatPercent(e.Discount, 1), measure.Count(e.Years, "year"), missing(h))))

	if len(h.Trees) > 0 {
		put(subtitle("Each tree's removal alone, in the mended house"))
		t := &table{Columns: []column{words("tree"), figure("through windows, " + unit), figure("air heaters more"), figure("hot water more"), figure("summer gain more"), figure("a year")}}
		for _, x := range h.Trees {
			t.add(x.ID, st.HeatFigure(x.Windows), st.HeatFigure(x.Air), st.HeatFigure(x.Water), st.HeatFigure(x.SummerGain), heat.Dollars(x.Dollars))
		}
		put(t)
	}
	if len(h.Collectors) > 0 {
		put(subtitle("Where the panels would go"))
		var places []string
		for _, c := range h.Collectors {
			if len(c.Words) == 0 {
				places = append(places, c.ID+": "+c.Layout.Note)
			}
			for n, w := range c.Words {
				places = append(places, fmt.Sprintf("%s %d on %s: %s", c.ID, n+1, c.Face, w))
			}
		}
		put(list(places))
	}
	if len(h.Tornado) > 0 {
		put(subtitle("What the saving hangs on"))
		t := &table{Columns: []column{words("between its low and high figure"), figure("all together saves at the low"), figure("at the high"), figure("paid back in, years"), words("")}}
		for _, b := range h.Tornado[:min(9, len(h.Tornado))] { // the rest moves next to nothing
			state := "stated"
			if b.Assumed {
				state = "assumed"
			}
			t.add(b.Name, heat.Dollars(b.AtLow)+" a year", heat.Dollars(b.AtHigh)+" a year", study.BackText(b), state)
		}
		put(t)
	}
	put(note("Thresholds of the verdict: " + strings.Join(h.Verdict.Thresholds, "; ") + "."))
	return s
}

func orDash(st *study.Study, kWh float64) string {
	if kWh == 0 {
		return "–"
	}
	return st.HeatFigure(kWh)
}

func cost(dollars float64) string {
	if dollars == 0 {
		return "–"
	}
	return measure.FormatMoney(dollars)
}

func star(assumed bool) string {
	if assumed {
		return "*"
	}
	return ""
}

func cents(dollars float64) string {
	return measure.Number(100*dollars, 1) + " cents"
}

func missing(h *study.Heat) string {
	if list := h.CostsMissing(); len(list) > 0 {
		return " The cost of " + strings.Join(list, ", ") + " is not stated: the usual one is taken (marked *)."
	}
	return ""
}
