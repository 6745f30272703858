package sitefile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

const planExample = "- {name: front pair, remove: [T1, T2]}"

func (r *reader) plans(top *object) {
	seen := map[string]spot{}
	top.each(planExample, func(i int, o *object) {
		var p model.Plan
		if o != nil {
			p = r.plan(o, fmt.Sprintf("plan %d", i+1))
			if o.has("name") {
				if before, twice := seen[plainKey(p.Name)]; twice {
					r.fault(o.at("name"), "another name", "a plan %q stands on line %d", short(p.Name), before.line)
				}
				seen[plainKey(p.Name)] = o.at("name")
			}
		}
		r.site.Plans = append(r.site.Plans, p)
	}, "plans")
}

func (r *reader) plan(o *object, fallback string) model.Plan {
	p := model.Plan{Name: o.text("name")}
	if p.Name == "" {
		o.missing("name", "name: front pair")
		p.Name = fallback
	}
	planted := map[string]bool{}
	if on := o.text("on"); on != "" {
		p.On = r.planNamed(o, on)
	}
	known := func(v value) string { return r.treeNamed(v, planted) }

	r.eachNamed(o, "tree", known, func(id string, c *object) {
		r.step(&p, c, model.Step{Kind: model.Remove, Tree: id})
	}, "remove")
	r.steps(o, "raise", "- {tree: T3, to: 12 ft, cost: $300}", known, func(id string, c *object) model.Step {
		s := model.Step{Kind: model.Raise, Tree: id}
		s.Height, _ = c.size(0, 40, "to", "height")
		if !c.has("to") && !c.has("height") {
			c.missing("to", "to: 12 ft (the height the lowest branch is raised to)")
		}
		if t, ok := r.treeByID(id); ok && s.Height > 0 && t.Height > 0 && !r.faultyTree(id) {
			if s.Height >= t.Height {
				r.fault(c.at("to"), "a height below the top of the tree", "raising to %s takes the whole crown of %s (%s)", r.shown(s.Height), id, r.shown(t.Height))
			} else if s.Height < t.CrownBase {
				r.warn(c.at("to"), "", "the crown of %s already begins at %s", id, r.shown(t.CrownBase))
			}
		}
		return s
	}, &p)
	r.steps(o, "reduce", "- {tree: T3, height: 30 ft, spread: 20 ft, cost: $600}", known, func(id string, c *object) model.Step {
		s := model.Step{Kind: model.Reduce, Tree: id}
		s.Height, _ = c.size(0.3, 80, "height", "to")
		s.Spread, _ = c.size(0.3, 60, "spread")
		if !c.has("height") && !c.has("to") && !c.has("spread") {
			c.missing("height", "height: 30 ft, or spread: 20 ft, or both")
		}
		return s
	}, &p)
	r.steps(o, "thin", "- {tree: T3, in leaf: 30 %, bare: 75 %, cost: $400}", known, func(id string, c *object) model.Step {
		s := model.Step{Kind: model.Thin, Tree: id}
		inLeaf, okLeaf := field(c, measure.ParseShare, "in leaf")
		bare, okBare := field(c, measure.ParseShare, "bare")
		s.InLeaf, s.Bare = inLeaf, bare
		if !okLeaf && !okBare && !c.has("in leaf") && !c.has("bare") {
			c.missing("in leaf", "in leaf: 30 %, bare: 75 % (how much sun passes afterwards)")
		}
		if t, ok := r.treeByID(id); ok { // what is not said stays
			if !okLeaf {
				s.InLeaf = t.InLeaf
			}
			if !okBare {
				s.Bare = t.Bare
			}
		}
		return s
	}, &p)
	o.each("- {species: crabapple, at: [20, 20], age: 3, cost: $150}", func(i int, c *object) {
		if c == nil {
			return
		}
		t := r.tree(c, fmt.Sprintf("%s, planted %d", p.Name, i+1), true)
		planted[plainKey(t.ID)] = true
		p.Steps = append(p.Steps, model.Step{Kind: model.Plant, NewTree: &t, Cost: t.Cost, CostKnown: t.CostKnown})
	}, "plant")
	o.each("- {id: shed, footprint: [[4, 90], [14, 90], [14, 100], [4, 100]], wall height: 8 ft, roof: {kind: gable, pitch: 6/12}, cost: $3,000}", func(i int, c *object) {
		if c == nil {
			return
		}
		s := model.Step{Kind: model.Build}
		name := fmt.Sprintf("%s, built %d", p.Name, i+1)
		if c.has("line") {
			f := r.fence(c, name)
			s.NewFence = &f
		} else {
			b := r.building(c, name, model.OwnerLot, false)
			s.NewBuilding = &b
		}
		r.step(&p, c, s)
	}, "build")
	r.eachNamed(o, "structure", r.structureNamed, func(id string, c *object) {
		r.step(&p, c, model.Step{Kind: model.Demolish, Structure: id})
	}, "demolish")
	if len(p.Steps) == 0 && p.On == "" && !r.faultyUnder(o.path) {
		r.fault(o.spot, "remove: [T1, T2], raise, reduce, thin, plant, build or demolish", "the plan changes nothing")
	}
	return p
}

// step adds a step with the cost its entry states, if any.
func (r *reader) step(p *model.Plan, c *object, s model.Step) {
	if c != nil {
		if cost, ok := field(c, measure.ParseMoney, "cost"); ok {
			s.Cost, s.CostKnown = cost, true
		}
	}
	p.Steps = append(p.Steps, s)
}

// steps reads a list of changes to trees.
func (r *reader) steps(o *object, key, example string, named func(value) string, read func(id string, c *object) model.Step, p *model.Plan) {
	o.each(example, func(_ int, c *object) {
		if c == nil {
			return
		}
		v, ok := c.get("tree", "id")
		if !ok {
			c.missing("tree", "tree: T3")
			return
		}
		s := read(named(v), c)
		r.treeOf[c.path] = s.Tree
		r.step(p, c, s)
	}, key)
}

// eachNamed reads a list of ids; an entry may be a mapping with a cost.
func (r *reader) eachNamed(o *object, what string, named func(value) string, do func(id string, c *object), key string) {
	v, ok := o.get(key)
	if !ok {
		return
	}
	items := []value{v}
	if v.node.Kind == yaml.SequenceNode {
		items, _ = v.list(key, key+": [T1, T2]")
	}
	done := map[string]bool{}
	for _, item := range items {
		var c *object
		name := item
		if item.node.Kind == yaml.MappingNode {
			child, ok := item.object(key, "{"+what+": T1, cost: $900}")
			if !ok {
				continue
			}
			c = child
			if name, ok = c.get(what, "id"); !ok {
				c.missing(what, what+": T1")
				c.finish()
				continue
			}
		}
		id := named(name)
		if id == "" {
			continue
		}
		if done[id] {
			r.fault(item.spot, "it once", "%s is named twice", id)
			continue
		}
		done[id] = true
		do(id, c)
		if c != nil {
			c.finish()
		}
	}
}

// treeNamed reads the id of a tree that stands on the lot or that the plan
// plants; empty, and reported, where there is none.
func (r *reader) treeNamed(v value, planted map[string]bool) string {
	id, ok := read(v, func(s string) (string, error) { return s, nil })
	if !ok {
		return ""
	}
	if t, ok := r.treeByID(id); ok {
		return t.ID
	}
	if planted[plainKey(id)] {
		return id
	}
	var ids []string
	for _, t := range r.site.Trees {
		ids = append(ids, t.ID)
	}
	r.unknown(v, "tree", id, ids, "trees")
	return ""
}

// faultyTree tells whether the entry of a tree has a fault.
func (r *reader) faultyTree(id string) bool {
	for i, t := range r.site.Trees {
		if plainKey(t.ID) == plainKey(id) && r.faultyUnder(fmt.Sprintf("trees[%d]", i)) {
			return true
		}
	}
	return false
}

func (r *reader) treeByID(id string) (model.Tree, bool) {
	for _, t := range r.site.Trees {
		if plainKey(t.ID) == plainKey(id) {
			return t, true
		}
	}
	return model.Tree{}, false
}

// structureNamed reads the id of a building or fence other than the house.
func (r *reader) structureNamed(v value) string {
	id, ok := read(v, func(s string) (string, error) { return s, nil })
	if !ok {
		return ""
	}
	var ids []string
	for _, b := range append(append([]model.Building(nil), r.site.Neighbours...), r.site.Porches...) {
		ids = append(ids, b.ID)
	}
	for _, f := range r.site.Fences {
		ids = append(ids, f.ID)
	}
	for _, known := range ids {
		if plainKey(known) == plainKey(id) {
			return known
		}
	}
	r.unknown(v, "building or fence", id, ids, "neighbours", "porches", "sheds", "garages", "fences")
	return ""
}

// unknown reports a name that stands for nothing, unless one of the lists it
// would stand in could not be read, or lost a name to a fault.
func (r *reader) unknown(v value, what, id string, ids []string, lists ...string) {
	for _, list := range lists {
		if r.namesLost(list) {
			r.faulty[v.path] = true
			return
		}
	}
	right := nearest(plainKey(id), ids)
	if right == "" && len(ids) > 0 {
		right = "one of " + listed(ids)
	}
	r.fault(v.spot, right, "there is no %s %q", what, short(id))
}

// namesLost tells whether a list could not be read, or an entry of it lacks
// the name it was meant to have.
func (r *reader) namesLost(list string) bool {
	for p := range r.faulty {
		entry, key, _ := strings.Cut(strings.TrimPrefix(p, list), "]")
		if p == list || strings.HasPrefix(p, list+"[") && entry != "" && (key == "" || key == ".id" || key == ".name") {
			return true
		}
	}
	return false
}

// listed joins names for a message, the first dozen of them.
func listed(names []string) string {
	out := ""
	for i, n := range names {
		if i == 12 {
			return out + " …"
		}
		if i > 0 {
			out += ", "
		}
		out += short(n)
	}
	return out
}

// planNamed finds the plan another builds on; it must stand above.
func (r *reader) planNamed(o *object, on string) string {
	var names []string
	for _, p := range r.site.Plans {
		if plainKey(p.Name) == plainKey(on) {
			return p.Name
		}
		names = append(names, p.Name)
	}
	if r.namesLost("plans") {
		r.faulty[o.at("on").path] = true
		return ""
	}
	right := nearest(plainKey(on), names)
	if right == "" {
		right = "the name of a plan that stands above this one"
	}
	r.fault(o.at("on"), right, "there is no plan %q above this one", short(on))
	return ""
}
