package sitefile

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func (r *reader) targets(top *object) {
	const example = "- {name: heater wall, surfaces: {south: 1, south windows: 2}}"
	top.each(example, func(i int, o *object) {
		t := model.Target{Parts: map[string]float64{}}
		if o != nil {
			if t.Name = o.text("name"); t.Name == "" {
				o.missing("name", "name: heater wall")
			}
			v, ok := o.get("surfaces", "parts", "of")
			if ok {
				r.surfaces(v, t.Parts)
			} else {
				o.missing("surfaces", "surfaces: south windows, or {south windows: 2, roof: 1}")
			}
			if s, ok := o.get("season"); ok {
				t.Season = r.months(s)
			}
		}
		r.site.Targets = append(r.site.Targets, t)
	}, "targets")
}

// surfaces reads one surface, a list of them, or weights by surface.
func (r *reader) surfaces(v value, into map[string]float64) {
	plain := func(v value) {
		if s, ok := read(v, func(s string) (string, error) { return strings.TrimSpace(s), nil }); ok && s != "" {
			into[s] = 1
		}
	}
	switch v.node.Kind {
	case yaml.SequenceNode:
		items, _ := v.list("surfaces", "[south windows, roof]")
		for _, item := range items {
			plain(item)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(v.node.Content); i += 2 {
			name := v.node.Content[i].Value
			item := r.value(v.node.Content[i+1], join(v.path, name), join(v.shown, short(name)))
			w, ok := read(item, func(s string) (float64, error) { return bounded(s, 0, 1000, "(a weight)") })
			if ok && w > 0 {
				into[name] = w
			}
		}
	default:
		plain(v)
	}
	if len(into) == 0 && !r.faultyUnder(v.path) {
		r.fault(v.spot, "surfaces: south windows", "no surface has any weight")
	}
}

var masses = map[string]string{"light": "light", "medium": "medium", "heavy": "heavy"}

var fuels = map[string]string{
	"gas": "gas", "natural gas": "gas", "propane": "propane", "lp gas": "propane", "lp": "propane", "oil": "oil", "heating oil": "oil",
	"electricity": "electricity", "electric": "electricity", "heat pump": "heat pump", "wood": "wood", "cord wood": "wood", "pellets": "pellets",
}

func (r *reader) heat(top *object) {
	top.child("heat: {fuel: gas, price: $1.50 per therm, efficiency: 80 %}", func(o *object) {
		h := &r.site.Heat
		h.FloorArea, _ = field(o, func(s string) (float64, error) { return measure.ParseArea(s, r.unit) }, "floor area")
		h.Volume, _ = field(o, func(s string) (float64, error) { return measure.ParseVolume(s, r.unit) }, "volume")
		h.Setpoint, _ = field(o, func(s string) (float64, error) { return measure.ParseTemperature(s, r.unit) }, "setpoint", "thermostat")
		if o.has("setpoint") && !r.faulty[join(o.path, "setpoint")] && (h.Setpoint < 5 || h.Setpoint > 30) {
			r.fault(o.at("setpoint"), "setpoint: 68 °F", "nobody keeps a house at %s", measure.FormatTemperature(h.Setpoint, r.unit))
		}
		h.Mass, _ = choice(o, masses, "mass")
		o.child("before: {wall: R-4, ceiling: R-11, floor: R-5, window: R-1, air changes: 1.2}", func(e *object) { h.Before = r.envelope(e) }, "before")
		o.child("after: {wall: R-13, ceiling: R-49, floor: R-13, window: R-2, air changes: 0.5}", func(e *object) { h.After = r.envelope(e) }, "after")
		h.Fuel, _ = choice(o, fuels, "fuel")
		h.Price, h.FuelUnit, h.PriceKnown = r.price(o)
		h.Efficiency, _ = field(o, parseEfficiency, "efficiency")
		h.PriceRise, h.PriceRiseKnown = field(o, measure.ParseRate, "price rise")
		h.Discount, h.DiscountKnown = field(o, measure.ParseRate, "discount")
		h.Years, _ = field(o, func(s string) (int, error) { return measure.ParseCount(s, 100) }, "years")
		h.Persons, h.PersonsKnown = field(o, func(s string) (float64, error) { return bounded(s, 0, 40, "persons") }, "persons")
		h.GallonsADay, _ = field(o, func(s string) (float64, error) { return bounded(s, 0, 200, "gallons a person and day") }, "gallons a day")
		o.child("hot water: {fuel: electricity, price: $0.16 per kWh, efficiency: 95 %}", func(w *object) { h.Water = r.hotWater(w) }, "hot water")
	}, "heat")
}

// hotWater reads how water is heated where the sun does not, and the coil that
// gives the house what the solar tank has to spare.
func (r *reader) hotWater(o *object) model.WaterChoice {
	var w model.WaterChoice
	w.Fuel, _ = choice(o, fuels, "fuel")
	w.Price, w.FuelUnit, w.PriceKnown = r.price(o)
	w.Efficiency, _ = field(o, parseEfficiency, "efficiency")
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
		w.Coil.Conductance, _ = field(c, r.parseConductance, "gives")
		if at, ok := field(c, func(s string) (float64, error) { return measure.ParseTemperature(s, r.unit) }, "tank above"); ok {
			if w.Coil.KeepAbove = at; at < 25 || at > 90 {
				r.fault(c.at("tank above"), "tank above: 120 °F", "a tank at %s is no place to take heat from", measure.FormatTemperature(at, r.unit))
			}
		}
		w.Coil.Cost, w.Coil.CostKnown = field(c, measure.ParseMoney, "cost")
	}, "duct coil")
	return w
}

// wattsPerBtu is 1 Btu/h in W, and kelvins in 1 °F, exact definitions.
const (
	wattsPerBtu = 1055.05585262 / 3600
	kelvinsPerF = 5.0 / 9
)

// parseConductance reads the strength of a coil, heat a degree: 240 Btu/h per
// °F or 125 W/K; a bare number is in the file's unit. W/K.
func (r *reader) parseConductance(s string) (float64, error) {
	text := strings.ToLower(strings.Join(strings.Fields(s), " "))
	factor := 1.0
	if r.unit == measure.Feet {
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

// price reads $1.50 per therm, or a price with per: beside it.
func (r *reader) price(o *object) (dollars float64, per string, stated bool) {
	unit := o.text("per")
	p, ok := field(o, func(s string) (float64, error) {
		money := s
		if before, after, cut := strings.Cut(s, " per "); cut {
			money, unit = before, strings.TrimSpace(after)
		} else if before, after, cut := strings.Cut(s, "/"); cut {
			money, unit = before, strings.TrimSpace(after)
		}
		x, err := measure.ParseMoney(money)
		if err != nil {
			err = &measure.Error{Wrong: wrongOf(err), Right: "$1.50 per therm"}
		}
		return x, err
	}, "price")
	if ok && unit == "" {
		o.missing("per", "price: $1.50 per therm (or per gallon, per kWh, per cord)")
	}
	return p, short(strings.ToLower(unit)), ok
}

// parseEfficiency reads 80 %, 0.8, or a heat pump's 2.8.
func parseEfficiency(s string) (float64, error) {
	const right = "80 %, or 2.8 for a heat pump"
	x, err := measure.ParseNumber(strings.TrimPrefix(strings.ToLower(strings.TrimSpace(s)), "cop "))
	if err != nil {
		x, err = measure.ParseShare(s)
	}
	if err != nil || x <= 0.05 || x > 6 {
		return 0, &measure.Error{Wrong: "\"" + short(s) + "\" is not the efficiency of a heater", Right: right}
	}
	return x, nil
}

func (r *reader) envelope(o *object) model.Envelope {
	var e model.Envelope
	resistance := func(s string) (float64, error) { return measure.ParseRValue(s, r.unit) }
	e.Wall, _ = field(o, resistance, "wall", "walls")
	e.Ceiling, _ = field(o, resistance, "ceiling", "attic")
	e.Floor, _ = field(o, resistance, "floor")
	e.Window, _ = field(o, resistance, "window", "windows")
	e.AirChanges, _ = field(o, func(s string) (float64, error) { return bounded(s, 0, 10, "air changes an hour") }, "air changes")
	e.Glazing, _ = field(o, parseGlazing, "glazing")
	return e
}

var collectorKinds = map[string]string{
	"air heater": "air heater", "wall air heater": "air heater", "flat plate": "flat plate", "evacuated tube": "evacuated tube", "evacuated tubes": "evacuated tube",
}

func (r *reader) collectors(top *object) {
	top.each("- {id: C1, kind: air heater, on: south, width: 4 ft, height: 8 ft, count: 2, cost: $900}", func(i int, o *object) {
		c := model.CollectorChoice{ID: "C" + measure.Number(float64(i+1), 0), Count: 1}
		if o != nil {
			c.ID = r.id(o, c.ID)
			if c.Kind, _ = choice(o, collectorKinds, "kind"); c.Kind == "" && !o.has("kind") {
				o.missing("kind", "kind: air heater, flat plate or evacuated tube")
			}
			c.On = o.text("on")
			for key, into := range map[string]*float64{"width": &c.Width, "height": &c.Height} {
				if *into, _ = o.size(0.2, 12, key); !o.has(key) {
					o.missing(key, key+": "+map[string]string{"width": "4 ft", "height": "8 ft"}[key])
				}
			}
			if n, ok := field(o, func(s string) (int, error) { return measure.ParseCount(s, 200) }, "count"); ok {
				c.Count = n
			}
			c.Cost, c.CostKnown = field(o, measure.ParseMoney, "cost")
			c.Turned = o.flag(false, "may lie", "turned")
		}
		r.site.Collectors = append(r.site.Collectors, c)
	}, "collectors")
}
