package model

import (
	"sort"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// Triangles cuts the face into triangles that together cover its outline
// once, holes left out, counter-clockwise seen from outside. Where two of them
// meet they share whole edges, so no gaps open between them.
//
// The outline is cut into level strips at the height of every corner; each
// strip falls into trapezoids, and each trapezoid into triangles between the
// corners on its lower and upper side.
func (f Face) Triangles() [][3]r3.Vector {
	edges, levels := edgesUp(f.Outline)
	if len(levels) < 2 {
		return nil
	}
	type strip struct{ left, right edgeUp }
	strips := make([][]strip, len(levels)-1)
	breaks := make([][]float64, len(levels)) // u of every corner on a level
	for i := range strips {
		low, high := levels[i], levels[i+1]
		var across []edgeUp
		for _, e := range edges {
			if e.low <= i && e.high > i {
				across = append(across, e)
			}
		}
		mid := (low + high) / 2
		sort.Slice(across, func(a, b int) bool { return across[a].at(mid) < across[b].at(mid) })
		for k := 0; k+1 < len(across); k += 2 {
			s := strip{across[k], across[k+1]}
			strips[i] = append(strips[i], s)
			breaks[i] = append(breaks[i], s.left.at(low), s.right.at(low))
			breaks[i+1] = append(breaks[i+1], s.left.at(high), s.right.at(high))
		}
	}
	for i := range breaks {
		sort.Float64s(breaks[i])
	}
	var out [][3]r3.Vector
	for i, row := range strips {
		low, high := levels[i], levels[i+1]
		for _, s := range row {
			lower := fromTo(breaks[i], s.left.at(low), s.right.at(low))
			upper := fromTo(breaks[i+1], s.left.at(high), s.right.at(high))
			for a, b := 0, 0; a+1 < len(lower) || b+1 < len(upper); {
				p, q := f.At(lower[a], low), f.At(upper[b], high)
				along := b+1 >= len(upper) // which side to step along: the one lagging behind
				if !along && a+1 < len(lower) {
					along = (lower[a+1]-lower[0])*(upper[len(upper)-1]-upper[0]) <= (upper[b+1]-upper[0])*(lower[len(lower)-1]-lower[0])
				}
				if along {
					a++
					out = append(out, [3]r3.Vector{p, f.At(lower[a], low), q})
				} else {
					b++
					out = append(out, [3]r3.Vector{p, f.At(upper[b], high), q})
				}
			}
		}
	}
	return out
}

// edgeUp is an edge of an outline, lower end first; low and high number the
// levels of its ends.
type edgeUp struct {
	from, to  orb.Point
	low, high int
}

func (e edgeUp) at(v float64) float64 {
	t := (v - e.from[1]) / (e.to[1] - e.from[1])
	switch {
	case t <= 0:
		return e.from[0]
	case t >= 1:
		return e.to[0]
	}
	return e.from[0] + t*(e.to[0]-e.from[0])
}

// edgesUp lists the edges that are not level, with corners drawn to common
// levels, and the levels from below.
func edgesUp(outline orb.MultiPolygon) (edges []edgeUp, levels []float64) {
	var all []float64
	for _, poly := range outline {
		for _, r := range poly {
			for _, c := range r {
				all = append(all, c[1])
			}
		}
	}
	sort.Float64s(all)
	for _, v := range all {
		if len(levels) == 0 || v-levels[len(levels)-1] > sameCorner {
			levels = append(levels, v)
		}
	}
	level := func(v float64) int { return sort.Search(len(levels), func(i int) bool { return levels[i] > v }) - 1 }
	for _, poly := range outline {
		for _, r := range poly {
			for i := 0; i+1 < len(r); i++ {
				p, q := r[i], r[i+1]
				a, b := level(p[1]), level(q[1])
				p[1], q[1] = levels[max(a, 0)], levels[max(b, 0)]
				if a > b {
					p, q, a, b = q, p, b, a
				}
				if a < b {
					edges = append(edges, edgeUp{from: p, to: q, low: a, high: b})
				}
			}
		}
	}
	return edges, levels
}

// fromTo are a and b and what of the sorted breaks lies between them.
func fromTo(breaks []float64, a, b float64) []float64 {
	out := []float64{a}
	for _, x := range breaks {
		if x > out[len(out)-1]+sameCorner && x < b-sameCorner {
			out = append(out, x)
		}
	}
	if b > out[len(out)-1] {
		out = append(out, b)
	}
	return out
}
