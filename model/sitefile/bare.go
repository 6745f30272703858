package sitefile

import (
	"fmt"

	"github.com/southyard/southyard/model/measure"
)

// inUnit reads with the file's unit where a number has none of its own.
func (r *reader) inUnit(parse func(string, measure.Unit) (float64, error)) func(string) (float64, error) {
	return func(s string) (float64, error) {
		x, err := parse(s, r.unit)
		if !r.unitSaid && r.bare.line == 0 && err == nil {
			if other, err := parse(s, 1-r.unit); err != nil || other != x {
				r.bare = r.reading
			}
		}
		return x, err
	}
}

// unitAssumed tells once, at the first number it mattered for, that the file
// does not say whether it is in feet or metres.
func (r *reader) unitAssumed() {
	if r.bare.line > 0 && !r.faulty["units"] {
		r.warn(spot{line: r.bare.line, column: r.bare.column}, "units: feet, or units: metres, near the top",
			"there is no units line: numbers without a unit, such as this one, are taken as feet, temperatures as °F")
	}
}

// Ground that a house covers, m². Common practice, no source: a double garage
// covers 40 m², a large house 250 m²; below 14 m² (150 sq ft) or above 400 m²
// few walk a lot for a house.
const (
	leastHouse, mostHouse = 14.0, 400.0
	smallHouse, bigHouse  = 25.0, 300.0
)

// unitsSwapped tells once, at the units line, of a house that is out of size as
// it was read and of a usual size in the other unit: a sketch in feet under
// units: metres, or the other way about.
func (r *reader) unitsSwapped() {
	if r.faulty["units"] || r.faultyUnder("house.footprint") || r.faultyUnder("house.parts") {
		return
	}
	area, foot := r.site.House.FootprintArea(), measure.FromUnit(1, measure.Feet)
	was, is, other := r.unit, 1-r.unit, area*foot*foot
	if is == measure.Metres {
		other = area / (foot * foot)
	}
	if !(area > mostHouse || area > 0 && area < leastHouse) || other < smallHouse || other > bigHouse {
		return
	}
	at := r.spotOf("units")
	if !r.unitSaid {
		at = r.spotOf("house.parts[0].footprint")
	}
	r.warn(at, fmt.Sprintf("units: %s, if the sketch is in %s", is, is), "read in %s the house covers %s; in %s it would be %s, as houses are",
		was, measure.FormatArea(area, was), is, measure.FormatArea(other, is))
}
