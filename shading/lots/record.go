package lots

import (
	"fmt"
	"math"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
)

// Record is what is kept of a lot. Energies are kWh a square metre of the
// surfaces ranked for, in the heating season; shares are 0..1 of what an open
// field would give them.
type Record struct {
	Name        string  `json:"name"`
	Latitude    float64 `json:"latitude"`
	Longitude   float64 `json:"longitude"`
	Climate     string  `json:"climate"`
	Season      string  `json:"season"`
	Judged      string  `json:"judged"` // the surfaces, in words
	Verdict     string  `json:"verdict"`
	Area        float64 `json:"area_m2"`
	Open        float64 `json:"open_kwh_m2"`
	Now         float64 `json:"now_kwh_m2"`
	After       float64 `json:"after_kwh_m2"`
	NoTrees     float64 `json:"no_trees_kwh_m2"`
	ShareNow    float64 `json:"share_now"`
	ShareAfter  float64 `json:"share_after"`
	ShareFree   float64 `json:"share_no_trees"`
	Gain        float64 `json:"gain_kwh"` // of the plan, over all the surfaces
	RoofNow     float64 `json:"roof_share_now"`
	RoofAfter   float64 `json:"roof_share_after"`
	Plan        string  `json:"plan"` // in words; empty: nothing affordable adds sun
	Cost        float64 `json:"cost_usd"`
	CostAssumed bool    `json:"cost_partly_assumed"`
	Budget      float64 `json:"budget_usd"` // 0: none stated
	Trees       int     `json:"trees"`
	Assumed     int     `json:"values_assumed"`
}

// Lot is a record with the lot's plan, as one file holds it.
type Lot struct {
	Version int    `json:"version"`
	Key     string `json:"key"`
	Record
	Drawing Drawing `json:"drawing"`
}

// Study studies a site as one of many: for the surfaces the options name in
// place of the file's own targets, which differ from lot to lot, and within
// the options' budget. The site itself is left as it is.
func Study(site *model.Site, year *sun.Year, monthly climate.Monthly, o Options) (Lot, error) {
	one := *site
	if o.Budget != nil {
		one.Budget = *o.Budget
	}
	target := wanted(&one, o.For)
	one.Targets = []model.Target{target}
	st, err := study.Run(&one, year, monthly, study.Options{Row: o.Row, Sky: sky.Model(o.Sky), SunOnly: true})
	if err != nil {
		return Lot{}, err
	}
	return of(st, o.For)
}

func wanted(site *model.Site, what string) model.Target {
	side := "south"
	if site.Place.Latitude() < 0 {
		side = "north"
	}
	switch what {
	case ForWindows:
		return model.Target{Name: side + " windows", Parts: map[string]float64{side + " windows": 1}}
	case ForRoof:
		return model.Target{Name: "roof", Parts: map[string]float64{"roof": 1}}
	}
	return model.Target{Name: side + " wall and windows", Parts: map[string]float64{side + " walls": 1, side + " windows": 1}}
}

// choice is the plan that brings the target most: the best set of removals,
// or a plan of the file that the budget covers.
type choice struct {
	words   string
	sun     float64 // kWh on the target
	cost    float64
	assumed bool
	state   shading.State
	steps   []model.Step
	removed []string
}

func choose(st *study.Study) choice {
	t := &st.Targets[0]
	best := choice{sun: t.Now, state: st.Account.Today()}
	least := 5e-4 * t.Open // what is below counts as nothing
	if t.Best.Gain > least {
		best = choice{
			words: "remove " + strings.Join(t.Best.IDs, ", "), sun: t.Now + t.Best.Gain, cost: t.Best.Cost,
			assumed: t.Best.CostUnknown, state: st.BestState(0), removed: t.Best.IDs,
		}
	}
	for i, p := range st.Plans {
		if st.Site.Budget > 0 && p.Cost > st.Site.Budget || t.PlanSun[i] <= best.sun+least {
			continue
		}
		best = choice{words: "plan " + p.Name, sun: t.PlanSun[i], cost: p.Cost, assumed: p.Unknown, state: p.State, steps: p.Steps}
		for _, s := range p.Steps {
			if s.Kind == model.Remove {
				best.removed = append(best.removed, s.Tree)
			}
		}
	}
	return best
}

func of(st *study.Study, what string) (Lot, error) {
	t := &st.Targets[0]
	area := judgedArea(st, what)
	if !(t.Open > 0 && area > 0) {
		return Lot{}, fmt.Errorf("the house has no %s that looks toward the sun; rank for something else with --for", t.Name)
	}
	plan := choose(st)
	r := Record{
		Name: st.Site.Name, Latitude: st.Site.Place.Latitude(), Longitude: st.Site.Place.Longitude(),
		Climate: st.Year.Source, Season: study.MonthsText(t.Months), Judged: t.Name,
		Area: round(area, 2), Open: round(t.Open/area, 1), Now: round(t.Now/area, 1), After: round(plan.sun/area, 1), NoTrees: round(t.NoTrees/area, 1),
		ShareNow: share(t.Now, t.Open), ShareAfter: share(plan.sun, t.Open), ShareFree: share(t.NoTrees, t.Open),
		Gain: round(plan.sun-t.Now, 1), Plan: plan.words, Cost: plan.cost, CostAssumed: plan.assumed, Budget: st.Site.Budget,
		Trees: len(st.Site.Trees), Assumed: len(st.Site.Assumed),
	}
	r.RoofNow, r.RoofAfter = roof(st, plan.state)
	none := heat.Access{Now: -1, Plan: -1, NoTrees: -1}
	r.Verdict = heat.Judge(heat.Facts{Wall: heat.Access{Now: r.ShareNow, Plan: r.ShareAfter, NoTrees: r.ShareFree}, Windows: none, Roof: none}).Level
	for _, x := range []float64{r.Open, r.Now, r.After, r.NoTrees, r.Gain, r.Cost, r.RoofNow, r.RoofAfter, r.Latitude, r.Longitude} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return Lot{}, fmt.Errorf("the study gave a figure that is no number; please report this site file")
		}
	}
	return Lot{Version: Version, Record: r, Drawing: draw(st.Site, plan)}, nil
}

// judgedArea is the area of the surfaces ranked for, m².
func judgedArea(st *study.Study, what string) float64 {
	area := 0.0
	for _, s := range st.Summaries() {
		walls, windows := s.Name == st.SunSide()+" walls", s.Name == st.SunSide()+" windows"
		switch {
		case what == ForWall && (walls || windows), what == ForWindows && windows, what == ForRoof && !walls && !windows:
			area += s.Area
		}
	}
	return area
}

// roof is the share of the season's sun that reaches the roof planes that take
// it, now and in a state. Both are −1 without such a plane.
func roof(st *study.Study, after shading.State) (now, then float64) {
	reached := st.Account.Read(after)
	open, a, b := 0.0, 0.0, 0.0
	for _, s := range st.Summaries() {
		i := st.Scene.SurfaceNamed(s.Name)
		if i < 0 {
			continue
		}
		open += s.Area * s.Open
		a += s.Area * s.Now
		b += s.Area * reached[i].Total(st.Heating...)
	}
	if open <= 0 {
		return -1, -1
	}
	return share(a, open), share(b, open)
}

func share(sun, open float64) float64 { return round(min(1, max(0, sun/open)), 4) }

func round(x float64, decimals int) float64 {
	f := math.Pow(10, float64(decimals))
	return math.Round(x*f) / f
}
