package mapfile

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// mostParts is what one building may be made of at most.
const mostParts = 30

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

// structure is a building of the map.
type structure struct {
	role     string // house, neighbour, porch, shed
	id       string
	parts    []part
	chimneys []chimney
}

// part is one footprint with what the map says of it.
type part struct {
	f    *feature
	ring orb.Ring
}

type chimney struct {
	f  *feature
	at orb.Point
}
