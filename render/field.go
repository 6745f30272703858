package render

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// Grid is a map of values on level rows of cells, in the metres of the drawing
// it lies on.
type Grid struct {
	Origin     orb.Point // lower left corner of the first cell
	Cell       float64   // width of a cell, metres
	High       float64   // height of a cell, metres; 0: as wide
	Cols, Rows int
	Values     []float64 // Cols × Rows, the lowest row first, each from the left; NaN where there is none
}

// high is the height of a cell.
func (g *Grid) high() float64 {
	if g.High > 0 {
		return g.High
	}
	return g.Cell
}

// middle is the middle of a cell of the padded grid.
func (g *Grid) middle(c, r float64) (x, y float64) {
	return g.Origin[0] + g.Cell*(c-0.5), g.Origin[1] + g.high()*(r-0.5)
}

func (g *Grid) valid() bool {
	return g != nil && g.Cols > 0 && g.Rows > 0 && g.Cell > 0 && len(g.Values) == g.Cols*g.Rows
}

// Range of the values; 0, 0 where there are none.
func (g *Grid) Range() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	if g.valid() {
		for _, v := range g.Values {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	if lo > hi {
		return 0, 0
	}
	return lo, hi
}

// padded is the grid with its edge repeated once all round and holes filled
// from their neighbours, so that classes run out under what is drawn over
// them. Values stand at cell centres.
func (g *Grid) padded() (z []float64, cols, rows int) {
	cols, rows = g.Cols+2, g.Rows+2
	z = make([]float64, cols*rows)
	for r := range rows {
		for c := range cols {
			v := g.Values[min(max(r-1, 0), g.Rows-1)*g.Cols+min(max(c-1, 0), g.Cols-1)]
			if math.IsInf(v, 0) {
				v = math.NaN()
			}
			z[r*cols+c] = v
		}
	}
	var holes []int
	for i, v := range z {
		if math.IsNaN(v) {
			holes = append(holes, i)
		}
	}
	for range cols + rows { // each round fills one ring of a hole
		left := false
		next := append([]float64(nil), z...)
		for i, v := range z {
			if !math.IsNaN(v) {
				continue
			}
			sum, n := 0.0, 0
			for _, d := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				c, r := i%cols+d[0], i/cols+d[1]
				if c >= 0 && c < cols && r >= 0 && r < rows && !math.IsNaN(z[r*cols+c]) {
					sum, n = sum+z[r*cols+c], n+1
				}
			}
			if n > 0 {
				next[i] = sum / float64(n)
			} else {
				left = true
			}
		}
		z = next
		if !left {
			break
		}
	}
	smooth(z, cols, rows, holes)
	return z, cols, rows
}

// smooth evens out what was filled in, so that limits run on under what is
// drawn over the hole as they come up to it. A hundred rounds are enough for a
// window; of a larger hole only the rim shows.
func smooth(z []float64, cols, rows int, holes []int) {
	for range 100 {
		for _, i := range holes {
			sum, n := 0.0, 0
			for _, d := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				if c, r := i%cols+d[0], i/cols+d[1]; c >= 0 && c < cols && r >= 0 && r < rows && !math.IsNaN(z[r*cols+c]) {
					sum, n = sum+z[r*cols+c], n+1
				}
			}
			if n > 0 {
				z[i] = sum / float64(n)
			}
		}
	}
}

// field draws the grid as areas between class limits with a thin line at each
// limit, and letters the limit on its line. to turns metres into points; box
// bounds what is drawn.
func (s *sheet) field(g *Grid, breaks []float64, halves bool, to func(x, y float64) ink.Point, box ink.Box) {
	if !g.valid() || len(breaks) < 2 {
		return
	}
	z, cols, rows := g.padded()
	if math.IsNaN(z[0]) {
		return // no values at all
	}
	at := func(c, r float64) ink.Point {
		return to(g.middle(c, r))
	}
	page := ink.Clip(s.Page, box)
	least := slices.Min(z)
	first := 1 // what lies under another class everywhere is not drawn
	for first < len(breaks)-1 && least >= breaks[first] {
		first++
	}
	page.Path(ink.Rectangle(box.X0, box.Y0, box.W(), box.H()), area(classColour(first-1, breaks)))
	for k := first; k < len(breaks)-1; k++ {
		fill, _ := above(z, cols, rows, breaks[k], at)
		page.Path(fill, ink.Style{Fill: classColour(k, breaks), Winding: true})
	}
	for k := 1; k < len(breaks)-1; k++ {
		_, edge := above(z, cols, rows, breaks[k], at)
		ec := black
		if lightness(classColour(k, breaks)) < 45 {
			ec = ink.Paper
		}
		page.Path(edge, ink.Style{Stroke: ec, Width: hair, Round: true})
	}
	for _, level := range halfway(g, breaks, halves) {
		_, edge := above(z, cols, rows, level, at)
		ec := black
		if k := sort.SearchFloat64s(breaks, level) - 1; lightness(classColour(k, breaks)) < 45 {
			ec = ink.Paper
		}
		page.Path(dotted(edge), ink.Style{Stroke: ec, Width: 0.4, Round: true})
	}
}

func meetsAny(b ink.Box, list []ink.Box) bool {
	for _, o := range list {
		if b.Meets(o) {
			return true
		}
	}
	return false
}

// covers tells whether the four corners of a box lie in an area.
func covers(p ink.Path, b ink.Box) bool {
	for _, q := range []ink.Point{{X: b.X0, Y: b.Y0}, {X: b.X1, Y: b.Y0}, {X: b.X0, Y: b.Y1}, {X: b.X1, Y: b.Y1}} {
		if !contains(p, q) {
			return false
		}
	}
	return true
}

// contains tells whether a point lies in an area.
func contains(p ink.Path, q ink.Point) bool {
	in := false
	for _, r := range p {
		for i, a := range r.Points {
			e := r.Points[(i+1)%len(r.Points)]
			if (a.Y > q.Y) != (e.Y > q.Y) && q.X < a.X+(e.X-a.X)*(q.Y-a.Y)/(e.Y-a.Y) {
				in = !in
			}
		}
	}
	return in
}

// classColour is the colour of class k, between breaks k and k+1.
func classColour(k int, breaks []float64) ink.Colour {
	n := len(breaks) - 1
	if n <= 1 {
		return sunColour(1)
	}
	return sunColour(float64(k) / float64(n-1))
}
