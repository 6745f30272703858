package study

import (
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/heat"
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
