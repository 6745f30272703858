package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
)

// farthestHorizon is how far off ground beyond the spots is looked at, metres.
const farthestHorizon = 1000

// Horizon is how high the ground itself stands before the sky, seen from a
// point, by azimuth; 0 where none of it stands above the point's level.
// Of a flat piece the highest seen is on its edge, so edges alone are asked.
func (g Ground) Horizon(from r3.Vector) func(azimuth s1.Angle) s1.Angle {
	if g.rise != 0 {
		return func(azimuth s1.Angle) s1.Angle {
			return s1.Angle(math.Atan(max(0, g.rise*math.Cos((azimuth-g.uphill).Radians()))))
		}
	}
	var edges [][2]r3.Vector
	for _, f := range g.Faces(farthestHorizon) {
		ring := f.Outline[0][0]
		for i := 0; i+1 < len(ring); i++ {
			a, b := f.At(ring[i][0], ring[i][1]).Sub(from), f.At(ring[i+1][0], ring[i+1][1]).Sub(from)
			if a.Z > 0 || b.Z > 0 {
				edges = append(edges, [2]r3.Vector{a, b})
			}
		}
	}
	return func(azimuth s1.Angle) s1.Angle {
		sin, cos := math.Sincos(azimuth.Radians())
		across := func(p r3.Vector) float64 { return p.X*cos - p.Y*sin }
		along := func(p r3.Vector) float64 { return p.X*sin + p.Y*cos }
		highest := 0.0
		look := func(p r3.Vector) {
			if t := along(p); t > 1e-6 && p.Z > highest*t {
				highest = p.Z / t
			}
		}
		for _, e := range edges {
			switch a, b := across(e[0]), across(e[1]); {
			case a == b && a == 0:
				look(e[0])
				look(e[1])
			case (a > 0) != (b > 0) && a != b:
				look(e[0].Add(e[1].Sub(e[0]).Mul(a / (a - b))))
			}
		}
		return s1.Angle(math.Atan(highest))
	}
}
