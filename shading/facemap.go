package shading

import (
	"math"
	"slices"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// Map is an account for every cell of a grid on one surface, so that the
// picture of any plan is a reading of it and not another cast. Cell (c, r)
// spans U0 + c·Cell and V0 + r·CellV in the face's own coordinates.
type Map struct {
	U0, V0        float64
	Cell, CellV   float64 // m
	Columns, Rows int
	account       *Account  // blockers, periods and sets
	covered       []float64 // by cell: length of the row on the face, m; 0 off the face
	ground        [12]float64
	lights        []light   // by period
	beam          [][]strip // by period, kWh/m²
	dome, band    []strip   // shares of the even sky's and of the band's light
}

// CastMap casts a surface on a grid of square cells with sides of about cell
// metres. The blockers and their numbers are the scene's.
func (sc *Scene) CastMap(surface *Surface, cell float64, year *sun.Year, model sky.Model) *Map {
	p := sc.plateOf(surface, cell, []float64{0.5})
	m := &Map{U0: p.uMin, V0: p.vMin, CellV: p.step, account: &Account{Blockers: sc.Blockers, Periods: periodsOf(sc.Blockers)}}
	if len(p.combs) == 0 {
		return m
	}
	m.Columns = int(math.Ceil((p.uMax-p.uMin)/cell - 1e-9))
	m.Cell = (p.uMax - p.uMin) / float64(m.Columns)
	m.Rows = len(p.combs[0].rows)
	m.cover(p)
	periods := m.account.Periods
	m.lights, m.beam = make([]light, len(periods)), make([][]strip, len(periods))
	ground := make([]float64, len(periods))
	sets := make([][][]uint16, len(periods)+1)
	hours := momentsOf(year)
	// One task a period, and a last one for the sky, whose shares serve all.
	inParallel(len(periods)+1, func(task int) {
		s := newSweeper(p, len(sc.Blockers))
		s.every = true
		if task == len(periods) {
			m.dome, m.band = sc.mapSky(m, s)
			sets[task] = s.sets.sets
			return
		}
		g := newStripGrid(m)
		var rays []ray
		first := (periods[task].First - 1) * 24
		for i := first; i < first+24*periods[task].Days; i++ {
			h := &year.Hours[i]
			if h.Global <= 0 && h.Beam <= 0 && h.Diffuse <= 0 {
				continue
			}
			on := sky.OnPlane(*h, surface.Face.N, model)
			m.lights[task].dome += on.Dome / 1000
			m.lights[task].band += on.Horizon / 1000
			ground[task] += on.Ground / 1000
			direct := (on.Beam + on.Circumsolar) / 1000
			if direct <= 0 {
				continue
			}
			rays = hours.rays(i, i/24, surface.Face.N, rays[:0])
			for _, r := range rays {
				if !sc.hidden(r.direction) {
					g.weight = direct * r.share
					s.cast(r.direction, g.add)
				}
			}
		}
		m.beam[task] = g.strips()
		sets[task] = s.sets.sets
	})
	for p := range periods {
		m.ground[periods[p].Month-1] += ground[p]
	}
	m.number(sets)
	return m
}

// mapSky casts every patch of the sky.
func (sc *Scene) mapSky(m *Map, s *sweeper) (dome, band []strip) {
	patches := Dome()
	ofDome, ofBand := domeWeights(patches, s.p.face.N)
	whole, low := newStripGrid(m), newStripGrid(m)
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

// cover notes how much of every cell is on the face.
func (m *Map) cover(p *plate) {
	m.covered = make([]float64, m.Columns*m.Rows)
	for i := range m.covered {
		m.covered[i] = 1
	}
	g := newStripGrid(m)
	g.weight = 1
	for r, line := range p.combs[0].rows {
		for j := 0; j+1 < len(line.spans); j += 2 {
			g.add(r, line.spans[j], line.spans[j+1], 0)
		}
	}
	clear(m.covered)
	for _, s := range g.strips() {
		for i, length := range s.each {
			m.covered[int(s.first)+i] = float64(length)
		}
	}
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
	for month, e := range m.ground {
		if wanted(months, time.Month(month+1)) {
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
	for at, length := range m.covered {
		if length <= 0 {
			out[at] = math.NaN()
		}
	}
	return out
}
