package removal

import (
	"fmt"
	"math"
	"sort"
)

// Candidate is one piece of work that may be chosen: a tree to remove, or one of
// several things that may be done to a tree.
type Candidate struct {
	ID   string  `json:"id"`
	Tree string  `json:"tree,omitempty"` // of the candidates of one tree at most one is chosen; "" means ID
	Kind string  `json:"kind,omitempty"` // remove, raise, reduce, thin; free text to this package
	Cost float64 `json:"cost"`           // dollars; 0 is free

	// CostUnknown marks a cost nobody has named. It counts as Cost, and every
	// total it enters says so.
	CostUnknown bool `json:"cost_unknown,omitempty"`

	Owner string `json:"owner,omitempty"` // who must agree; candidates of one owner stand or fall together in Talk
	// Agreed: the owner allows it. Yours always is.
	Agreed bool `json:"agreed"`
}

func (c Candidate) tree() string {
	if c.Tree == "" {
		return c.ID
	}
	return c.Tree
}

// mostOptions is how many candidates one tree may have.
const mostOptions = 60

// Decision is a game with its candidates: candidate i is player i of the game.
type Decision struct {
	Game       Game
	Candidates []Candidate
}

// Check says what is wrong with the decision, or nil. Every other method
// expects a decision that passes.
func (d Decision) Check() error {
	if err := d.Game.Check(); err != nil {
		return err
	}
	if len(d.Candidates) != d.Game.Options() {
		return fmt.Errorf("%d candidates for a game with %d options; there must be one each", len(d.Candidates), d.Game.Options())
	}
	seen := map[string]bool{}
	holder := map[int]string{}
	options := map[string]int{}
	for i, c := range d.Candidates {
		if c.ID == "" || seen[c.ID] {
			return fmt.Errorf("candidate %d: id %q is empty or used twice; ids must differ", i, c.ID)
		}
		seen[c.ID] = true
		if !finite(c.Cost) || c.Cost < 0 || c.Cost > 1e9 {
			return fmt.Errorf("candidate %s: cost is $%v; it must lie in 0..1,000,000,000", c.ID, c.Cost)
		}
		if options[c.tree()]++; options[c.tree()] > mostOptions {
			return fmt.Errorf("candidate %s: tree %s has more than %d candidates", c.ID, c.tree(), mostOptions)
		}
		for _, s := range d.Game.screens(i) {
			if other, taken := holder[s]; taken && other != c.tree() {
				return fmt.Errorf("candidate %s: screen %d belongs to tree %s already", c.ID, s, other)
			}
			holder[s] = c.tree()
		}
	}
	return nil
}

// Agreed is the mask of the candidates whose owners allow them.
func (d Decision) Agreed() []bool {
	mask := make([]bool, len(d.Candidates))
	for i, c := range d.Candidates {
		mask[i] = c.Agreed
	}
	return mask
}

// All is the mask of every candidate: as though everyone agreed.
func (d Decision) All() []bool {
	mask := make([]bool, len(d.Candidates))
	for i := range mask {
		mask[i] = true
	}
	return mask
}

// Removals is the mask with the most thorough candidate of each tree: the one
// that clears the most screens, the first by id where several do. In a plain
// game that is everyone.
func (d Decision) Removals() []bool {
	best := map[string]int{}
	for i, c := range d.Candidates {
		j, ok := best[c.tree()]
		if !ok {
			best[c.tree()] = i
			continue
		}
		more := len(d.Game.screens(i)) - len(d.Game.screens(j))
		if more > 0 || more == 0 && c.ID < d.Candidates[j].ID {
			best[c.tree()] = i
		}
	}
	mask := make([]bool, len(d.Candidates))
	for _, i := range best {
		mask[i] = true
	}
	return mask
}

// GainOf is the gain, kWh, of a set of candidates.
func (d Decision) GainOf(set []int) float64 { return d.Game.Gain(d.mask(set)) }

// CostOf is the cost, dollars, of a set of candidates.
func (d Decision) CostOf(set []int) float64 {
	var sum int64
	for _, i := range set {
		sum += cents(d.Candidates[i].Cost)
	}
	return dollars(sum)
}

func (d Decision) mask(set []int) []bool {
	m := make([]bool, len(d.Candidates))
	for _, i := range set {
		m[i] = true
	}
	return m
}

func (d Decision) ids(set []int) []string {
	ids := make([]string, len(set))
	for k, i := range set {
		ids[k] = d.Candidates[i].ID
	}
	return ids
}

// groups lists the allowed candidates tree by tree, trees and candidates in the
// order of their ids, so that no answer depends on the order they came in.
func (d Decision) groups(allowed []bool) [][]int {
	byTree := map[string][]int{}
	var names []string
	for i, c := range d.Candidates {
		if i >= len(allowed) || !allowed[i] {
			continue
		}
		if byTree[c.tree()] == nil {
			names = append(names, c.tree())
		}
		byTree[c.tree()] = append(byTree[c.tree()], i)
	}
	sort.Strings(names)
	groups := make([][]int, len(names))
	for n, name := range names {
		set := byTree[name]
		d.sortByID(set)
		groups[n] = set
	}
	return groups
}

func (d Decision) sortByID(set []int) {
	sort.Slice(set, func(a, b int) bool {
		return d.Candidates[set[a]].ID < d.Candidates[set[b]].ID
	})
}

func (d Decision) costUnknown(set []int) bool {
	for _, i := range set {
		if d.Candidates[i].CostUnknown {
			return true
		}
	}
	return false
}

// Money is counted in whole cents so that equal sums are equal.
func cents(dollars float64) int64 { return int64(math.Round(dollars * 100)) }

func dollars(cents int64) float64 { return float64(cents) / 100 }

// budgetCents caps a budget at a million million dollars; +Inf means no limit.
func budgetCents(budget float64) int64 {
	if !(budget >= 0) {
		return -1
	}
	return cents(math.Min(budget, 1e12))
}

// CostPerKWh is dollars for each kWh gained, or nil where the gain is nothing:
// there is no price at which it could be had. A nil marshals to null.
func CostPerKWh(cost, gain float64) *float64 {
	price := cost / gain
	if !(gain > 1e-9) || !finite(price) {
		return nil
	}
	return &price
}
