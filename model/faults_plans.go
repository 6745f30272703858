package model

import (
	"fmt"
	"strings"
)

func (c *checker) plans() {
	s := c.site
	if !c.few("plans", "plans", len(s.Plans), maxPlans) {
		return
	}
	c.structureIDs()
	byName := map[string]int{}
	seen := map[string]string{}
	for i, p := range s.Plans {
		c.id(seen, fmt.Sprintf("plans[%d].name", i), "plan", p.Name)
		if _, twice := byName[p.Name]; !twice {
			byName[p.Name] = i
		}
	}
	for i, p := range s.Plans {
		path := fmt.Sprintf("plans[%d]", i)
		if !c.few(path, "steps", len(p.Steps), maxSteps) {
			continue
		}
		chain, ok := c.chain(path, i, byName)
		if ok {
			c.steps(path, p, chain)
		}
	}
}

// chain lists the plans that plan i builds on, the first of all first.
func (c *checker) chain(path string, i int, byName map[string]int) ([]Plan, bool) {
	plans := c.site.Plans
	var chain []Plan
	way := []string{plans[i].Name}
	met := map[int]bool{i: true}
	for at := i; plans[at].On != ""; {
		next, known := byName[plans[at].On]
		if !known {
			if at == i { // else it is reported where it is written
				var names []string
				for _, p := range plans {
					names = append(names, p.Name)
				}
				c.wrong(path+".on", "one of "+list(names), "plan %s builds on plan %q, which is not there", plans[i].Name, plans[i].On)
			}
			return nil, at != i
		}
		way = append(way, plans[next].Name)
		if met[next] {
			if next == i {
				c.wrong(path+".on", "a plan that does not come back to this one", "plan %s builds on itself: %s", plans[i].Name, strings.Join(way, " on "))
			}
			return nil, false
		}
		met[next] = true
		chain = append([]Plan{plans[next]}, chain...)
		at = next
	}
	return chain, true
}

// structureIDs checks the ids of what a plan may demolish.
func (c *checker) structureIDs() {
	seen := map[string]string{}
	s := c.site
	check := func(field string, b []Building) {
		for i, x := range b {
			if x.ID != "" {
				c.id(seen, fmt.Sprintf("%s[%d].id", field, i), "structure", x.ID)
			}
		}
	}
	check("neighbours", s.Neighbours)
	check("porches", s.Porches)
	for i, f := range s.Fences {
		if f.ID != "" {
			c.id(seen, fmt.Sprintf("fences[%d].id", i), "structure", f.ID)
		}
	}
}

// standing is what stands on the lot while a plan's steps are gone through.
type standing struct {
	trees      map[string]Tree
	gone       map[string]bool
	structures map[string]bool
	treeNames  []string
	others     []string
}

func (s *Site) standing() standing {
	st := standing{map[string]Tree{}, map[string]bool{}, map[string]bool{}, nil, nil}
	for _, t := range s.Trees {
		st.plant(t)
	}
	for _, b := range append(append([]Building{}, s.Neighbours...), s.Porches...) {
		st.build(b.ID)
	}
	for _, f := range s.Fences {
		st.build(f.ID)
	}
	return st
}

func (st *standing) plant(t Tree) {
	st.trees[t.ID] = t
	st.treeNames = append(st.treeNames, t.ID)
}

func (st *standing) build(id string) {
	st.structures[id] = true
	st.others = append(st.others, id)
}

// steps goes through a plan on top of those it builds on.
func (c *checker) steps(path string, p Plan, chain []Plan) {
	st := c.site.standing()
	quiet := &checker{site: c.site, unit: c.unit} // the chain's faults are reported with their own plans
	for _, before := range chain {
		for _, step := range before.Steps {
			quiet.step("", step, &st)
		}
	}
	count := map[StepKind]int{}
	for _, step := range p.Steps {
		c.step(fmt.Sprintf("%s.%s[%d]", path, step.Kind, count[step.Kind]), step, &st)
		count[step.Kind]++
	}
}

func (c *checker) step(path string, s Step, st *standing) {
	if s.CostKnown {
		c.money(path+".cost", "the cost of the step", s.Cost)
	}
	switch s.Kind {
	case Remove, Raise, Reduce, Thin:
		c.treeStep(path, s, st)
	case Plant:
		if s.NewTree == nil {
			c.wrong(path, "a tree with its place and species", "nothing is said of the tree to plant")
			return
		}
		if _, taken := st.trees[s.NewTree.ID]; taken && s.NewTree.ID != "" {
			c.wrong(path+".id", "a name of its own", "there is a tree %s already", s.NewTree.ID)
			return
		}
		c.tree(path, *s.NewTree)
		if c.near(path+".at", "the tree", s.NewTree.At) {
			c.treeClearOfHouse(path, *s.NewTree)
		}
		st.plant(*s.NewTree)
	case Build:
		switch {
		case s.NewBuilding != nil:
			c.newStructure(path, s.NewBuilding.ID, st)
			c.building(path, *s.NewBuilding)
		case s.NewFence != nil:
			c.newStructure(path, s.NewFence.ID, st)
			c.fence(path, *s.NewFence)
		default:
			c.wrong(path, "a building or a fence", "nothing is said of what to build")
		}
	case Demolish:
		if !st.structures[s.Structure] {
			c.wrong(path, "one of "+list(st.others), "there is no structure %q to demolish", s.Structure)
		}
	default:
		c.wrong(path, "remove, raise, reduce, thin, plant, build or demolish", "step %q is not known", s.Kind)
	}
}

func (c *checker) newStructure(path, id string, st *standing) {
	if id != "" && st.structures[id] {
		c.wrong(path+".id", "a name of its own", "there is a structure %s already", id)
	}
	st.build(id)
}

func (c *checker) treeStep(path string, s Step, st *standing) {
	t, known := st.trees[s.Tree]
	if !known {
		c.wrong(path, "one of "+list(st.treeNames), "there is no tree %q", s.Tree)
		return
	}
	if st.gone[s.Tree] {
		c.warn(path, "each tree once", "tree %s has been removed by an earlier step", s.Tree)
		return
	}
	switch s.Kind {
	case Remove:
		st.gone[s.Tree] = true
		if t.Owner != "" && t.Owner != OwnerLot {
			c.warn(path, "the owner's consent in writing before any work", "tree %s is not the lot's: its owner is %s", s.Tree, map[Owner]string{OwnerNeighbour: "a neighbour", OwnerStreet: "the street"}[t.Owner])
		} else if !t.Removable {
			c.warn(path, "another tree, or the tree marked as removable", "tree %s is marked to be kept", s.Tree)
		}
	case Raise:
		if !(s.Height > t.CrownBase && s.Height < t.Height) {
			c.wrong(path+".height", fmt.Sprintf("between its crown base, %s, and its height, %s", c.long(t.CrownBase), c.long(t.Height)),
				"the crown of %s is to be raised to %s", s.Tree, c.long(s.Height))
			return
		}
		t.CrownBase = s.Height
	case Reduce:
		c.reduction(path, s, &t)
	case Thin:
		c.share(path+".in leaf", "the share of sun that passes in leaf", s.InLeaf)
		c.share(path+".bare", "the share of sun that passes when bare", s.Bare)
	}
	st.trees[s.Tree] = t
}

func (c *checker) reduction(path string, s Step, t *Tree) {
	if s.Height == 0 && s.Spread == 0 {
		c.wrong(path, "a height or a spread", "it is not said what the crown of %s is reduced to", s.Tree)
	}
	if s.Height != 0 {
		if !(s.Height > t.CrownBase && s.Height <= t.Height) {
			c.wrong(path+".height", fmt.Sprintf("between its crown base, %s, and its height, %s", c.long(t.CrownBase), c.long(t.Height)),
				"tree %s is to be reduced to a height of %s", s.Tree, c.long(s.Height))
		} else {
			t.Height = s.Height
		}
	}
	if s.Spread != 0 {
		if most := max(t.SpreadX, t.SpreadY); !(s.Spread > 0 && s.Spread <= most) {
			c.wrong(path+".spread", fmt.Sprintf("more than 0 and at most its spread, %s", c.long(most)),
				"tree %s is to be reduced to a spread of %s", s.Tree, c.long(s.Spread))
		} else {
			t.SpreadX, t.SpreadY = min(t.SpreadX, s.Spread), min(t.SpreadY, s.Spread)
		}
	}
}
