package mapfile

import (
	"math"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/species"
)

var ownerWords = map[string]string{
	"lot": "lot", "ours": "lot", "own": "lot", "owner": "lot", "private": "",
	"neighbour": "neighbour", "neighbours": "neighbour",
	"street": "street", "city": "street", "public": "street", "town": "street", "right of way": "street", "row": "street",
}

var shapeWords = map[string]string{
	"ellipsoid": "ellipsoid", "round": "ellipsoid", "oval": "ellipsoid", "half ellipsoid": "half-ellipsoid", "dome": "half-ellipsoid",
	"paraboloid": "paraboloid", "cone": "cone", "pyramid": "cone", "cylinder": "cylinder", "column": "cylinder",
}

var methodWords = map[string]bool{"tape": true, "pacing": true, "clinometer": true, "stick": true, "guess": true, "stated": true, "compass": true, "laser": true}

// tree writes one tree.
func (m *mapping) tree(w *page, t *treeEntry) {
	assumed := t.assumed()
	w.line("  - id: %s", text(t.id))
	subject := "tree " + t.id
	m.species(w, t)
	w.line("    at: %s", w.point(t.at))
	missing := m.lengths(w, t, assumed)
	if len(missing) > 0 {
		w.missing("%s: %s", subject, strings.Join(missing, ", "))
	}
	if v, ok := t.says.get("crown shape", "shape"); ok && !assumed["crown shape"] {
		word, _ := plainName(v.text)
		if s := shapeWords[word]; s != "" {
			w.line("    crown shape: %s", s)
		} else {
			m.wrong(t, v.problem("%q is no crown shape; ellipsoid, half-ellipsoid, paraboloid, cone and cylinder are", short(v.text)))
		}
	}
	for _, key := range []string{"in leaf", "bare"} {
		if v, ok := t.says.get(key, "transmissivity "+key); ok && !assumed[key] {
			if share, err := v.share(); !m.wrong(t, err) {
				w.line("    %s: %s", key, number(share, 4))
			}
		}
	}
	for _, key := range []string{"keep", "removable"} {
		if v, ok := t.says.get(key); ok {
			if yes, err := v.yes(); !m.wrong(t, err) && (yes || key == "removable") {
				w.line("    %s: %s", key, map[bool]string{true: "yes", false: "no"}[yes])
			}
		}
	}
	m.owner(w, t)
	if v, ok := t.says.get("measured by", "method"); ok && methodWords[strings.ToLower(v.text)] {
		w.line("    measured by: %s", strings.ToLower(v.text))
	}
	if v, ok := t.says.get("cost", "removal cost", "remove cost"); ok && !assumed["cost"] {
		if dollars, err := v.money(); !m.wrong(t, err) {
			w.line("    cost: %s", measure.FormatMoneyExact(math.Round(dollars*100)/100))
		}
	}
	if note := t.says.text("notes", "note", "remarks", "comment", "comments"); note != "" {
		w.line("    notes: %s", text(note))
	}
}

// treeLengths are the lengths of a tree by the site file's key and the names maps
// and lists give them, with the least and the most that is believed, metres,
// and what is said where one is missing.
var treeLengths = []struct {
	key         string
	names       []string
	least, most float64
	missing     string
}{
	{"height", []string{"height", "tree height", "total height"}, 0.3, 90, "height"},
	{"spread", []string{"spread", "crown spread", "crown width", "crown diameter", "canopy spread", "canopy width", "canopy diameter", "width"}, 0.1, 60, "spread"},
	{"crown base", []string{"crown base", "crown base height", "base of crown", "lowest branch", "height to crown"}, 0, 60, "crown base"},
	{"trunk", []string{"trunk", "trunk diameter", "dbh", "diameter"}, 0.01, 4, "trunk"},
	{"ground", []string{"ground", "ground height"}, -100, 100, ""},
}

// lengths writes the lengths of a tree and says which are missing.
func (m *mapping) lengths(w *page, t *treeEntry, assumed map[string]bool) []string {
	var missing []string
	height := math.NaN()
	for _, s := range treeLengths {
		if assumed[s.key] {
			missing = append(missing, s.missing)
			w.line("    # %s:   # TO BE MEASURED: the map assumes %s", s.key, comment(t.says.text(s.names...)))
			continue
		}
		if s.key == "spread" {
			x, hasX := t.says.get("spread x")
			y, hasY := t.says.get("spread y")
			if hasX && hasY {
				a, errX := x.length(s.least, s.most)
				b, errY := y.length(s.least, s.most)
				if !m.wrong(t, errX) && !m.wrong(t, errY) {
					w.line("    spread: [%s, %s]", w.length(a), w.length(b))
				}
				continue
			}
		}
		v, ok := t.says.get(s.names...)
		if !ok {
			if s.missing != "" {
				missing = append(missing, s.missing)
				w.line("    # %s:   # TO BE MEASURED", s.key)
			}
			continue
		}
		x, err := v.length(s.least, s.most)
		if m.wrong(t, err) {
			continue
		}
		if s.key == "height" {
			height = x
		}
		if s.key == "crown base" && x >= height {
			m.faultIn(t.source, t.where, "%s: the crown begins at %s, at or above the top of the tree", short(v.name), v.text)
			continue
		}
		w.line("    %s: %s", s.key, w.length(x))
	}
	return missing
}

// wrong tells a fault of a tree.
func (m *mapping) wrong(t *treeEntry, err error) bool {
	if err != nil {
		m.faultIn(t.source, t.where, "%v", err)
	}
	return err != nil
}

// species writes a tree's kind. A name that the table does not know but that
// comes near one it knows is a slip of the pen, and is left to people.
func (m *mapping) species(w *page, t *treeEntry) {
	v, _ := t.says.get("evergreen")
	evergreen, err := v.yes()
	if v.text != "" && err != nil {
		m.faultIn(t.source, t.where, "%v", err)
	}
	kind, ok := t.says.get("species", "common name", "common", "latin name", "botanical name", "scientific name", "genus species")
	_, known := species.Find(kind.text)
	switch like := species.Like(kind.text); {
	case !ok:
		w.line("    # species:   # TO BE SEEN")
	case known:
		w.line("    species: %s", text(kind.text))
		return
	case len(like) > 0:
		m.note("tree %s: the species %q is not in the species table; %s?", t.id, short(kind.text), like[0])
		unknown := "unknown"
		if evergreen {
			unknown = "unknown evergreen"
		}
		w.line("    species: %s   # the map says %s: %s?", unknown, comment(kind.text), like[0])
		return
	default:
		m.note("tree %s: the species %q is not in the species table; usual values are taken", t.id, short(kind.text))
		w.line("    species: %s", text(kind.text))
	}
	if evergreen {
		w.line("    evergreen: yes")
	}
}

// assumed are the properties the map itself calls assumed.
func (t *treeEntry) assumed() map[string]bool {
	out := map[string]bool{}
	list, _ := t.says["assumed"].raw.([]any)
	for _, item := range list {
		if key, ok := item.(string); ok {
			out[key] = true
		}
	}
	return out
}

// owner writes whose the tree is. One that stands off the lot and has no
// owner on the map is never taken for the lot's own.
func (m *mapping) owner(w *page, t *treeEntry) {
	off := m.ring != nil && !planar.RingContains(m.ring, t.at)
	if v, ok := t.says.get("owner", "ownership"); ok {
		word, _ := plainName(v.text)
		owner, known := ownerWords[word]
		if owner != "" {
			w.line("    owner: %s", owner)
			return
		}
		if !known {
			m.note("tree %s: the owner %q is not known; lot, neighbour and street are", t.id, short(v.text))
		}
	}
	switch {
	case off:
		w.line("    owner: neighbour   # it stands off the lot by %s: neighbour or street? TO BE ASKED", w.length(distanceTo(m.ring, t.at)))
	case m.ring != nil:
		w.line("    owner: lot         # it stands on the lot; look again near the line")
	}
}

func distanceTo(r orb.Ring, p orb.Point) float64 {
	return planar.DistanceFrom(orb.LineString(r), p)
}
