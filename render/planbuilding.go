package render

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// BuildingKind is how a building is drawn.
type BuildingKind string

// The kinds of building on a plan.
const (
	House     BuildingKind = "house"
	Porch     BuildingKind = "porch"
	Neighbour BuildingKind = "neighbour"
)

// PlanBuilding is a building from above.
type PlanBuilding struct {
	Name   string // lettered on it where there is room
	Kind   BuildingKind
	Walls  []orb.Ring       // one a part
	Eaves  []orb.Ring       // roof edges, drawn thin; nil for none
	Ridges []orb.LineString // ridges, hips and valleys
}

func (b PlanBuilding) draw(s *sheet, v view) {
	var walls []orb.Polygon
	for _, r := range b.Walls {
		walls = append(walls, orb.Polygon{r})
	}
	u := v.union(walls)
	switch b.Kind {
	case House:
		s.Path(u, edged(ink.Paper, 2*heavy, black))
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
	case Porch:
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
		s.Path(u, line(light, black))
	default:
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
		s.Path(ink.Hatch(u, 5, 135, true), line(hair, pencil))
		s.Path(u, line(medium, pencil))
	}
	eaves, inner := b.roofEdges(v)
	s.Path(eaves, dashed(hair, black, dashHint))
	s.Path(inner, line(hair, black))
	for _, r := range b.Ridges {
		s.Path(v.open(r), line(light, black))
	}
}

// roofEdges are the edges of the roof planes, each once: those of one plane
// alone (eaves, rakes), and those where two planes meet (ridges, hips, valleys).
func (b PlanBuilding) roofEdges(v view) (alone, shared ink.Path) {
	type edge [4]int64 // centimetres, the lesser end first
	key := func(p, q orb.Point) edge {
		e := edge{int64(math.Round(100 * p[0])), int64(math.Round(100 * p[1])), int64(math.Round(100 * q[0])), int64(math.Round(100 * q[1]))}
		if e[0] > e[2] || e[0] == e[2] && e[1] > e[3] {
			e = edge{e[2], e[3], e[0], e[1]}
		}
		return e
	}
	count := map[edge]int{}
	each := func(do func(p, q orb.Point)) {
		for _, r := range b.Eaves {
			for i := range r {
				if p, q := r[i], r[(i+1)%len(r)]; p != q {
					do(p, q)
				}
			}
		}
	}
	each(func(p, q orb.Point) { count[key(p, q)]++ })
	each(func(p, q orb.Point) {
		run := v.open(orb.LineString{p, q})
		switch n := count[key(p, q)]; {
		case n == 1:
			alone = append(alone, run...)
		case n > 1:
			shared = append(shared, run...)
			count[key(p, q)] = 0 // drawn
		}
	})
	return alone, shared
}
