package shading

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/golang/geo/r3"
)

// Entry is a share of a surface's area, 0..1, that has exactly the blockers of
// a set between it and the sun.
type Entry struct {
	Set   int32
	Share float64
}

// Ledger says who stands in the way: for every surface and every direction the
// sets of blockers crossed and the share of the surface behind each. What the
// house itself or the land hides is in no entry, so the shares of one
// direction add up to at most 1. It holds no transmissivity: what passes a
// blocker depends on the date and the plan, not on the ray.
type Ledger struct {
	Sets     [][]uint16 // set → blocker numbers, ascending; set 0 is empty
	Surfaces []SurfaceLedger
}

// SurfaceLedger is the ledger of one surface. Lines[i] belongs to the i-th
// direction of the cast; a line is empty when that direction is behind the
// surface, below the horizon, or wholly hidden.
type SurfaceLedger struct {
	Lines [][]Entry
}

// Casting says how finely to cast.
type Casting struct {
	Row  float64 // greatest height of a row, m; 0 for 6 inches
	Rows int     // least number of rows on a surface, where Row alone would give fewer; 0 for 8

	Rays int // directions an hour is cast in; 0 for 2

	heights []float64 // where rows lie in their strips; nil for five places in turn
}

// fewestRows a surface is cut into, however low it is.
const fewestRows = 8

// rays is in how many directions an hour is cast.
func (c Casting) rays() int {
	if c.Rays > 0 {
		return c.Rays
	}
	return raysAnHour
}

// step is the height of a row on a surface.
func (c Casting) step(s *Surface) float64 {
	return min(c.Row, s.Face.Height()/float64(c.Rows))
}

// SixInches is the row height unless another is asked for.
const SixInches = 0.1524

// Aim gives the direction to cast for surface number surface and moment i; ok
// is false when there is nothing to cast.
type Aim func(surface, i int) (direction r3.Vector, ok bool)

// Cast fills the ledger of the given surfaces for n moments. It uses all
// processors; the result does not depend on how many there are.
func (sc *Scene) Cast(surfaces []int, n int, aim Aim, how Casting) *Ledger {
	return sc.castLines(surfaces, n, func(surface, i int, out []ray) []ray {
		if d, ok := aim(surface, i); ok {
			out = append(out, ray{d, 1})
		}
		return out
	}, how)
}

// aims appends the rays that make line i of a surface.
type aims func(surface, i int, out []ray) []ray

// castLines is Cast with any number of rays a line.
func (sc *Scene) castLines(surfaces []int, n int, aim aims, how Casting) *Ledger {
	if how.Row <= 0 {
		how.Row = SixInches
	}
	if how.Rows <= 0 {
		how.Rows = fewestRows
	}
	if how.heights == nil {
		how.heights = fiveCombs
	}
	const chunk = 2048 // moments a task: enough to share sets, small enough to spread
	chunks := (n + chunk - 1) / chunk
	plates := make([]*plate, len(surfaces))
	inParallel(len(surfaces), func(i int) {
		s := &sc.Surfaces[surfaces[i]]
		plates[i] = sc.plateOf(s, how.step(s), how.heights)
	})
	type part struct {
		sets  [][]uint16
		lines [][]Entry
	}
	parts := make([]part, len(surfaces)*chunks)
	inParallel(len(parts), func(task int) {
		which, from := task/chunks, task%chunks*chunk
		p := plates[which]
		to := min(from+chunk, n)
		lines := make([][]Entry, to-from)
		if len(p.combs) == 0 {
			parts[task] = part{[][]uint16{nil}, lines}
			return
		}
		s := newSweeper(p, len(sc.Blockers))
		c := collector{}
		var rays []ray
		for i := from; i < to; i++ {
			rays = aim(surfaces[which], i, rays[:0])
			for k, r := range rays {
				if sc.hidden(r.direction) || r.direction.Dot(p.face.N) <= 1e-9 {
					continue
				}
				s.take(i + k*n)
				c.share = r.share / s.comb.total
				open := s.cast(r.direction, c.add)
				if open > 0 {
					c.add(0, 0, open, 0)
				}
			}
			lines[i-from] = c.entries()
		}
		parts[task] = part{s.sets.sets, lines}
	})
	whole := newSetTable()
	l := &Ledger{Surfaces: make([]SurfaceLedger, len(surfaces))}
	for task := range parts {
		number := make([]int32, len(parts[task].sets))
		for i, set := range parts[task].sets {
			number[i] = whole.id(set)
		}
		for _, line := range parts[task].lines {
			for i := range line {
				line[i].Set = number[line[i].Set]
			}
			slices.SortFunc(line, func(a, b Entry) int { return int(a.Set) - int(b.Set) })
		}
		s := &l.Surfaces[task/chunks]
		s.Lines = append(s.Lines, parts[task].lines...)
	}
	l.Sets = whole.sets
	return l
}

// collector sums shares by set.
type collector struct {
	share float64 // what a metre of row is, of the line
	sum   []float64
	seen  []int32
	block []Entry // where the next entries go
}

func (c *collector) add(_ int, low, high float64, set int32) {
	for int(set) >= len(c.sum) {
		c.sum = append(c.sum, make([]float64, int(set)+64-len(c.sum))...)
	}
	if c.sum[set] == 0 {
		c.seen = append(c.seen, set)
	}
	c.sum[set] += c.share * (high - low)
}

// entries are the sums; the collector is empty afterwards.
func (c *collector) entries() []Entry {
	if cap(c.block)-len(c.block) < len(c.seen) {
		c.block = make([]Entry, 0, max(1024, len(c.seen)))
	}
	first := len(c.block)
	for _, set := range c.seen {
		if share := c.sum[set]; share > 1e-9 {
			c.block = append(c.block, Entry{set, min(share, 1)})
		}
		c.sum[set] = 0
	}
	c.seen = c.seen[:0]
	return c.block[first:len(c.block):len(c.block)]
}

// inParallel runs work(0) … work(n−1) on all processors.
func inParallel(n int, work func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				work(i)
			}
		})
	}
	all.Wait()
}
