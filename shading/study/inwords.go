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

// WorkOrder is the best set in its own best order, and then the rest of what
// is allowed in the order it is worth taking if more money comes.
func (t *Target) WorkOrder() (best, more []removal.Job) {
	var rest []int
	for _, j := range t.Order {
		for _, i := range j.Set {
			if !slices.Contains(t.Best.Set, i) {
				rest = append(rest, i)
			}
		}
	}
	best, err := t.Decision.Order(t.Best.Set)
	if err != nil { // a set the search itself gave: cannot be
		return nil, t.Order
	}
	if more, err = t.Decision.OrderAfter(t.Best.Set, rest); err != nil {
		return nil, t.Order
	}
	return best, more
}
