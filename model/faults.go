package model

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// Faults lists everything wrong with the site, in the order of the site file.
// A site without errors among them can be computed. Rings that run clockwise
// are no fault.
func (s *Site) Faults() []Fault {
	c := &checker{site: s, unit: measure.Feet}
	if s.Metric {
		c.unit = measure.Metres
	}
	c.place()
	c.ground()
	c.lot()
	c.building("house", s.House)
	c.houseOnLot()
	c.windows()
	c.buildings("neighbours", s.Neighbours)
	c.overHouse("neighbours", s.Neighbours)
	c.buildings("porches", s.Porches)
	c.overHouse("porches", s.Porches)
	c.fences()
	c.wires()
	c.trees()
	c.points()
	c.plans()
	c.wishes()
	return c.faults
}

// checker gathers faults of one site.
type checker struct {
	site   *Site
	unit   measure.Unit
	faults []Fault
}

func (c *checker) wrong(field, right, format string, args ...any) {
	c.faults = append(c.faults, faultOf(field, right, format, args...))
}

func (c *checker) warn(field, right, format string, args ...any) {
	f := faultOf(field, right, format, args...)
	f.Severity = FaultWarning
	c.faults = append(c.faults, f)
}

// long writes a length in the writer's unit.
func (c *checker) long(metres float64) string {
	if math.IsNaN(metres) || math.IsInf(metres, 0) {
		return "not a number"
	}
	return measure.FormatLength(metres, c.unit)
}

// spot writes a plan point as the writer's sketch has it: turned back from
// true north.
func (c *checker) spot(p orb.Point) string {
	sin, cos := math.Sincos(c.site.Turn.Radians())
	return fmt.Sprintf("[%s, %s] on the sketch", c.long(p[0]*cos-p[1]*sin), c.long(p[0]*sin+p[1]*cos))
}

// usual is a length's common range and the range outside which it is refused,
// metres. The figures are common practice, no source, but where one is named.
type usual struct {
	what        string
	least, most float64 // refused outside
	low, high   float64 // odd outside
}

var (
	usualTree     = usual{"tree height", 0.05, 120, 1, 36} // the tallest living tree is 116 m (from memory)
	usualSpread   = usual{"crown spread", 0.02, 80, 0.5, 26}
	usualTrunk    = usual{"trunk diameter", 0, 12, 0, 1.9}
	usualWall     = usual{"wall height", 0, 300, 1.8, 14}
	usualOverhang = usual{"overhang", 0, 20, 0, 1.6}
	usualOpening  = usual{"window size", 0.05, 30, 0.25, 5}
	usualFence    = usual{"fence height", 0.05, 30, 0.4, 4}
	usualWire     = usual{"wire height", 0.05, 200, 2.4, 40}
	usualSide     = usual{"side of the footprint", 0.3, 1000, 1, 45}
	usualLot      = usual{"lot's longer side", 1, 2 * farthest, 6, 400}
)

// length checks one length and reports whether it can be used. Where it would
// be usual with its number read in the other unit, it says so.
func (c *checker) length(field string, v float64, u usual) bool {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		c.wrong(field, "a length", "%s is not a number", u.what)
		return false
	}
	hint := c.otherUnit(v, u)
	if v < u.least || v > u.most {
		right := hint
		if right == "" {
			right = fmt.Sprintf("between %s and %s", c.long(u.least), c.long(u.most))
		}
		c.wrong(field, right, "%s is %s", u.what, c.long(v))
		return false
	}
	if v < u.low || v > u.high {
		right := hint
		if right == "" {
			right = fmt.Sprintf("usually between %s and %s; measure again", c.long(u.low), c.long(u.high))
		}
		c.warn(field, right, "%s is %s, which is unusual", u.what, c.long(v))
	}
	return true
}

// otherUnit is a hint for a length whose number would be usual in feet where
// it was taken for metres, or the other way about.
func (c *checker) otherUnit(v float64, u usual) string {
	fine := func(v float64) bool { return v >= max(u.low, 0.01) && v <= u.high }
	m, f := v, measure.InUnit(v, measure.Feet)
	metric := c.unit == measure.Metres
	if small := measure.InUnit(v, c.unit); u.high <= usualOpening.high && v > u.high {
		if inch := small * 0.0254; !metric && fine(inch) {
			return fmt.Sprintf("is this in inches? %s in would be usual", asWritten(small))
		}
		if metric && fine(small/100) {
			return fmt.Sprintf("is this in centimetres? %s cm would be usual", asWritten(small))
		}
	}
	switch {
	case v > u.high && fine(measure.FromUnit(m, measure.Feet)):
		n := asWritten(m)
		if metric {
			return fmt.Sprintf("is this in feet? %s ft would be usual", n)
		}
		return fmt.Sprintf("is this in metres? %s is %s m, and %s ft would be usual", c.long(v), n, n)
	case v > 0 && v < u.low && fine(f):
		n := asWritten(f)
		if metric {
			return fmt.Sprintf("is this in feet? %s is %s ft, and %s m would be usual", c.long(v), n, n)
		}
		return fmt.Sprintf("is this in metres? %s m would be usual", n)
	}
	return ""
}

// asWritten is a number to three figures as people write it: 40, 0.2.
func asWritten(v float64) string {
	return strconv.FormatFloat(measure.Significant(v, 3), 'f', -1, 64)
}

// share checks a number that must lie in 0..1.
func (c *checker) share(field, what string, v float64) {
	if v >= 0 && v <= 1 {
		return
	}
	right := "between 0 and 1 (0 % and 100 %)"
	if v > 1 && v <= 100 {
		right = fmt.Sprintf("between 0 and 1: %s %% is %s", asWritten(v), asWritten(v/100))
	}
	c.wrong(field, right, "%s is %s", what, asWritten(v))
}

func (c *checker) money(field, what string, v float64) {
	if !(v >= 0 && v < 1e9) {
		c.wrong(field, "0 or more, in dollars", "%s is %s", what, measure.Number(v, 2))
	}
}

// near reports whether a point is close enough to the origin to be meant.
func (c *checker) near(field, what string, points ...orb.Point) bool {
	for _, p := range points {
		if !(math.Abs(p[0]) <= farthest && math.Abs(p[1]) <= farthest) {
			c.wrong(field, "a place on or about the lot, in the file's unit", "%s is not a number or lies more than %s from the origin", what, c.long(farthest))
			return false
		}
	}
	return true
}

// few refuses more things than the program takes.
func (c *checker) few(field, what string, n, most int) bool {
	if n > most {
		c.wrong(field, fmt.Sprintf("at most %d", most), "there are %d %s", n, what)
		return false
	}
	return true
}

// ids checks that ids are there and differ, capitals aside; seen maps those
// met so far to their fields.
func (c *checker) id(seen map[string]string, field, what, id string) {
	key := strings.ToLower(strings.TrimSpace(id))
	if key == "" {
		c.wrong(field, "a short name, such as T1", "%s has no id", what)
		return
	}
	if first, twice := seen[key]; twice {
		c.wrong(field, "a name of its own", "%s %s has the same id as %s", what, id, first)
		return
	}
	seen[key] = field[:max(0, len(field)-len(".id"))]
}

// ring checks a polygon and returns it tidied, or nil where it is no polygon.
func (c *checker) ring(field, what string, r orb.Ring, most int) orb.Ring {
	if !c.few(field, "corners", len(r), most+1) || !c.near(field, "a corner of the "+what, r...) {
		return nil
	}
	if n := distinctCorners(r); n < 3 {
		c.wrong(field, inOrder, "the %s has %s", what, measure.Count(n, "corner"))
		return nil
	}
	open := tidy(r)
	if at, bad := crossing(closed(r)); bad {
		c.wrong(field, inOrder, "the %s crosses or touches itself near %s", what, c.spot(at))
		return nil
	}
	if len(open) < 4 || signedArea(open) < 100*leastArea {
		c.wrong(field, inOrder, "the %s spans no area", what)
		return nil
	}
	return open
}

// closed is the ring closed and without repeated corners.
func closed(r orb.Ring) orb.Ring {
	var out orb.Ring
	for _, p := range r {
		if len(out) == 0 || distance(out[len(out)-1], p) > 1e-3 {
			out = append(out, p)
		}
	}
	for len(out) > 1 && distance(out[0], out[len(out)-1]) <= 1e-3 {
		out = out[:len(out)-1]
	}
	return append(out, out[0])
}

func distinctCorners(r orb.Ring) int {
	n := 0
	for i, p := range r {
		again := false
		for _, q := range r[:i] {
			again = again || distance(p, q) <= 1e-3
		}
		if !again {
			n++
		}
	}
	return n
}
