package mapfile

import (
	"fmt"
	"strconv"
	"strings"

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
