package ink

import (
	"math/bits"

	"golang.org/x/image/math/fixed"
)

// coverage finds out how much of each dot of a sheet lies inside a path. Every
// line enters, at the dots it passes, the area that lies to its right; the
// running sum along a row is then the area covered (the way of the "smooth"
// module of FreeType and of R. Levien's font-rs, 2016). Only rows and blocks of
// dots that hold a line are visited, so a long thin path costs what its lines
// do and not the sheet around it.
//
// It is a raster.Adder, to take the outlines of strokes from raster.Stroke.
type coverage struct {
	w, h  int
	enter []int32  // by dot: what the sum changes by there, in parts of whole
	busy  []uint64 // by row: the blocks of dots that hold a change
	block int      // dots in a block, so many that a row has at most 64
	first int      // rows that hold a change
	last  int

	pen, start fixed.Point26_6
}

const (
	sub   = 64            // steps of a place within a dot, as fixed.Int26_6 has them
	whole = sub * 2 * sub // of a dot covered
	full  = 255           // share of a dot wholly covered, as sweep gives it
)

// fit makes it ready for a sheet of w × h dots.
func (c *coverage) fit(w, h int) {
	c.w, c.h, c.block = w, h, (w+63)/64
	c.enter, c.busy = cleared(c.enter, w*h), cleared(c.busy, h)
	c.forget()
}

func (c *coverage) forget() {
	c.first, c.last = c.h, -1
	c.pen, c.start = fixed.Point26_6{}, fixed.Point26_6{}
}

// cleared gives n zeros, in the old place if that is large enough.
func cleared[T int32 | uint64](old []T, n int) []T {
	if cap(old) < n {
		return make([]T, n)
	}
	old = old[:n]
	clear(old)
	return old
}

// Start begins a ring; the one before is closed.
func (c *coverage) Start(a fixed.Point26_6) {
	c.close()
	c.pen, c.start = a, a
}

func (c *coverage) close() {
	if c.pen != c.start {
		c.Add1(c.start)
	}
}

// Add1 goes straight to b.
func (c *coverage) Add1(b fixed.Point26_6) {
	a, down := c.pen, int32(1)
	c.pen = b
	if a.Y > b.Y {
		a, b, down = b, a, -1
	}
	top, foot := max(int(a.Y), 0), min(int(b.Y), c.h*sub)
	if top >= foot {
		return
	}
	c.first, c.last = min(c.first, top/sub), max(c.last, (foot-1)/sub)
	const bits, half = 24, 1 << 23
	slope := int64(b.X-a.X) << bits / int64(b.Y-a.Y)
	at := func(y int) int { return int(a.X) + int((int64(y-int(a.Y))*slope+half)>>bits) }
	x := at(top)
	for y := top; y < foot; {
		next := min((y/sub+1)*sub, foot)
		to := int(b.X)
		if next != int(b.Y) {
			to = at(next)
		}
		c.cross(y/sub, x, to, int32(next-y)*down)
		x, y = to, next
	}
}

// cross enters a line within one row, from x0 to x1 and dy down. Its height is
// shared out over the dots by its width on each.
func (c *coverage) cross(row, x0, x1 int, dy int32) {
	if x0 > x1 {
		x0, x1 = x1, x0
	}
	col, end := x0>>6, x1>>6
	if col == end {
		c.put(row, col, dy, int32(x0&(sub-1)+x1&(sub-1)))
		return
	}
	done := int32(0)
	for ; col <= end; col++ {
		from, to := max(x0-col*sub, 0), min(x1-col*sub, sub)
		until := dy * int32(col*sub+to-x0) / int32(x1-x0)
		if until != done {
			c.put(row, col, until-done, int32(from+to))
			done = until
		}
	}
}

// put enters a line of height dy in a dot; twice is twice its mean place in it.
func (c *coverage) put(row, col int, dy, twice int32) {
	if col >= c.w {
		return
	}
	if col < 0 { // to the left of the sheet: covers the row from its beginning
		col, twice = 0, 0
	}
	i := row*c.w + col
	c.enter[i] += dy * (2*sub - twice)
	c.busy[row] |= 1 << (col / c.block)
	if twice != 0 && col+1 < c.w {
		c.enter[i+1] += dy * twice
		c.busy[row] |= 1 << ((col + 1) / c.block)
	}
}

// Add2 goes to d by a quadratic curve drawn to b, off it by at most 1/16 dot.
func (c *coverage) Add2(b, d fixed.Point26_6) {
	a := c.pen
	n := pieces(bend(a, b, d))
	for k := 1; k < n; k++ {
		t, u := k, n-k
		mix := func(a, b, d fixed.Int26_6) fixed.Int26_6 {
			return fixed.Int26_6((u*u*int(a) + 2*u*t*int(b) + t*t*int(d)) / (n * n))
		}
		c.Add1(fixed.Point26_6{X: mix(a.X, b.X, d.X), Y: mix(a.Y, b.Y, d.Y)})
	}
	c.Add1(d)
}

// Add3 goes to e by a cubic curve drawn to b and d.
func (c *coverage) Add3(b, d, e fixed.Point26_6) {
	a := c.pen
	n := pieces(3 * max(bend(a, b, d), bend(b, d, e)))
	for k := 1; k < n; k++ {
		t, u := k, n-k
		mix := func(a, b, d, e fixed.Int26_6) fixed.Int26_6 {
			return fixed.Int26_6((u*u*u*int(a) + 3*u*u*t*int(b) + 3*u*t*t*int(d) + t*t*t*int(e)) / (n * n * n))
		}
		c.Add1(fixed.Point26_6{X: mix(a.X, b.X, d.X, e.X), Y: mix(a.Y, b.Y, d.Y, e.Y)})
	}
	c.Add1(e)
}

// bend is the second difference of three points: n equal pieces of a quadratic
// curve are off it by bend / 4n² at most.
func bend(a, b, d fixed.Point26_6) int {
	x, y := int(a.X)-2*int(b.X)+int(d.X), int(a.Y)-2*int(b.Y)+int(d.Y)
	return max(x, -x, y, -y)
}

func pieces(bend int) int {
	const most = 64 // keeps a curve far off the sheet from taking long
	n := 1
	for n < most && bend > sub/4*n*n {
		n++
	}
	return n
}

// sweep gives every run of dots covered alike, from the top down, with the
// share covered in 1..full, and forgets the path. With winding, rings that turn
// alike are united where they overlap; else every second layer is a hole.
func (c *coverage) sweep(winding bool, paint func(y, x0, x1 int, share uint32)) {
	c.close()
	for y := c.first; y <= c.last; y++ {
		row := c.enter[y*c.w : (y+1)*c.w]
		sum, from := int32(0), 0
		for busy := c.busy[y]; busy != 0; busy &= busy - 1 {
			b := bits.TrailingZeros64(busy)
			for x := b * c.block; x < min((b+1)*c.block, c.w); x++ {
				if row[x] == 0 {
					continue
				}
				if s := share(sum, winding); s > 0 && from < x {
					paint(y, from, x, s)
				}
				sum, from = sum+row[x], x
				row[x] = 0
			}
		}
		if s := share(sum, winding); s > 0 {
			paint(y, from, c.w, s) // its right end lies beyond the sheet
		}
		c.busy[y] = 0
	}
	c.forget()
}

func share(sum int32, winding bool) uint32 {
	s := uint32(max(sum, -sum))
	if winding {
		s = min(s, whole)
	} else if s %= 2 * whole; s > whole {
		s = 2*whole - s
	}
	return (s*full + whole/2) / whole
}
