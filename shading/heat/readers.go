package heat

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

// Texts that differ between readers of feet and of metres hold both, as
// ‹18 in|46 cm (18 in)›, until they are read for one of them. A published rule
// stays in the unit it was published in, with the other behind it.

// both is such a text.
func both(feet, metres string) string { return "‹" + feet + "|" + metres + "›" }

// readFor gives a text as a reader of one unit has it.
func readFor(unit measure.Unit, text string) string {
	var out strings.Builder
	for {
		before, rest, open := strings.Cut(text, "‹")
		pair, after, closed := strings.Cut(rest, "›")
		feet, metres, parted := strings.Cut(pair, "|")
		out.WriteString(before)
		if !open || !closed || !parted {
			return out.String()
		}
		if unit == measure.Metres {
			feet = metres
		}
		out.WriteString(feet)
		text = after
	}
}

// In is the default as a reader of one unit has it.
func (d Default) In(unit measure.Unit) Default {
	return Default{readFor(unit, d.Name), readFor(unit, d.Value), readFor(unit, d.Source)}
}

// degrees is a temperature in °C.
func degrees(celsius float64) string {
	f, c := fmt.Sprintf("%.0f °F", Fahrenheit(celsius)), fmt.Sprintf("%.0f °C", celsius)
	return both(f+" ("+c+")", c+" ("+f+")")
}

// inches is a length that builders say in inches, m.
func inches(metres float64) string {
	in := fmt.Sprintf("%.0f in", metres/metresPerInch)
	return both(in, fmt.Sprintf("%.0f cm (%s)", 100*metres, in))
}

// rValue is a resistance in m²·K/W, with so many decimals of the US figure.
func rValue(rsi float64, decimals int) string {
	us := fmt.Sprintf("R %.*f", decimals, rsi/RSI)
	return both(us, fmt.Sprintf("RSI %.2f (%s)", rsi, us))
}

// areas and volumes, m² and m³.
func areas(m2 float64) string {
	ft, m := measure.FormatArea(m2, measure.Feet), fmt.Sprintf("%.0f m²", m2)
	return both(ft+" ("+m+")", m+" ("+ft+")")
}

func volumes(m3 float64) string {
	ft, m := measure.Number(measure.Significant(m3/cubicMetresPerFoot, 3), 0)+" cu ft", fmt.Sprintf("%.0f m³", m3)
	return both(ft+" ("+m+")", m+" ("+ft+")")
}

// fuelCO2 is what a kWh of fuel gives off, kg.
func fuelCO2(perKWh float64) string {
	btu := fmt.Sprintf("%.1f kg a million Btu", perKWh*KWhPerMMBtu)
	return both(btu+" of fuel", fmt.Sprintf("%.3f kg a kWh of fuel (%s)", perKWh, btu))
}
