package heat

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/model"
)

// PresentWorthFactor turns a yearly saving into its worth today: first
// payment at the end of year 1, growing by rise a year, discounted by
// discount a year: [1 − ((1+i)/(1+d))^N]/(d − i); N/(1+i) when equal
// (textbook form).
func PresentWorthFactor(years int, rise, discount float64) float64 {
	if math.Abs(discount-rise) < 1e-9 {
		return float64(years) / (1 + rise)
	}
	return (1 - math.Pow((1+rise)/(1+discount), float64(years))) / (discount - rise)
}

// Economy is how money is counted.
type Economy struct {
	Fuel       Fuel    `json:"fuel"`
	WaterFuel  Fuel    `json:"hot_water_fuel"`            // what heats water where the sun does not
	PowerPrice float64 `json:"electricity_price_per_kwh"` // for fans and pumps
	Rise       float64 `json:"fuel_price_rise_a_year"`
	Discount   float64 `json:"discount_a_year"`
	Years      int     `json:"years"`
}

// EconomyFromChoice fills the gaps of the site file.
func EconomyFromChoice(c model.HeatChoice) (Economy, []Default, error) {
	f, assumed, err := FuelFromChoice(c)
	if err != nil {
		return Economy{}, nil, err
	}
	water, _, err := WaterFuelFromChoice(c, f) // what it assumes is told where water is asked for
	if err != nil {
		return Economy{}, nil, err
	}
	e := Economy{Fuel: f, WaterFuel: water, Rise: c.PriceRise, Discount: c.Discount, Years: c.Years, PowerPrice: .16}
	switch {
	case f.electric():
		e.PowerPrice = f.Price
	case water.electric():
		e.PowerPrice = water.Price
	default:
		assumed = append(assumed, Default{"electricity for fans and pumps", "$0.16 a kWh", "example figure; take it from a bill"})
	}
	if !c.PriceRiseKnown {
		fill(&e.Rise, .03, &assumed, "fuel price rise", "3 % a year (shown beside none)", commonPractice)
	}
	if !c.DiscountKnown {
		fill(&e.Discount, .05, &assumed, "discount rate", "5 % a year", commonPractice)
	}
	if e.Years <= 0 {
		e.Years = 20
		assumed = append(assumed, Default{"years counted", "20", commonPractice})
	}
	if e.Years > 100 || e.Rise > .5 || e.Discount > .5 || e.Rise < 0 || e.Discount < 0 {
		return Economy{}, nil, fmt.Errorf("money: %d years, rise %g, discount %g; want up to 100 years and rates from 0 to 0.5", e.Years, e.Rise, e.Discount)
	}
	return e, assumed, nil
}

// Worth is what a year's heat for the house and for hot water not bought
// (kWh) saves, less the power that it took, dollars.
func (e Economy) Worth(house, water, power float64) float64 {
	return house*e.Fuel.PerKWh() + water*e.WaterFuel.PerKWh() - power*e.PowerPrice
}

// Measure is something to spend money on and what it saves in a year.
type Measure struct {
	Name  string  `json:"name"`
	Cost  float64 `json:"cost"`
	Heat  float64 `json:"useful_heat_kwh"`
	Water float64 `json:"of_it_hot_water_kwh,omitempty"` // part of Heat, priced at the water heater's fuel; negative where hot water is given up
	Power float64 `json:"power_used_kwh"`                // fans, pumps
	Guess bool    `json:"cost_partly_assumed,omitempty"`
}

// Payback is the years until savings have paid the cost.
type Payback struct {
	Years float64 `json:"years,omitempty"`
	Never bool    `json:"never,omitempty"`
}

// Return is what a measure does for its money. Figures are unrounded; show
// them with two digits.
type Return struct {
	Measure
	Saving       float64 `json:"saving_first_year"`
	Simple       Payback `json:"simple_payback"`           // prices as today
	Rising       Payback `json:"payback_with_price_rise"`  // undiscounted
	Present      float64 `json:"present_value_saved"`      // with the price rise
	PresentFlat  float64 `json:"present_value_saved_flat"` // prices as today
	Net          float64 `json:"net_present_value"`        // Present less cost
	NetFlat      float64 `json:"net_present_value_flat"`
	CostPerMMBtu float64 `json:"cost_per_million_btu,omitempty"` // cost spread evenly over the years at the discount rate; 0: no heat
	FuelPerMMBtu float64 `json:"fuel_per_million_btu"`
	CO2          float64 `json:"avoided_co2_kg"` // a year, fans and pumps taken off
}

// ReturnOn a measure.
func (e Economy) ReturnOn(m Measure) Return {
	r := Return{Measure: m, FuelPerMMBtu: e.Fuel.PerMMBtu()}
	if m.Heat > 0 && m.Water == m.Heat {
		r.FuelPerMMBtu = e.WaterFuel.PerMMBtu()
	}
	r.Saving = e.Worth(m.Heat-m.Water, m.Water, m.Power)
	r.Present = r.Saving * PresentWorthFactor(e.Years, e.Rise, e.Discount)
	r.PresentFlat = r.Saving * PresentWorthFactor(e.Years, 0, e.Discount)
	r.Net, r.NetFlat = r.Present-m.Cost, r.PresentFlat-m.Cost
	if m.Heat > 0 {
		yearly := m.Cost/PresentWorthFactor(e.Years, 0, e.Discount) + m.Power*e.PowerPrice
		r.CostPerMMBtu = yearly / m.Heat * KWhPerMMBtu
	}
	r.CO2 = e.Fuel.CO2Saved(m.Heat-m.Water) + e.WaterFuel.CO2Saved(m.Water) - m.Power*gridCO2
	r.Simple, r.Rising = Payback{Never: true}, Payback{Never: true}
	if r.Saving > 0 {
		r.Simple = Payback{Years: m.Cost / r.Saving}
		r.Rising = r.Simple
		if e.Rise > 0 {
			// Savings of n years grown by i add up to S((1+i)^n − 1)/i.
			r.Rising.Years = math.Log1p(e.Rise*r.Simple.Years) / math.Log1p(e.Rise)
		}
	}
	return r
}
