package sitefile

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// hotWater reads how water is heated where the sun does not, and the coil that
// gives the house what the solar tank has to spare.
func (r *reader) hotWater(o *object) model.WaterChoice {
	var w model.WaterChoice
	w.Fuel, _ = choice(o, fuels, "fuel")
	w.Price, w.FuelUnit, w.PriceKnown = r.price(o)
	w.Efficiency, _ = field(o, parseEfficiency, "efficiency")
	w.Tank, _ = field(o, r.inUnit(parseTank), "tank")
	if at, ok := field(o, r.inUnit(measure.ParseTemperature), "delivered at"); ok {
		if w.Hot = at; at < 35 || at > 75 {
			r.fault(o.at("delivered at"), "delivered at: 120 °F", "nobody washes with water of %s", measure.FormatTemperature(at, r.unit))
		}
	}
	const example = "duct coil: {gives: 240 Btu/h per °F, tank above: 120 °F, cost: $900}"
	v, ok := o.get("duct coil")
	if !ok {
		return w
	}
	if v.node.Kind == yaml.ScalarNode {
		if o.flag(false, "duct coil") {
			w.Coil = &model.CoilChoice{}
		}
		return w
	}
	o.child(example, func(c *object) {
		w.Coil = &model.CoilChoice{}
		w.Coil.Conductance, _ = field(c, r.inUnit(parseConductance), "gives")
		if at, ok := field(c, r.inUnit(measure.ParseTemperature), "tank above"); ok {
			if w.Coil.KeepAbove = at; at < 25 || at > 90 {
				r.fault(c.at("tank above"), "tank above: 120 °F", "a tank at %s is no place to take heat from", measure.FormatTemperature(at, r.unit))
			}
		}
		w.Coil.Cost, w.Coil.CostKnown = field(c, measure.ParseMoney, "cost")
	}, "duct coil")
	return w
}

// parseTank reads 80 gal or 300 L; a bare number is gallons or litres as bare says.
func parseTank(s string, bare measure.Unit) (float64, error) {
	const litresPerGallon = 3.785411784
	text, factor := strings.ToLower(strings.TrimSpace(s)), 1.0
	if bare == measure.Feet {
		factor = litresPerGallon
	}
	for _, u := range []struct {
		unit string
		f    float64
	}{{"gallons", litresPerGallon}, {"gallon", litresPerGallon}, {"gal", litresPerGallon}, {"litres", 1}, {"liters", 1}, {"litre", 1}, {"liter", 1}, {"l", 1}} {
		if number, cut := strings.CutSuffix(text, u.unit); cut {
			text, factor = strings.TrimSpace(number), u.f
			break
		}
	}
	x, err := measure.ParseNumber(text)
	if err != nil || !(x*factor >= 20) || x*factor > 20000 {
		return 0, &measure.Error{Wrong: "\"" + short(s) + "\" is not the size of a tank", Right: "80 gal, or 300 L"}
	}
	return x * factor, nil
}

// wattsPerBtu is 1 Btu/h in W, and kelvins in 1 °F, exact definitions.
const (
	wattsPerBtu = 1055.05585262 / 3600
	kelvinsPerF = 5.0 / 9
)

// parseConductance reads the strength of a coil, heat a degree: 240 Btu/h per
// °F or 125 W/K; a bare number is in bare's unit. W/K.
func parseConductance(s string, bare measure.Unit) (float64, error) {
	text := strings.ToLower(strings.Join(strings.Fields(s), " "))
	factor := 1.0
	if bare == measure.Feet {
		factor = wattsPerBtu / kelvinsPerF
	}
	for unit, f := range map[string]float64{"btu/h per °f": wattsPerBtu / kelvinsPerF, "btu/h·°f": wattsPerBtu / kelvinsPerF, "btu/h per f": wattsPerBtu / kelvinsPerF,
		"btu/(h·°f)": wattsPerBtu / kelvinsPerF, "w/k": 1, "w per k": 1, "w per °c": 1, "w/°c": 1} {
		if number, cut := strings.CutSuffix(text, unit); cut {
			text, factor = strings.TrimSpace(number), f
			break
		}
	}
	x, err := measure.ParseNumber(text)
	if err != nil || !(x > 0) || x*factor > 5000 {
		return 0, &measure.Error{Wrong: "\"" + short(s) + "\" is not the strength of a coil", Right: "240 Btu/h per °F, or 125 W/K"}
	}
	return x * factor, nil
}
