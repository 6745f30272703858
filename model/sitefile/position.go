package sitefile

import (
	"math"
	"regexp"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

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

// startLost tells whether what a place is measured from is not known only
// because the entry it stands in has a fault of its own.
func (r *reader) startLost(name string) bool {
	if m := cornerName.FindStringSubmatch(plainKey(name)); m != nil {
		return r.faultyUnder("house") || r.faultyUnder("lot")
	}
	return r.faultyUnder("points") || r.namesLost("trees")
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
	if trouble != "" && r.startLost(from.node.Value) {
		r.faulty[from.path] = true
		return position{}, false
	}
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
		r.fault(v.spot, r.sample(example), "points should be names with a place each, not %s", kindName(v.node))
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
