package mapfile

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// mostWritten is what a site file may have at most, bytes.
const mostWritten = 4 << 20

// page is the site file being written.
type page struct {
	strings.Builder
	unit measure.Unit
	turn s1.Angle // how far the sketch's up lies clockwise from true north
	todo []string
}

func (w *page) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

// missing lists something to be measured.
func (w *page) missing(format string, args ...any) {
	w.todo = append(w.todo, fmt.Sprintf(format, args...))
}

// number writes x with no needless zeros.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return s
}

// length writes metres in the file's unit, to a third of a millimetre or better.
func (w *page) length(metres float64) string {
	if w.unit == measure.Metres {
		return number(metres, 4) + " m"
	}
	return number(measure.InUnit(metres, w.unit), 3) + " ft"
}

// point writes a point of the plane as one of the sketch.
func (w *page) point(p orb.Point) string {
	sin, cos := math.Sincos(w.turn.Radians())
	x, y := p[0]*cos-p[1]*sin, p[0]*sin+p[1]*cos
	return fmt.Sprintf("[%s, %s]", number(measure.InUnit(x, w.unit), 3), number(measure.InUnit(y, w.unit), 3))
}

func (w *page) points(line []orb.Point) string {
	var out []string
	for _, p := range line {
		out = append(out, w.point(p))
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// ring writes the corners of a closed ring, the last (the first again) left out.
func (w *page) ring(r orb.Ring) string { return w.points(r[:len(r)-1]) }

// azimuth writes a direction from true north.
func azimuth(a s1.Angle) string { return number(measure.Turn(a).Degrees(), 6) + "° true" }

var plainText = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9]*( [A-Za-z0-9]+)*$`)

// text writes a name or note so that YAML takes it for text whatever is in it.
func text(s string) string {
	switch strings.ToLower(s) {
	case "yes", "no", "true", "false", "on", "off", "null", "y", "n", "nan", "inf", "infinity":
	default:
		if plainText.MatchString(s) {
			return s
		}
	}
	quoted, err := json.Marshal(s)
	if err != nil {
		return `""`
	}
	return string(quoted)
}

// comment makes a text safe inside a comment.
func comment(s string) string { return short(cleaned(s)) }

// write gives the whole file.
func (m *mapping) write(o Options) []byte {
	w := &page{unit: measure.Feet}
	unit := "feet"
	if o.Metric {
		w.unit, unit = measure.Metres, "metres"
	}
	of := properties{}
	if m.lot != nil {
		of = m.lot.properties
	}
	if v, ok := of.get("sketch up"); ok {
		if a, err := v.bearing(); err == nil {
			w.turn = a
		}
	}
	title := o.Title
	if title == "" {
		title = of.text("name", "address", "id")
	}
	if title == "" {
		title = "a lot from the map"
	}
	w.line("# Made from the map %s. Points are %s to the right (east) and up (north) of the", comment(m.mapName), unit)
	w.line("# lot's middle. What the map does not tell is marked TO BE MEASURED.")
	w.line("")
	w.line("name: %s", text(cleaned(title)))
	w.line("units: %s", unit)
	w.line("")
	m.writePlace(w, of)
	m.writeTerrain(w, of)
	m.writeLot(w)
	m.writeHouse(w)
	m.keepClear(w)
	m.writeOthers(w)
	m.writeLines(w)
	m.writeTrees(w)
	const mostTold = 40
	for i, t := range w.todo {
		if i == mostTold {
			m.notes = append(m.notes, "to be measured: "+measure.Count(len(w.todo)-i, "thing")+" more, marked in the file")
			break
		}
		m.notes = append(m.notes, "to be measured: "+t)
	}
	if w.Len() > mostWritten {
		m.fault("", "the map makes a site file of %d bytes, and one has %d at most: cut the map down to the block the lot is in", w.Len(), mostWritten)
	}
	return []byte(w.String())
}

func (m *mapping) writePlace(w *page, of properties) {
	at := m.plane.lift(orb.Point{})
	w.line("place:")
	w.line("  latitude: %s", number(at.Lat.Degrees(), 9))
	w.line("  longitude: %s", number(at.Lng.Degrees(), 9))
	if v, ok := of.get("elevation"); ok {
		if e, err := v.length(-450, 6000); err == nil {
			w.line("  elevation: %s", w.length(e))
		} else {
			m.fault(m.lot.where(), "%v", err)
		}
	} else {
		w.line("  # elevation: 590 ft                  # TO BE LOOKED UP: above sea level")
	}
	if zone := of.text("time zone", "timezone"); zone != "" && plainZone.MatchString(zone) {
		w.line("  time zone: %s", zone)
	} else {
		w.line("  # time zone: America/New_York        # TO BE FILLED IN; until then solar zones by longitude")
	}
	w.line("")
	w.line("climate: nearest")
	w.line("")
	if w.turn != 0 {
		w.line("north: {up points: %s}", azimuth(w.turn))
	} else {
		w.line("north: up is true north")
	}
	w.line("")
}

var plainZone = regexp.MustCompile(`^[A-Za-z]+(/[A-Za-z_+\-0-9]+){1,2}$`)

func (m *mapping) writeLot(w *page) {
	if m.ring == nil {
		w.line("# lot: [[0, 0], [40, 0], [40, 115], [0, 115]]   # TO BE MEASURED")
		w.missing("the lot line")
	} else {
		w.line("lot: %s", w.ring(m.ring))
	}
	w.line("")
}

func (m *mapping) writeLines(w *page) {
	for _, role := range []string{"fence", "wire"} {
		first := true
		for _, l := range m.lines {
			if l.role != role {
				continue
			}
			if first {
				w.line("%ss:", role)
				first = false
			}
			if l.id == "" {
				l.id = m.freeID(role + " ")
			}
			w.line("  - id: %s", text(l.id))
			w.line("    line: %s", w.points(l.line))
			most := map[string]float64{"fence": 15, "wire": 80}[role]
			if v, ok := l.f.properties.get("height"); ok {
				if h, err := v.length(0.2, most); err == nil {
					w.line("    height: %s", w.length(h))
				} else {
					m.fault(l.f.where(), "%v", err)
				}
			} else {
				w.line("    # height:   # TO BE MEASURED")
				w.missing("%s %s: height", role, l.id)
			}
			if role == "wire" {
				if note := l.f.properties.text("note", "notes"); note != "" {
					w.line("    note: %s", text(note))
				}
				continue
			}
			if v, ok := l.f.properties.get("base"); ok {
				if b, err := v.length(-30, 60); err == nil {
					w.line("    base: %s", w.length(b))
				}
			}
			if v, ok := l.f.properties.get("lets through", "transmissivity"); ok {
				if share, err := v.share(); err == nil {
					w.line("    lets through: %s", number(share, 4))
				} else {
					m.fault(l.f.where(), "%v", err)
				}
			}
			m.ownerOf(w, "    ", l.f.properties, "lot")
		}
		if !first {
			w.line("")
		}
	}
}

// ownerOf writes an owner that differs from the usual one.
func (m *mapping) ownerOf(w *page, indent string, p properties, usual string) {
	word, _ := plainName(p.text("owner"))
	if owner := ownerWords[word]; owner != "" && owner != usual {
		w.line("%sowner: %s", indent, owner)
	}
}

func (m *mapping) writeTrees(w *page) {
	if len(m.trees) == 0 {
		w.line("# trees: none on the map. TO BE MEASURED, one by one:")
		w.line("#   - {id: T1, species: silver maple, at: [18, 14], height: 52 ft, spread: 36 ft, crown base: 9 ft}")
		w.missing("the trees: the map shows none")
		return
	}
	w.line("trees:")
	for _, t := range m.trees {
		if t.id == "" {
			t.id = m.freeID("T")
		}
		m.tree(w, t)
	}
}
