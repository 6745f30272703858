package mapfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// storey is a storey's height where only their number is known, metres: 9 ft,
// common practice, no source.
const storey = 9 * 0.3048

func (m *mapping) writeHouse(w *page) {
	if m.house == nil {
		w.line("# house:   # TO BE MEASURED: no building stands on the lot on the map")
		w.line("#   footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]")
		w.line("#   wall height: 13 ft 6 in")
		w.line("#   roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}")
		w.line("")
		return
	}
	w.line("house:")
	m.parts(w, m.house, "  ", "house")
	m.writeChimneys(w)
	m.windows(w)
	w.line("")
}

func (m *mapping) writeOthers(w *page) {
	for _, list := range []struct{ role, key, prefix string }{
		{"neighbour", "neighbours", "N"}, {"porch", "porches", "porch "}, {"shed", "sheds", "shed "},
	} {
		first := true
		for _, b := range m.others {
			if b.role != list.role {
				continue
			}
			if first {
				w.line("%s:", list.key)
				first = false
			}
			if b.id == "" {
				b.id = m.freeID(list.prefix)
			}
			w.line("  - id: %s", text(b.id))
			usual := "lot"
			if b.role == "neighbour" {
				usual = "neighbour"
			}
			m.ownerOf(w, "    ", b.parts[0].f.properties, usual)
			m.parts(w, b, "    ", b.role+" "+b.id)
		}
		if !first {
			w.line("")
		}
	}
}

// parts writes the footprints of a building with walls and roof.
func (m *mapping) parts(w *page, b *structure, indent, subject string) {
	if len(b.parts) == 1 && b.parts[0].f.properties.text("part") == "" {
		m.part(w, b, b.parts[0], indent, indent, subject)
		return
	}
	w.line("%sparts:", indent)
	taken := map[string]bool{}
	for i, p := range b.parts {
		id := p.f.properties.text("part")
		if id == "" || taken[strings.ToLower(id)] {
			id = fmt.Sprintf("part %d", i+1)
		}
		taken[strings.ToLower(id)] = true
		w.line("%s  - id: %s", indent, text(id))
		m.part(w, b, p, indent+"    ", indent+"    ", subject+", "+id)
	}
}

func (m *mapping) part(w *page, b *structure, p part, first, indent, subject string) {
	says := p.f.properties
	fail := func(err error) bool {
		if err != nil {
			m.fault(p.f.where(), "%v", err)
		}
		return err != nil
	}
	w.line("%sfootprint: %s", first, w.ring(p.ring))
	m.walls(w, b, p, indent)
	if v, ok := says.get("base"); ok {
		if base, err := v.length(-30, 60); !fail(err) {
			w.line("%sbase: %s", indent, w.length(base))
		}
	}
	roof, _ := says.get("roof", "roof shape", "roof kind", "building roof")
	kind := roofWords[strings.ToLower(roof.text)]
	flatTop := false
	switch v, ok := says.get("wall height", "eave height", "eaves height"); {
	case ok:
		if h, err := v.length(0.9, 60); !fail(err) {
			w.line("%swall height: %s", indent, w.length(h))
		}
	default:
		total, hasTotal := says.get("height", "building height", "roof height")
		storeys, hasStoreys := says.get("storeys", "stories", "levels", "building levels")
		n, err := strconv.ParseFloat(storeys.text, 64)
		switch {
		case hasTotal && (kind == "flat" || kind == "" && b.role == "neighbour"):
			if h, err := total.length(0.9, 60); !fail(err) {
				flatTop = kind == ""
				w.line("%swall height: %s   # the whole height on the map", indent, w.length(h))
			}
		case hasStoreys && err == nil && n >= 0.5 && n <= 12:
			w.line("%swall height: %s   # TO BE MEASURED: %s storeys of 9 ft, common practice, no source", indent, w.length(n*storey), number(n, 1))
			w.missing("%s: wall height (taken from the number of storeys)", subject)
		default:
			w.line("%s# wall height: 13 ft 6 in   # TO BE MEASURED: from the foot of the wall to where the roof meets it", indent)
			w.missing("%s: wall height", subject)
		}
	}
	if v, ok := says.get("open"); ok {
		if yes, err := v.yes(); !fail(err) {
			w.line("%sopen: %s", indent, map[bool]string{true: "yes", false: "no"}[yes])
		}
	}
	m.roof(w, p, indent, subject, kind, roof, flatTop)
}

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

// walls lists a part's walls by the names windows go by, with their lengths,
// so that they can be checked with a tape.
func (m *mapping) walls(w *page, b *structure, p part, indent string) {
	if b.role != "house" && b != m.house {
		return
	}
	whole := model.Building{}
	for i, q := range b.parts {
		whole.Parts = append(whole.Parts, model.Part{ID: strconv.Itoa(i), Footprint: q.ring, WallHeight: 3, Roof: model.Roof{Kind: model.Flat}})
	}
	faces, err := whole.Faces()
	if err != nil {
		m.fault(p.f.where(), "%v", err)
		return
	}
	n := 0
	for i, q := range b.parts {
		for _, f := range faces {
			if f.Kind != model.WallFace || f.Part != strconv.Itoa(i) {
				continue
			}
			n++
			if q.f == p.f && &q.ring[0] == &p.ring[0] {
				w.line("%s# wall %d: %s, %s long, looks to %s", indent, n, f.ID, measure.FormatLength(f.Width(), w.unit), measure.FormatBearing(f.Azimuth()))
			}
		}
	}
}

func (m *mapping) writeChimneys(w *page) {
	if len(m.house.chimneys) == 0 {
		return
	}
	w.line("  chimneys:")
	for _, c := range m.house.chimneys {
		id := c.f.properties.text("id", "name")
		if id == "" {
			id = m.freeID("chimney ")
		} else {
			m.claim(id, c.f.where())
		}
		w.line("    - id: %s", text(id))
		w.line("      at: %s", w.point(c.at))
		for _, s := range []struct {
			key         string
			least, most float64
		}{{"width", 0.1, 6}, {"depth", 0.1, 6}, {"top", 0.5, 80}} {
			v, ok := c.f.properties.get(s.key)
			if !ok {
				w.line("      # %s:   # TO BE MEASURED", s.key)
				w.missing("chimney %s: %s", id, s.key)
				continue
			}
			if x, err := v.length(s.least, s.most); err == nil {
				w.line("      %s: %s", s.key, w.length(x))
			} else {
				m.fault(c.f.where(), "%v", err)
			}
		}
	}
}

// windows writes the windows a map of southyard's own carries; other maps
// have none.
func (m *mapping) windows(w *page) {
	var rows []properties
	var where []string
	for _, p := range m.house.parts {
		list, _ := p.f.properties["windows"].raw.([]any)
		for _, item := range list {
			if o, ok := item.(map[string]any); ok {
				rows = append(rows, newProperties(o))
				where = append(where, p.f.where())
			}
		}
	}
	if len(rows) == 0 {
		w.line("  # windows:   # TO BE MEASURED: wall, left (from the wall's left end, seen from outside), sill, width, height")
		w.line("  #   - {id: W1, wall: south, left: 3 ft, sill: 2 ft 6 in, width: 32 in, height: 60 in, glazing: single}")
		w.missing("the windows")
		return
	}
	w.line("  windows:")
	for i, row := range rows {
		id := row.text("id")
		if id == "" {
			id = m.freeID("W")
		} else {
			m.claim(id, where[i])
		}
		w.line("    - id: %s", text(id))
		w.line("      wall: %s", text(row.text("wall")))
		for _, s := range []struct {
			key         string
			least, most float64
		}{{"left", 0, 300}, {"sill", 0, 60}, {"width", 0.1, 15}, {"height", 0.1, 15}, {"reveal", 0, 1}} {
			if v, ok := row.get(s.key); ok {
				if x, err := v.length(s.least, s.most); err == nil {
					w.line("      %s: %s", s.key, w.length(x))
				} else {
					m.fault(where[i], "windows[%s]: %v", short(id), err)
				}
			}
		}
		if g := row.text("glazing"); g != "" {
			w.line("      glazing: %s", text(g))
		}
		if v, ok := row.get("frame"); ok {
			if share, err := v.share(); err == nil {
				w.line("      frame: %s", number(share, 4))
			}
		}
	}
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
