package heat

// Package is all that money is to be spent on, together: trees out of the
// windows' sun, air heaters, hot-water panels and their coil, in one house.
type Package struct {
	House    House
	From, To Column // the same house with the trees as they stand and after the work
	Air      []float64
	Heaters  []AirHeater  // with their sun after the work
	Water    *WaterSystem // nil: none
	WaterSun Sun
	PumpUse  float64 // kWh of power a kWh of solar hot water
	Economy  Economy
	Cost     float64
}

// housePart is what windows and air heaters save, and what they leave.
type housePart struct {
	heat, power float64   // kWh
	need        []float64 // Wh each hour
	left        Months    // kWh to buy
}

func (p Package) house() (housePart, error) {
	to, err := p.House.again(p.To, p.Air)
	if err != nil {
		return housePart{}, err
	}
	out := housePart{heat: p.House.needAgain(p.From) - to.Need, need: to.Hourly.Needs()}
	var heaters AirHeat
	if len(p.Heaters) > 0 {
		if heaters, err = p.House.AirHeaters(to, p.Air, p.Heaters, BandDefault); err != nil {
			return housePart{}, err
		}
		out.need, out.power = heaters.Needs(), heaters.Fan
		out.heat += heaters.Useful
	}
	for i, b := range to.Months {
		out.left[i] = max(0, b.Need-heaters.UsefulBy[i])
	}
	return out, nil
}

// solar is the year of hot water from the panels, kWh.
func (p Package) solar() float64 {
	if p.Water == nil {
		return 0
	}
	return p.Water.SolarBy(p.WaterSun.ByMonth(), monthlyMean(p.Air), p.Water.mains(p.Air)).Sum()
}

// join adds up the parts and what the coil makes of both.
func (p Package) join(house housePart, solar float64) (Measure, error) {
	m := Measure{Name: "all together", Cost: p.Cost, Heat: house.heat, Power: house.power}
	if p.Water == nil {
		return m, nil
	}
	coil, err := p.Water.CoilHeat(p.WaterSun, p.Air, house.need, house.left)
	if err != nil {
		return m, err
	}
	m.Water = solar - coil.WaterLess
	m.Heat += m.Water + coil.Useful
	m.Power += p.PumpUse*solar + coil.Blower + coil.Pump
	return m, nil
}

// again balances a column anew, its loss and its gains as they now stand in
// it.
func (h House) again(c Column, air []float64) (Column, error) {
	if err := h.check(); err != nil {
		return c, err
	}
	c.Need = 0
	c.solar = byMonth(c.gains)
	for m := range c.solar {
		c.solar[m] /= 1000
	}
	c.Months = h.MonthlyBalance(c.Conductance.Total, c.airByMonth(), c.solar)
	for _, b := range c.Months {
		c.Need += b.Need
	}
	c.Hourly = h.Hourly(c.Conductance.Total, air, c.gains, nil, 0)
	return c, nil
}

// needAgain is the monthly need of a column as it now stands, kWh.
func (h House) needAgain(c Column) float64 {
	solar := byMonth(c.gains)
	for m := range solar {
		solar[m] /= 1000
	}
	sum := 0.0
	for _, b := range h.MonthlyBalance(c.Conductance.Total, c.airByMonth(), solar) {
		sum += b.Need
	}
	return sum
}

func (c Column) airByMonth() (air Months) {
	for m, b := range c.Months {
		air[m] = b.Air
	}
	return air
}
