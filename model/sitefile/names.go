package sitefile

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model"
)

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
