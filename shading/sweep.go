package shading

import "github.com/golang/geo/r3"

// house marks a screen that always stands: what it covers is lost for every
// plan and enters no set.
const house int32 = -1

// sweeper casts one sun direction at a time on one plate. It belongs to one
// goroutine.
type sweeper struct {
	p      *plate
	sets   *setTable
	sheets []sheet // own copies: aiming writes into them
	beamed []beamed
	flat   []int // sheets whose shadow meets the plate
	ends   []rowEnd
	count  []int32 // how many open intervals a blocker has, by blocker + 1
	cross  []float64
	every  bool // visit rows that nothing touches, too
}

// rowEnd is where a blocker's shadow begins or ends on a row.
type rowEnd struct {
	u       float64
	blocker int32
	open    bool
}

func newSweeper(p *plate, blockers int) *sweeper {
	s := &sweeper{p: p, sets: newSetTable(), count: make([]int32, blockers+1)}
	s.sheets = make([]sheet, len(p.sheets))
	copy(s.sheets, p.sheets)
	for i := range s.sheets {
		s.sheets[i].cast = append(s.sheets[i].cast[:0:0], s.sheets[i].cast...)
	}
	s.beamed = make([]beamed, 0, len(p.solids))
	return s
}

// cast sweeps every row of the plate for sun direction sun, which must be
// ahead of the plate and above the horizon, and calls visit with every piece
// of row that the house itself leaves lit and the set of blockers before it.
// Rows nothing touches are summed up and returned as a length.
func (s *sweeper) cast(sun r3.Vector, visit func(r int, low, high float64, set int32)) (open float64) {
	p := s.p
	cos := sun.Dot(p.face.N)
	ua, vb := sun.Dot(p.face.U)/cos, sun.Dot(p.face.V)/cos
	kx, ky := sun.X/sun.Z, sun.Y/sun.Z
	s.flat, s.beamed = s.flat[:0], s.beamed[:0]
	low, high := inf, -inf
	for i := range s.sheets {
		if s.sheets[i].aim(p, ua, vb) {
			s.flat = append(s.flat, i)
			low, high = min(low, s.sheets[i].castLow), max(high, s.sheets[i].castHigh)
		}
	}
	for i := range p.solids {
		n := len(s.beamed)
		s.beamed = s.beamed[:n+1]
		if !p.solids[i].aim(&s.beamed[n], p, sun, ua, vb, kx, ky) {
			s.beamed = s.beamed[:n]
			continue
		}
		low, high = min(low, s.beamed[n].vLow), max(high, s.beamed[n].vHigh)
	}
	first, last := p.rowRange(low, high)
	if s.every {
		first, last = 0, len(p.rows)
	}
	open = p.total
	for r := first; r < last; r++ {
		if s.gather(r) || s.every {
			open -= p.rows[r].length
			s.walk(r, visit)
		}
	}
	return open
}

// gather collects the shadow ends on row r, sorted along u.
func (s *sweeper) gather(r int) bool {
	line := &s.p.rows[r]
	s.ends = s.ends[:0]
	uLow, uHigh := line.spans[0], line.spans[len(line.spans)-1]
	for _, i := range s.flat {
		sh := &s.sheets[i]
		if line.v < sh.castLow || line.v > sh.castHigh {
			continue
		}
		s.cross = sh.spans(line.v, s.cross[:0])
		for j := 0; j+1 < len(s.cross); j += 2 {
			if s.cross[j+1] > uLow && s.cross[j] < uHigh {
				s.add(s.cross[j], s.cross[j+1], sh.blocker)
			}
		}
	}
	for i := range s.beamed {
		b := &s.beamed[i]
		if line.v < b.vLow || line.v > b.vHigh {
			continue
		}
		if a, z, ok := b.span(line.v, line.z); ok && z > uLow && a < uHigh {
			s.add(a, z, b.blocker)
		}
	}
	return len(s.ends) > 0
}

// add inserts an interval's two ends in order.
func (s *sweeper) add(low, high float64, blocker int32) {
	s.insert(rowEnd{low, blocker, true})
	s.insert(rowEnd{high, blocker, false})
}

func (s *sweeper) insert(e rowEnd) {
	s.ends = append(s.ends, e)
	i := len(s.ends) - 1
	for i > 0 && s.ends[i-1].u > e.u {
		s.ends[i] = s.ends[i-1]
		i--
	}
	s.ends[i] = e
}

// walk goes along row r and reports its pieces.
func (s *sweeper) walk(r int, visit func(r int, low, high float64, set int32)) {
	spans := s.p.rows[r].spans
	set, next := int32(0), 0
	dark := int32(0)
	for j := 0; j+1 < len(spans); j += 2 {
		at, stop := spans[j], spans[j+1]
		for at < stop {
			for next < len(s.ends) && s.ends[next].u <= at {
				set, dark = s.pass(s.ends[next], set, dark)
				next++
			}
			to := stop
			if next < len(s.ends) && s.ends[next].u < stop {
				to = s.ends[next].u
			}
			if dark == 0 && to > at {
				visit(r, at, to, set)
			}
			at = to
		}
	}
	for ; next < len(s.ends); next++ {
		set, dark = s.pass(s.ends[next], set, dark)
	}
}

// pass goes over one end. A blocker of several sheets is in the set while any
// of its intervals is open.
func (s *sweeper) pass(e rowEnd, set, dark int32) (int32, int32) {
	n := &s.count[e.blocker+1]
	was := *n
	if e.open {
		*n++
	} else {
		*n--
	}
	if (was == 0) == (*n == 0) {
		return set, dark
	}
	if e.blocker == house {
		return set, *n
	}
	return s.sets.toggle(set, e.blocker), dark
}
