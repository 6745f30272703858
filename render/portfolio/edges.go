package portfolio

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render"
)

// edges names the edges of a wall or roof plane of the house as the trade
// does: eave, ridge, hip, valley and rake of a roof; top and foot of a wall.
func (s set) edges(f model.Face) []render.FaceEdge {
	var out []render.FaceEdge
	for _, polygon := range f.Outline {
		if len(polygon) == 0 {
			continue
		}
		ring := polygon[0]
		foot, top := ring.Bound().Min[1], ring.Bound().Max[1]
		for i := 0; i+1 < len(ring); i++ {
			a, b := ring[i], ring[i+1]
			if planar.Distance(a, b) < 0.3 {
				continue
			}
			e := render.FaceEdge{A: a, B: b}
			if f.Kind == model.RoofFace {
				e.Name = s.roofEdge(f, a, b, foot)
			} else {
				e.Name = wallEdge(polygon, a, b, foot, top)
			}
			out = append(out, e)
		}
	}
	return out
}

const edgeNear = 0.06 // m within which two edges are one

// roofEdge names one edge of a roof plane by how it lies and by the plane that
// meets it there.
func (s set) roofEdge(f model.Face, a, b orb.Point, foot float64) string {
	level := math.Abs(a[1]-b[1]) < edgeNear
	if level && math.Min(a[1], b[1]) < foot+edgeNear {
		return "eave"
	}
	mid := f.At((a[0]+b[0])/2, (a[1]+b[1])/2)
	for _, g := range s.st.Site.House.Screens() {
		if g.Kind != model.RoofFace || g.N.Dot(f.N) > 0.9999 || !touches(g, mid) {
			continue
		}
		falls := middle(g).Sub(mid).Dot(f.N) < 0 // the other plane falls away
		switch {
		case level && falls:
			return "ridge"
		case falls:
			return "hip"
		}
		return "valley"
	}
	if level {
		return "upper edge"
	}
	if math.Abs(a[0]-b[0]) < edgeNear {
		return "rake"
	}
	return "sloping edge"
}

// touches tells whether a point lies on the outline of a face.
func touches(f model.Face, p r3.Vector) bool {
	q := p.Sub(f.Origin)
	if math.Abs(q.Dot(f.N)) > edgeNear {
		return false
	}
	at := orb.Point{q.Dot(f.U), q.Dot(f.V)}
	for _, polygon := range f.Outline {
		for _, ring := range polygon {
			for i := 0; i+1 < len(ring); i++ {
				if planar.DistanceFromSegment(ring[i], ring[i+1], at) < edgeNear {
					return true
				}
			}
		}
	}
	return false
}

func middle(f model.Face) r3.Vector {
	c, _ := planar.CentroidArea(f.Outline)
	return f.At(c[0], c[1])
}

// wallEdge names the top of a wall, and where a lower roof meets it.
func wallEdge(p orb.Polygon, a, b orb.Point, foot, top float64) string {
	if math.Abs(a[0]-b[0]) < edgeNear {
		return ""
	}
	level := math.Abs(a[1]-b[1]) < edgeNear
	if level && a[1] > top-edgeNear {
		return "top of wall, under the eave"
	}
	if level && a[1] < foot+edgeNear {
		return "" // the ground line says it
	}
	under := orb.Point{(a[0] + b[0]) / 2, (a[1]+b[1])/2 - 0.02}
	if !planar.PolygonContains(p, under) {
		return "lower roof"
	}
	if !level {
		return "rake"
	}
	return ""
}

// chimneys are the holes that the house's chimneys leave in a roof plane.
func (s set) chimneys(f model.Face) []render.Opening {
	var out []render.Opening
	if f.Kind != model.RoofFace {
		return nil
	}
	for _, polygon := range f.Outline {
		for _, hole := range polygon[min(1, len(polygon)):] {
			c, _ := planar.CentroidArea(hole)
			at := f.At(c[0], c[1])
			for i, ch := range s.st.Site.House.Chimneys {
				if math.Hypot(at.X-ch.At[0], at.Y-ch.At[1]) > max(ch.Width, ch.Depth) {
					continue
				}
				name := ch.ID
				if name == "" {
					name = fmt.Sprintf("chimney %d", i+1)
				}
				out = append(out, render.Opening{ID: name, Ring: hole, Solid: true})
				break
			}
		}
	}
	return out
}
