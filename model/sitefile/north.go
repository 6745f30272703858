package sitefile

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

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
		r.otherSide(o, d)
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

// otherSide looks again at a declination of the wrong sign in North America:
// east of 86° W the needle points west of true north, west of 100° W east of
// it (between 24° and 60° N, the 2020s; from memory of the published charts).
func (r *reader) otherSide(o *object, d s1.Angle) {
	lat, lng := r.site.Place.Latitude(), r.site.Place.Longitude()
	if lat < 24 || lat > 60 || lng < -130 || lng > -55 {
		return
	}
	n := strconv.FormatFloat(measure.Significant(math.Abs(d.Degrees()), 4), 'f', -1, 64)
	switch {
	case lng > -86 && d > s1.Degree:
		r.warn(o.at("declination"), fmt.Sprintf("declination: %s° W if that is what the map says", n), "at this longitude the needle points west of true north")
	case lng < -100 && d < -s1.Degree:
		r.warn(o.at("declination"), fmt.Sprintf("declination: %s° E if that is what the map says", n), "at this longitude the needle points east of true north")
	}
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
