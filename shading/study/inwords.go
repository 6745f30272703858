package study

import (
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/removal"
)

// What a report says in the words of the first screen.

// HeatUnit is the unit HeatFigure writes in: million Btu for a site file in
// feet, kWh for one in metres.
func (st *Study) HeatUnit() string { return st.heatUnit() }

// HeatFigure is heat in kWh, written in the reader's unit with two digits.
func (st *Study) HeatFigure(kWh float64) string { return st.heatFigure(kWh) }

// PaybackText says when money spent comes back; "–" where none is spent.
func PaybackText(r heat.Return) string { return payback(r) }

// PlaceText is a place by latitude and longitude: "41.52° N, 82.94° W".
func PlaceText(p model.Place) string { return placeText(p) }

// leastGain is what a removal must add, kWh a season, to be worth naming should
// more money come: less is printed as nothing.
const leastGain = 0.5

// WorkOrder is the best set in its own best order, and then the rest of what
// is allowed in the order it is worth taking if more money comes, without what
// adds nothing even then.
func (t *Target) WorkOrder() (best, more []removal.Job) {
	best, err := t.Decision.Order(t.Best.Set)
	if err != nil { // a set the search itself gave: cannot be
		return nil, t.Order
	}
	var left []int
	for _, j := range t.Order {
		for _, i := range j.Set {
			if !slices.Contains(t.Best.Set, i) {
				left = append(left, i)
			}
		}
	}
	done := slices.Clone(t.Best.Set)
	for { // what added nothing may add something now that others are gone
		jobs, idle, err := t.worthAfter(done, left)
		if err != nil {
			return nil, t.Order
		}
		if len(jobs) == 0 {
			return best, more
		}
		more, left = append(more, jobs...), idle
		done = append(done, setOfJobs(jobs)...)
	}
}

// worthAfter orders what may follow done, and leaves out what adds nothing
// where it stands in the order: the totals do not count it.
func (t *Target) worthAfter(done, left []int) (jobs []removal.Job, idle []int, err error) {
	for {
		if jobs, err = t.Decision.OrderAfter(done, left); err != nil {
			return nil, nil, err
		}
		worth := slices.DeleteFunc(slices.Clone(jobs), func(j removal.Job) bool { return j.Gain < leastGain })
		if len(worth) == len(jobs) {
			return jobs, idle, nil
		}
		left = setOfJobs(worth)
		idle = append(idle, setOfJobs(slices.DeleteFunc(jobs, func(j removal.Job) bool { return j.Gain >= leastGain }))...)
	}
}

func setOfJobs(jobs []removal.Job) []int {
	var out []int
	for _, j := range jobs {
		out = append(out, j.Set...)
	}
	return out
}
