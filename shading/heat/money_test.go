package heat

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func TestReturnAddsUpAndPaybackIsWhenSavingsReachTheCost(t *testing.T) {
	e := economy(t)
	r := e.ReturnOn(Measure{Name: "front pair", Cost: 2000, Heat: 2930.7, Power: 50})
	// 10 MMBtu of gas at 18.75 less 50 kWh at 0.16.
	near(t, "saving", r.Saving, 187.5-8, .01)
	near(t, "simple payback", r.Simple.Years, 2000/r.Saving, 1e-9)
	near(t, "flat worth", r.PresentFlat, r.Saving*12.4622, .02)
	near(t, "worth", r.Present, r.Saving*15.9648, .02)
	near(t, "net", r.Net, r.Present-2000, 1e-9)
	sum := 0.0
	whole := math.Floor(r.Rising.Years)
	for n := 0.0; n < whole; n++ {
		sum += r.Saving * math.Pow(1+e.Rise, n)
	}
	if next := sum + r.Saving*math.Pow(1+e.Rise, whole); sum > 2000 || next < 2000 {
		t.Errorf("payback with rise %.2f years: saved %g before, %g after that year", r.Rising.Years, sum, next)
	}
	// 10 MMBtu at 80 % burn 12.5 MMBtu at 53.06 kg (40 CFR 98 Table C-1, from memory).
	near(t, "CO₂", r.CO2, 12.5*53.06-50*gridCO2, .05)
	for name, m := range map[string]Measure{"costs more than it saves": {Cost: 100, Heat: 1, Power: 100}, "no heat": {Cost: 100}} {
		r := e.ReturnOn(m)
		if !r.Simple.Never || !r.Rising.Never {
			t.Errorf("%s: %+v", name, r)
		}
		if _, err := json.Marshal(r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFuelsAreFoundByAnyOfTheirNamesAndUnits(t *testing.T) {
	for _, c := range []struct {
		name, unit string
		kWh        float64
	}{{"gas", "therms", 29.307}, {"Natural Gas", "ccf", 30.42}, {"propane", "gal", 26.80}, {"oil", "gallons", 40.59}, {"Electricity", "kWh", 1}, {"wood", "cord", 5861}, {"pellets", "lb", 2.3446}} {
		f, err := FuelNamed(c.name, c.unit)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		near(t, c.name+" a "+c.unit, f.Heat, c.kWh, c.kWh*1e-3)
		usual, _ := FuelNamed(c.name, "")
		near(t, c.name+": same price whatever the unit", f.PerMMBtu(), usual.PerMMBtu(), 1e-9)
	}
	if _, err := FuelNamed("coal gas", ""); err == nil || !strings.Contains(err.Error(), "propane") {
		t.Errorf("unknown fuel: %v", err)
	}
	if _, err := FuelNamed("propane", "cord"); err == nil || !strings.Contains(err.Error(), "gallon") {
		t.Errorf("unknown unit: %v", err)
	}
	for name, c := range map[string]model.HeatChoice{"efficiency in percent": {Efficiency: 80}, "rate in percent": {Discount: 5}, "ages": {Years: 1000}} {
		if _, _, err := EconomyFromChoice(c); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func facts() Facts {
	e, _, _ := EconomyFromChoice(model.HeatChoice{})
	return Facts{Season: "October to April", Wall: Access{.42, .81, .93}, Windows: Access{.38, .7, .9}, Roof: Access{.6, .78, .95},
		PlanName: "front pair", PlanCost: 2945, Collectors: 6050, PlanHeat: 1234.5, CollectorHeat: 2876.1, Years: 20, SummerGain: 410,
		NeighbourShare: .09, RoofTurn: .97,
		Return:  e.ReturnOn(Measure{Cost: 8900, Heat: 4110, Power: 90}),
		Tornado: []Bar{{Doubt: Doubt{Name: "sun that trees leave", Assumed: true, Why: "crown outlines"}, AtLow: 60, AtHigh: 95, Swing: 35}}}
}

func TestVerdictTurnsAtItsThresholds(t *testing.T) {
	with := func(now, plan, free float64) Facts {
		f := facts()
		a := Access{now, plan, free}
		f.Wall, f.Windows, f.Roof = a, a, a
		return f
	}
	for _, c := range []struct {
		f     Facts
		level string
		says  string
	}{
		{with(.95, .95, .95), "good", "stands clear"}, {with(.75, .8, .9), "good", "as it stands"},
		{with(.74, .75, .9), "good after work", "front pair"}, {with(.3, .74, .9), "fair", "not a good solar lot"},
		{with(.3, .49, .9), "poor", "Do not count"}, {with(-1, -1, -1), "poor", "No sunny surface"},
	} {
		v := Judge(c.f)
		if v.Level != c.level || !strings.Contains(v.Headline, c.says) {
			t.Errorf("%+v: %s: %s", c.f.Wall, v.Level, v.Headline)
		}
	}
	dark := with(.8, .85, .9)
	dark.Windows = Access{.3, .4, .6}
	if v := Judge(dark); v.Level != "mixed" || !strings.Contains(v.Headline, "not on the windows") || !strings.Contains(v.Headline, "40 %") ||
		!strings.Contains(strings.Join(v.WouldChange, " "), "even with none the windows get 60 %") {
		t.Errorf("a sunny wall hides dark windows: %s: %s %q", v.Level, v.Headline, v.WouldChange)
	}
	dark.Wall, dark.RoofPlanes = Access{.7, .7, .7}, 5
	if v := Judge(dark); !strings.Contains(v.Headline, "Sun on the 5 sun-side roof planes, not on the windows. Of the season's sun the 5 sun-side roof planes get 80 % now") ||
		!strings.Contains(strings.Join(v.Reasons, " "), "The 5 sun-side roof planes get 80 %") {
		t.Errorf("which roof planes are meant is not said: %s %q", v.Headline, v.Reasons)
	}
	if dark.RoofPlanes = 1; !strings.Contains(Judge(dark).Headline, "Sun on the roof,") {
		t.Errorf("a single plane is the roof: %s", Judge(dark).Headline)
	}
	blocked := Judge(with(.3, .4, .5))
	if !strings.Contains(strings.Join(blocked.WouldChange, " "), "Trees are not the only obstacle") {
		t.Errorf("%v", blocked.WouldChange)
	}
}

func TestEstimatesAreRoundedToWhatIsKnown(t *testing.T) {
	for x, want := range map[float64]string{0.05: "$0", -0.3: "$0", 0.7: "$1", 5.36: "$5", -5.36: "-$5", 12.4: "$12", 137: "$140", 2652: "$2,700"} {
		if got := Dollars(x); got != want {
			t.Errorf("$%v is written %s, want %s", x, got, want)
		}
	}
	for x, want := range map[float64]string{0.013: "0", 0.047: "0", -0.2: "0", 0.6: "1", 4.4: "4", -7.3: "-7", 9.96: "10", 46.6: "47", 422.4: "422", 16904: "16,900", math.NaN(): "–", math.Inf(1): "–"} {
		if got := KWh(x); got != want {
			t.Errorf("%v kWh is written %s, want %s", x, got, want)
		}
	}
	for x, want := range map[float64]string{0.004: "0", -0.002: "0", 0.013: "0.01", 0.047: "0.05", 0.364: "0.36", 0.998: "1.0", 1.93: "1.9", 33.4: "33", 107.8: "108", 1234: "1,230"} {
		if got := MMBtu(x * KWhPerMMBtu); got != want {
			t.Errorf("%v million Btu is written %s, want %s", x, got, want)
		}
	}
	f := facts()
	if f.SummerGain = 0.013; strings.Contains(strings.Join(Judge(f).Reasons, " "), "price in summer") {
		t.Error("a gain of nothing is called a price")
	}
}

func TestVerdictSpeaksPlainlyWithoutFalseDigits(t *testing.T) {
	f := facts()
	v := Judge(f)
	text := v.Headline + "\n" + strings.Join(v.Reasons, "\n") + "\n" + strings.Join(v.WouldChange, "\n") + "\n" + strings.Join(v.MeasureFirst, "\n")
	t.Log("\n" + text)
	for _, want := range []string{"42 %", "81 %", "93 %", "1,200 kWh", "2,900 kWh", "costs $2,945 ", "cost $6,050 ", "October to April", "Sun that trees leave", "neighbour"} {
		if !strings.Contains(text, want) {
			t.Errorf("verdict does not say %q", want)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "1234", "2876", "%!"} {
		if strings.Contains(text, bad) {
			t.Errorf("verdict says %q", bad)
		}
	}
	f.Return.Simple = Payback{Never: true}
	if !strings.Contains(strings.Join(Judge(f).Reasons, " "), "never comes back") {
		t.Error("a loss must be called one")
	}
}

func TestEveryTopicHasItsCautionsAndDefersToCode(t *testing.T) {
	for topic, words := range map[string][]string{
		"felling": {"10 ft", "trainees", "consent"}, "digging": {"811"}, "roof": {"Fall protection", "lb/ft²", "fire code"},
		"wall": {"1978"}, "air heater": {"children", "damper", "electrician"}, "hot water": {"Scald", "Legionella", "Stagnation", "licensed"},
		"windows": {"summer", "children"}, "tightening": {"flue", "CO alarms"},
	} {
		for _, unit := range []measure.Unit{measure.Feet, measure.Metres} {
			all := strings.Join(Cautions(topic, unit), " ")
			for _, w := range words {
				if !strings.Contains(all, w) {
					t.Errorf("%s: does not warn of %q", topic, w)
				}
			}
		}
	}
	for _, topic := range CautionTopics() {
		if len(Cautions(topic, measure.Feet)) == 0 {
			t.Errorf("%s has no cautions", topic)
		}
	}
	if Cautions("gardening", measure.Feet) != nil {
		t.Error("unknown topic has cautions")
	}
}

func TestResultsMarshalInSnakeCase(t *testing.T) {
	h, s, _ := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	col := balance(t, h, Case{"now", s, []Glass{{ID: "W", Area: 9, Sun: south}}}, air)
	u, _ := DefaultAirHeater("A", 3, south)
	heaters, err := h.AirHeaters(col, air, []AirHeater{u}, BandDefault)
	if err != nil {
		t.Fatal(err)
	}
	w, sun, _ := roofWater(t, "flat plate", 2)
	water, err := w.Heat(sun, air, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]any{"column": col, "heaters": heaters, "water": water, "house": h, "verdict": Judge(facts()), "system": w,
		"worth": WorthOf(col, col), "return": economy(t).ReturnOn(Measure{Cost: 1, Heat: 1}), "layout": Layout{Places: []Place{{}}}} {
		data, err := json.Marshal(v)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var any map[string]any
		if err := json.Unmarshal(data, &any); err != nil {
			t.Fatal(err)
		}
		for key := range any {
			if key != strings.ToLower(key) {
				t.Errorf("%s: key %q", name, key)
			}
		}
	}
}

func TestVerdictSaysWherePartOfTheCostIsAssumed(t *testing.T) {
	f := facts()
	if s := strings.Join(Judge(f).Reasons, " "); strings.Contains(s, "assumed;") || strings.Contains(s, "cost is assumed") {
		t.Error(s)
	}
	f.Return.Guess = true
	if s := strings.Join(Judge(f).Reasons, " "); !strings.Contains(s, "part of the cost is assumed") {
		t.Error(s)
	}
}
