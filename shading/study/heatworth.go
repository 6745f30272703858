package study

import "github.com/southyard/southyard/shading/heat"

// Worth is what a state of the lot does for the heat of the house as mended,
// against the lot as it stands.
type Worth struct {
	Name      string
	Windows   heat.Worth
	Air       float64 // useful heat of the air heaters, kWh
	Water     float64 // useful heat of the hot-water panels, kWh; what the coil takes is taken off
	Coil      float64 // useful heat of their surplus to the house, kWh
	AirMore   float64 // than with today's trees
	WaterMore float64
	CoilMore  float64
	Fan       float64 // power of fans and pumps, kWh
	Saving    float64 // dollars a year more than with today's trees, panels counted
}

// TreeWorth is what one tree's removal alone is worth in the mended house.
type TreeWorth struct {
	ID         string  `json:"tree"`
	Windows    float64 `json:"heat_saved_through_windows_kwh"`
	Air        float64 `json:"air_heaters_more_kwh"`
	Water      float64 `json:"hot_water_more_kwh"`
	Coil       float64 `json:"surplus_to_house_more_kwh,omitempty"`
	SummerGain float64 `json:"summer_gain_more_kwh"`
	Dollars    float64 `json:"dollars_a_year"`
}

// worth is the difference one state of the lot makes to another in the same
// house.
func (w *heatStudy) worth(name string, from, to result) Worth {
	out := Worth{Name: name, Windows: heat.WorthOf(from.column, to.column), Air: to.air.Useful, Water: to.hotWater(), Coil: to.coil.Useful,
		AirMore: to.air.Useful - from.air.Useful, WaterMore: to.hotWater() - from.hotWater(), CoilMore: to.coil.Useful - from.coil.Useful, Fan: to.power()}
	out.Saving = w.out.Economy.Worth(out.Windows.Saved+out.AirMore+out.CoilMore, out.WaterMore, out.Fan-from.power())
	return out
}

// hotWater is what the panels give to hot water, kWh.
func (r result) hotWater() float64 { return r.water - r.coil.WaterLess }

// power of fans and pumps, kWh.
func (r result) power() float64 { return r.air.Fan + r.pump + r.coil.Blower + r.coil.Pump }
