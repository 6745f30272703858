package page

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// round to millimetres keeps the file small.
func round(x float64) float64 { return math.Round(x*1000) / 1000 }

func point(p orb.Point) [2]float64 { return [2]float64{round(p[0]), round(p[1])} }

func points(list []orb.Point) [][2]float64 {
	out := make([][2]float64, 0, len(list))
	for _, p := range list {
		out = append(out, point(p))
	}
	return out
}

func hex(c ink.Colour) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// planOf is what stands on the lot besides trees.
func planOf(site *model.Site) Plan {
	var p Plan
	p.Lot = points(site.Lot)
	bound := orb.MultiPoint(site.Lot).Bound()
	if len(site.Lot) == 0 {
		bound = site.House.Parts[0].Footprint.Bound()
	}
	add := func(b model.Building, own bool) {
		out := Building{Name: b.Name, Own: own, Faces: corners(b.Screens())}
		if out.Name == "" {
			out.Name = b.ID
		}
		for _, part := range b.Parts {
			out.Walls = append(out.Walls, points(part.Footprint))
			if own {
				bound = bound.Union(part.Footprint.Bound())
			}
		}
		p.Buildings = append(p.Buildings, out)
	}
	add(site.House, true)
	for _, b := range site.Porches {
		add(b, true)
	}
	for _, b := range site.Neighbours {
		add(b, false)
	}
	for i := range site.Fences {
		f := &site.Fences[i]
		p.Fences = append(p.Fences, Line{Name: f.ID, Line: points(f.Line), Faces: corners(f.Screens())})
	}
	for _, w := range site.Wires {
		p.Wires = append(p.Wires, Line{Name: w.ID, Line: points(w.Line)})
	}
	for _, t := range site.Trees {
		r := max(t.SpreadX, t.SpreadY) / 2
		bound = bound.Union(orb.Bound{Min: orb.Point{t.At[0] - r, t.At[1] - r}, Max: orb.Point{t.At[0] + r, t.At[1] + r}})
	}
	bound = bound.Pad(1.5)
	bound.Min[1] -= 2 // room for the scale
	p.Box = [4]float64{round(bound.Min[0]), round(bound.Min[1]), round(bound.Max[0]), round(bound.Max[1])}
	return p
}

// corners are the outlines of faces in space.
func corners(faces []model.Face) [][][3]float64 {
	var out [][][3]float64
	for _, f := range faces {
		for _, polygon := range f.Outline {
			if len(polygon) == 0 {
				continue
			}
			var ring [][3]float64
			for _, q := range polygon[0] {
				at := f.At(q[0], q[1])
				ring = append(ring, [3]float64{round(at.X), round(at.Y), round(at.Z)})
			}
			out = append(out, ring)
		}
	}
	return out
}

// onFace is the glass of a window in its wall's own coordinates.
func onFace(wall, glass model.Face) [][2]float64 {
	var out [][2]float64
	for _, q := range glass.Outline[0][0] {
		at := glass.At(q[0], q[1]).Sub(wall.Origin)
		out = append(out, [2]float64{round(at.Dot(wall.U)), round(at.Dot(wall.V))})
	}
	return out
}
