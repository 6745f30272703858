package model

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// faces are the four sides and the top of a chimney that stands on foot.
func (c Chimney) faces(index int, foot float64) ([]Face, []half, error) {
	id := c.ID
	if id == "" {
		id = fmt.Sprintf("chimney-%d", index+1)
	}
	if !(c.Width > 0 && c.Depth > 0 && c.Width < 30 && c.Depth < 30) {
		return nil, nil, faultOf(fmt.Sprintf("chimneys[%d].width", index), "more than 0", "chimney %s is %s by %s", id, bothUnits(c.Width), bothUnits(c.Depth))
	}
	if !(c.Top > foot && c.Top < 300) {
		return nil, nil, faultOf(fmt.Sprintf("chimneys[%d].top", index), fmt.Sprintf("the height of its top above the ground at the house, above its foot at %s", bothUnits(foot)), "chimney %s has its top at %s", id, bothUnits(c.Top))
	}
	if !(math.Abs(c.At[0]) <= farthest && math.Abs(c.At[1]) <= farthest) {
		return nil, nil, faultOf(fmt.Sprintf("chimneys[%d].at", index), "a place on the house", "chimney %s stands more than 5 km (3 miles) away", id)
	}
	sin, cos := math.Sincos(c.Twist)
	at := func(x, y float64) orb.Point {
		return orb.Point{c.At[0] + x*cos + y*sin, c.At[1] - x*sin + y*cos}
	}
	w, d := c.Width/2, c.Depth/2
	ring := orb.Ring{at(-w, -d), at(w, -d), at(w, d), at(-w, d), at(-w, -d)}
	var out []Face
	for i := range 4 {
		f := upright(ring[i], ring[i+1], foot, c.Top-foot)
		f.Kind, f.ID = OtherFace, id+"-"+wind(f.N)
		out = append(out, f)
	}
	top := roofPlane{slope{c.Top, 0, 0}, orb.MultiPolygon{{ring}}}.face("")
	top.Kind, top.ID = OtherFace, id+"-top"
	halves := append(uprights(ring), half{r3.Vector{Z: 1}, c.Top}, half{r3.Vector{Z: -1}, -foot})
	return append(out, top), halves, nil
}

// foot is the z on which a chimney at a point stands: the lowest base of the
// parts about it, or the building's lowest where it stands outside.
func (b Building) foot(at orb.Point) float64 {
	inside, any := math.Inf(1), math.Inf(1)
	for _, p := range b.Parts {
		any = min(any, p.Base)
		if inRing(tidy(p.Footprint), at) {
			inside = min(inside, p.Base)
		}
	}
	switch {
	case !math.IsInf(inside, 1):
		return inside
	case !math.IsInf(any, 1):
		return any
	}
	return 0
}

// upright is a plain rectangle standing on the line from a to b, which runs
// to the right seen from outside.
func upright(a, b orb.Point, base, height float64) Face { return uprightOver(a, b, base, base, height) }

// uprightOver is an upright face whose foot runs from one height to another, its
// top as far above.
func uprightOver(a, b orb.Point, base, end, height float64) Face {
	nx, ny, _ := edgeLine(a, b)
	f := Face{
		Origin:  r3.Vector{X: a[0], Y: a[1], Z: base},
		U:       r3.Vector{X: -ny, Y: nx},
		V:       r3.Vector{Z: 1},
		N:       r3.Vector{X: nx, Y: ny},
		Outline: rectangle(0, 0, distance(a, b), height),
	}
	for i := 1; i < 3; i++ {
		f.Outline[0][0][i][1] += end - base
	}
	f.Area = areaOf(f.Outline)
	return f
}

func rectangle(u, v, width, height float64) orb.MultiPolygon {
	return orb.MultiPolygon{{{{u, v}, {u + width, v}, {u + width, v + height}, {u, v + height}, {u, v}}}}
}

// Screens are the fence's upright panels, one between each two points of its
// line, from its base or its feet up. Their ids are the fence's with a number;
// points less than a centimetre apart carry none.
func (f Fence) Screens() []Face {
	var out []Face
	for i := 0; i+1 < len(f.Line); i++ {
		if d := distance(f.Line[i], f.Line[i+1]); !(d > 0.01) || math.IsInf(d, 0) || !(f.Height > 0) {
			continue
		}
		from, to := f.Base, f.Base
		if len(f.Feet) == len(f.Line) {
			from, to = f.Feet[i], f.Feet[i+1]
		}
		s := uprightOver(f.Line[i], f.Line[i+1], from, to, f.Height)
		s.Kind, s.ID = OtherFace, fmt.Sprintf("%s-%d", f.ID, i+1)
		out = append(out, s)
	}
	return out
}
