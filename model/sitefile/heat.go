package sitefile

import (
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

var masses = map[string]string{"light": "light", "medium": "medium", "heavy": "heavy"}

var fuels = map[string]string{
	"gas": "gas", "natural gas": "gas", "propane": "propane", "lp gas": "propane", "lp": "propane", "oil": "oil", "heating oil": "oil",
	"electricity": "electricity", "electric": "electricity", "heat pump": "heat pump", "wood": "wood", "cord wood": "wood", "pellets": "pellets",
}

func (r *reader) heat(top *object) {
	top.child("heat: {fuel: gas, price: $1.50 per therm, efficiency: 80 %}", func(o *object) {
		h := &r.site.Heat
		h.FloorArea, _ = field(o, r.inUnit(measure.ParseArea), "floor area")
		h.Volume, _ = field(o, r.inUnit(measure.ParseVolume), "volume")
		h.Setpoint, _ = field(o, r.inUnit(measure.ParseTemperature), "setpoint", "thermostat")
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
	resistance := r.inUnit(measure.ParseRValue)
	e.Wall, _ = field(o, func(s string) (float64, error) {
		if c, ok := cavities[plainKey(s)]; ok {
			e.Cavity = c
			return 0, nil
		}
		x, err := resistance(s)
		if err != nil {
			err = &measure.Error{Wrong: wrongOf(err), Right: "R-13, or empty cavities, or dense-packed"}
		}
		return x, err
	}, "wall", "walls")
	e.Ceiling, _ = field(o, func(s string) (float64, error) {
		x, err := resistance(s)
		if err == nil {
			return x, nil
		}
		depth, bad := r.parseLength(s)
		if bad != nil || depth <= 0 || depth > 1.5 {
			return 0, &measure.Error{Wrong: wrongOf(err), Right: "R-38, or the depth of loose fill such as 10 in"}
		}
		e.Attic = depth
		return 0, nil
	}, "ceiling", "attic")
	e.Floor, _ = field(o, resistance, "floor")
	e.Window, _ = field(o, resistance, "window", "windows")
	e.AirChanges, _ = field(o, func(s string) (float64, error) { return bounded(s, 0, 10, "air changes an hour") }, "air changes")
	e.Glazing, _ = field(o, parseGlazing, "glazing")
	return e
}

var cavities = map[string]model.Cavity{
	"empty": model.EmptyCavity, "empty cavity": model.EmptyCavity, "empty cavities": model.EmptyCavity,
	"dense packed": model.DensePacked, "dense pack": model.DensePacked, "filled": model.DensePacked, "dense packed cavities": model.DensePacked,
}
