package study

import (
	"fmt"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
)

// stage adds to the scene what the plans would change or bring, as blockers
// that do not stand today, so that one cast serves every plan. A blocker's
// variant is the plan's name.
func (st *Study) stage() ([]Plan, error) {
	var out []Plan
	for _, p := range st.Site.Plans {
		steps, err := allSteps(st.Site.Plans, p.Name, nil)
		if err != nil {
			return nil, err
		}
		plan := Plan{Name: p.Name, Steps: steps}
		for _, s := range steps {
			cost, known := st.stepCost(s)
			plan.Cost += cost
			plan.Unknown = plan.Unknown || !known
			switch {
			case s.NewTree != nil:
				st.Scene.AddTree(s.NewTree, p.Name)
			case s.NewBuilding != nil:
				st.Scene.AddBuilding(s.NewBuilding, p.Name)
			case s.NewFence != nil:
				st.Scene.AddFence(s.NewFence, p.Name)
			}
		}
		for _, t := range st.reshaped(steps) {
			st.Scene.AddTree(&t, p.Name)
		}
		out = append(out, plan)
	}
	return out, nil
}

// allSteps are a plan's steps behind those of the plan it builds on.
func allSteps(plans []model.Plan, name string, above []string) ([]model.Step, error) {
	for _, a := range above {
		if a == name {
			return nil, fmt.Errorf("plan %q builds on itself", name)
		}
	}
	for _, p := range plans {
		if p.Name != name {
			continue
		}
		if p.On == "" {
			return p.Steps, nil
		}
		below, err := allSteps(plans, p.On, append(above, name))
		return append(append([]model.Step{}, below...), p.Steps...), err
	}
	return nil, fmt.Errorf("plan %q builds on plan %q, which is not in the file", above[len(above)-1], name)
}

// stepCost is what a step costs; a removal costs what its tree's entry says
// unless the plan names a price.
func (st *Study) stepCost(s model.Step) (cost float64, known bool) {
	if s.Kind == model.Remove && !s.CostKnown {
		if t := st.tree(s.Tree); t != nil {
			return t.Cost, t.CostKnown
		}
	}
	return s.Cost, s.CostKnown
}

// reshaped are the trees whose crown the steps leave standing but of another
// shape, as they would then be.
func (st *Study) reshaped(steps []model.Step) []model.Tree {
	var out []model.Tree
	for _, t := range st.Site.Trees {
		changed := false
		for _, s := range steps {
			if s.Tree != t.ID {
				continue
			}
			switch s.Kind {
			case model.Raise:
				t.Cleared, changed = max(t.Cleared, s.Height), true
			case model.Reduce:
				t, changed = t.Reduced(s.Height, s.Spread), true
			case model.Thin:
				t.InLeaf, t.Bare, changed = max(t.InLeaf, s.InLeaf), max(t.Bare, s.Bare), true
			case model.Remove:
				changed = false
			}
		}
		if changed && max(t.CrownBase, t.Cleared) < t.Height {
			out = append(out, t)
		}
	}
	return out
}

// stateOf is what stands once the steps of a plan are done.
func (st *Study) stateOf(steps []model.Step, plan string) shading.State {
	a := st.Account
	state := a.Today()
	for _, s := range steps {
		switch s.Kind {
		case model.Remove, model.Demolish:
			state = a.Without(state, s.Thing())
		case model.Raise, model.Reduce, model.Thin, model.Plant, model.Build: // stands as the plan's variant
			state = a.With(state, s.Thing(), plan)
		}
	}
	return state
}
