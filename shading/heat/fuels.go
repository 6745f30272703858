package heat

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model"
)

// Fuel is a fuel in one of the units it is sold in.
type Fuel struct {
	Name       string  `json:"name"`
	Unit       string  `json:"unit"`
	Heat       float64 `json:"heat_kwh_per_unit"`
	Price      float64 `json:"price_per_unit"`
	Efficiency float64 `json:"efficiency"`
	CO2        float64 `json:"co2_kg_per_kwh"` // of fuel heat; fossil only
	CO2Source  string  `json:"co2_source"`
}

// fuelRow is a fuel of the table: prices are the invented examples of 2026.
type fuelRow struct {
	names      []string
	units      []fuelUnit // the first is the usual one
	price      float64    // dollars a usual unit
	efficiency float64
	co2        float64 // kg/MMBtu
	co2Source  string
}

type fuelUnit struct {
	names []string
	btu   float64
}

const tableC1 = "40 CFR 98 Table C-1, from memory"

// Heat contents: therm, exact; gas 1038 Btu/ft³, propane 91 452 and oil
// 138 500 Btu/gal, wood 20 MMBtu/cord, pellets 8000 Btu/lb (EIA figures as
// repeated on public pages); electricity exact.
var fuelTable = []fuelRow{
	{[]string{"natural gas", "gas"}, []fuelUnit{{[]string{"therm"}, 1e5}, {[]string{"ccf"}, 103800}, {[]string{"mcf"}, 1038000}, {[]string{"kwh"}, BtuPerKWh}, {[]string{"mmbtu"}, 1e6}}, 1.50, .80, 53.06, tableC1},
	{[]string{"propane"}, []fuelUnit{{[]string{"gallon", "gal"}, 91452}, {[]string{"litre", "liter"}, 91452 / LitresPerGal}}, 2.70, .80, 62.87, tableC1},
	{[]string{"heating oil", "oil", "fuel oil"}, []fuelUnit{{[]string{"gallon", "gal"}, 138500}, {[]string{"litre", "liter"}, 138500 / LitresPerGal}}, 3.80, .80, 73.96, tableC1 + ", No. 2"},
	{[]string{"electricity", "electric"}, []fuelUnit{{[]string{"kwh"}, BtuPerKWh}}, .16, 1, gridCO2 * KWhPerMMBtu, "EPA eGRID, United States mean, from memory; use the subregion's figure"},
	{[]string{"heat pump"}, []fuelUnit{{[]string{"kwh"}, BtuPerKWh}}, .16, 2.5, gridCO2 * KWhPerMMBtu, "EPA eGRID, United States mean, from memory; use the subregion's figure"},
	{[]string{"wood", "cord wood", "firewood"}, []fuelUnit{{[]string{"cord"}, 20e6}}, 275, .60, 0, "counted as none: 40 CFR 98 lists wood apart, as biogenic"},
	{[]string{"pellets", "wood pellets"}, []fuelUnit{{[]string{"ton"}, 16e6}, {[]string{"lb", "pound"}, 8000}, {[]string{"bag"}, 320000}}, 300, .80, 0, "counted as none: 40 CFR 98 lists wood apart, as biogenic"},
}

// gridCO2 is kg/kWh of electricity.
const gridCO2 = 0.37

// FuelNamed finds a fuel by name and unit ("" for the usual one) with the
// example price and efficiency of the table.
func FuelNamed(name, unit string) (Fuel, error) {
	var known []string
	for _, row := range fuelTable {
		known = append(known, row.names[0])
		if !contains(row.names, name) {
			continue
		}
		var units []string
		for i, u := range row.units {
			units = append(units, u.names[0])
			if (unit == "" && i == 0) || contains(u.names, unit) {
				return Fuel{Name: row.names[0], Unit: u.names[0], Heat: u.btu / BtuPerKWh, Price: row.price * u.btu / row.units[0].btu,
					Efficiency: row.efficiency, CO2: row.co2 / KWhPerMMBtu, CO2Source: row.co2Source}, nil
			}
		}
		return Fuel{}, fmt.Errorf("%s is not sold by the %q here; use one of %s", row.names[0], unit, strings.Join(units, ", "))
	}
	return Fuel{}, fmt.Errorf("fuel %q is not known; use one of %s", name, strings.Join(known, ", "))
}

func contains(names []string, name string) bool {
	for _, n := range names {
		if n == plainName(name) || n+"s" == plainName(name) {
			return true
		}
	}
	return false
}

// FuelFromChoice is the fuel of the site file with its gaps filled.
func FuelFromChoice(c model.HeatChoice) (Fuel, []Default, error) {
	var assumed []Default
	name := c.Fuel
	if name == "" {
		name = "natural gas"
		assumed = append(assumed, Default{"fuel", name, ownAssumption})
	}
	f, err := FuelNamed(name, c.FuelUnit)
	if err != nil {
		return Fuel{}, nil, err
	}
	if c.Price > 0 || c.PriceKnown {
		f.Price = c.Price
	} else {
		assumed = append(assumed, Default{"price of " + f.Name, fmt.Sprintf("$%.2f a %s", f.Price, f.Unit), "example figure; take it from a bill"})
	}
	if c.Efficiency > 0 {
		f.Efficiency = c.Efficiency
	} else {
		assumed = append(assumed, Default{"heating appliance", fmt.Sprintf("efficiency %.2f", f.Efficiency), "heating comparison chart (heat pump: common practice)"})
	}
	if !(f.Efficiency > 0.05 && f.Efficiency <= 8) {
		return Fuel{}, nil, fmt.Errorf("efficiency %g of the heating appliance, want 0.05 to 1, or a heat pump's coefficient up to 8", f.Efficiency)
	}
	assumed = append(assumed, Default{"CO₂ of " + f.Name, fuelCO2(f.CO2), f.CO2Source})
	return f, assumed, nil
}

// electric fuels are priced by the meter that fans and pumps run on.
func (f Fuel) electric() bool { return f.Unit == "kwh" && f.CO2 > 0.3 }

// recovery is what a water heater makes of the fuel that a draw costs it. Sun
// saves draws, not standing losses, so this is the recovery efficiency and
// not the lower yearly rating (gas tank .58–.64, electric .92–.95).
func (f Fuel) recovery() float64 {
	switch f.Name {
	case "electricity":
		return .98
	case "heat pump":
		return 3
	case "wood":
		return .60
	}
	return .78
}

// WaterFuelFromChoice is the water heater's fuel: the house's own, at its
// price and efficiency, where the site file names no other.
func WaterFuelFromChoice(c model.HeatChoice, house Fuel) (Fuel, []Default, error) {
	var assumed []Default
	w, f := c.Water, house
	own := w.Fuel == "" && w.FuelUnit == ""
	if own {
		assumed = append(assumed, Default{"water is heated otherwise with", fmt.Sprintf("the house's own fuel, %s", house.Name), ownAssumption})
	} else {
		name := w.Fuel
		if name == "" {
			name = house.Name
		}
		named, err := FuelNamed(name, w.FuelUnit)
		if err != nil {
			return Fuel{}, nil, fmt.Errorf("hot water: %w", err)
		}
		if f = named; f.Name == house.Name {
			f.Price = house.Price * named.Heat / house.Heat
		}
		own = f.Name == house.Name
	}
	switch {
	case w.Price > 0 || w.PriceKnown:
		f.Price = w.Price
	case !own:
		assumed = append(assumed, Default{"price of " + f.Name + " for hot water", fmt.Sprintf("$%.2f a %s", f.Price, f.Unit), "example figure; take it from a bill"})
	}
	switch {
	case w.Efficiency > 0:
		f.Efficiency = w.Efficiency
	case own:
		f.Efficiency = house.Efficiency
		assumed = append(assumed, Default{"water heater", fmt.Sprintf("efficiency %.2f, as the house's heater", f.Efficiency), ownAssumption})
	default:
		f.Efficiency = f.recovery()
		assumed = append(assumed, Default{"water heater", fmt.Sprintf("efficiency %.2f of what a draw costs, standing losses apart", f.Efficiency), "recovery efficiency, from memory"})
	}
	if !(f.Efficiency > 0.05 && f.Efficiency <= 8) {
		return Fuel{}, nil, fmt.Errorf("efficiency %g of the water heater, want 0.05 to 1, or a heat pump's coefficient up to 8", f.Efficiency)
	}
	return f, assumed, nil
}

// PerKWh is the price of a kWh of useful heat, dollars.
func (f Fuel) PerKWh() float64 { return f.Price / (f.Heat * f.Efficiency) }

// PerMMBtu is the price of a million Btu of useful heat, dollars: price/(heat
// content × efficiency) (EIA formula).
func (f Fuel) PerMMBtu() float64 { return f.PerKWh() * KWhPerMMBtu }

// CO2Saved by a kWh of useful heat not bought, kg.
func (f Fuel) CO2Saved(usefulKWh float64) float64 { return usefulKWh / f.Efficiency * f.CO2 }
