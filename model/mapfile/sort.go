package mapfile

import (
	"math"
	"sort"
	"strings"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// farOff is how far from the lot's middle a thing may stand to be taken over,
// metres: a tree of 100 ft a thousand metres off rises 1.7°.
const farOff = 1000

// mostParts is what one building may be made of at most.
const mostParts = 30

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

// findLot takes the feature marked as lot, or the one unmarked outline that
// holds another outline.
func (m *mapping) findLot(features []*feature, role map[*feature]string) {
	for _, f := range features {
		if role[f] != "lot" {
			continue
		}
		switch {
		case len(f.polygons) == 0:
			m.fault(f.where(), "the lot should be a Polygon, not a %s", f.kind)
			return
		case len(f.polygons) > 1:
			m.fault(f.where(), "the lot is a MultiPolygon of %d pieces; leave in the piece the house stands on", len(f.polygons))
			return
		case m.lot != nil:
			m.fault(f.where(), "a second lot; the first is %s. Mark one of them as the lot", m.lot.where())
			return
		}
		m.lot = f
	}
	if m.lot == nil {
		m.lot = holding(features, role)
		if m.lot != nil {
			m.note("%s is taken as the lot: no feature says kind: lot, and this outline holds a building", m.lot.where())
		}
	}
	if m.lot != nil && len(m.lot.polygons[0]) > 1 {
		m.note("%s: the holes in the lot are left out", m.lot.where())
	}
}

// holding is the largest unmarked outline that holds another outline's first
// corner.
func holding(features []*feature, role map[*feature]string) *feature {
	type outline struct {
		f     *feature
		area  float64
		bound orb.Bound
	}
	var all []outline
	for _, f := range features {
		if len(f.polygons) == 1 {
			all = append(all, outline{f, math.Abs(planar.Area(f.polygons[0])), f.polygons[0].Bound()})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].area > all[j].area })
	for i, a := range all {
		if role[a.f] != "" {
			continue
		}
		for _, b := range all[i+1:] {
			if p := b.f.somewhere(); b.area < a.area && a.bound.Contains(p) && planar.RingContains(a.f.polygons[0][0], p) {
				return a.f
			}
		}
	}
	return nil
}

// middle is where the plane touches the earth: the lot's centroid, or that of
// the largest building.
func (m *mapping) middle(features []*feature, role map[*feature]string) (orb.Point, bool) {
	outline := m.lot
	if outline == nil {
		most := -1.0
		for _, f := range features {
			if len(f.polygons) == 0 {
				continue
			}
			area := math.Abs(planar.Area(f.polygons[0]))
			if role[f] == "house" {
				area += 1e6
			}
			if area > most {
				outline, most = f, area
			}
		}
	}
	if outline == nil {
		return orb.Point{}, false
	}
	r := outline.polygons[0][0]
	c, area := planar.CentroidArea(r)
	if math.Abs(area) < 1e-16 || math.IsNaN(c[0]+c[1]) || !r.Bound().Contains(c) {
		c = r.Bound().Center()
	}
	return c, true
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

// mapBuilding adds a feature's outlines to a building: each outline of a
// MultiPolygon is a part, and so are features with one id that name their
// part.
func (m *mapping) mapBuilding(buildings []*structure, byID map[string]*structure, f *feature, role string) []*structure {
	id := f.properties.text("building id", "id", "name")
	if id == "" {
		id = f.id
	}
	var b *structure
	_, isPart := f.properties.get("part")
	if key := role + "\x00" + id; isPart && id != "" {
		b = byID[key]
		if b == nil {
			b = &structure{role: role, id: id}
			byID[key] = b
			buildings = append(buildings, b)
		}
	} else {
		b = &structure{role: role, id: id}
		buildings = append(buildings, b)
	}
	for _, poly := range f.polygons {
		if len(poly) > 1 {
			m.note("%s has a courtyard; its footprint is taken without it. Draw the parts about the courtyard one by one to keep it", f.where())
		}
		ring := m.project(poly[0])
		if math.Abs(planar.Area(ring)) < 0.5 {
			m.note("%s: a footprint under half a square metre is left out", f.where())
			continue
		}
		b.parts = append(b.parts, part{f, ring})
	}
	return buildings
}

func (b *structure) area() (sum float64) {
	for _, p := range b.parts {
		sum += math.Abs(planar.Area(p.ring))
	}
	return sum
}

func (b *structure) holds(at orb.Point) bool {
	for _, p := range b.parts {
		if planar.RingContains(p.ring, at) {
			return true
		}
	}
	return false
}

func (b *structure) middle() orb.Point {
	c, _ := planar.CentroidArea(b.parts[0].ring)
	return c
}

// findHouse takes the building marked as house, or the one of greatest area
// whose middle lies on the lot; other buildings are sheds on the lot, and
// neighbours off it.
func (m *mapping) findHouse(buildings []*structure) {
	var all []*structure
	for _, b := range buildings {
		if len(b.parts) > mostParts {
			m.fault(b.parts[0].f.where(), "a building of %d parts; at most %d are read", len(b.parts), mostParts)
			return
		}
		if len(b.parts) > 0 {
			all = append(all, b)
		}
	}
	for _, b := range all {
		if b.role != "house" {
			continue
		}
		if m.house != nil {
			m.fault(b.parts[0].f.where(), "a second house; the first is %s. Mark one of them kind: house, or give both the same id and each a part", m.house.parts[0].f.where())
			return
		}
		m.house = b
	}
	onLot := func(b *structure) bool { return m.ring != nil && planar.RingContains(m.ring, b.middle()) }
	if m.house == nil {
		for _, b := range all {
			if b.role == "building" && (m.ring == nil || onLot(b)) && (m.house == nil || b.area() > m.house.area()) {
				m.house = b
			}
		}
		if m.house != nil {
			m.note("%s is taken as the house: no feature says kind: house, and it is the largest building on the lot", m.house.parts[0].f.where())
		} else {
			m.note("no building stands on the lot: the house is to be measured")
		}
	}
	for _, b := range all {
		if b == m.house {
			continue
		}
		if b.role == "building" {
			b.role = "neighbour"
			if onLot(b) {
				b.role = "shed"
			}
		}
		m.others = append(m.others, b)
	}
}

// mapTrees adds the points of a feature as trees.
func (m *mapping) mapTrees(f *feature) {
	id := f.properties.text("id", "tree id", "tag", "name")
	if id == "" {
		id = f.id
	}
	for i, p := range f.points {
		t := &treeEntry{where: f.where(), id: id, at: m.point(p), set: true, says: f.properties}
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
