package sitefile

import "github.com/southyard/southyard/model/measure"

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
