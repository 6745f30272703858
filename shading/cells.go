package shading

import "math"

// Cells is a grid on a surface. Cell (c, r) spans U0 + c·Cell and V0 + r·CellV
// in the face's own coordinates; values are listed row by row from the bottom.
type Cells struct {
	U0, V0        float64
	Cell, CellV   float64 // m
	Columns, Rows int
	covered       []float64 // by cell: length of the row on the face, m; 0 off the face
}

// cellsOf lays cells with sides of about so many metres on a plate whose rows
// run through their middles. A plate without rows gets none.
func cellsOf(p *plate, side float64) Cells {
	c := Cells{U0: p.uMin, V0: p.vMin, CellV: p.step}
	if len(p.combs) == 0 {
		return c
	}
	c.Columns = int(math.Ceil((p.uMax-p.uMin)/side - 1e-9))
	c.Cell = (p.uMax - p.uMin) / float64(c.Columns)
	c.Rows = len(p.combs[0].rows)
	c.covered = make([]float64, 0, c.Columns*c.Rows)
	notes := make([]float64, c.length())
	for _, line := range p.combs[0].rows {
		clear(notes)
		for j := 0; j+1 < len(line.spans); j += 2 {
			c.note(notes, line.spans[j], line.spans[j+1], c.Cell)
		}
		length := 0.0
		for _, n := range notes[:c.Columns] {
			length += n
			c.covered = append(c.covered, max(0, length))
			if length < 1e-9 { // what rounding leaves of nothing
				c.covered[len(c.covered)-1] = 0
			}
		}
	}
	return c
}

// length is how many notes a row of cells takes. A note is not how much a cell
// has, but how much more than the one on its left, so that a stretch costs the
// same however long it is.
func (c *Cells) length() int { return c.Columns + 2 }

// note enters in a row's notes that the stretch [low, high] of u brings each
// cell the weight, or its part where it covers a part.
func (c *Cells) note(notes []float64, low, high, weight float64) {
	rise(notes, (low-c.U0)/c.Cell, weight)
	rise(notes, (high-c.U0)/c.Cell, -weight)
}

// rise enters that from x on, in cells from the left, a cell has so much more.
func rise(notes []float64, x, weight float64) {
	x = max(0, min(x, float64(len(notes)-2)))
	i := int(x)
	after := weight * (x - float64(i))
	notes[i] += weight - after
	notes[i+1] += after
}

// blank marks the cells off the face.
func (c *Cells) blank(values []float64) {
	for at, length := range c.covered {
		if length <= 0 {
			values[at] = math.NaN()
		}
	}
}
