package shading

import (
	"math"
	"slices"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// Map is an account for every cell of a grid on one surface, so that the
// picture of any plan is a reading of it and not another cast. The corner of
// cell (c, r) is at U0 + c·Cell, V0 + r·Cell in the face's own coordinates.
type Map struct {
	U0, V0        float64
	Cell          float64 // side of a cell, m
	Columns, Rows int
	account       *Account // blockers, periods and sets
	cells         []mapCell
}

// mapCell is one cell's part; covered is 0 outside the face.
type mapCell struct {
	covered float64
	fixed   [12]float64 // ground-reflected, kWh/m²
	terms   []mapTerm
}

type mapTerm struct {
	period uint16
	set    int32
	energy float32 // kWh/m²
}

// CastMap casts a surface on a grid of square cells with sides of at most
// cell metres. The blockers and their numbers are the scene's.
func (sc *Scene) CastMap(surface *Surface, cell float64, year *sun.Year, model sky.Model) *Map {
	p := sc.plateOf(surface, cell)
	m := &Map{U0: p.uMin, V0: p.vMin, Cell: p.step, account: &Account{Blockers: sc.Blockers, Periods: periodsOf(sc.Blockers)}}
	if p.total <= 0 {
		return m
	}
	m.Columns = int(math.Ceil((p.uMax-p.uMin)/m.Cell - 1e-9))
	m.Rows = int(math.Round((p.vMax - p.vMin) / p.step))
	m.cells = make([]mapCell, m.Columns*m.Rows)
	rowOf := make([]int, len(p.rows))
	for r, line := range p.rows {
		rowOf[r] = min(m.Rows-1, int((line.v-p.vMin)/p.step))
		for j := 0; j+1 < len(line.spans); j += 2 {
			m.across(line.spans[j], line.spans[j+1], func(c int, length float64) {
				m.cells[rowOf[r]*m.Columns+c].covered += length
			})
		}
	}
	patches := Dome()
	dome, band := domeWeights(patches, surface.Face.N)
	type part struct {
		sets  [][]uint16
		cells []map[int32]float32
	}
	periods := m.account.Periods
	parts := make([]part, len(periods)+1)
	ground := make([][12]float64, len(periods))
	type light struct{ dome, band float64 }
	lights := make([]light, len(periods))
	// One task a period, and a last one for the sky, whose shares serve all.
	var skyDome, skyBand []map[int32]float32
	inParallel(len(periods)+1, func(task int) {
		s := newSweeper(p, len(sc.Blockers))
		s.every = true
		if task == len(periods) {
			skyDome, skyBand = m.grid(), m.grid()
			for i, patch := range patches {
				if sc.hidden(patch.Direction) || patch.Direction.Dot(surface.Face.N) <= 1e-9 {
					continue
				}
				s.cast(patch.Direction, func(r int, low, high float64, set int32) {
					m.across(low, high, func(c int, length float64) {
						at := rowOf[r]*m.Columns + c
						w := length / m.cells[at].covered
						put(skyDome, at, set, dome[i]*w)
						put(skyBand, at, set, band[i]*w)
					})
				})
			}
			parts[task] = part{s.sets.sets, nil}
			return
		}
		cells := m.grid()
		first := (periods[task].First - 1) * 24
		for i := first; i < first+24*periods[task].Days; i++ {
			h := &year.Hours[i]
			if h.Global <= 0 && h.Beam <= 0 && h.Diffuse <= 0 {
				continue
			}
			on := sky.OnPlane(*h, surface.Face.N, model)
			lights[task].dome += on.Dome / 1000
			lights[task].band += on.Horizon / 1000
			ground[task][periods[task].Month-1] += on.Ground / 1000
			d, ok := ray(h, surface.Face.N)
			direct := (on.Beam + on.Circumsolar) / 1000
			if !ok || direct <= 0 || sc.hidden(d) {
				continue
			}
			s.cast(d, func(r int, low, high float64, set int32) {
				m.across(low, high, func(c int, length float64) {
					at := rowOf[r]*m.Columns + c
					put(cells, at, set, direct*length/m.cells[at].covered)
				})
			})
		}
		parts[task] = part{s.sets.sets, cells}
	})
	m.merge(parts[len(periods)].sets, func(number []int32) {
		for at := range m.cells {
			for p := range periods {
				for set, share := range skyDome[at] {
					e := float64(share)*lights[p].dome + float64(skyBand[at][set])*lights[p].band
					if e > 0 {
						m.cells[at].terms = append(m.cells[at].terms, mapTerm{uint16(p), number[set], float32(e)})
					}
				}
			}
		}
	})
	for p := range periods {
		m.merge(parts[p].sets, func(number []int32) {
			for at := range m.cells {
				for month := range ground[p] {
					m.cells[at].fixed[month] += ground[p][month]
				}
				for set, e := range parts[p].cells[at] {
					m.cells[at].terms = append(m.cells[at].terms, mapTerm{uint16(p), number[set], e})
				}
			}
		})
	}
	m.finish()
	return m
}

func (m *Map) grid() []map[int32]float32 { return make([]map[int32]float32, m.Columns*m.Rows) }

func put(cells []map[int32]float32, at int, set int32, e float64) {
	if cells[at] == nil {
		cells[at] = map[int32]float32{}
	}
	cells[at][set] += float32(e)
}

// across calls visit for every column the stretch [low, high] of u runs
// through, with its length there.
func (m *Map) across(low, high float64, visit func(c int, length float64)) {
	first := max(0, int((low-m.U0)/m.Cell))
	for c := first; c < m.Columns; c++ {
		a, b := m.U0+float64(c)*m.Cell, m.U0+float64(c+1)*m.Cell
		if a >= high {
			return
		}
		if length := min(b, high) - max(a, low); length > 0 {
			visit(c, length)
		}
	}
}

// merge renumbers a part's sets into the map's.
func (m *Map) merge(sets [][]uint16, enter func(number []int32)) {
	t := newSetTable()
	for _, set := range m.account.Sets {
		t.id(set)
	}
	number := make([]int32, len(sets))
	for i, set := range sets {
		number[i] = t.id(set)
	}
	m.account.Sets = t.sets
	enter(number)
}

// finish sorts every cell's terms, adds up equal ones and notes which sets
// each period needs.
func (m *Map) finish() {
	need := make([]map[int32]bool, len(m.account.Periods))
	for p := range need {
		need[p] = map[int32]bool{}
	}
	for at := range m.cells {
		terms := m.cells[at].terms
		slices.SortFunc(terms, func(x, y mapTerm) int {
			if x.period != y.period {
				return int(x.period) - int(y.period)
			}
			return int(x.set) - int(y.set)
		})
		kept := terms[:0]
		for _, t := range terms {
			if n := len(kept); n > 0 && kept[n-1].period == t.period && kept[n-1].set == t.set {
				kept[n-1].energy += t.energy
				continue
			}
			need[t.period][t.set] = true
			kept = append(kept, t)
		}
		m.cells[at].terms = kept
	}
	m.account.used = make([][]int32, len(need))
	for p, sets := range need {
		for set := range sets {
			m.account.used[p] = append(m.account.used[p], set)
		}
	}
}

// Read is the sun of every cell in a state, kWh/m² in the given months (none:
// the year), row by row from the bottom; NaN where a cell is off the face.
func (m *Map) Read(s State, months ...time.Month) []float64 {
	passed := m.account.passed(s)
	out := make([]float64, len(m.cells))
	for at := range m.cells {
		cell := &m.cells[at]
		if cell.covered <= 0 {
			out[at] = math.NaN()
			continue
		}
		for month, e := range cell.fixed {
			if len(months) == 0 || slices.Contains(months, time.Month(month+1)) {
				out[at] += e
			}
		}
		for _, t := range cell.terms {
			if len(months) == 0 || slices.Contains(months, m.account.Periods[t.period].Month) {
				out[at] += float64(t.energy) * passed[t.period][t.set]
			}
		}
	}
	return out
}
