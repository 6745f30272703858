package study

import (
	"fmt"
	"math"
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
)

// money works out what each part does for what it costs. Parts: the removals
// through the windows alone, air heaters, hot water, and all together.
func (w *heatStudy) money() {
	o := w.out
	best := o.States[o.Best]
	var all heat.Measure
	all.Name = "all together"
	add := func(m heat.Measure) {
		o.Returns = append(o.Returns, o.Economy.ReturnOn(m))
		all.Cost, all.Heat, all.Water, all.Power = all.Cost+m.Cost, all.Heat+m.Heat, all.Water+m.Water, all.Power+m.Power
		all.Guess = all.Guess || m.Guess
	}
	if o.BestName != "" {
		add(heat.Measure{Name: "best set, through windows", Cost: o.BestCost, Heat: best.Windows.Saved, Guess: o.BestGuess})
	}
	collectors := func(air bool) (cost float64, guess bool) {
		for _, p := range o.Collectors {
			if p.Air() == air {
				cost += p.Cost
				guess = guess || !p.Stated && len(p.Layout.Places) > 0
			}
		}
		return cost, guess
	}
	if o.AirHeat != nil {
		cost, guess := collectors(true)
		add(heat.Measure{Name: "air heaters", Cost: cost, Heat: o.AirHeat.Useful, Power: o.AirHeat.Fan, Guess: guess})
	}
	if o.WaterHeat != nil {
		cost, guess := collectors(false)
		add(heat.Measure{Name: "hot water", Cost: cost, Heat: o.WaterHeat.Solar, Water: o.WaterHeat.Solar, Power: o.WaterHeat.Pump, Guess: guess})
	}
	if c := o.Coil; c != nil {
		add(heat.Measure{Name: "surplus to the house", Cost: o.CoilCost, Heat: c.Useful - c.WaterLess, Water: -c.WaterLess, Power: c.Blower + c.Pump, Guess: o.CoilGuess})
	}
	o.Returns = append(o.Returns, o.Economy.ReturnOn(all))
}

// Together is the return of removals and panels together.
func (h *Heat) Together() heat.Return { return h.Returns[len(h.Returns)-1] }

// CostsMissing are the wishes for collectors whose cost is not stated, and
// for which the money takes the usual one.
func (h *Heat) CostsMissing() []string {
	var out []string
	for _, p := range h.Collectors {
		if !p.Stated && len(p.Layout.Places) > 0 {
			out = append(out, p.ID)
		}
	}
	if h.Coil != nil && h.CoilGuess {
		out = append(out, "the duct coil")
	}
	return out
}

// judge draws the verdict.
func (w *heatStudy) judge(best shading.State) {
	o := w.out
	after := w.Account.Read(best)
	side := w.SunSide()
	walls, _ := w.group(side + " walls")
	windows, _ := w.group(side + " windows")
	roof, _ := w.group("roof")
	together := o.Together()
	f := heat.Facts{
		Season: MonthsText(w.Heating), Side: side,
		Wall: w.access(walls, after), Windows: w.access(windows, after), Roof: w.access(roof, after),
		RoofPlanes: len(roof), RoofTurn: w.roofTurn(roof), PlanName: o.BestName, PlanCost: o.BestCost,
		PlanHeat: o.States[o.Best].Windows.Saved, Return: together, Years: o.Economy.Years,
		SummerGain:     max(0, o.States[o.Best].Windows.SummerGain),
		NeighbourShare: w.heldByOthers(append(slices.Clone(walls), roof...), best, after),
		Tornado:        o.Tornado,
	}
	for _, p := range o.Collectors {
		f.Collectors += p.Cost
	}
	if o.Coil != nil {
		f.Collectors += o.CoilCost
	}
	f.CollectorHeat = together.Heat
	if o.BestName != "" {
		f.CollectorHeat -= f.PlanHeat
	}
	o.Verdict = heat.Judge(f)
	o.Verdict.MeasureFirst = w.measureIndoors()
	if len(w.Site.Trees) > 0 {
		o.Verdict.MeasureFirst = append(w.measureFirst(), o.Verdict.MeasureFirst...)
	}
	if len(o.Verdict.MeasureFirst) == 0 {
		o.Verdict.MeasureFirst = []string{"nothing stands out"}
	}
}

// measureIndoors are the assumed values about the house that move the saving
// most and that somebody can go and measure, at most two, each worth a fifth of
// the saving from its low to its high figure.
func (w *heatStudy) measureIndoors() []string {
	least := 0.2 * math.Abs(w.out.Together().Saving)
	how := map[string]string{
		"fuel price": "fuel price: from a bill", "house heater's efficiency": "the heater's efficiency: its label, or a combustion test",
		"cost of the work": "quotes for the work", "hot water a person": "hot water, by the meter", "mains temperature": "mains water at the tap in January",
		"heat loss of the shell": "R-values: look into a wall cavity and the attic", "air changes": "air changes: a blower-door test",
		"thermal mass": "",
	}
	var out []string
	for _, b := range w.out.Tornado {
		if words := how[b.Name]; b.Assumed && words != "" && len(out) < 2 && (b.Swing >= least || b.Name == "cost of the work") {
			out = append(out, words)
		}
	}
	return out
}

// access of a group of surfaces in the heating season, weighted by energy.
func (w *heatStudy) access(which []int, after []shading.Reached) heat.Access {
	var open, now, plan, none float64
	for _, i := range which {
		a := w.Scene.Surfaces[i].Face.Area
		open += a * w.Today[i].OpenTotal(w.Heating...)
		now += a * w.Today[i].Total(w.Heating...)
		plan += a * after[i].Total(w.Heating...)
		none += a * w.NoTrees[i].Total(w.Heating...)
	}
	if open <= 0 {
		return heat.Access{Now: -1, Plan: -1, NoTrees: -1}
	}
	return heat.Access{Now: min(1, now/open), Plan: min(1, plan/open), NoTrees: min(1, none/open)}
}

// heldByOthers is the share of the season's sun on surfaces that trees of
// other owners hold back once the best set is gone.
func (w *heatStudy) heldByOthers(which []int, best shading.State, after []shading.Reached) float64 {
	var ids []string
	for _, t := range w.Site.Trees {
		if t.Owner != model.OwnerLot {
			ids = append(ids, t.ID)
		}
	}
	without := w.Account.Read(w.Account.Without(best, ids...))
	var open, held float64
	for _, i := range which {
		a := w.Scene.Surfaces[i].Face.Area
		open += a * after[i].OpenTotal(w.Heating...)
		held += a * (without[i].Total(w.Heating...) - after[i].Total(w.Heating...))
	}
	if open <= 0 {
		return 0
	}
	return held / open
}

// roofTurn is what the best roof plane's tilt and turn leave of the yearly sun
// of the best tilt toward the equator, to the nearest 10° of tilt.
func (w *heatStudy) roofTurn(roof []int) float64 {
	ours := 0.0
	for _, i := range roof {
		ours = max(ours, w.Today[i].OpenTotal())
	}
	most := w.BestPlane()
	if most <= 0 {
		return 0
	}
	return min(1, ours/most)
}

// tornado asks what moves the yearly saving and the payback of all together
// most, and notes which inputs the site file states.
func (w *heatStudy) tornado(best shading.State) ([]heat.Bar, error) {
	o := w.out
	together := o.Together()
	if together.Heat == 0 {
		return nil, nil
	}
	from := o.Columns[Rehab]
	if o.BestName == "" {
		from = o.Columns[o.Best]
	}
	p := heat.Package{House: o.House, From: from, To: o.Columns[o.Best], Air: w.air, Heaters: w.heaters(best), Water: o.Water,
		Economy: o.Economy, Cost: together.Cost}
	if o.Water != nil {
		p.WaterSun = w.waterSun(best)
		if o.WaterHeat.Solar > 0 {
			p.PumpUse = o.WaterHeat.Pump / o.WaterHeat.Solar
		}
	}
	_, bars, err := p.Tornado(0)
	if err != nil {
		return nil, fmt.Errorf("heat: %w", err)
	}
	c := w.Site.Heat
	stated := map[string]bool{
		"fuel price": c.Price > 0, "house heater's efficiency": c.Efficiency > 0, "thermal mass": c.Mass != "", "indoor temperature": c.Setpoint > 0,
		"heat loss of the shell": c.After.Wall > 0 && c.After.Ceiling > 0 && c.After.Floor > 0, "air changes": c.After.AirChanges > 0,
		"price of the water heater's fuel": c.Water.Price > 0, "water heater's efficiency": c.Water.Efficiency > 0,
		"persons": c.Persons > 0, "hot water a person": c.GallonsADay > 0, "cost of the work": !together.Guess,
	}
	for i := range bars {
		bars[i].Assumed = !stated[bars[i].Name]
	}
	return bars, nil
}
