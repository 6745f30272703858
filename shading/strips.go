package shading

// strip is what comes through one set of blockers to neighbouring cells of a
// row of a map. A reading multiplies whole strips.
type strip struct {
	set   int32
	first int32 // cell
	each  []float32
}

// lay adds every strip, times its set's factor, to the cells.
func lay(cells []float64, strips []strip, factor []float64) {
	for i := range strips {
		s := &strips[i]
		f := factor[s.set]
		if f == 0 {
			continue
		}
		to := cells[s.first : int(s.first)+len(s.each)]
		for c, e := range s.each {
			to[c] += f * float64(e)
		}
	}
}

// stripGrid sums up what falls on the cells of a map, by set. A row of cells is
// kept for every set and row of the face that meet; most never do.
type stripGrid struct {
	m      *Map
	weight float64     // what the whole of a cell gets from the cast under way
	rows   [][]float32 // by set × Rows + row; nil where they do not meet
}

func newStripGrid(m *Map) *stripGrid { return &stripGrid{m: m} }

// add enters the stretch [low, high] of u on row r.
func (g *stripGrid) add(r int, low, high float64, set int32) {
	m := g.m
	at := int(set)*m.Rows + r
	for at >= len(g.rows) {
		g.rows = append(g.rows, make([][]float32, (int(set)+64)*m.Rows-len(g.rows))...)
	}
	cells := g.rows[at]
	if cells == nil {
		cells = make([]float32, m.Columns)
		g.rows[at] = cells
	}
	covered := m.covered[r*m.Columns : (r+1)*m.Columns]
	from, to := (low-m.U0)/m.Cell, (high-m.U0)/m.Cell
	first, last := max(0, int(from)), min(m.Columns-1, int(to))
	for c := first; c <= last; c++ {
		length := (min(float64(c+1), to) - max(float64(c), from)) * m.Cell
		if length > 0 && covered[c] > 0 {
			cells[c] += float32(g.weight * length / covered[c])
		}
	}
}

// strips are the sums, by set and row, without the empty cells at either end.
func (g *stripGrid) strips() []strip {
	var out []strip
	for at, cells := range g.rows {
		first, last := 0, len(cells)
		for first < last && cells[first] == 0 {
			first++
		}
		for last > first && cells[last-1] == 0 {
			last--
		}
		if first == last {
			continue
		}
		s := strip{set: int32(at / g.m.Rows), first: int32(at%g.m.Rows*g.m.Columns + first)}
		s.each = append(s.each, cells[first:last]...)
		out = append(out, s)
	}
	return out
}
