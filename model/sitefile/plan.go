package sitefile

import (
	"fmt"

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
	r.steps(o, "raise", "- {tree: T3, to: 12 ft, cost: $300}", known, r.raise, &p)
	r.steps(o, "reduce", "- {tree: T3, height: 30 ft, spread: 20 ft, cost: $600}", known, r.reduce, &p)
	r.steps(o, "thin", "- {tree: T3, in leaf: 30 %, bare: 75 %, cost: $400}", known, r.thin, &p)
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

func (r *reader) raise(id string, c *object) model.Step {
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
}

func (r *reader) reduce(id string, c *object) model.Step {
	s := model.Step{Kind: model.Reduce, Tree: id}
	s.Height, _ = c.size(0.3, 80, "height", "to")
	s.Spread, _ = c.size(0.3, 60, "spread")
	if !c.has("height") && !c.has("to") && !c.has("spread") {
		c.missing("height", "height: 30 ft, or spread: 20 ft, or both")
	}
	return s
}

func (r *reader) thin(id string, c *object) model.Step {
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
