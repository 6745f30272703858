package heat

import "slices"

// doubt is an input of a package that may be off, and how it enters.
type doubt struct {
	Doubt
	moves what
	turn  func(p *Package, x float64)
}

// what an input moves; what it does not move is not worked out again.
type what int

const (
	everything what = iota
	moneyAlone
	houseAlone // windows, air heaters
	waterAlone
)

// doubts are what a package's saving hangs on. sureness is the share by which
// the sun that trees leave may be off. The spans are ours.
func (p Package) doubts(sureness float64) []doubt {
	part := func(moves what, name string, low, high float64, why string, turn func(p *Package, x float64)) doubt {
		return doubt{Doubt: Doubt{Name: name, Low: low, Used: 1, High: high, Unit: "of ours", Assumed: true, Why: why}, moves: moves, turn: turn}
	}
	house := p.House
	list := []doubt{
		part(moneyAlone, "fuel price", .75, 1.25, "prices move by a quarter within a few years (ours)", func(p *Package, x float64) {
			if p.Economy.Fuel.electric() {
				p.Economy.PowerPrice *= x
			}
			if p.Economy.WaterFuel.Name == p.Economy.Fuel.Name {
				p.Economy.WaterFuel.Price *= x
			}
			p.Economy.Fuel.Price *= x
		}),
		part(moneyAlone, "house heater's efficiency", .9, 1.1, "age and upkeep (ours)", func(p *Package, x float64) { p.Economy.Fuel.Efficiency *= x }),
		part(moneyAlone, "cost of the work", .8, 1.25, "quotes differ (ours)", func(p *Package, x float64) { p.Cost *= x }),
		part(houseAlone, "sun that trees leave", 1-sureness, 1+sureness, "crown outlines and transmissivity", func(p *Package, x float64) {
			p.To.gains = mixed(p.From.gains, p.To.gains, x)
		}),
		part(houseAlone, "glass", .9, 1.1, "dirt, curtains, glazing tables (ours)", func(p *Package, x float64) {
			p.From.gains, p.To.gains = times(p.From.gains, x), times(p.To.gains, x)
		}),
		part(houseAlone, "heat loss of the shell", .8, 1.2, "R-values are read off, not measured (ours)", func(p *Package, x float64) {
			for _, c := range []*Conductance{&p.From.Conductance, &p.To.Conductance} {
				c.Total = (c.Total-c.Air)*x + c.Air
			}
		}),
		part(houseAlone, "air changes", .7, 1.3, "natural air changes are a guess until a blower-door test (ours)", func(p *Package, x float64) {
			for _, c := range []*Conductance{&p.From.Conductance, &p.To.Conductance} {
				c.Total, c.Air = c.Total-c.Air+c.Air*x, c.Air*x
			}
		}),
		part(houseAlone, "heat from people and lights", .5, 1.5, "households differ (ours)", func(p *Package, x float64) { p.House.Internal *= x }),
		part(houseAlone, "thermal mass", .7, 1.5, "one class lighter or heavier (ours)", func(p *Package, x float64) { p.House.Capacity *= x }),
		{Doubt: Doubt{Name: "indoor temperature", Low: house.Setpoint - 1.5, Used: house.Setpoint, High: house.Setpoint + 1.5, Unit: "°C", Assumed: true, Why: "habits (ours)"},
			moves: houseAlone, turn: func(p *Package, x float64) { p.House.Setpoint = x }},
		part(everything, "sun on the panels", .9, 1.1, "years differ, and the shade that is left is not sure (ours)", func(p *Package, x float64) {
			p.WaterSun = p.WaterSun.scaled(x)
			p.Heaters = slices.Clone(p.Heaters)
			for i := range p.Heaters {
				p.Heaters[i].Sun = p.Heaters[i].Sun.scaled(x)
			}
		}),
		part(everything, "panels' efficiency", .9, 1.1, "until the panel's own certificate is in hand; dirt and age (ours)", func(p *Package, x float64) {
			p.Heaters = slices.Clone(p.Heaters)
			for i := range p.Heaters {
				p.Heaters[i].Optical = min(1, p.Heaters[i].Optical*x)
			}
			if p.Water != nil {
				p.Water.Collector.Eta0 = min(1, p.Water.Collector.Eta0*x)
			}
		}),
	}
	if p.Water == nil {
		return list
	}
	if p.Economy.WaterFuel.Name != p.Economy.Fuel.Name {
		list = append(list, part(moneyAlone, "price of the water heater's fuel", .75, 1.25, "prices move by a quarter within a few years (ours)", func(p *Package, x float64) {
			if p.Economy.WaterFuel.electric() && !p.Economy.Fuel.electric() {
				p.Economy.PowerPrice *= x
			}
			p.Economy.WaterFuel.Price *= x
		}))
	}
	mains, persons := 0.0, p.Water.Persons
	for m, t := range p.Water.mains(p.Air) {
		mains += t * hoursIn(m) / 8760
	}
	return append(list,
		part(moneyAlone, "water heater's efficiency", .9, 1.1, "age and upkeep (ours)", func(p *Package, x float64) { p.Economy.WaterFuel.Efficiency *= x }),
		doubt{Doubt: Doubt{Name: "mains temperature", Low: mains - 3, Used: mains, High: mains + 3, Unit: "°C", Assumed: true, Why: "from the air, not measured at the tap (ours)"},
			moves: waterAlone, turn: func(p *Package, x float64) { p.Water.MainsShift += x - mains }},
		doubt{Doubt: Doubt{Name: "persons", Low: max(1, persons-1), Used: persons, High: persons + 1, Unit: "persons", Assumed: true, Why: "households change (ours)"},
			moves: waterAlone, turn: func(p *Package, x float64) { p.Water.Persons = x }},
		part(waterAlone, "hot water a person", .75, 1.25, "habits (ours)", func(p *Package, x float64) { p.Water.Litres *= x }),
	)
}

func times(values []float64, x float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = v * x
	}
	return out
}

// mixed is from plus x of the way to to; never below 0.
func mixed(from, to []float64, x float64) []float64 {
	out := make([]float64, len(to))
	for i := range to {
		out[i] = max(0, from[i]+(to[i]-from[i])*x)
	}
	return out
}

func (s Sun) scaled(x float64) Sun {
	s.Beam, s.Diffuse = times(s.Beam, x), times(s.Diffuse, x)
	if s.Ground != nil {
		s.Ground = times(s.Ground, x)
	}
	return s
}
