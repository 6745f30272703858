package study

import (
	"fmt"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/sun"
)

// heaters are the air heaters on the wall with the sun of a state.
func (w *heatStudy) heaters(state shading.State) []heat.AirHeater {
	var at receivers
	at.ledger, at.account = w.panels.ledger, w.panels.account
	for k, n := range w.owner {
		if w.out.Collectors[n].Air() {
			at.which, at.light = append(at.which, w.panels.which[k]), append(at.light, w.panels.light[k])
		}
	}
	var out []heat.AirHeater
	for k, s := range at.sun(state) {
		surface := &w.scene.Surfaces[at.which[k]]
		unit, _ := heat.DefaultAirHeater(surface.ID, surface.Face.Area, s)
		out = append(out, unit)
	}
	return out
}

// mountingDefaults adds what was assumed of air heaters and of the room that
// panels keep about them.
func (w *heatStudy) mountingDefaults() {
	var air, wall, roof bool
	for _, p := range w.out.Collectors {
		air = air || p.Air()
		if p.Surface >= 0 {
			onWall := w.Scene.Surfaces[p.Surface].Kind == model.WallFace
			wall, roof = wall || onWall, roof || !onWall
		}
	}
	add := func(yes bool, list []heat.Default) {
		if yes {
			w.out.Assumed = append(w.out.Assumed, list...)
		}
	}
	_, heater := heat.DefaultAirHeater("", 1, heat.Sun{})
	_, onWall := heat.WallSetbacks()
	_, onRoof := heat.RoofSetbacks()
	add(air, heater)
	priced := map[string]bool{}
	for _, p := range w.out.Collectors {
		if _, cost := heat.TypicalCost(p.Kind, 1); !p.Stated && len(p.Layout.Places) > 0 && !priced[p.Kind] {
			priced[p.Kind] = true
			add(true, []heat.Default{cost})
		}
	}
	add(wall, onWall)
	add(roof, onRoof)
}

// water sizes the hot-water system of all its panels and runs it for the best
// set. Panels of several wishes work on one tank: their figures are mixed by
// area.
func (w *heatStudy) water(best shading.State) error {
	areas, total := w.waterAreas()
	if total <= 0 {
		return nil
	}
	var system heat.WaterSystem
	for n, p := range w.out.Collectors {
		if areas[n] <= 0 {
			continue
		}
		one, assumed, err := heat.WaterFromChoice(p.wish, total, w.Site.Heat, w.Site.Place.Latitude() < 0)
		if err != nil {
			return fmt.Errorf("collectors, %s: %w", p.ID, err)
		}
		if system.Area == 0 {
			w.out.Assumed = append(w.out.Assumed, assumed...)
			system = one
			system.Area, system.Collector = 0, heat.Collector{Kind: one.Collector.Kind, Source: one.Collector.Source}
		}
		c, share := one.Collector, areas[n]/total
		mixed := &system.Collector
		if mixed.Kind != c.Kind {
			mixed.Kind = "mixed"
		}
		mixed.Eta0 += share * c.Eta0
		mixed.A1 += share * c.A1
		mixed.A2 += share * c.A2
		mixed.B0 += share * c.B0
		mixed.IAM += share * c.IAM
		mixed.Aperture += share * c.Aperture
		system.Area += areas[n] * c.Aperture
	}
	w.out.Water = &system
	year, err := system.Heat(w.waterSun(best), w.air, nil)
	if err != nil {
		return err
	}
	w.base, w.out.WaterHeat = year, &year
	if _, assumed, err := heat.WaterFuelFromChoice(w.Site.Heat, w.out.Economy.Fuel); err == nil { // the fuel itself is in the economy
		w.out.Assumed = append(w.out.Assumed, assumed...)
	}
	if c := w.Site.Heat.Water.Coil; c != nil {
		var assumed []heat.Default
		system.Coil, assumed = heat.CoilFromChoice(*c, system.Hot, w.out.House.Setpoint)
		w.out.CoilCost = c.Cost
		if !c.CostKnown {
			var cost heat.Default
			w.out.CoilCost, cost = heat.TypicalCoilCost()
			w.out.CoilGuess, assumed = true, append(assumed, cost)
		}
		w.out.Assumed = append(w.out.Assumed, assumed...)
	}
	return nil
}

func (w *heatStudy) hasCoil() bool { return w.out.Water != nil && w.out.Water.Coil.Conductance > 0 }

// coilIn is what the coil adds in a state: of the panels' surplus what the
// house still wants once windows and air heaters have given theirs.
func (w *heatStudy) coilIn(state shading.State, r result) (heat.CoilHeat, error) {
	if !w.hasCoil() {
		return heat.CoilHeat{}, nil
	}
	need, left := r.column.Hourly.Needs(), heat.Months{}
	if r.air.Area > 0 {
		need = r.air.Needs()
	}
	for m, b := range r.column.Months {
		left[m] = max(0, b.Need-r.air.UsefulBy[m])
	}
	return w.out.Water.CoilHeat(w.waterSun(state), w.air, need, left)
}

// waterAreas are the gross areas of hot-water panels by wish, m².
func (w *heatStudy) waterAreas() (by map[int]float64, total float64) {
	by = map[int]float64{}
	for n, p := range w.out.Collectors {
		if !p.Air() && p.Area > 0 {
			by[n] = p.Area
			total += p.Area
		}
	}
	return by, total
}

// waterSun is the sun on a m² of the hot-water panels, mixed by area where
// they are several; the incidence then is the mean, weighted by the beam.
func (w *heatStudy) waterSun(state shading.State) heat.Sun {
	areas, total := w.waterAreas()
	var at receivers
	at.ledger, at.account = w.panels.ledger, w.panels.account
	var weight []float64
	for k, n := range w.owner {
		if areas[n] > 0 {
			at.which, at.light = append(at.which, w.panels.which[k]), append(at.light, w.panels.light[k])
			weight = append(weight, areas[n]/total)
		}
	}
	parts := at.sun(state)
	if len(parts) == 1 {
		return parts[0]
	}
	out := heat.Sun{Beam: make([]float64, sun.HoursAYear), Diffuse: make([]float64, sun.HoursAYear), Incidence: make([]float64, sun.HoursAYear)}
	for i := range out.Beam {
		for k, s := range parts {
			beam, diffuse := s.Hour(i)
			out.Beam[i] += weight[k] * beam
			out.Diffuse[i] += weight[k] * diffuse
			out.Incidence[i] += weight[k] * beam * s.Incidence[i]
		}
		if out.Beam[i] > 0 {
			out.Incidence[i] = min(1, out.Incidence[i]/out.Beam[i])
		}
	}
	return out
}

// waterIn is the useful heat of the hot-water panels in a state, kWh a year:
// the standard's monthly method, to which only the sun by month is new.
func (w *heatStudy) waterIn(state shading.State) float64 {
	if w.out.Water == nil {
		return 0
	}
	areas, total := w.waterAreas()
	var onPanels heat.Months
	for k, r := range w.panels.account.Read(state) {
		if a := areas[w.owner[k]]; a > 0 {
			for m, e := range monthlySun(&r) {
				onPanels[m] += e * a / total
			}
		}
	}
	var cold, air heat.Months
	for m, b := range w.base.Months {
		cold[m], air[m] = b.Cold, w.meanAir(m)
	}
	return w.out.Water.SolarBy(onPanels, air, cold).Sum()
}

// meanAir is the mean air temperature of month m (0 for January), °C.
func (w *heatStudy) meanAir(m int) float64 {
	first := 0
	for k := range m {
		first += 24 * sun.DaysIn(time.Month(k+1))
	}
	n := 24 * sun.DaysIn(time.Month(m+1))
	total := 0.0
	for _, t := range w.air[first : first+n] {
		total += t
	}
	return total / float64(n)
}
