package mapfile

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

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
