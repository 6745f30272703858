package shading

import (
	"slices"
	"time"

	"github.com/golang/geo/r3"
)

// Map is an account for every cell of a grid on one surface, so that the
// picture of any plan is a reading of it and not another cast.
type Map struct {
	Cells
	account    *Account // blockers, periods and sets
	ground     []float64
	lights     []lightIn // by period
	beam       [][]strip // by period, kWh/m²
	dome, band []strip   // shares of the even sky's and of the band's light
}

// CastMap casts a surface on a grid of cells with sides of about cell metres. The blockers and their numbers are the scene's.
func (sc *Scene) CastMap(surface *Surface, cell float64, light *Light) *Map {
	p := sc.plateOf(surface, cell, []float64{0.5})
	m := &Map{Cells: cellsOf(p, cell), account: &Account{Blockers: sc.Blockers, Periods: periodsOf(sc.Blockers)}}
	if m.Columns == 0 {
		return m
	}
	periods := m.account.Periods
	plane := light.on(surface.Face.N)
	m.lights, m.ground, m.beam = make([]lightIn, len(periods)), make([]float64, len(periods)), make([][]strip, len(periods))
	sets := make([][][]uint16, len(periods)+1)
	// One task a period, and a last one for the sky, whose shares serve all.
	inParallel(len(periods)+1, func(task int) {
		s := newSweeper(p, len(sc.Blockers))
		s.every = true
		if task == len(periods) {
			m.dome, m.band = sc.mapSky(m, s)
		} else {
			g := newStripGrid(&m.Cells)
			m.lights[task], m.ground[task] = plane.in(periods[task])
			plane.cast(sc, periods[task], 1, func(direction r3.Vector, energy float64) {
				g.weight = energy
				s.cast(direction, g.add)
			})
			m.beam[task] = g.strips()
		}
		sets[task] = s.sets.sets
	})
	m.number(sets)
	return m
}

// mapSky casts every patch of the sky.
func (sc *Scene) mapSky(m *Map, s *sweeper) (dome, band []strip) {
	patches := Dome()
	ofDome, ofBand := domeWeights(patches, s.p.face.N)
	whole, low := newStripGrid(&m.Cells), newStripGrid(&m.Cells)
	for i, patch := range patches {
		if sc.hidden(patch.Direction) || patch.Direction.Dot(s.p.face.N) <= 1e-9 {
			continue
		}
		whole.weight, low.weight = ofDome[i], ofBand[i]
		s.cast(patch.Direction, func(r int, a, b float64, set int32) {
			whole.add(r, a, b, set)
			if patch.Low {
				low.add(r, a, b, set)
			}
		})
	}
	return whole.strips(), low.strips()
}

// number renumbers the sets of every task into the map's own and notes which
// each period needs.
func (m *Map) number(sets [][][]uint16) {
	t := newSetTable()
	renumber := func(strips []strip, sets [][]uint16) (used []int32) {
		for i := range strips {
			strips[i].set = t.id(sets[strips[i].set])
			if n := len(used); n == 0 || used[n-1] != strips[i].set {
				used = append(used, strips[i].set)
			}
		}
		return used
	}
	last := len(m.beam)
	always := append(renumber(m.dome, sets[last]), renumber(m.band, sets[last])...)
	m.account.used = make([][]int32, len(m.beam))
	for p := range m.beam {
		used := append(renumber(m.beam[p], sets[p]), always...)
		slices.Sort(used)
		m.account.used[p] = slices.Compact(used)
	}
	m.account.Sets = t.sets
}

// Read is the sun of every cell in a state, kWh/m² in the given months (none:
// the year), row by row from the bottom; NaN where a cell is off the face.
func (m *Map) Read(s State, months ...time.Month) []float64 {
	out := make([]float64, len(m.covered))
	through := m.account.passing(s)
	dome, band := make([]float64, len(m.account.Sets)), make([]float64, len(m.account.Sets))
	fixed := 0.0
	for p, e := range m.ground {
		if wanted(months, m.account.Periods[p].Month) {
			fixed += e
		}
	}
	for i := range out {
		out[i] = fixed
	}
	for p := range m.beam {
		if !wanted(months, m.account.Periods[p].Month) {
			continue
		}
		passed := through.in(p)
		for _, set := range m.account.used[p] {
			dome[set] += m.lights[p].dome * passed[set]
			band[set] += m.lights[p].band * passed[set]
		}
		lay(out, m.beam[p], passed)
	}
	lay(out, m.dome, dome)
	lay(out, m.band, band)
	m.blank(out)
	return out
}
