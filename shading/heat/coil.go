package heat

import (
	"fmt"

	"github.com/southyard/southyard/model"
)

// Coil is a heating coil in the supply duct that takes surplus from the tank
// for the house. A zero Coil is none.
type Coil struct {
	Conductance float64 `json:"w_per_k"` // heat given a degree of tank above the air of the duct, W/K
	KeepAbove   float64 `json:"keep_above_c"`
	Air         float64 `json:"duct_air_c,omitempty"` // into the coil
	Blower      float64 `json:"blower_w,omitempty"`   // while the coil gives heat
}

// CoilHeat is what a coil changes in a year, kWh. It saves Useful of the
// house's fuel and costs WaterLess of hot water, for the tank is one.
type CoilHeat struct {
	Given     float64 `json:"given_kwh"`          // by the coil, hour by hour never more than the house wants
	Useful    float64 `json:"useful_kwh"`         // of it counted: month by month never more than the house has still to buy
	WaterLess float64 `json:"hot_water_less_kwh"` // that the panels give less to hot water
	Blower    float64 `json:"blower_kwh"`
	Pump      float64 `json:"pump_more_kwh"` // the panels run longer on a cooler tank
	Hours     float64 `json:"hours"`
	UsefulBy  Months  `json:"useful_by_month_kwh"`
}

// Figures of a coil that the site file may leave open.
const (
	coilConductance = 125.0 // W/K: about 240 Btu/h a °F
	coilBlower      = 150.0 // W
)

// CoilFromChoice sizes a coil from what the site file says and lists what it
// assumed. hot is the temperature hot water is delivered at and room that of
// the house, °C: what the tank holds above hot is surplus.
func CoilFromChoice(c model.CoilChoice, hot, room float64) (Coil, []Default) {
	var assumed []Default
	out := Coil{Conductance: c.Conductance, KeepAbove: c.KeepAbove, Air: room, Blower: coilBlower}
	fill(&out.Conductance, coilConductance, &assumed, "duct coil", both("240 Btu/h a °F (125 W/K)", "125 W/K (240 Btu/h a °F)")+" of tank above room", ownAssumption)
	fill(&out.KeepAbove, hot, &assumed, "duct coil runs while the tank is above", degrees(hot)+", what hot water is delivered at: the rest is surplus", ownAssumption)
	return out, append(assumed, Default{"blower while the coil gives heat", fmt.Sprintf("%.0f W", coilBlower), ownAssumption})
}

// CoilHeat works out what the coil of the system adds to a house. need is the
// heat the house still wants in each hour (Wh) once windows and air heaters
// have given theirs; left is what the monthly balance leaves it to buy, kWh.
// Within the hour the coil gives no more than the need, so what it gives
// stands in the place of bought heat, kWh for kWh.
func (w WaterSystem) CoilHeat(s Sun, air, need []float64, left Months) (CoilHeat, error) {
	var out CoilHeat
	if w.Coil.Conductance <= 0 || w.Area <= 0 {
		return out, nil
	}
	if err := w.checkYear(s, air, need); err != nil {
		return out, err
	}
	mains := w.mains(air)
	plain := w
	plain.Coil = Coil{}
	without, drawnWithout := plain.step(s, air, mains, nil)
	with, drawn := w.step(s, air, mains, need)
	out.Given, out.Hours = with.SpaceHeat, with.CoilHours
	by := byMonth(with.spaceBy)
	for m := range by {
		out.UsefulBy[m] = min(by[m]/1000, max(0, left[m]))
	}
	out.Useful = out.UsefulBy.Sum()
	out.WaterLess = max(0, drawnWithout.Sum()-drawn.Sum()) / 1000
	out.Blower = w.Coil.Blower * out.Hours / 1000
	out.Pump = w.Pump * max(0, with.PumpHours-without.PumpHours) / 1000
	return out, nil
}
