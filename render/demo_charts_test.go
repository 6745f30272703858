package render

import "math"

func demoRemovals() Removals {
	return Removals{
		Words: Words{Title: "What taking out each tree gives", Caption: "South windows and wall, October to April. Ranges from 400 trials of the tape's, clinometer's and climate's uncertainty. Costs marked * are assumed."},
		Unit:  "kWh in the heating season",
		Rows: []RemovalRow{
			{ID: "T2", Name: "silver maple", Alone: 210, Fair: 420, Last: 660, Low: 350, High: 500, Cost: "$1,900", Note: "$4.50 a kWh"},
			{ID: "T1", Name: "silver maple", Alone: 180, Fair: 390, Last: 610, Low: 300, High: 470, Cost: "$2,100", Note: "$5.40 a kWh"},
			{ID: "T5", Name: "Norway spruce", Alone: 260, Fair: 275, Last: 300, Low: 215, High: 330, Cost: "$900*", Note: "$3.30 a kWh"},
			{ID: "T4", Name: "Norway spruce", Alone: 60, Fair: 66, Last: 75, Low: 40, High: 90, Cost: "$850*", Note: "$12.90 a kWh"},
			{ID: "T9", Name: "hawthorn", Alone: 2, Fair: 3, Last: 4, Low: 1, High: 6, Cost: "$300*", Note: "$100 a kWh"},
		},
		Blockers: []RemovalRow{{ID: "S1", Name: "street elm", Fair: 230, Note: "ask the city"}, {ID: "N1", Name: "neighbour's ash", Fair: 90, Note: "ask next door"}},
	}
}

func demoBudget() BudgetCurve {
	return BudgetCurve{
		Words: Words{Title: "What each sum can buy", Caption: "Best set of trees at each cost, from all subsets."}, Unit: "kWh in the heating season", Budget: 4500,
		Steps: []BudgetStep{{Cost: 300, Gain: 4, Set: "T9"}, {Cost: 850, Gain: 60, Set: "T4"}, {Cost: 900, Gain: 260, Set: "T5"}, {Cost: 1750, Gain: 330, Set: "T4 + T5"}, {Cost: 2800, Gain: 480, Set: "T2 + T5"}, {Cost: 4000, Gain: 870, Set: "T1 + T2"}, {Cost: 4900, Gain: 1120, Set: "T1 + T2 + T5", Knee: true}, {Cost: 5750, Gain: 1190, Set: "all but T9"}, {Cost: 6050, Gain: 1195, Set: "all five"}},
	}
}

func demoOutlook() Outlook {
	d := Outlook{Words: Words{Title: "South wall over thirty years", Caption: "Crowns grow by the species table; planted maple from 8 ft."}, Unit: "% of the open sky's sun, heating season", Threshold: 70, ThresholdName: "what air heaters need"}
	names := []string{"as it is", "front pair out", "front pair out, maple planted", "spruces out", "spruces topped"}
	for i, n := range names {
		l := OutlookLine{Name: n}
		for y := 0; y <= 30; y += 2 {
			if i == 0 {
				d.Years = append(d.Years, float64(y))
			}
			v := []float64{52, 84, 84, 60, 60.4}[i] - []float64{0.5, 0.15, 0.7, 0.4, 0.41}[i]*float64(y)*(1-float64(y)/90)
			l.Values = append(l.Values, v)
			if i == 1 {
				l.Low, l.High = append(l.Low, v-2-float64(y)/10), append(l.High, v+2+float64(y)/15)
			}
		}
		d.Lines = append(d.Lines, l)
	}
	return d
}

func demoTornado() Tornado {
	return Tornado{Words: Words{Title: "What the answer hangs on", Caption: "Each input moved to the ends of its range, all else as stated."}, Unit: "kWh a heating season, front pair out", Base: 1030, Rows: []TornadoRow{
		{"maple in leaf lets through", 940, 1105, "10 %", "25 %"}, {"height of T2", 970, 1090, "48 ft", "56 ft"}, {"climate of the year", 985, 1075, "dull", "bright"}, {"north of the sketch", 1010, 1042, "−4°", "+4°"}, {"crown base of T5", 1024, 1036, "4 ft", "9 ft"}}}
}

func demoMonths() Bars {
	d := Bars{Words: Words{Title: "Sun on the south windows by month", Caption: "kWh a month through all south windows."}, Unit: "kWh a month", Groups: Months(), Series: []Series{{Name: "trees as they are"}, {Name: "front pair out"}, {Name: "no trees"}}}
	for m := range 12 {
		v := 190 + 50*math.Cos(2*math.Pi*float64(m-1)/12)
		for k, f := range []float64{0.55, 0.83, 1} {
			d.Series[k].Values = append(d.Series[k].Values, v*f)
		}
	}
	return d
}

func demoHeat() Bars {
	return Bars{Words: Words{Title: "Heat the house must buy", Caption: "Fuel heat a year, monthly balance."}, Unit: "kWh a year", Values: true, Groups: []string{"as found", "mended", "mended, front pair out", "and air heaters"}, Series: []Series{{Name: "heat to buy", Values: []float64{31200, 14800, 13700, 12100}}, {Name: "sun used", Values: []float64{1900, 1700, 2700, 4300}}}}
}
