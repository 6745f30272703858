package sitefile

import (
	"fmt"
	"math"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

const pointExample = "[18, 14] (to the right and up on the sketch)"

func (r *reader) parseLength(s string) (float64, error) { return r.inUnit(measure.ParseLength)(s) }

// sketched reads a point of the sketch without turning it.
func (r *reader) sketched(v value) (orb.Point, bool) {
	if v.node.Kind != yaml.SequenceNode || len(v.node.Content) != 2 {
		if v.node.Kind == yaml.SequenceNode && len(v.node.Content) > 2 {
			v.r.fault(v.spot, v.r.sample(pointExample), "a point has two numbers, not %d: leave out commas inside numbers", len(v.node.Content))
		} else {
			v.r.fault(v.spot, v.r.sample(pointExample), "a point should be two numbers in brackets, not %s", kindName(v.node))
		}
		return orb.Point{}, false
	}
	parts, _ := v.list("a point", pointExample)
	x, okX := read(parts[0], r.parseLength)
	y, okY := read(parts[1], r.parseLength)
	if okX && okY && (math.Abs(x) > farAway || math.Abs(y) > farAway) {
		v.r.fault(v.spot, "", "this point is more than %s from the sketch's origin", r.shown(farAway))
		return orb.Point{}, false
	}
	return orb.Point{x, y}, okX && okY
}

// farAway is how far from the origin of the sketch anything may stand, in
// metres.
const farAway = 3000

// point reads a point of the sketch and turns it to true north.
func (r *reader) point(v value) (orb.Point, bool) {
	p, ok := r.sketched(v)
	return turned(p, r.site.Turn), ok
}

// turned turns a point of the sketch clockwise about the origin.
func turned(p orb.Point, turn s1.Angle) orb.Point {
	if turn == 0 {
		return p
	}
	sin, cos := math.Sincos(turn.Radians())
	return orb.Point{p[0]*cos + p[1]*sin, p[1]*cos - p[0]*sin}
}

// ring reads corners into a closed ring, counter-clockwise. Too few corners
// are reported; crossings are the model's to find.
func (r *reader) ring(v value, what string) (orb.Ring, bool) {
	const example = "[[0, 0], [40, 0], [40, 115], [0, 115]]"
	corners, ok := v.list(what, example)
	if !ok {
		return nil, false
	}
	var ring orb.Ring
	good := true
	for _, c := range corners {
		p, ok := r.point(c)
		good = good && ok
		ring = append(ring, p)
	}
	if !good {
		return nil, false
	}
	if len(ring) > 1 && math.Hypot(ring[0][0]-ring[len(ring)-1][0], ring[0][1]-ring[len(ring)-1][1]) < 1e-9 {
		ring = ring[:len(ring)-1]
	}
	if len(ring) < 3 || len(ring) > 500 {
		r.fault(v.spot, r.sample(example), "%s has %s; it wants 3 to 500", what, measure.Count(len(ring), "corner"))
		return nil, false
	}
	ring = append(ring, ring[0])
	if ring.Orientation() == orb.CW {
		ring.Reverse()
	}
	return ring, true
}

// line reads two or more points.
func (r *reader) line(v value, what string) (orb.LineString, bool) {
	const example = "[[0, 0], [0, 60]]"
	points, ok := v.list(what, example)
	if !ok {
		return nil, false
	}
	var out orb.LineString
	for _, c := range points {
		p, good := r.point(c)
		ok = ok && good
		out = append(out, p)
	}
	if ok && (len(out) < 2 || len(out) > 500) {
		r.fault(v.spot, r.sample(example), "%s has %s; it wants 2 to 500", what, measure.Count(len(out), "point"))
		return nil, false
	}
	return out, ok
}

// size reads a length that must lie between two bounds (metres). A number
// that would fit in the other unit gets a hint.
func (o *object) size(least, most float64, names ...string) (float64, bool) {
	v, ok := o.get(names...)
	if !ok {
		return 0, false
	}
	return o.r.sizeOf(v, least, most)
}

// needed reads a length that must be there; right is what to write.
func (o *object) needed(key, right string, least, most float64) float64 {
	x, _ := o.size(least, most, key)
	if !o.has(key) {
		o.missing(key, right)
	}
	return x
}

func (r *reader) sizeOf(v value, least, most float64) (float64, bool) {
	x, ok := read(v, r.parseLength)
	if !ok || x >= least && x <= most {
		return x, ok
	}
	right := fmt.Sprintf("a length from %s to %s", r.shown(least), r.shown(most))
	if n, err := measure.ParseNumber(v.node.Value); err == nil {
		if other := measure.FromUnit(n, 1-r.unit); other >= least && other <= most {
			right = fmt.Sprintf("%s %s if that is what is meant", v.node.Value, map[measure.Unit]string{measure.Feet: "m", measure.Metres: "ft"}[r.unit])
		}
		small := map[measure.Unit]float64{measure.Feet: 0.0254, measure.Metres: 0.01}[r.unit]
		if n *= small; n >= max(least, 0.1) && n <= most { // people read trunks, windows and panels in inches
			right = fmt.Sprintf("%s %s if that is what is meant", v.node.Value, map[measure.Unit]string{measure.Feet: "in", measure.Metres: "cm"}[r.unit])
		}
	}
	text := short(v.node.Value)
	if shown := r.shown(x); shown != text {
		text += " is " + shown + ", which"
	}
	r.fault(v.spot, right, "%s cannot be right here", text)
	return x, false
}

func (r *reader) lot(top *object) {
	if v, ok := top.get("lot"); ok {
		r.site.Lot, _ = r.ring(v, "the lot")
	}
}

// groundAt is the height of the ground at a point against the ground at the
// house, which is itself read before the lie of the land is known and stands
// at 0.
func (r *reader) groundAt(p orb.Point) float64 { return r.ground.At(p) }
