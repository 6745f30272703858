package species

import (
	"math"

	"github.com/southyard/southyard/model"
)

// classShift is by how many days an early, middling or late kind leafs out or
// drops its leaf against a middling street tree: common practice, no source.
var classShift = map[string]float64{"E": -7, "M": 0, "L": 10}

// ramp is how long a crown takes from bare to full leaf and back, in days:
// common practice, no source.
const ramp = 21

// Leafing is when this kind is in leaf at a latitude (degrees, south
// negative) and elevation (metres; NaN is taken as 300).
//
// Full leaf on day 125 at 40° N and 300 m, 4 days later a degree of latitude
// and 122 m of height (Hopkins, USDA 1918 and 1938, from memory); half the
// leaf down on day 303 there, 3.5 days earlier a degree and 122 m (common
// practice, no source). South of the equator half a year later. Evergreens
// get the zero Leafing.
func (s Species) Leafing(latitude, elevation float64) model.Leafing {
	if s.Evergreen {
		return model.Leafing{}
	}
	if math.IsNaN(elevation) {
		elevation = 300
	}
	north, up := math.Abs(latitude)-40, (elevation-300)/122
	out := 125 + 4*(north+up) - ramp/2.0 + s.leafOut
	fall := 303 - 3.5*(north+up) + s.leafFall
	out = max(32, min(out, 180)) // beyond these the rule no longer describes a real spring or autumn
	fall = max(235, min(fall, 350))
	if latitude < 0 {
		out, fall = wrapDay(out+182.5), wrapDay(fall+182.5)
	}
	return model.Leafing{Out: out, Fall: fall, Ramp: ramp}
}

// wrapDay brings a day of the year into [0.5, 365.5).
func wrapDay(day float64) float64 {
	return day - 365*math.Floor((day-0.5)/365)
}

// LeafShare is the share of the leaf that is out on a day of the year
// (1..365), in 0..1. Spring and autumn go in three equal steps of 1/6, 1/2
// and 5/6, a week each with the usual ramp, so that whole weeks share one
// state. The zero Leafing is an evergreen's: always 1.
func LeafShare(l model.Leafing, day int) float64 {
	if l == (model.Leafing{}) {
		return 1
	}
	spring := week(sinceDay(float64(day), l.Out), l.Ramp)
	autumn := 4 - week(sinceDay(float64(day), l.Fall), l.Ramp)
	inSpring, inAutumn := spring > 0 && spring < 4, autumn > 0 && autumn < 4
	switch {
	case inSpring && inAutumn:
		return steps[min(spring, autumn)]
	case inSpring:
		return steps[spring]
	case inAutumn:
		return steps[autumn]
	case afterOutBeforeFall(float64(day), wrapDay(l.Out), wrapDay(l.Fall)):
		return 1
	}
	return 0
}

// steps are the leaf shares of a crown coming out, week by week.
var steps = [...]float64{0, 1.0 / 6, 0.5, 5.0 / 6, 1}

// week is which of the steps a crown has reached so many days after its
// middle day.
func week(since, length float64) int {
	switch {
	case since < -length/2:
		return 0
	case since < -length/6:
		return 1
	case since < length/6:
		return 2
	case since < length/2:
		return 3
	}
	return 4
}

func afterOutBeforeFall(day, out, fall float64) bool {
	if out <= fall {
		return day >= out && day < fall
	}
	return day >= out || day < fall // over the new year
}

// sinceDay is how many days have passed since a day of the year, in
// [-182.5, 182.5).
func sinceDay(day, since float64) float64 {
	d := math.Mod(day-since+182.5, 365)
	if d < 0 {
		d += 365
	}
	return d - 182.5
}
