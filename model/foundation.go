package model

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// foundation is the foot of the building's outer walls as runs of ground, from
// corner to corner and to the spots read at the wall. A corner stands at 0, or
// at the base of a part that stands lower; a spot near it takes its place.
// Open parts have no foot.
func (b Building) foundation(spots []r3.Vector) [][2]r3.Vector {
	var feet []orb.Ring
	var bases []float64
	for _, p := range b.Parts[:min(maxParts, len(b.Parts))] {
		if foot, err := footprint(p.Footprint); err == nil && !p.Open {
			feet, bases = append(feet, foot), append(bases, p.Base)
		}
	}
	corner := func(p orb.Point) r3.Vector {
		near, z := math.Inf(1), 0.0
		at := r3.Vector{X: p[0], Y: p[1]}
		for _, s := range spots {
			if d := distance(flat(s), p); d <= atHouse && d < near {
				near, at = d, s
			}
		}
		for i, foot := range feet {
			if bases[i] < z && (inRing(foot, p) || offRing(foot, p) < 1e-3) {
				z = bases[i]
			}
		}
		if math.IsInf(near, 1) {
			at.Z = z
		}
		return at
	}
	var runs [][2]r3.Vector
	for _, poly := range union(feet) {
		for _, ring := range poly {
			for i := 0; i+1 < len(ring); i++ {
				chain := []r3.Vector{corner(ring[i])}
				chain = append(chain, spotsAlong(ring[i], ring[i+1], spots)...)
				chain = append(chain, corner(ring[i+1]))
				for k := 0; k+1 < len(chain); k++ {
					if distance(flat(chain[k]), flat(chain[k+1])) > onePlace {
						runs = append(runs, [2]r3.Vector{chain[k], chain[k+1]})
					}
				}
			}
		}
	}
	return runs
}

// spotsAlong are the spots read at the wall between two corners, in order,
// without those near a corner.
func spotsAlong(a, b orb.Point, spots []r3.Vector) []r3.Vector {
	var out []r3.Vector
	share := func(s r3.Vector) float64 {
		t, _ := alongSegment([2]orb.Point{a, b}, flat(s))
		return t
	}
	for _, s := range spots {
		if t, off := alongSegment([2]orb.Point{a, b}, flat(s)); off <= atHouse && t > 0 && t < 1 &&
			distance(flat(s), a) > atHouse && distance(flat(s), b) > atHouse {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(s, t r3.Vector) int {
		if share(s) < share(t) {
			return -1
		}
		return 1
	})
	return out
}

// offRing is how far a point is from a ring's edges.
func offRing(r orb.Ring, p orb.Point) float64 {
	off := math.Inf(1)
	for i := 0; i+1 < len(r); i++ {
		t, _ := alongSegment([2]orb.Point{r[i], r[i+1]}, p)
		off = min(off, distance(between(r[i], r[i+1], max(0, min(1, t))), p))
	}
	return off
}
