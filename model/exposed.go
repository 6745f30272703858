package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// half is a half-space: the points with n·p ≤ d, n a unit vector out of it.
type half struct {
	n r3.Vector
	d float64
}

// cell is a convex piece of a building: the points in all its half-spaces.
// Order tells which building part it is of, in the order of the site file.
type cell struct {
	halves    []half
	order     int
	roofsOnly bool // hides roof planes but no walls: see slabs
}

// cells are the solid pieces of a part: its bays from the base to the roof.
func (r roofing) cells(base float64, order int) []cell {
	var out []cell
	for _, b := range r.bays {
		if b.core == nil {
			continue
		}
		c := cell{order: order, halves: uprights(b.core)}
		c.halves = append(c.halves, half{r3.Vector{Z: -1}, -base})
		for _, s := range b.slopes {
			c.halves = append(c.halves, under(s, 0))
		}
		out = append(out, c)
	}
	return out
}

// slabs are the eaves of a part as carpenters box them: under each slope, as
// deep as the eave edge lies below the wall top. Where the eaves of two parts
// run into each other only the upper one shows.
func (r roofing) slabs(overhang float64, order int) []cell {
	var out []cell
	for _, b := range r.bays {
		for _, s := range b.slopes {
			deep := overhang * s.steepness()
			if deep < 2*samePlane {
				continue
			}
			c := cell{order: order, roofsOnly: true, halves: uprights(b.over)}
			for _, t := range b.slopes {
				c.halves = append(c.halves, under(t, 0))
			}
			above := under(s, -deep)
			c.halves = append(c.halves, half{above.n.Mul(-1), -above.d})
			out = append(out, c)
		}
	}
	return out
}

func uprights(ring orb.Ring) []half {
	var out []half
	for i := 0; i+1 < len(ring); i++ {
		a, b, c := edgeLine(ring[i], ring[i+1])
		out = append(out, half{r3.Vector{X: a, Y: b}, c})
	}
	return out
}

// under is the half-space below a slope moved up by rise.
func under(s slope, rise float64) half {
	n := s.normal()
	return half{n, n.Z * (s.a + rise)}
}

// cover is what the cell hides of a face, as a ring on the face; nil where it
// hides nothing. order is the face's part. A face against a cell's own face is
// hidden; where two faces of different parts lie in one plane and look the
// same way, the one of the earlier part stays.
func (c cell) cover(f Face, order int) orb.Ring {
	b := f.Outline.Bound()
	mid := b.Center()
	ring := b.Pad(1).ToRing()
	for _, h := range c.halves {
		a, e := h.n.Dot(f.U), h.n.Dot(f.V)
		room := h.d - h.n.Dot(f.Origin)
		if math.Hypot(a, e) < 1e-3 {
			room -= a*mid[0] + e*mid[1]
			sameWay := h.n.Dot(f.N) > 0
			if room < -samePlane || room <= samePlane && sameWay && c.order > order {
				return nil
			}
			continue
		}
		ring = clipped(ring, a, e, room)
	}
	if len(appendRing(nil, ring)) == 0 {
		return nil
	}
	return ring
}

// exposed is the face without what the cells of other parts hide.
func exposed(f Face, order int, cells []cell) Face {
	if len(f.Outline) == 0 {
		return f
	}
	var covers []orb.Ring
	for _, c := range cells {
		if c.order == order || c.roofsOnly && f.Kind != RoofFace {
			continue
		}
		covers = appendRing(covers, c.cover(f, order))
	}
	f.Outline = without(f.Outline, covers)
	return f
}
