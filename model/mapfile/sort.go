package mapfile

import (
	"math"
	"strings"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
)

// farOff is how far from the lot's middle a thing may stand to be taken over,
// metres: a tree of 100 ft a thousand metres off rises 1.7°.
const farOff = 1000

// roles are the words a map may use for what a thing is.
var roles = map[string]string{
	"lot": "lot", "parcel": "lot", "lot line": "lot", "property": "lot", "site": "lot",
	"building": "building", "structure": "building", "footprint": "building", "yes": "building",
	"residential": "building", "commercial": "building", "dwelling": "building", "detached": "building", "accessory": "building",
	"neighbour": "neighbour", "neighbours": "neighbour", "neighbour house": "neighbour", "neighbour's house": "neighbour",
	"porch": "porch", "canopy": "porch", "roof": "porch",
	"shed": "shed", "garage": "shed", "garages": "shed", "barn": "shed", "outbuilding": "shed", "carport": "porch",
	"fence": "fence", "hedge": "fence", "wire": "wire", "wires": "wire", "service drop": "wire", "power line": "wire", "minor line": "wire",
	"tree": "tree", "trees": "tree", "chimney": "chimney",
	"spot": "spot", "spots": "spot", "spot height": "spot", "spot heights": "spot", "ground height": "spot",
}

// roleOf is what a feature says it is: "" where it does not say, other where it
// says something that is none of ours, such as a driveway. Only kind and role
// can name the house itself: on open maps every dwelling of a street is tagged
// building: house.
func roleOf(f *feature) string {
	found := ""
	for _, key := range []string{
		"kind", "role", "type", "class", "layer", "natural", "barrier", "power", "building",
		"landuse", "leisure", "amenity", "highway", "waterway", "surface", "man made",
	} {
		word, _ := plainName(f.properties.text(key))
		r := roles[word]
		switch {
		case word == "" || word == "no":
		case (key == "kind" || key == "role") && (word == "house" || word == "the house" || word == "main house"):
			return "house"
		case r != "" && (word != "yes" || key == "building"):
			return r
		case key == "building":
			return "building"
		default:
			found = other
		}
	}
	if found == other && len(f.points) > 0 {
		if _, tree := f.properties.get("species", "dbh", "spread", "crown spread", "crown width", "crown base", "common name", "latin name"); tree {
			return "tree"
		}
	}
	return found
}

const other = "other"

// sort finds the lot and the house among the features and projects everything.
func (m *mapping) sort(features []*feature) {
	role := map[*feature]string{}
	for i, f := range features {
		role[f] = roleOf(f)
		if i == 0 {
			m.around = f.somewhere()[0]
		}
		f.unwrap(m.around)
	}
	m.findLot(features, role)
	if len(m.faults) > 0 {
		return
	}
	middle, ok := m.middle(features, role)
	if !ok {
		m.fault("", "the map has neither a lot nor a building; mark the lot's outline with the property kind: lot, and the house with kind: house")
		return
	}
	m.plane = planeAt(s2.LatLngFromDegrees(middle[1], middle[0]))
	if m.lot != nil {
		m.ring = m.project(m.lot.polygons[0][0])
	}
	var buildings []*structure
	byID := map[string]*structure{}
	var chimneys []chimney
	for _, f := range features {
		r := role[f]
		switch {
		case f == m.lot:
			continue
		case math.Hypot(m.point(f.somewhere())[0], m.point(f.somewhere())[1]) > farOff:
			m.note("%s lies more than %d m from the lot and is left out", f.where(), farOff)
			continue
		case len(f.points) > 0 && r == "chimney":
			chimneys = append(chimneys, chimney{f, m.point(f.points[0])})
		case len(f.points) > 0 && r == "spot":
			m.mapSpots(f)
		case len(f.points) > 0 && (r == "tree" || r == ""):
			m.mapTrees(f)
		case len(f.lines) > 0 && (r == "fence" || r == "wire"):
			for _, l := range f.lines {
				m.lines = append(m.lines, lineThing{role: r, f: f, line: orb.LineString(m.project(orb.Ring(l)))})
			}
		case len(f.polygons) > 0 && r == "fence":
			m.lines = append(m.lines, lineThing{role: r, f: f, line: orb.LineString(m.project(f.polygons[0][0]))})
		case len(f.polygons) > 0 && r != "tree" && r != "wire" && r != "chimney" && r != "spot" && r != "lot" && r != other:
			if r == "" {
				r = "building"
			}
			buildings = m.mapBuilding(buildings, byID, f, r)
		default:
			m.note("%s is a %s that says no kind southyard uses, and is left out", f.where(), f.kind)
		}
	}
	m.findHouse(buildings)
	if len(m.faults) > 0 {
		return
	}
	for _, c := range chimneys {
		if m.house == nil || !m.house.holds(c.at) {
			m.note("%s: the chimney stands on no part of the house and is left out", c.f.where())
			continue
		}
		m.house.chimneys = append(m.house.chimneys, c)
	}
	m.name()
}

func (f *feature) somewhere() orb.Point {
	switch {
	case len(f.points) > 0:
		return f.points[0]
	case len(f.lines) > 0:
		return f.lines[0][0]
	}
	return f.polygons[0][0][0]
}

// unwrap brings longitudes to within half a turn of one of them, so that a
// lot on the 180th meridian is not cut in two.
func (f *feature) unwrap(around float64) {
	turn := func(p orb.Point) orb.Point {
		p[0] = around + math.Remainder(p[0]-around, 360)
		return p
	}
	for i := range f.points {
		f.points[i] = turn(f.points[i])
	}
	for _, l := range f.lines {
		for i := range l {
			l[i] = turn(l[i])
		}
	}
	for _, poly := range f.polygons {
		for _, r := range poly {
			for i := range r {
				r[i] = turn(r[i])
			}
		}
	}
}

// point is where a position of the map lies on the plane.
func (m *mapping) point(p orb.Point) orb.Point {
	return m.plane.drop(s2.LatLngFromDegrees(p[1], p[0]))
}

func (m *mapping) project(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[i] = m.point(p)
	}
	return out
}

// mapTrees adds the points of a feature as trees.
func (m *mapping) mapTrees(f *feature) {
	id := f.properties.text("id", "tree id", "tag", "name")
	if id == "" {
		id = f.id
	}
	for i, p := range f.points {
		t := &treeEntry{source: m.source, where: f.where(), id: id, at: m.point(p), says: f.properties}
		if i > 0 {
			t.id = "" // one feature, many trees: only the first can have its id
		}
		m.trees = append(m.trees, t)
	}
}

// name claims the ids things have.
func (m *mapping) name() {
	if m.house != nil {
		m.house.id = "house"
	}
	for _, b := range m.others {
		if b.id != "" {
			m.claim(b.id, b.parts[0].f.where())
		}
	}
	for i := range m.lines {
		l := &m.lines[i]
		if l.id = l.f.properties.text("id", "name"); l.id == "" {
			l.id = l.f.id
		}
		if l.id != "" {
			m.claim(l.id, l.f.where())
		}
	}
	for _, t := range m.trees {
		if t.id = strings.TrimSpace(t.id); t.id != "" {
			m.claim(t.id, t.where)
		}
	}
}
