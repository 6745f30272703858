package render

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// landUnder are the flat pieces of the ground under a region seen from above.
func landUnder(g model.Ground, region orb.Ring) []model.Face {
	const beyond = 1000 // metres past the last spot: no lot reaches farther
	var out []model.Face
	for _, p := range g.Pieces(beyond) {
		if f, ok := p.Under(region); ok {
			out = append(out, f)
		}
	}
	return out
}

// heightLine is a straight piece of a line of one height, seen from above.
type heightLine struct {
	z    float64
	a, b orb.Point
}

// heightLines are the lines at every multiple of step, metres, on the ground
// under a region; none on level ground.
func heightLines(g model.Ground, region orb.Ring, step float64) []heightLine {
	if !(step > 0) || g.Level() || len(region) < 4 {
		return nil
	}
	var out []heightLine
	for _, f := range landUnder(g, region) {
		var ring []r3.Vector
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range f.Outline[0][0] {
			v := f.At(q[0], q[1])
			low, high = min(low, v.Z), max(high, v.Z)
			ring = append(ring, v)
		}
		if high-low < 1e-6 || (high-low)/step > 1000 {
			continue
		}
		for k := math.Ceil(low / step); k*step <= high; k++ {
			z := k * step
			var cross []orb.Point
			for i := 0; i+1 < len(ring); i++ {
				if a, b := ring[i], ring[i+1]; (a.Z < z) != (b.Z < z) {
					p := a.Add(b.Sub(a).Mul((z - a.Z) / (b.Z - a.Z)))
					cross = append(cross, orb.Point{p.X, p.Y})
				}
			}
			slices.SortFunc(cross, func(p, q orb.Point) int { // all lie on one line
				if p[0]*f.U.X+p[1]*f.U.Y < q[0]*f.U.X+q[1]*f.U.Y {
					return -1
				}
				return 1
			})
			for i := 0; i+1 < len(cross); i += 2 {
				out = append(out, heightLine{z, cross[i], cross[i+1]})
			}
		}
	}
	return out
}
