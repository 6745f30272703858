package mapfile

import (
	"math"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

var roofWords = map[string]string{
	"gable": "gable", "gabled": "gable", "hip": "hip", "hipped": "hip", "shed": "shed", "skillion": "shed", "lean-to": "shed", "flat": "flat",
}

func (m *mapping) roof(w *page, p part, indent, subject, kind string, stated said, flatTop bool) {
	says := p.f.properties
	fail := func(err error) {
		if err != nil {
			m.fault(p.f.where(), "%v", err)
		}
	}
	if planes, _ := says["roof planes"].raw.([]any); len(planes) > 0 && kind == "" {
		m.planes(w, p, indent, planes)
		return
	}
	if flatTop {
		w.line("%sroof: {kind: flat}   # TO BE SEEN: a block of the whole height stands in for the roof", indent)
		w.missing("%s: the roof's shape", subject)
		return
	}
	if kind == "" {
		if stated.text != "" {
			m.note("%s: the roof %q is none of gable, hip, shed and flat", subject, short(stated.text))
		}
		w.line("%s# roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}   # TO BE MEASURED: gable, hip, shed or flat", indent)
		w.missing("%s: the roof (kind, pitch, overhang)", subject)
		return
	}
	w.line("%sroof:", indent)
	w.line("%s  kind: %s", indent, kind)
	direction := func(key string, names ...string) bool {
		v, ok := says.get(names...)
		if ok {
			a, err := v.bearing()
			if fail(err); err == nil {
				if _, err := strconv.ParseFloat(v.text, 64); err != nil && !strings.Contains(v.text, "°") {
					a = square(a, p.ring)
				}
				w.line("%s  %s: %s", indent, key, azimuth(a))
			}
		}
		return ok
	}
	if kind == "gable" && !direction("ridge", "ridge", "roof ridge", "roof orientation") {
		w.line("%s  # ridge: east-west   # TO BE SEEN; until then along the longer side", indent)
	}
	if v, ok := says.get("pitch", "roof pitch", "roof angle"); ok {
		a, err := v.pitch()
		if fail(err); err == nil && (a > 0 || kind != "flat") {
			w.line("%s  pitch: %s°", indent, number(a.Degrees(), 6))
		}
	} else if kind != "flat" {
		w.line("%s  # pitch: 9/12   # TO BE MEASURED", indent)
		w.missing("%s: roof pitch", subject)
	}
	if (kind == "shed" || kind == "flat") && !direction("down", "down", "roof down", "roof direction") && kind == "shed" {
		w.line("%s  # down: south   # TO BE SEEN: the side toward which the roof falls", indent)
		w.missing("%s: which way the roof falls", subject)
	}
	if v, ok := says.get("overhang", "roof overhang", "eave"); ok {
		x, err := v.length(0, 3)
		if fail(err); err == nil {
			w.line("%s  overhang: %s", indent, w.length(x))
		}
	} else {
		w.line("%s  # overhang: 12 in   # TO BE MEASURED", indent)
		w.missing("%s: roof overhang", subject)
	}
}

// square turns a direction given as a compass word along or across the nearest
// side of a footprint: houses seldom stand square to the compass.
func square(a s1.Angle, r orb.Ring) s1.Angle {
	best, least := a, math.Inf(1)
	for i := 0; i+1 < len(r); i++ {
		along := math.Atan2(r[i+1][0]-r[i][0], r[i+1][1]-r[i][1])
		for _, d := range []float64{along, along + math.Pi/2, along + math.Pi, along - math.Pi/2} {
			if off := math.Abs(math.Remainder(d-a.Radians(), 2*math.Pi)); off < least-1e-6 {
				best, least = s1.Angle(d), off
			}
		}
	}
	return best
}

// planes writes explicit roof planes: corners as [longitude, latitude, height
// in metres above the ground at the house].
func (m *mapping) planes(w *page, p part, indent string, list []any) {
	var out []string
	for _, plane := range list {
		corners, _ := plane.([]any)
		if len(corners) < 3 {
			m.fault(p.f.where(), "a roof plane has three corners or more")
			return
		}
		var row []string
		for _, c := range corners {
			xyz, _ := c.([]any)
			if len(xyz) != 3 {
				m.fault(p.f.where(), "a corner of a roof plane is [longitude, latitude, metres above the ground]")
				return
			}
			lng, okA := xyz[0].(float64)
			lat, okB := xyz[1].(float64)
			z, okC := xyz[2].(float64)
			if !okA || !okB || !okC || degreesFault(lng, lat) != "" || z < -30 || z > 100 {
				m.fault(p.f.where(), "a corner of a roof plane is [longitude, latitude, metres above the ground]")
				return
			}
			at := strings.TrimSuffix(w.point(m.point(orb.Point{lng, lat})), "]")
			row = append(row, at+", "+number(measure.InUnit(z, w.unit), 3)+"]")
		}
		out = append(out, "["+strings.Join(row, ", ")+"]")
	}
	w.line("%sroof:", indent)
	w.line("%s  kind: planes", indent)
	w.line("%s  planes: [%s]", indent, strings.Join(out, ", "))
	if o, ok := p.f.properties.get("overhang"); ok {
		if x, err := o.length(0, 3); err == nil && x > 0 {
			w.line("%s  overhang: %s", indent, w.length(x))
		}
	}
}
