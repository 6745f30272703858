package shading

import "github.com/golang/geo/r3"

// house marks a screen that always stands: what it covers is lost for every
// plan and enters no set.
const house int32 = -1

// sweeper casts one sun direction at a time on one plate. It belongs to one
// goroutine.
type sweeper struct {
	p      *plate
	comb   *comb // the rows in use
	sets   *setTable
	sheets []sheet // own copies: aiming writes into them
	body   beamed
	ends   [][]rowEnd // by row, sorted along u
	count  []int32    // how many open intervals a blocker has, by blocker + 1
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
	s.take(0)
	s.ends = make([][]rowEnd, len(s.comb.rows))
	return s
}

// take turns to the comb for moment i: the first for moment 0, then as if drawn
// by lot, so that hours or days evenly apart do not meet the same one again.
func (s *sweeper) take(i int) {
	s.comb = &s.p.combs[uint32(i)*2654435769>>16%uint32(len(s.p.combs))]
}

// cast sweeps every row of the plate for sun direction sun, which must be
// ahead of the plate and above the horizon, and calls visit with every piece
// of row that the house itself leaves lit and the set of blockers before it.
// Rows nothing touches are summed up and returned as a length.
func (s *sweeper) cast(sun r3.Vector, visit func(r int, low, high float64, set int32)) (open float64) {
	p := s.p
	cos := sun.Dot(p.face.N)
	ua, vb := sun.Dot(p.face.U)/cos, sun.Dot(p.face.V)/cos
	for i := range s.sheets {
		if i < len(p.facing) && p.facing[i].Dot(sun) > 0 {
			continue // a ray that starts above the land enters it where it looks away from the sun
		}
		if s.sheets[i].aim(p, ua, vb) {
			s.layFlat(&s.sheets[i])
		}
	}
	to := beam{
		fu: p.face.U.Sub(p.face.N.Mul(ua)), fv: p.face.V.Sub(p.face.N.Mul(vb)),
		kx: sun.X / sun.Z, ky: sun.Y / sun.Z,
	}
	for i := range p.solids {
		if p.solids[i].aim(&s.body, p, &to) {
			s.layBody(&s.body)
		}
	}
	open = s.comb.total
	for r := range s.ends {
		if len(s.ends[r]) > 0 || s.every {
			open -= s.comb.rows[r].length
			s.walk(r, visit)
			s.ends[r] = s.ends[r][:0]
		}
	}
	return open
}

// layFlat enters the shadow of a sheet on every row it crosses.
func (s *sweeper) layFlat(sh *sheet) {
	first, last := s.comb.rowRange(sh.castLow, sh.castHigh)
	for r := first; r < last; r++ {
		s.cross = sh.spans(s.comb.rows[r].v, s.cross[:0])
		for j := 0; j+1 < len(s.cross); j += 2 {
			if line := &s.comb.rows[r]; s.cross[j+1] > line.uLow && s.cross[j] < line.uHigh {
				s.enter(r, s.cross[j], s.cross[j+1], sh.blocker)
			}
		}
	}
}

// layBody enters the shadow of a solid on every row it crosses.
func (s *sweeper) layBody(b *beamed) {
	first, last := s.comb.rowRange(b.vLow, b.vHigh)
	for r := first; r < last; r++ {
		line := &s.comb.rows[r]
		if low, high, ok := b.span(line.v, line.z); ok && high > line.uLow && low < line.uHigh {
			s.enter(r, low, high, b.blocker)
		}
	}
}

// enter inserts the two ends of an interval that meets the row in order.
func (s *sweeper) enter(r int, low, high float64, blocker int32) {
	ends := append(s.ends[r], rowEnd{}, rowEnd{})
	i := len(ends) - 1
	for i > 1 && ends[i-2].u > high {
		ends[i] = ends[i-2]
		i--
	}
	ends[i] = rowEnd{high, blocker, false}
	i--
	for i > 0 && ends[i-1].u > low {
		ends[i] = ends[i-1]
		i--
	}
	ends[i] = rowEnd{low, blocker, true}
	s.ends[r] = ends
}

// walk goes along row r and reports its pieces.
func (s *sweeper) walk(r int, visit func(r int, low, high float64, set int32)) {
	spans := s.comb.rows[r].spans
	ends := s.ends[r]
	set, next := int32(0), 0
	dark := int32(0)
	for j := 0; j+1 < len(spans); j += 2 {
		at, stop := spans[j], spans[j+1]
		for at < stop {
			for next < len(ends) && ends[next].u <= at {
				set, dark = s.pass(ends[next], set, dark)
				next++
			}
			to := stop
			if next < len(ends) && ends[next].u < stop {
				to = ends[next].u
			}
			if dark == 0 && to > at {
				visit(r, at, to, set)
			}
			at = to
		}
	}
	for ; next < len(ends); next++ { // beyond the row: the counts go back to nothing
		s.count[ends[next].blocker+1] = 0
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
