package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
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

// Tie is a level tape distance from a named corner of the house to the middle
// of the trunk.
type Tie struct {
	Corner   string  `json:"corner"`
	Distance float64 `json:"distance_m"`
	at       orb.Point
}

const (
	wireClearance = 10 * 0.3048 // within which line-clearance crews work (ANSI Z133; 29 CFR 1910.269)
	traineeHeight = 30 * 0.3048 // own rule, no source: taller trees are not for trainees
	boundaryReach = 1 * 0.3048  // own rule: a trunk's edge so near the lot line may be on it
	longTape      = 100 * 0.3048
)

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
		out.Cautions = append(out.Cautions, heat.Cautions("felling")...)
		out.Cautions = append(out.Cautions, "Keep everyone twice the tree's height away while it comes down; nobody works alone (common practice; ANSI Z133, from memory).")
		out.Cautions = append(out.Cautions, heat.Cautions("digging")...)
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
		j.Ties[i].Distance = round(j.Ties[i].Distance, 3)
	}
	felled := s.Kind == model.Remove
	st.nearWires(&j, t, felled)
	st.nearThings(&j, t, felled)
	boundary := st.nearLine(&j, t)
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
	switch t.Owner {
	case model.OwnerNeighbour:
		j.Agree = append(j.Agree, "the neighbour it belongs to, in writing")
	case model.OwnerStreet:
		j.Agree = append(j.Agree, "the city: its forester's permit")
	default:
		j.Agree = append(j.Agree, "the owner of the lot")
		if boundary {
			j.Agree = append(j.Agree, "the neighbour, in writing: a trunk on the line belongs to both")
		}
	}
	if t.Keep {
		j.Agree = append(j.Agree, "whoever marked it to keep")
	}
	if felled {
		j.Call = append(j.Call, "811 two to three working days before the stump is ground or dug out")
	}
	j.Call = append(j.Call, "the town, whether a permit is needed for this tree")
	return j
}

// nearWires notes overhead lines within ten feet of the crown, and those a
// falling tree could reach. Plan distances: a wire under or over the crown
// counts as near.
func (st *Study) nearWires(j *CrewJob, t model.Tree, felled bool) {
	unit := st.unit()
	for _, w := range st.Site.Wires {
		if len(w.Line) < 2 {
			continue
		}
		name := w.ID
		if name == "" {
			name = "overhead wire"
		}
		trunk := planar.DistanceFrom(w.Line, t.At)
		crown := trunk - max(t.SpreadX, t.SpreadY)/2
		switch {
		case crown <= 0:
			j.Hazards = append(j.Hazards, name+" runs over, under or through the crown")
		case crown < wireClearance:
			j.Hazards = append(j.Hazards, fmt.Sprintf("%s is %s from the crown, nearer than %s", name, measure.FormatLength(crown, unit), measure.FormatFeet(wireClearance, unit, 0)))
		case felled && trunk < t.Height:
			j.Hazards = append(j.Hazards, fmt.Sprintf("%s is within falling distance (%s from the trunk)", name, measure.FormatLength(trunk, unit)))
		default:
			continue
		}
		if crown < wireClearance {
			j.NotForTrainees = append(j.NotForTrainees, "near "+name+": line-clearance crew only")
		} else {
			j.NotForTrainees = append(j.NotForTrainees, "can fall on "+name)
		}
		j.Call = append(j.Call, "the company that owns "+name+", before any work")
	}
}

// nearThings notes roofs under the crown and buildings a falling tree reaches.
func (st *Study) nearThings(j *CrewJob, t model.Tree, felled bool) {
	buildings := append([]model.Building{st.Site.House}, st.Site.Neighbours...)
	buildings = append(buildings, st.Site.Porches...)
	reach := max(t.SpreadX, t.SpreadY) / 2
	var over, falls []string
	for i, b := range buildings {
		name := b.Name
		if name == "" {
			name = b.ID
		}
		if i == 0 {
			name = "the house"
		}
		far, eave := math.Inf(1), math.Inf(1)
		for _, p := range b.Parts {
			if len(p.Footprint) > 3 {
				d := toFootprint(p.Footprint, t.At)
				far = min(far, d)
				eave = min(eave, d-p.Roof.Overhang)
			}
		}
		switch {
		case eave < reach:
			over = append(over, name)
		case felled && far < t.Height:
			falls = append(falls, name)
		}
	}
	if len(over) > 0 {
		j.Hazards = append(j.Hazards, "crown reaches over the roof of "+strings.Join(over, ", "))
		j.NotForTrainees = append(j.NotForTrainees, "limbs over a roof")
	}
	for _, f := range st.Site.Fences {
		if felled && len(f.Line) > 1 && planar.DistanceFrom(f.Line, t.At) < t.Height {
			falls = append(falls, f.ID)
		}
	}
	if len(falls) > 0 {
		j.Hazards = append(j.Hazards, "within falling distance: "+strings.Join(falls, ", "))
	}
}

// toFootprint is how far a point is from a footprint, 0 inside.
func toFootprint(r orb.Ring, p orb.Point) float64 {
	if planar.RingContains(r, p) {
		return 0
	}
	return planar.DistanceFrom(orb.LineString(r), p)
}

// nearLine notes how a tree stands to the lot line; boundary tells that its
// trunk may be on it.
func (st *Study) nearLine(j *CrewJob, t model.Tree) (boundary bool) {
	if t.Owner == model.OwnerStreet {
		j.Hazards = append(j.Hazards, "in the street's right-of-way: people and cars in the drop zone")
	}
	if len(st.Site.Lot) < 4 {
		return false
	}
	line := planar.DistanceFrom(orb.LineString(st.Site.Lot), t.At)
	inside := planar.RingContains(st.Site.Lot, t.At)
	away := measure.FormatLength(line, st.unit())
	switch {
	case line <= t.Trunk/2+boundaryReach:
		j.Hazards = append(j.Hazards, "trunk on or at the lot line ("+away+"): have the line found before cutting")
		return true
	case !inside:
		j.Hazards = append(j.Hazards, "stands outside the lot, "+away+" past the line")
	case line < max(t.SpreadX, t.SpreadY)/2:
		j.Hazards = append(j.Hazards, "crown reaches over the lot line, "+away+" from the trunk")
	case line < t.Height:
		j.Hazards = append(j.Hazards, "can fall across the lot line, "+away+" away")
	}
	return false
}

// corners are the corners of the house that have a name of their own: the
// farthest of each part toward north-east, south-east, south-west and
// north-west, where another part does not cover it.
func (st *Study) corners() []Tie {
	var out []Tie
	parts := st.Site.House.Parts
	for i, p := range parts {
		who := "house"
		if len(parts) > 1 && p.ID != "" {
			who = p.ID
		} else if len(parts) > 1 {
			who = fmt.Sprintf("part %d", i+1)
		}
		for _, wind := range []float64{45, 135, 225, 315} {
			sin, cos := math.Sincos(wind * math.Pi / 180)
			var best orb.Point
			most := math.Inf(-1)
			for _, c := range p.Footprint {
				if d := c[0]*sin + c[1]*cos; d > most+1e-9 {
					best, most = c, d
				}
			}
			covered := math.IsInf(most, -1)
			for k, other := range parts {
				covered = covered || k != i && len(other.Footprint) > 3 && planar.RingContains(other.Footprint, best)
			}
			named := slices.ContainsFunc(out, func(o Tie) bool { return planar.Distance(o.at, best) < 0.1 })
			if !covered && !named {
				out = append(out, Tie{Corner: who + " " + measure.CompassWord(s1.Angle(wind)*s1.Degree) + " corner", at: best})
			}
		}
	}
	return out
}

// ties measures a point from the two corners of the house that fix it best: a
// tape can be drawn to both without crossing the house, neither is longer than
// a hundred feet where that can be had, and the tapes meet as squarely as can
// be. side is the side of the line between the corners the point is on.
func (st *Study) ties(at orb.Point) (ties []Tie, side string) {
	all := st.corners()
	for i := range all {
		all[i].Distance = planar.Distance(all[i].at, at)
	}
	best := math.Inf(-1)
	for i := range all {
		for k := i + 1; k < len(all); k++ {
			a, b := all[i], all[k]
			if a.Distance <= 0 || b.Distance <= 0 {
				continue
			}
			// Sine of the angle at which the tapes meet: 1 is the best fix.
			meet := math.Abs((a.at[0]-at[0])*(b.at[1]-at[1])-(a.at[1]-at[1])*(b.at[0]-at[0])) / (a.Distance * b.Distance)
			score := meet
			if st.throughHouse(a.at, b.at) {
				score-- // two corners of one wall are easier to tell apart
			}
			for _, t := range []Tie{a, b} {
				if st.throughHouse(t.at, at) {
					score -= 2
				}
				if t.Distance > longTape {
					score--
				}
			}
			if score > best {
				best, ties = score, []Tie{a, b}
			}
		}
	}
	if len(ties) == 2 {
		middle := orb.Point{(ties[0].at[0] + ties[1].at[0]) / 2, (ties[0].at[1] + ties[1].at[1]) / 2}
		// The side is named after the line's own normal, so that it is plain
		// even where the tree stands far along.
		nx, ny := -(ties[1].at[1] - ties[0].at[1]), ties[1].at[0]-ties[0].at[0]
		if nx*(at[0]-middle[0])+ny*(at[1]-middle[1]) < 0 {
			nx, ny = -nx, -ny
		}
		side = measure.CompassWord(s1.Angle(math.Atan2(nx, ny)))
	}
	return ties, side
}

// throughHouse tells whether a straight tape from a corner to a point would
// have to pass through the house.
func (st *Study) throughHouse(corner, at orb.Point) bool {
	const steps = 200
	for i := 1; i < steps; i++ {
		f := float64(i) / steps
		p := orb.Point{corner[0] + f*(at[0]-corner[0]), corner[1] + f*(at[1]-corner[1])}
		if planar.Distance(p, corner) < 0.05 {
			continue
		}
		for _, part := range st.Site.House.Parts {
			if len(part.Footprint) > 3 && planar.RingContains(part.Footprint, p) &&
				planar.DistanceFrom(orb.LineString(part.Footprint), p) > 0.02 {
				return true
			}
		}
	}
	return false
}
