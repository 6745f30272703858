package study

import (
	"encoding/json"

	"github.com/southyard/southyard/shading/removal"
)

// The targets as results.json and the command trees print them. Energies are
// kWh in the target's season, money is dollars, shares and chances are 0..1.
//
// cmd/southyard/RESULTS.md describes every name.
//
// Two casts stand behind them. "removals", "order_of_work",
// "best_removals_within_budget" and "budget_curve" rest on the full cast of the lot as it stands. "crown_work"
// weighs raising and reducing crowns beside removal and rests on a thinner cast
// with the changed crowns in it, which differs from the full one by up to about
// one percent: its gains compare with each other, and their names end
// in _thin_cast. The ranges under "sureness" rest on a thin cast too;
// draws_cast_off_by_share says how far it is off the full one.

type removalJSON struct {
	Tree           string   `json:"tree"`
	Owner          string   `json:"owner"`
	Allowed        bool     `json:"may_be_removed"`
	Alone          float64  `json:"gain_alone_kwh"`
	AfterAllOthers float64  `json:"gain_after_all_others_kwh"`
	Fair           *float64 `json:"fair_share_kwh"` // null for what may not be removed
	OfOpen         float64  `json:"gain_alone_share_of_sun_without_trees"`
	Cost           float64  `json:"cost_usd"`
	CostStated     bool     `json:"cost_stated"`
	PerAlone       *float64 `json:"cost_usd_per_kwh_alone"` // null where nothing is gained
	PerFair        *float64 `json:"cost_usd_per_kwh_fair"`
}

type workJSON struct {
	Tree       string   `json:"tree"`
	Kind       string   `json:"work"` // remove, raise, reduce
	Detail     string   `json:"detail"`
	Owner      string   `json:"owner"`
	Allowed    bool     `json:"may_be_done"`
	Alone      float64  `json:"gain_alone_kwh_thin_cast"`
	Cost       float64  `json:"cost_usd"`
	CostStated bool     `json:"cost_stated"`
	PerAlone   *float64 `json:"cost_usd_per_kwh_alone_thin_cast"`
}

type jobJSON struct {
	Trees      []string `json:"trees"`
	Gain       float64  `json:"gain_kwh"`
	Cost       float64  `json:"cost_usd"`
	PerKWh     *float64 `json:"cost_usd_per_kwh"`
	TotalGain  float64  `json:"total_gain_kwh"`
	TotalCost  float64  `json:"total_cost_usd"`
	CostStated bool     `json:"total_cost_stated"`
}

// setJSON is a set of removals. No set within its budget gains more than the
// upper bound; proven where that is its own gain.
type setJSON struct {
	Trees      []string `json:"trees"`
	Gain       float64  `json:"gain_kwh"`
	Cost       float64  `json:"cost_usd"`
	CostStated bool     `json:"cost_stated"`
	Upper      float64  `json:"gain_upper_bound_kwh"`
	Exact      bool     `json:"proven_best"`
}

type workSetJSON struct {
	Work       []string `json:"work"`
	Gain       float64  `json:"gain_kwh_thin_cast"`
	Cost       float64  `json:"cost_usd"`
	CostStated bool     `json:"cost_stated"`
	Exact      bool     `json:"proven_best"`
}

type curveJSON struct {
	Steps []setJSON `json:"steps"`
	Knee  int       `json:"knee_step_number"` // from 0; -1 for none
	Exact bool      `json:"proven_best"`
	Gap   float64   `json:"greatest_gap_to_bound_kwh"`
}

type talkJSON struct {
	Owner   string   `json:"owner"`
	Trees   []string `json:"trees"`
	Without setJSON  `json:"best_without"`
	With    setJSON  `json:"best_if_agreed"`
	Gain    float64  `json:"gain_kwh"`
	Exact   bool     `json:"proven_best"`
}

type rangeJSON struct {
	Low  float64 `json:"p10_kwh"`
	Mid  float64 `json:"p50_kwh"`
	High float64 `json:"p90_kwh"`
}

type sureTreeJSON struct {
	Tree           string     `json:"tree"`
	Alone          rangeJSON  `json:"gain_alone"`
	AfterAllOthers rangeJSON  `json:"gain_after_all_others"`
	Fair           *rangeJSON `json:"fair_share"`
	InBest         float64    `json:"chance_in_best_set"`
	InBestError    float64    `json:"chance_standard_error"`
}

type surePlanJSON struct {
	Plan string    `json:"plan"`
	Gain rangeJSON `json:"gain"`
}

type sureJSON struct {
	Draws    int                   `json:"draws_count"`
	BestGain rangeJSON             `json:"best_removals_gain"`
	SameBest float64               `json:"share_of_draws_with_the_same_best_set"`
	Exact    bool                  `json:"proven_best_in_every_draw"`
	Thinned  float64               `json:"draws_cast_off_by_share"`
	Trees    []sureTreeJSON        `json:"trees"`
	Plans    []surePlanJSON        `json:"plans"`
	Measures []removal.Measurement `json:"measurements"`
}

type crownWorkJSON struct {
	Note string      `json:"note"`
	Work []workJSON  `json:"work"`
	Best workSetJSON `json:"best_work"`
}

// MarshalJSON writes a target with units in the names.
func (t TargetResult) MarshalJSON() ([]byte, error) {
	out := struct {
		Name      string             `json:"name"`
		Months    []int              `json:"season_months"`
		Open      float64            `json:"open_kwh"`
		Now       float64            `json:"now_kwh"`
		NoTrees   float64            `json:"no_trees_kwh"`
		Plans     []NamedEnergy      `json:"plans"`
		Removals  []removalJSON      `json:"removals"`
		Order     []jobJSON          `json:"order_of_work"`
		Then      []jobJSON          `json:"then_if_money_comes"`
		Best      setJSON            `json:"best_removals_within_budget"`
		Curve     curveJSON          `json:"budget_curve"`
		IfAgreed  curveJSON          `json:"budget_curve_if_all_owners_agreed"`
		Talk      []talkJSON         `json:"worth_of_talking"`
		Blockers  []BlockerResult    `json:"not_yours_to_remove"`
		Summer    map[string]float64 `json:"cooling_season_kwh_on_windows_if_removed"`
		Sure      *sureJSON          `json:"sureness"`
		CrownWork *crownWorkJSON     `json:"crown_work"`
	}{
		Name: t.Name, Open: t.Open, Now: t.Now, NoTrees: t.NoTrees, Plans: t.PlanSun,
		Best: setOf(t.Best), Curve: curveOf(t.Curve), IfAgreed: curveOf(t.IfAgreed), Blockers: t.Blockers, Summer: map[string]float64{},
		Sure: sureOf(t.Sure, t.Thinned), CrownWork: crownWorkOf(t.Work), Removals: []removalJSON{}, Talk: []talkJSON{},
	}
	for tree, x := range t.SummerOnGlass {
		out.Summer[tree] = kWh(x)
	}
	for _, m := range t.Months {
		out.Months = append(out.Months, int(m))
	}
	for _, s := range t.Standing {
		fair := s.Fair
		if fair != nil {
			share := kWh(*fair)
			fair = &share
		}
		out.Removals = append(out.Removals, removalJSON{s.ID, s.Owner, s.Allowed, kWh(s.Alone), kWh(s.AfterAllOthers), fair, chance(s.OfOpen), s.Cost, !s.CostUnknown, perKWhJSON(s.CostPerKWhAlone), perKWhJSON(s.CostPerKWhFair)})
	}
	out.Order, out.Then = listed(jobsOf(t.Order)), listed(jobsOf(t.Then))
	for _, k := range t.Talk {
		out.Talk = append(out.Talk, talkJSON{k.Owner, k.Trees, setOf(k.Without), setOf(k.With), kWh(k.Gain), k.Exact})
	}
	return json.Marshal(out)
}

// The digits printed: tenths of a kWh, tenths of a cent a kWh.
func kWh(x float64) float64    { return round(x, 1) }
func chance(x float64) float64 { return round(x, 4) }

func perKWhJSON(x *float64) *float64 {
	if x == nil {
		return nil
	}
	y := round(*x, 3)
	return &y
}

func jobsOf(jobs []removal.Job) []jobJSON {
	var out []jobJSON
	for _, j := range jobs {
		out = append(out, jobJSON{j.IDs, kWh(j.Gain), j.Cost, perKWhJSON(j.CostPerKWh), kWh(j.TotalGain), j.TotalCost, !j.CostUnknown})
	}
	return out
}

func setOf(b removal.Best) setJSON {
	return setJSON{b.IDs, kWh(b.Gain), b.Cost, !b.CostUnknown, kWh(b.Upper), b.Exact}
}

func curveOf(c removal.Curve) curveJSON {
	out := curveJSON{Knee: c.Knee, Exact: c.Exact, Gap: kWh(c.Gap)}
	for _, s := range c.Steps {
		out.Steps = append(out.Steps, setJSON{s.IDs, kWh(s.Gain), s.Cost, !s.CostUnknown, kWh(s.Upper), s.Upper <= s.Gain})
	}
	return out
}

func rangeOf(r removal.Range) rangeJSON { return rangeJSON{kWh(r.Low), kWh(r.Mid), kWh(r.High)} }

func sureOf(s *removal.Sureness, thinned float64) *sureJSON {
	if s == nil {
		return nil
	}
	out := &sureJSON{Draws: s.Draws, BestGain: rangeOf(s.BestGain), SameBest: chance(s.SameBest), Exact: s.Exact, Thinned: thinned, Measures: s.Measures}
	for _, c := range s.Candidates {
		tree := sureTreeJSON{c.ID, rangeOf(c.Alone), rangeOf(c.AfterAllOthers), nil, chance(c.InBest), chance(c.InBestError)}
		if c.Fair != nil {
			fair := rangeOf(*c.Fair)
			tree.Fair = &fair
		}
		out.Trees = append(out.Trees, tree)
	}
	for _, p := range s.Plans {
		out.Plans = append(out.Plans, surePlanJSON{p.Name, rangeOf(p.Gain)})
	}
	return out
}

func crownWorkOf(w *WorkResult) *crownWorkJSON {
	if w == nil {
		return nil
	}
	out := &crownWorkJSON{
		Note: "on a thinner cast of its own, with the changed crowns in it: compare these gains with each other, not with those under removals",
		Best: workSetJSON{w.Best.IDs, kWh(w.Best.Gain), w.Best.Cost, !w.Best.CostUnknown, w.Best.Exact},
	}
	for i, s := range w.Standing {
		tree := s.Tree
		if tree == "" {
			tree = s.ID
		}
		out.Work = append(out.Work, workJSON{tree, s.Kind, w.Details[i], s.Owner, s.Allowed, kWh(s.Alone), s.Cost, !s.CostUnknown, perKWhJSON(s.CostPerKWhAlone)})
	}
	return out
}
