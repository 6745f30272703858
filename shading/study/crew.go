package study

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// CrewList is what a crew takes along: the trees of one plan, where each stands
// from two corners of the house, and what makes each one dangerous. Lengths are
// metres in JSON.
type CrewList struct {
	Site     string    `json:"site"`
	Plan     string    `json:"plan"`
	Jobs     []CrewJob `json:"jobs"`
	Other    []string  `json:"other_work,omitempty"`
	Cautions []string  `json:"cautions"`
	metric   bool
}

// CrewJob is the work on one tree.
type CrewJob struct {
	Tree    string   `json:"tree"`
	Species string   `json:"species"`
	Work    string   `json:"work"`
	Ties    []Tie    `json:"tape_from_house_corners"`
	Side    string   `json:"side_of_the_line_between_them"`
	Height  float64  `json:"height_m"`
	Spread  float64  `json:"spread_m"`
	Trunk   float64  `json:"trunk_m"`
	Cost    float64  `json:"cost_usd"`
	Assumed bool     `json:"cost_assumed"`
	Hazards []string `json:"hazards"`
	Agree   []string `json:"who_must_agree"`
	Call    []string `json:"whom_to_call"`
	Notes   []string `json:"notes"`

	// NotForTrainees says why licensed tree workers alone do this one. Empty:
	// trainees may help on the ground, under a qualified person and where local
	// rules allow it.
	NotForTrainees []string `json:"not_for_trainees"`
}

// traineeHeight: taller trees are not for trainees (own rule, no source).
const traineeHeight = 30 * 0.3048

// CrewList draws up the list for a plan by name; "" is the best set for the
// first target within the budget.
func (st *Study) CrewList(plan string) (CrewList, error) {
	out := CrewList{Site: st.Site.Name, Plan: plan, metric: st.Site.Metric, Jobs: []CrewJob{}}
	var steps []model.Step
	switch {
	case plan != "":
		found := false
		var names []string
		for _, p := range st.Plans {
			names = append(names, fmt.Sprintf("%q", p.Name))
			if strings.EqualFold(p.Name, plan) {
				steps, out.Plan, found = p.Steps, p.Name, true
			}
		}
		if !found && len(names) == 0 {
			return out, fmt.Errorf("the site file has no plans; leave --plan out for the best set")
		}
		if !found {
			return out, fmt.Errorf("there is no plan %q; the site file has %s, and without --plan the best set is listed", plan, strings.Join(names, ", "))
		}
	case len(st.Targets) > 0:
		out.Plan = BestSet + within(st.Site.Budget)
		for _, id := range inOrder(&st.Targets[0]) {
			steps = append(steps, model.Step{Kind: model.Remove, Tree: id})
		}
	}
	felling := false
	for _, s := range steps {
		switch s.Kind {
		case model.Remove, model.Raise, model.Reduce, model.Thin:
			if tree := st.tree(s.Tree); tree != nil {
				out.Jobs = append(out.Jobs, st.job(*tree, s))
				felling = true
			}
		default:
			out.Other = append(out.Other, stepWords(s, st.unit()))
		}
	}
	if felling {
		out.Cautions = append(out.Cautions, heat.Cautions("felling", st.unit())...)
		out.Cautions = append(out.Cautions, "Keep everyone twice the tree's height away while it comes down; nobody works alone (common practice; ANSI Z133, from memory).")
		out.Cautions = append(out.Cautions, heat.Cautions("digging", st.unit())...)
	}
	return out, nil
}

// inOrder is the target's best set in the best order of work.
func inOrder(t *Target) []string {
	jobs, err := t.Decision.Order(t.Best.Set)
	if err != nil {
		return t.Best.IDs
	}
	var ids []string
	for _, j := range jobs {
		ids = append(ids, j.IDs...)
	}
	return ids
}

func stepWords(s model.Step, unit measure.Unit) string {
	switch s.Kind {
	case model.Remove:
		return "remove, stump ground out"
	case model.Raise:
		return "raise the crown to " + measure.FormatFeet(s.Height, unit, 0)
	case model.Reduce:
		var to []string
		if s.Height > 0 {
			to = append(to, measure.FormatFeet(s.Height, unit, 0)+" high")
		}
		if s.Spread > 0 {
			to = append(to, measure.FormatFeet(s.Spread, unit, 0)+" wide")
		}
		return "reduce the crown to " + strings.Join(to, ", ")
	case model.Thin:
		return "thin the crown"
	case model.Plant:
		if s.NewTree != nil {
			return "plant " + s.NewTree.ID + " (" + s.NewTree.Species + ")"
		}
	case model.Build:
		if s.NewBuilding != nil {
			return "build " + s.NewBuilding.ID
		}
		if s.NewFence != nil {
			return "build fence " + s.NewFence.ID
		}
	case model.Demolish:
		return "take away " + s.Structure
	}
	return string(s.Kind)
}

func (st *Study) job(t model.Tree, s model.Step) CrewJob {
	cost, known := st.stepCost(s)
	j := CrewJob{
		Tree: t.ID, Species: t.Species, Work: stepWords(s, st.unit()), Height: t.Height, Spread: max(t.SpreadX, t.SpreadY), Trunk: t.Trunk,
		Cost: cost, Assumed: !known, Hazards: []string{}, NotForTrainees: []string{}, Notes: append([]string{}, t.Notes...),
	}
	j.Ties, j.Side = st.ties(t.At)
	for i := range j.Ties {
		j.Ties[i].Distance = round(j.Ties[i].Distance, 2) // a trunk has no edge to hold a tape to
	}
	felled := s.Kind == model.Remove
	st.nearWires(&j, t, felled)
	st.nearThings(&j, t, felled)
	j.Agree = whoAgrees(t, st.nearLine(&j, t))
	if t.Height > traineeHeight {
		j.NotForTrainees = append(j.NotForTrainees, "taller than "+measure.FormatFeet(traineeHeight, st.unit(), 0))
	}
	if !felled {
		j.NotForTrainees = append(j.NotForTrainees, "climbing and cutting in the crown")
	}
	if unsound(t.Notes) {
		j.Hazards = append(j.Hazards, "notes speak of a weak tree")
		j.NotForTrainees = append(j.NotForTrainees, "a weak tree falls where it likes")
	}
	if felled {
		j.Call = append(j.Call, "811 two to three working days before the stump is ground or dug out")
	}
	j.Call = append(j.Call, "the town, whether a permit is needed for this tree")
	return j
}
