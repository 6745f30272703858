package sitefile

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

const pointExample = "[18, 14] (to the right and up on the sketch)"

func (r *reader) parseLength(s string) (float64, error) { return measure.ParseLength(s, r.unit) }

// sketched reads a point of the sketch without turning it.
func (r *reader) sketched(v value) (orb.Point, bool) {
	if v.node.Kind != yaml.SequenceNode || len(v.node.Content) != 2 {
		if v.node.Kind == yaml.SequenceNode && len(v.node.Content) > 2 {
			v.r.fault(v.spot, pointExample, "a point has two numbers, and here are %d: leave out commas inside numbers", len(v.node.Content))
		} else {
			v.r.fault(v.spot, pointExample, "a point should be two numbers in brackets, not %s", kindName(v.node))
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
		r.fault(v.spot, example, "%s has %d corners; it wants 3 to 500", what, len(ring))
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
		r.fault(v.spot, example, "%s has %d points; it wants 2 to 500", what, len(out))
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
	}
	r.fault(v.spot, right, "%s is %s, which cannot be right here", short(v.node.Value), r.shown(x))
	return x, false
}

// bearing reads a direction on the ground as an azimuth from true north.
func (r *reader) bearing(o *object, names ...string) (s1.Angle, bool) {
	b, ok := field(o, measure.ParseBearing, names...)
	return b.Azimuth(r.north, r.declination), ok
}

// drawn reads a direction of something drawn square on the sketch: compass
// words follow the sketch, readings in degrees are turned by the stated
// north.
func (r *reader) drawn(b measure.Bearing) s1.Angle {
	if b.Word && b.From == measure.Unstated {
		return measure.Turn(b.Angle + r.site.Turn)
	}
	return b.Azimuth(r.north, r.declination)
}

const northRight = "north: up is true north, or north: {up points: N 4° E, measured: magnetic, declination: 7° W}"

var (
	upWords = regexp.MustCompile(`(?i)^up (?:is|points)(?: to)? (?:(.+?)(?: of)? )?(true|magnetic) north(?:,? declination (.+))?$`)
	upOfUp  = regexp.MustCompile(`(?i)(\d[\d.]*) ?°? ?(e|w|east|west)(?: of)? the sketch's up`)
)

// northOf reads how the sketch lies.
func (r *reader) northOf(top *object) {
	v, ok := top.get("north")
	if !ok {
		r.site.NorthNote = "up on the sketch is true north (assumed)"
		r.assume("site", "north", "up on the sketch is true north", "common practice, no source")
		return
	}
	if v.node.Kind == yaml.ScalarNode {
		r.northWords(v)
		return
	}
	o, ok := v.object("north", northRight)
	if !ok {
		return
	}
	measured, _ := choice(o, map[string]measure.North{"true": measure.True, "magnetic": measure.Magnetic, "compass": measure.Magnetic, "mag": measure.Magnetic}, "measured")
	r.north = measured
	if d, ok := field(o, measure.ParseDeclination, "declination"); ok {
		r.declination = d
	} else if measured == measure.Magnetic {
		o.missing("declination", "declination: 7° W (how far the needle points from true north here; a map or the geological survey tells)")
	}
	note := "up on the sketch is true north"
	if b, ok := field(o, measure.ParseBearing, "up points", "up"); ok {
		r.site.Turn = b.Azimuth(measured, r.declination)
		note = "up on the sketch points " + o.values[first(o, "up points", "up")].node.Value
		if b.From == measure.Unstated && measured != measure.Unstated {
			note += " " + string(measured)
		}
	} else if measured == measure.Magnetic {
		o.missing("up points", "up points: N 4° E (what the compass reads looking up the sketch)")
	}
	if r.declination != 0 {
		note += ", declination " + o.values["declination"].node.Value
	}
	r.site.NorthNote = note
	o.finish()
}

func first(o *object, names ...string) string {
	for _, n := range names {
		if _, ok := o.values[n]; ok {
			return n
		}
	}
	return names[0]
}

func (r *reader) northWords(v value) {
	text := strings.Join(strings.Fields(v.node.Value), " ")
	if m := upOfUp.FindStringSubmatch(text); m != nil {
		r.fault(v.spot, northRight, "say where up on the sketch points, not where north lies")
		return
	}
	m := upWords.FindStringSubmatch(text)
	if m == nil {
		r.fault(v.spot, northRight, "%q does not say where up on the sketch points", short(text))
		return
	}
	var off s1.Angle
	if m[1] != "" {
		var err error
		if off, err = measure.ParseDeclination(m[1]); err != nil {
			r.fault(v.spot, "up is 4° east of true north", "%s", wrongOf(err))
			return
		}
	}
	if strings.EqualFold(m[2], "magnetic") {
		if m[3] == "" {
			r.fault(v.spot, "up is magnetic north, declination 7° W", "magnetic north wants the declination")
			return
		}
		d, err := measure.ParseDeclination(m[3])
		if err != nil {
			r.fault(v.spot, rightOf(err), "%s", wrongOf(err))
			return
		}
		r.north, r.declination = measure.Magnetic, d
		off += d
	}
	r.site.Turn = measure.Turn(off)
	r.site.NorthNote = text
}

func (r *reader) lot(top *object) {
	if v, ok := top.get("lot"); ok {
		r.site.Lot, _ = r.ring(v, "the lot")
	}
}

// namedPoint finds a point to measure from: a named point, a corner of the
// house or lot, or a tree read before.
func (r *reader) namedPoint(name string) (orb.Point, string) {
	key := plainKey(name)
	for n, p := range r.site.Points {
		if plainKey(n) == key {
			return p, ""
		}
	}
	for _, t := range r.site.Trees {
		if plainKey(t.ID) == key {
			return t.At, ""
		}
	}
	if m := cornerName.FindStringSubmatch(key); m != nil && m[1]+m[3]+m[4] != "" {
		what := m[1] + m[4]
		var corners orb.Ring
		if what == "lot" {
			corners = r.site.Lot
		} else {
			for _, p := range r.site.House.Parts {
				corners = append(corners, p.Footprint...)
			}
		}
		b, err := measure.ParseBearing(m[2])
		if err != nil || len(corners) == 0 {
			return orb.Point{}, "no such corner is known"
		}
		return farthestCorner(corners, r.drawn(b))
	}
	return orb.Point{}, "no such point is known"
}

var cornerName = regexp.MustCompile(`^(?:(house|lot) )?((?:north|south)[ -]?(?:east|west)|ne|nw|se|sw)( corner)?(?: of (?:the )?(house|lot))?$`)

// farthestCorner is the corner farthest toward an azimuth.
func farthestCorner(corners orb.Ring, azimuth s1.Angle) (orb.Point, string) {
	sin, cos := math.Sincos(azimuth.Radians())
	along := func(p orb.Point) float64 { return p[0]*sin + p[1]*cos }
	best := corners[0]
	for _, c := range corners {
		if along(c) > along(best) {
			best = c
		}
	}
	for _, c := range corners {
		if along(c) > along(best)-0.15 && math.Hypot(c[0]-best[0], c[1]-best[1]) > 0.3 {
			return best, "two corners lie as far that way: give one a name under points"
		}
	}
	return best, ""
}

// position is where a thing stands and how far off that may be, metres.
type position struct {
	at   orb.Point
	from string  // "" for plan coordinates
	far  float64 // distance from the point measured from
}

// position reads at: [x, y], or bearing, distance and from.
func (r *reader) position(o *object) (position, bool) {
	v, hasAt := o.get("at")
	far, hasFar := o.size(0, farAway, "distance")
	azimuth, hasBearing := r.bearing(o, "bearing")
	from, hasFrom := o.get("from")
	if hasAt {
		for _, other := range []string{"bearing", "distance", "from"} {
			if o.has(other) {
				r.fault(o.at(other), "either at: [18, 14], or bearing, distance and from", "%s goes without at:", other)
				break
			}
		}
		p, ok := r.point(v)
		return position{at: p}, ok
	}
	if !o.has("bearing") && !o.has("distance") && !hasFrom {
		o.missing("at", "at: [18, 14], or bearing: S 20° W, distance: 41 ft, from: house south-east corner")
		return position{}, false
	}
	for _, key := range []string{"bearing", "distance", "from"} {
		if !o.has(key) {
			o.missing(key, map[string]string{"bearing": "bearing: S 20° W", "distance": "distance: 41 ft", "from": "from: house south-east corner"}[key])
		}
	}
	if !hasFar || !hasBearing || !hasFrom || from.node.Kind != yaml.ScalarNode {
		return position{}, false
	}
	start, trouble := r.namedPoint(from.node.Value)
	if trouble != "" {
		var names []string
		for n := range r.site.Points {
			names = append(names, n)
		}
		right := nearest(plainKey(from.node.Value), names)
		if right == "" {
			right = "a name from points:, a tree listed before, or a corner such as house south-east corner"
		}
		r.fault(from.spot, right, "%q: %s", short(from.node.Value), trouble)
		return position{}, false
	}
	sin, cos := math.Sincos(azimuth.Radians())
	return position{at: orb.Point{start[0] + far*sin, start[1] + far*cos}, from: from.node.Value, far: far}, true
}

func (r *reader) points(top *object) {
	v, ok := top.get("points")
	if !ok {
		return
	}
	const example = "points: {porch corner: [30, 38]}"
	if v.node.Kind != yaml.MappingNode {
		r.fault(v.spot, example, "points should be names with a place each, not %s", kindName(v.node))
		return
	}
	r.site.Points = map[string]orb.Point{}
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		k := v.node.Content[i]
		item := r.value(v.node.Content[i+1], join(v.path, k.Value), join(v.shown, short(k.Value)))
		if _, twice := r.site.Points[k.Value]; twice {
			r.fault(item.spot, "another name", "a point named %q was given before", short(k.Value))
			continue
		}
		if item.node.Kind == yaml.MappingNode {
			if o, ok := item.object("a point", example); ok {
				if p, ok := r.position(o); ok {
					r.site.Points[k.Value] = p.at
				}
				o.finish()
			}
			continue
		}
		if p, ok := r.point(item); ok {
			r.site.Points[k.Value] = p
		}
	}
}

// groundAt is the height of sloping ground at a point against the ground at
// the house.
func (r *reader) groundAt(p orb.Point) float64 {
	t := r.site.Terrain
	if t.SlopeRise == 0 || len(r.site.House.Parts) == 0 || len(r.site.House.Parts[0].Footprint) == 0 {
		return 0
	}
	c := r.site.House.Parts[0].Footprint.Bound().Center()
	sin, cos := math.Sincos(t.SlopeUphill.Radians())
	return t.SlopeRise * ((p[0]-c[0])*sin + (p[1]-c[1])*cos)
}
