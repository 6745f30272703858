package heat

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/model"
)

// WaterSystem is roof panels with a preheat tank that only the sun heats, in
// front of the house's own water heater.
type WaterSystem struct {
	Collector Collector `json:"collector"`
	Area      float64   `json:"aperture_m2"`
	Tank      float64   `json:"tank_l"`
	TankLoss  float64   `json:"tank_loss_w_per_k"`
	MaxTank   float64   `json:"max_tank_c"` // the pump stops above
	Room      float64   `json:"room_c"`     // around the tank
	Persons   float64   `json:"persons"`
	Litres    float64   `json:"litres_per_person_day"`
	Hot       float64   `json:"hot_c"` // delivered
	Pump      float64   `json:"pump_w"`
	South     bool      `json:"south_of_equator"`

	MainsShift float64 `json:"mains_shift_k,omitempty"` // added to the mains' temperature as worked out from the air
	Coil       Coil    `json:"coil"`
}

// WaterFromChoice sizes a system from what the site file says and lists what
// it assumed. grossArea is that of all panels together, m².
func WaterFromChoice(wish model.CollectorChoice, grossArea float64, c model.HeatChoice, south bool) (WaterSystem, []Default, error) {
	collector, assumed, err := certified(wish)
	if err != nil {
		return WaterSystem{}, nil, err
	}
	w := WaterSystem{Collector: collector, Area: grossArea * collector.Aperture, Persons: c.Persons, Tank: c.Water.Tank,
		Litres: c.GallonsADay * LitresPerGal, TankLoss: 2.5, MaxTank: 85, Room: 18, Hot: c.Water.Hot, Pump: 40, South: south}
	fill(&w.Hot, Celsius(120), &assumed, "water is delivered at", degrees(Celsius(120)), commonPractice)
	assumed = append(assumed,
		Default{"solar tank loss", "2.5 W/K", ownAssumption},
		Default{"solar tank is kept below", degrees(w.MaxTank), commonPractice},
		Default{"room around the tank", degrees(w.Room), ownAssumption},
		Default{"pump", "40 W", ownAssumption},
		Default{"hot water through the day", "residential profile, peaks at 7–8 and 17–20 o'clock", "ASHRAE 90.2 profile, from memory"},
		Default{"mains temperature", "from the monthly air temperatures", "Hendron et al. 2004; Burch & Christensen 2007"})
	if c.PersonsKnown && c.Persons == 0 {
		w.Persons = 0
	} else {
		fill(&w.Persons, 3, &assumed, "persons", "3", ownAssumption)
	}
	fill(&w.Litres, 15*LitresPerGal, &assumed, "hot water", both("15 gal", "57 L (15 gal)")+" a person and day", "field studies ("+both("13–16 gal", "49–61 L")+"), from memory")
	tank := 1.5 * LitresPerGal * grossArea / (metresPerFoot * metresPerFoot)
	fill(&w.Tank, tank, &assumed, "solar tank", both(fmt.Sprintf("%.0f gal, 1½ gal a ft² of panel", tank/LitresPerGal), fmt.Sprintf("%.0f L, 61 L a m² of panel (1½ gal a ft²)", tank)), "web guide (rule of thumb)")
	return w, assumed, w.check()
}

func (w WaterSystem) check() error {
	for _, f := range []struct {
		name      string
		v         float64
		low, high float64
	}{
		{"collector area", w.Area, 0, 1e5}, {"tank litres", w.Tank, 1, 1e6}, {"tank loss", w.TankLoss, 0, 1e4},
		{"hottest tank", w.MaxTank, 30, 100}, {"room around the tank", w.Room, -20, 40}, {"persons", w.Persons, 0, 1000},
		{"litres a person", w.Litres, 0, 1000}, {"delivered water", w.Hot, 30, 80}, {"pump", w.Pump, 0, 1e4},
		{"coil", w.Coil.Conductance, 0, 1e5},
	} {
		if math.IsNaN(f.v) || f.v < f.low || f.v > f.high {
			return fmt.Errorf("hot water: %s is %g, want %g to %g", f.name, f.v, f.low, f.high)
		}
	}
	return nil
}

// checkYear checks the system and the hours it is to be run with; houseNeed
// may be nil.
func (w WaterSystem) checkYear(s Sun, air, houseNeed []float64) error {
	if err := w.check(); err != nil {
		return err
	}
	if err := checkAir(air); err != nil {
		return err
	}
	if err := s.check("hot-water panels"); err != nil {
		return err
	}
	if houseNeed == nil {
		return nil
	}
	return checkHours("the house's need", houseNeed, 0, 1e6)
}

// mains are the temperatures of the cold water by month, °C.
func (w WaterSystem) mains(air []float64) Months {
	out := mainsByMonth(air, w.South)
	if w.MainsShift != 0 {
		for m := range out {
			out[m] = max(1, out[m]+w.MainsShift)
		}
	}
	return out
}

// month is what the monthly method wants to know of month m (0 for January).
// on is the month's sun on the panels, kWh/m²; air and cold are °C.
func (w WaterSystem) month(m int, on, air, cold float64) WaterMonth {
	hours := hoursIn(m)
	litres := w.Persons * w.Litres * hours / 24
	return WaterMonth{Load: litres * waterWh * max(0, w.Hot-cold) / 1000, Sun: on * 1000 / hours, Air: air, Cold: cold, Hours: hours}
}

// SolarBy is the useful solar heat by month by the standard's method, kWh,
// from the sun on the panels (kWh/m²), the air and the mains (°C) by month.
func (w WaterSystem) SolarBy(on, air, cold Months) Months {
	var out Months
	for m := range out {
		out[m], _, _ = w.month(m, on[m], air[m], cold[m]).Solar(w.Collector, w.Area, w.Tank)
		out[m] = min(out[m], on[m]*w.Area)
	}
	return out
}

// drawProfile is the share of a day's hot water drawn in each hour from
// midnight (ASHRAE 90.2 residential profile, from memory).
var drawProfile = [24]float64{
	.0085, .0085, .0085, .0085, .0085, .0100, .0750, .0750, .0650, .0650, .0650, .0460,
	.0460, .0370, .0370, .0370, .0370, .0630, .0630, .0630, .0630, .0510, .0510, .0085,
}

// WaterHeatMonth is one month of hot water, kWh.
type WaterHeatMonth struct {
	Cold   float64 `json:"mains_c"`
	Demand float64 `json:"demand_kwh"`
	Sun    float64 `json:"sun_kwh"`           // on the aperture
	Solar  float64 `json:"solar_kwh"`         // by the standard's monthly method: the figure to use
	Chart  float64 `json:"second_method_kwh"` // by the 1976 correlation, with its own corrections
	Hourly float64 `json:"hourly_check_kwh"`  // by our tank balance
}

// WaterHeat is the year of hot water, kWh.
type WaterHeat struct {
	Months    [12]WaterHeatMonth `json:"months"`
	Demand    float64            `json:"demand_kwh"`
	Sun       float64            `json:"sun_kwh"`
	Solar     float64            `json:"solar_kwh"`
	Share     float64            `json:"solar_share"`
	Chart     float64            `json:"second_method_kwh"`
	Yearly    float64            `json:"third_method_kwh"` // the UK government's yearly procedure
	Tank      TankRun            `json:"hourly_check"`
	Pump      float64            `json:"pump_kwh"`
	SpaceHeat float64            `json:"space_heat_kwh"` // surplus given to the house through the coil
}

// Heat works out a year. s is the sun on the panels, air the hourly air
// temperature; houseNeed (Wh each hour, nil without coil) is the heat the
// house wants.
func (w WaterSystem) Heat(s Sun, air, houseNeed []float64) (WaterHeat, error) {
	if err := w.checkYear(s, air, houseNeed); err != nil {
		return WaterHeat{}, err
	}
	var out WaterHeat
	falls, mean, mains := s.ByMonth(), monthlyMean(air), w.mains(air)
	solar := w.SolarBy(falls, mean, mains)
	out.Tank = w.run(s, air, mains, houseNeed)
	for m := range out.Months {
		in := w.month(m, falls[m], mean[m], mains[m])
		b := WaterHeatMonth{Cold: mains[m], Demand: in.Load, Sun: falls[m] * w.Area, Solar: solar[m], Chart: w.chart(in, falls[m]*1000), Hourly: out.Tank.usefulBy[m]}
		out.Months[m] = b
		out.Demand += b.Demand
		out.Sun += b.Sun
		out.Solar += b.Solar
		out.Chart += b.Chart
	}
	if out.Demand > 0 {
		out.Share = out.Solar / out.Demand
	}
	if w.Area > 0 {
		out.Yearly = YearlyWater(w.Collector, w.Area, out.Sun/w.Area, w.Tank, w.Persons*w.Litres, out.Demand)
	}
	out.Pump = w.Pump * out.Tank.PumpHours / 1000
	out.SpaceHeat = out.Tank.SpaceHeat
	return out, nil
}

// chart is the month by the 1976 correlation with its hot-water and storage
// corrections; the loss coefficient is the collector's at 40 K.
func (w WaterSystem) chart(m WaterMonth, sun float64) float64 {
	if m.Load <= 0 || w.Area <= 0 {
		return 0
	}
	loss := w.Collector.A1 + 40*w.Collector.A2
	x := w.Area * loss * (100 - m.Air) * m.Hours / (1000 * m.Load)
	x *= HotWaterLosses(w.Hot, m.Cold, m.Air) * StorageLosses(w.Tank/w.Area)
	y := w.Area * w.Collector.Eta0 * w.Collector.IAM * sun / (1000 * m.Load)
	return min(LiquidFraction(x, y)*m.Load, w.Area*sun/1000)
}
