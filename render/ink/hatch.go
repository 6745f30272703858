package ink

import (
	"math"
	"sort"
)

// Hatch gives the parallel lines that fill the closed runs of a path, spaced
// gap points apart and rising by turn degrees. With winding it unites
// overlapping pieces; else it leaves holes. Lines of neighbouring areas fall
// into step, so a hatch runs on across an edge.
func Hatch(p Path, gap, turn float64, winding bool) Path {
	if gap <= 0 || len(p) == 0 {
		return nil
	}
	s, c := math.Sincos(turn * math.Pi / 180)
	along := func(q Point) float64 { return q.X*c - q.Y*s }
	across := func(q Point) float64 { return q.X*s + q.Y*c }
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range p {
		for _, q := range r.Points {
			lo, hi = min(lo, across(q)), max(hi, across(q))
		}
	}
	type crossing struct {
		at  float64
		dir int
	}
	var out Path
	var hits []crossing
	for k := math.Ceil(lo / gap); k*gap <= hi; k++ {
		level := k*gap + gap*1e-4 // off the corners of whole numbers
		hits = hits[:0]
		for _, r := range p {
			for i, a := range r.Points {
				b := r.Points[(i+1)%len(r.Points)]
				da, db := across(a)-level, across(b)-level
				if (da < 0) == (db < 0) {
					continue
				}
				dir := 1
				if da < 0 {
					dir = -1
				}
				t := da / (da - db)
				hits = append(hits, crossing{along(a) + t*(along(b)-along(a)), dir})
			}
		}
		sort.Slice(hits, func(i, j int) bool { return hits[i].at < hits[j].at })
		depth := 0
		for i := 0; i+1 < len(hits); i++ {
			if winding {
				depth += hits[i].dir
			} else {
				depth ^= 1
			}
			u0, u1 := hits[i].at, hits[i+1].at
			if depth == 0 || u1-u0 < 1e-6 {
				continue
			}
			if n := len(out); n > 0 { // join with the piece before it on the same line
				last := &out[n-1].Points[1]
				if math.Abs(across(*last)-level) < 1e-9 && math.Abs(along(*last)-u0) < 1e-9 {
					*last = Point{u1*c + level*s, -u1*s + level*c}
					continue
				}
			}
			out = append(out, Run{Points: []Point{
				{u0*c + level*s, -u0*s + level*c},
				{u1*c + level*s, -u1*s + level*c},
			}})
		}
	}
	return out
}
