package shading

import "slices"

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

// stripGrid sums up what falls on cells, by set. A row of notes is kept for
// every set and row of the face that meet; most never do.
type stripGrid struct {
	*Cells
	weight float64     // what the whole of a cell gets from the cast under way
	place  []int32     // by set × Rows + row: its number among all notes, from 1; 0 where they do not meet
	blocks [][]float64 // notes, several rows a block
	kept   int
}

const notesABlock = 64

func newStripGrid(c *Cells) *stripGrid { return &stripGrid{Cells: c} }

// add enters the stretch [low, high] of u on row r.
func (g *stripGrid) add(r int, low, high float64, set int32) {
	at := int(set)*g.Rows + r
	for at >= len(g.place) {
		g.place = append(g.place, make([]int32, (int(set)+64)*g.Rows-len(g.place))...)
	}
	if g.place[at] == 0 {
		if g.kept%notesABlock == 0 {
			g.blocks = append(g.blocks, make([]float64, notesABlock*g.length()))
		}
		g.kept++
		g.place[at] = int32(g.kept)
	}
	g.note(g.notesAt(g.place[at]), low, high, g.weight)
}

// notesAt are the notes of a number.
func (g *stripGrid) notesAt(number int32) []float64 {
	i, n := int(number-1), g.length()
	return g.blocks[i/notesABlock][i%notesABlock*n:][:n]
}

// leastNote is more than what rounding leaves of nothing in a sum of notes,
// and less than any stretch leaves.
const leastNote = 1e-12

// strips are the sums, by set and row, without the empty cells at either end.
// A cell that is partly on the face has its weight where that part is covered.
func (g *stripGrid) strips() []strip {
	var out []strip
	cells := make([]float32, g.Columns)
	for at, number := range g.place {
		if number == 0 {
			continue
		}
		start := at % g.Rows * g.Columns
		sum, first, end := 0.0, g.Columns, 0
		for c, n := range g.notesAt(number)[:g.Columns] {
			sum += n
			cells[c] = 0
			if on := g.covered[start+c]; on > 0 && sum > leastNote {
				cells[c] = float32(sum * g.Cell / on)
				first, end = min(first, c), c+1
			}
		}
		if first < end {
			out = append(out, strip{int32(at / g.Rows), int32(start + first), slices.Clone(cells[first:end])})
		}
	}
	return out
}
