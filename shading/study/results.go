package study

import (
	"encoding/json"
	"math"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// ResultsVersion is the version of the results file. It rises when a field
// changes its meaning or goes away; new fields leave it as it is.
const ResultsVersion = 2

// Results is the file results.json. Units stand in the names: energies on
// surfaces are kWh a square metre, energies of targets kWh, both by month from
// January; shares are 0..1; costs are dollars.
type Results struct {
	Version   int             `json:"version"`
	Site      string          `json:"site"`
	Latitude  float64         `json:"latitude"`
	Longitude float64         `json:"longitude"`
	Climate   string          `json:"climate"`
	Stations  []StationResult `json:"climate_stations"`
	Notes     []string        `json:"climate_notes"`
	Sky       string          `json:"sky_model"`
	Heating   []time.Month    `json:"heating_season_months"`
	Cooling   []time.Month    `json:"cooling_season_months"`
	Surfaces  []SurfaceResult `json:"surfaces"`
	Plans     []PlanResult    `json:"plans"`
	Targets   []TargetResult  `json:"targets"`
	Trees     []TreeResult    `json:"trees"`
	Growth    Outlook         `json:"growth"`
	Keep      []Advice        `json:"trees_to_leave"`
	PlanTable PlanRows        `json:"plan_table"`
	Assumed   []Assumed       `json:"assumed"`
	Heat      HeatResult      `json:"heat"`
}

// SurfaceResult is one wall, window or roof plane.
type SurfaceResult struct {
	ID       string      `json:"id"`
	Kind     string      `json:"kind"`
	Area     float64     `json:"area_m2"`
	Tilt     float64     `json:"tilt_degrees"`
	Azimuth  float64     `json:"azimuth_degrees"`
	Open     [12]float64 `json:"open_kwh_m2_by_month"`
	Today    Sun         `json:"today"`
	NoTrees  Sun         `json:"no_trees"`
	ByPlan   []NamedSun  `json:"plans"`
	WithGone []NamedSun  `json:"with_tree_gone"`
}

// Sun is the sun that reaches a surface in one state of the lot.
type Sun struct {
	ByMonth       [12]float64 `json:"kwh_m2_by_month"`
	Heating       float64     `json:"heating_season_kwh_m2"`
	Year          float64     `json:"year_kwh_m2"`
	AccessHeating float64     `json:"access_heating_season"`
	AccessYear    float64     `json:"access_year"`
}

// NamedSun is the sun under a plan or with a tree gone.
type NamedSun struct {
	Name string `json:"name"`
	Sun
}

// PlanResult is one plan.
type PlanResult struct {
	Name    string  `json:"name"`
	Cost    float64 `json:"cost_usd"`
	Assumed bool    `json:"cost_partly_assumed"`
}

// TargetResult is one target's answer. MarshalJSON gives it its names in the
// file.
type TargetResult struct {
	Name          string
	Months        []time.Month
	Open          float64
	Now           float64
	NoTrees       float64
	PlanSun       []NamedEnergy
	Standing      []removal.Standing
	Order         []removal.Job // of the best set
	Then          []removal.Job // should more money come
	Best          removal.Best
	Curve         removal.Curve
	IfAgreed      removal.Curve
	Talk          []removal.TalkValue
	Blockers      []BlockerResult
	SummerOnGlass map[string]float64
	Sure          *removal.Sureness
	Thinned       float64 // by what share the trials' thinner cast is off
	Work          *WorkResult
}

// NamedEnergy is an energy under a plan.
type NamedEnergy struct {
	Name   string  `json:"name"`
	Energy float64 `json:"kwh"`
	Gain   float64 `json:"gain_kwh"`
}

// BlockerResult is something in the way that no plan of the owner's removes.
type BlockerResult struct {
	Thing string  `json:"thing"`
	What  string  `json:"what"`
	Costs float64 `json:"costs_kwh"`
	Share float64 `json:"costs_share_of_open"`
}

// TreeResult is a tree as understood.
type TreeResult struct {
	ID        string   `json:"id"`
	Species   string   `json:"species"`
	Owner     string   `json:"owner"`
	Height    float64  `json:"height_m"`
	Spread    float64  `json:"spread_m"`
	CrownBase float64  `json:"crown_base_m"`
	InLeaf    float64  `json:"transmissivity_in_leaf"`
	Bare      float64  `json:"transmissivity_bare"`
	Cost      float64  `json:"removal_cost_usd"`
	CostKnown bool     `json:"removal_cost_stated"`
	Notes     []string `json:"notes,omitempty"`
}

// Assumed is a value nobody measured.
type Assumed struct {
	Subject string `json:"subject"`
	Field   string `json:"field"`
	Value   string `json:"value"`
	Source  string `json:"source"`
}

// Results shapes the study for its file.
func (st *Study) Results() Results {
	out := Results{
		Version: ResultsVersion, Site: st.Site.Name,
		Latitude: st.Site.Place.Latitude(), Longitude: st.Site.Place.Longitude(),
		Climate: st.Year.Source, Stations: st.stations(), Notes: listed(st.Year.Notes), Sky: string(st.Sky),
		Heating: st.Heating, Cooling: st.Cooling, Plans: []PlanResult{}, Trees: []TreeResult{}, Assumed: []Assumed{},
	}
	today := st.Account.Today()
	gone := make([][]shading.Reached, len(st.Site.Trees))
	for i, t := range st.Site.Trees {
		gone[i] = st.Account.Read(st.Account.Without(today, t.ID))
		out.Trees = append(out.Trees, treeResult(t))
	}
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		r := SurfaceResult{
			ID: s.ID, Kind: string(s.Kind), Area: round(s.Face.Area, 3),
			Tilt: round(s.Face.Tilt().Degrees(), 2), Azimuth: round(s.Face.Azimuth().Degrees(), 2),
			Today: st.sun(st.Today[i]), NoTrees: st.sun(st.NoTrees[i]), ByPlan: []NamedSun{}, WithGone: []NamedSun{},
		}
		for m := range r.Open {
			r.Open[m] = round(st.Today[i].OpenTotal(time.Month(m+1)), 3)
		}
		for _, p := range st.Plans {
			r.ByPlan = append(r.ByPlan, NamedSun{p.Name, st.sun(p.Reached[i])})
		}
		for j, t := range st.Site.Trees {
			r.WithGone = append(r.WithGone, NamedSun{t.ID, st.sun(gone[j][i])})
		}
		out.Surfaces = append(out.Surfaces, r)
	}
	for _, p := range st.Plans {
		out.Plans = append(out.Plans, PlanResult{p.Name, p.Cost, p.Unknown})
	}
	for _, t := range st.Targets {
		r := TargetResult{
			Name: t.Name, Months: t.Months, Open: round(t.Open, 1), Now: round(t.Now, 1), NoTrees: round(t.NoTrees, 1),
			Standing: t.Standing, Best: t.Best, Curve: t.Curve, IfAgreed: t.Agreed, Talk: t.Talk,
			SummerOnGlass: t.Summer, Sure: t.Sure, Thinned: round(t.Thinned, 5), Work: st.workResult(t.Work),
			PlanSun: []NamedEnergy{}, Blockers: []BlockerResult{},
		}
		r.Order, r.Then = t.WorkOrder()
		for i, p := range st.Plans {
			r.PlanSun = append(r.PlanSun, NamedEnergy{p.Name, round(t.PlanSun[i], 1), round(t.PlanSun[i]-t.Now, 1)})
		}
		for _, b := range t.Blockers {
			r.Blockers = append(r.Blockers, BlockerResult{b.Thing, b.What, round(b.Costs, 1), round(b.Share, 4)})
		}
		out.Targets = append(out.Targets, r)
	}
	for _, a := range st.Site.Assumed {
		out.Assumed = append(out.Assumed, Assumed(a))
	}
	out.Growth, out.Keep, out.PlanTable = listed(st.Growth), listed(st.KeepAdvice()), st.PlanTable()
	if st.Heat != nil {
		out.Heat = st.Heat.Result()
	}
	return out
}

// MarshalJSON writes the results without false digits.
func (r Results) MarshalJSON() ([]byte, error) {
	type plain Results
	data, err := json.Marshal(plain(r))
	if err != nil {
		return nil, err
	}
	return fewDigits(data, 7), nil
}

// listed is a list that JSON writes as [] where it is empty, so that a program
// reading it may count on a list.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func treeResult(t model.Tree) TreeResult {
	return TreeResult{
		ID: t.ID, Species: t.Species, Owner: string(t.Owner), Height: round(t.Height, 2), Spread: round((t.SpreadX+t.SpreadY)/2, 2),
		CrownBase: round(t.CrownBase, 2), InLeaf: t.InLeaf, Bare: t.Bare, Cost: t.Cost, CostKnown: t.CostKnown, Notes: t.Notes,
	}
}

func (st *Study) sun(r shading.Reached) Sun {
	out := Sun{
		Heating: round(r.Total(st.Heating...), 2), Year: round(r.Total(), 2),
		AccessHeating: round(r.Access(st.Heating...), 4), AccessYear: round(r.Access(), 4),
	}
	for m := range out.ByMonth {
		out.ByMonth[m] = round(r.Total(time.Month(m+1)), 3)
	}
	return out
}

func round(x float64, decimals int) float64 {
	f := math.Pow(10, float64(decimals))
	return math.Round(x*f) / f
}
