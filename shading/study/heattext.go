package study

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// heatUnit is how heat is written for this reader: million Btu in a file in
// feet, kWh in a file in metres.
func (st *Study) heatUnit() string {
	if st.Site.Metric {
		return "kWh"
	}
	return "million Btu"
}

// heatPrice is what heat costs in the reader's unit, from dollars a million Btu.
func (st *Study) heatPrice(perMMBtu float64) string {
	if !st.Site.Metric {
		return unitPrice(perMMBtu)
	}
	perKWh := perMMBtu / heat.KWhPerMMBtu
	if perKWh < 0.995 {
		return measure.FormatSignificant(100*perKWh, 2) + " ¢"
	}
	return unitPrice(perKWh)
}

// unitPrice has two digits, and cents.
func unitPrice(dollars float64) string {
	return measure.FormatMoneyExact(measure.Significant(dollars, 2))
}

// heatFigure is heat in the reader's unit, as heat.KWh and heat.MMBtu round it.
func (st *Study) heatFigure(kWh float64) string {
	if st.Site.Metric {
		return heat.KWh(kWh)
	}
	return heat.MMBtu(kWh)
}

// monthFigure is a month's heat in the reader's unit: whole kWh with three
// digits, or hundredths of a million Btu, tenths from ten up.
func (st *Study) monthFigure(kWh float64) string {
	if st.Site.Metric {
		return measure.Number(measure.Significant(kWh, 3), 0)
	}
	x := kWh / heat.KWhPerMMBtu
	if math.Abs(x) < 0.005 {
		return "0"
	}
	if math.Abs(x) < 9.995 {
		return fmt.Sprintf("%.2f", x)
	}
	return fmt.Sprintf("%.1f", x)
}

// heatWithUnit is heat in the reader's unit, with the unit's name.
func (st *Study) heatWithUnit(kWh float64) string {
	return st.heatFigure(kWh) + " " + st.heatUnit()
}

// payback in words; "–" where nothing is spent or its cost is not stated.
func payback(r heat.Return) string {
	switch {
	case r.Cost <= 0:
		return "–"
	case r.Simple.Never:
		return "never"
	case r.Simple.Years > 100:
		return "over 100 years"
	case r.Simple.Years < 3:
		return measure.FormatSignificant(r.Simple.Years, 2) + " years"
	}
	return measure.Number(r.Simple.Years, 0) + " years"
}

// dollars with two digits, a dash for none.
func dollars(x float64) string {
	if x == 0 {
		return "–"
	}
	return heat.Dollars(x)
}

// quoted is what a part costs, marked where some of it is assumed; a dash for
// nothing to spend.
func quoted(r heat.Return) string {
	if r.Cost == 0 && !r.Guess {
		return "–"
	}
	return measure.FormatMoney(r.Cost) + mark(r.Guess)
}

// wrapped lines of at most width signs, later ones set in by indent.
func wrapped(text string, width int, indent string) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case strings.HasPrefix(word, "%"): // stays with its number
			line += " " + word
		case len([]rune(line))+1+len([]rune(word)) > width:
			out = append(out, line)
			line = indent + word
		default:
			line += " " + word
		}
	}
	return append(out, line)
}

type printer func(format string, args ...any)

func printerTo(w io.Writer) printer {
	return func(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }
}

const screen = 110 // signs a line

func (p printer) paragraph(text, first, indent string) {
	for i, line := range wrapped(text, screen-len(indent), indent) {
		if i == 0 {
			line = first + line
		}
		p("%s", line)
	}
}

// printVerdict is the answer with those of its reasons that the tables beneath
// do not show.
func (st *Study) printVerdict(p printer) {
	v := st.Heat.Verdict
	p.within("", []string{v.Headline}, 1, "")
	p.within("- ", v.Beside, 2, " ")
}

// printWorth is the block of heat and money on the first screen.
func (st *Study) printWorth(p printer) {
	h := st.Heat
	if h == nil {
		return
	}
	row := func(name, need, saved, money, cost, back string) {
		p("%s", strings.TrimRight(fmt.Sprintf("  %-38s %11s %9s %9s %10s   %s", shorten(name, 38), need, saved, money, cost, back), " "))
	}
	p("")
	p("%-40s %11s %9s %9s %10s   %s", "Heat and money a year ("+st.heatUnit()+")", "heat to buy", "saved", "worth", "cost", "paid back in")
	perKWh := h.Economy.Fuel.PerKWh()
	found, mended := h.Columns[AsFound].Need, h.Columns[Rehab].Need
	row("after the rehab ("+st.heatFigure(found)+" as found)", st.heatFigure(mended), st.heatFigure(found-mended), dollars((found-mended)*perKWh), "", "")
	for i, r := range h.Returns {
		need := ""
		if h.BestName != "" && i == 0 {
			need = st.heatFigure(h.Columns[h.Best].Need)
		}
		if i == len(h.Returns)-1 && i < 2 {
			break // together with nothing
		}
		row(r.Name, need, st.heatFigure(r.Heat), dollars(r.Saving), quoted(r), payback(r))
	}
	if list := h.CostsMissing(); len(list) > 0 {
		p("  (* cost of %s not stated: the usual one is taken)", listText(list))
	}
	var places []string
	for _, c := range h.Collectors {
		if len(c.Words) > 0 {
			places = append(places, fmt.Sprintf("%s on %s: %s", c.ID, c.Face, c.Words[0])+more(len(c.Words)))
		} else {
			places = append(places, fmt.Sprintf("%s: %s", c.ID, c.Layout.Note))
		}
	}
	p.within("Collectors (southyard heat): ", places, len(places), "; ")
}

func more(n int) string {
	if n < 2 {
		return ""
	}
	return fmt.Sprintf(" (and %d more)", n-1)
}

// printChange says what would change the answer.
func (st *Study) printChange(p printer, most int) {
	change := st.Heat.Verdict.WouldChange
	if len(change) == 0 {
		return
	}
	p("")
	p("What would change the answer")
	for i, line := range change {
		if i == most {
			break
		}
		p.paragraph(line, "- ", "  ")
	}
}
