package removal

import "sort"

// TalkValue is what one owner's agreement is worth at a budget.
type TalkValue struct {
	Owner   string   `json:"owner"`
	Trees   []string `json:"trees"`   // candidates the owner would have to allow
	Without Best     `json:"without"` // with those agreed already
	With    Best     `json:"with"`    // and this owner's as well
	Gain    float64  `json:"gain"`    // kWh more for the same budget
	// Exact: both sets are proven best. Otherwise Gain compares two sets that may
	// each be better still, by as much as they say.
	Exact bool `json:"exact"`
}

// Everyone is the Owner of the last TalkValue, where all owners agree at once.
const Everyone = "all of them"

// Talk weighs, for every owner with candidates not agreed, the best set at the
// budget without and with that owner's agreement; the most worthwhile talk
// first. With more than one owner a last entry has all of them agree, which may
// be worth more than the sum: trees stand behind one another.
func (d Decision) Talk(budget float64) []TalkValue {
	return d.TalkBeyond(budget, d.Best(budget, d.Agreed()))
}

// TalkBeyond is Talk where the best set of what is agreed is known already.
func (d Decision) TalkBeyond(budget float64, without Best) []TalkValue {
	return d.talk(without, func(allowed []bool) Best { return d.Best(budget, allowed) })
}

// talk is TalkBeyond with the best sets for the budget told.
func (d Decision) talk(without Best, best func(allowed []bool) Best) []TalkValue {
	owners := map[string][]int{}
	for i, c := range d.Candidates {
		if !c.Agreed {
			owners[c.Owner] = append(owners[c.Owner], i)
		}
	}
	talks := []TalkValue{}
	if len(owners) == 0 {
		return talks
	}
	value := func(owner string, extra []int) TalkValue {
		d.sortByID(extra)
		allowed := d.Agreed()
		for _, i := range extra {
			allowed[i] = true
		}
		with := best(allowed)
		if with.Gain < without.Gain { // only a search cut short can fall behind
			upper := with.Upper
			with = without
			with.Upper, with.Exact = upper, false
		}
		return TalkValue{
			Owner: owner, Trees: d.ids(extra), Without: without, With: with,
			Gain: with.Gain - without.Gain, Exact: without.Exact && with.Exact,
		}
	}
	var everyone []int
	for owner, extra := range owners {
		talks = append(talks, value(owner, extra))
		everyone = append(everyone, extra...)
	}
	sort.Slice(talks, func(a, b int) bool {
		if talks[a].Gain != talks[b].Gain {
			return talks[a].Gain > talks[b].Gain
		}
		return talks[a].Owner < talks[b].Owner
	})
	if len(owners) > 1 {
		talks = append(talks, value(Everyone, everyone))
	}
	return talks
}
