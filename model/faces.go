package model

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// Faces are the outside faces of the building, each as far as it is exposed:
// what lies inside another part, or against it, is taken off. They come in
// the order of the parts, of each part the walls and then the roof planes,
// then chimneys.
//
// Walls reach from the part's base to the underside of its roof. Roof planes
// include their overhang on every side, pass through the wall top at the eave
// and fall below it by the overhang times the pitch. Windows are not cut out;
// see CutWindows. See nameFaces for how faces are called.
//
// It fails with a Fault, its field counted from the building (parts[0].roof),
// where a footprint is not a simple polygon or its roof cannot stand on it.
func (b Building) Faces() ([]Face, error) {
	var raw []Face
	var orders []int
	var cells []cell
	for i, p := range b.Parts {
		foot, err := footprint(p.Footprint)
		if err == nil {
			err = p.sizes()
		}
		var roof roofing
		if err == nil {
			roof, err = p.roofing(foot)
		}
		if err != nil {
			return nil, asFault(err).at(fmt.Sprintf("parts[%d]", i))
		}
		faces := p.faces(foot, roof)
		raw = append(raw, faces...)
		for range faces {
			orders = append(orders, i)
		}
		if !p.Open {
			cells = append(cells, roof.cells(p.Base, i)...)
		}
		cells = append(cells, roof.slabs(p.Roof.Overhang, i)...)
	}
	for i, c := range b.Chimneys {
		order := len(b.Parts) + i
		faces, box, err := c.faces(i, b.foot(c.At))
		if err != nil {
			return nil, err
		}
		raw = append(raw, faces...)
		for range faces {
			orders = append(orders, order)
		}
		cells = append(cells, cell{order: order, halves: box})
	}
	var out []Face
	for i, f := range raw {
		f = exposed(f, orders[i], cells)
		if len(f.Outline) == 0 {
			continue
		}
		f = f.fromCorner(f.Kind != WallFace)
		f.Area = areaOf(f.Outline)
		out = append(out, f)
	}
	nameFaces(out)
	return out, nil
}

// Screens are the faces that cast the building's shadow: all that Faces gives,
// nothing for a building that Faces refuses. A roof plane is one thin screen
// and shades whatever is on either side of it.
func (b Building) Screens() []Face {
	faces, err := b.Faces()
	if err != nil {
		return nil
	}
	return faces
}

// faces of the part alone.
func (p Part) faces(foot orb.Ring, roof roofing) []Face {
	var out []Face
	for i := 0; i+1 < len(foot) && !p.Open; i++ {
		out = append(out, p.wallOn(foot[i], foot[i+1], roof))
	}
	for _, plane := range roof.planes {
		out = append(out, plane.face(p.ID))
	}
	for _, c := range roof.cheeks {
		out = append(out, cheekFace(c, p.ID, foot))
	}
	return out
}

// cheekFace is an upright explicit plane, looking away from the middle of the
// footprint.
func cheekFace(corners []r3.Vector, part string, foot orb.Ring) Face {
	var n, mid r3.Vector
	for i, c := range corners {
		n = n.Add(c.Cross(corners[(i+1)%len(corners)]))
		mid = mid.Add(c.Mul(1 / float64(len(corners))))
	}
	n = n.Normalize()
	centre := foot.Bound().Center()
	if n.Dot(mid.Sub(r3.Vector{X: centre[0], Y: centre[1], Z: mid.Z})) < 0 {
		n = n.Mul(-1)
	}
	u := r3.Vector{X: -n.Y, Y: n.X}.Normalize()
	f := Face{Kind: OtherFace, Part: part, Origin: corners[0], N: n, U: u, V: n.Cross(u)}
	var ring orb.Ring
	for _, c := range corners {
		ring = append(ring, f.on(c))
	}
	f.Outline = union([]orb.Ring{append(ring, ring[0])})
	return f.fromCorner(true)
}

// inOrder is the mend for corners that were listed crosswise.
const inOrder = "list three or more corners in order round the edge"

// footprint tidies a ring and refuses what is not a simple polygon.
func footprint(r orb.Ring) (orb.Ring, error) {
	if n := len(r); n > maxCorners {
		return nil, faultOf("footprint", fmt.Sprintf("at most %d", maxCorners), "the footprint has %d corners", n)
	}
	for _, c := range r {
		if !(math.Abs(c[0]) <= farthest && math.Abs(c[1]) <= farthest) {
			return nil, faultOf("footprint", "corners near the house, in the file's unit", "a corner of the footprint is not a number or lies more than 5 km (3 miles) away")
		}
	}
	foot := tidy(r)
	if len(foot) < 4 || signedArea(foot) < 100*leastArea {
		return nil, faultOf("footprint", inOrder, "the footprint spans no area")
	}
	if at, bad := crossing(foot); bad {
		return nil, faultOf("footprint", inOrder, "the footprint crosses itself near %s east, %s north", bothUnits(at[0]), bothUnits(at[1]))
	}
	return foot, nil
}

func (p Part) sizes() error {
	if !(p.WallHeight >= 0 && p.WallHeight <= 300) || !p.Open && p.WallHeight == 0 && p.Roof.Kind != Plane {
		return faultOf("wall height", "more than 0, measured from the part's base to the eave", "wall height is %s", bothUnits(p.WallHeight))
	}
	if !(math.Abs(p.Base) <= 300) {
		return faultOf("base", "the height of the walls' foot above the ground at the house", "base is %s", bothUnits(p.Base))
	}
	return nil
}

// FootprintArea is the ground the building's parts cover together, m²; what
// two parts share counts once, open parts do not count.
func (b Building) FootprintArea() float64 {
	var rings []orb.Ring
	for _, p := range b.Parts {
		if foot, err := footprint(p.Footprint); err == nil && !p.Open {
			rings = append(rings, foot)
		}
	}
	return areaOf(union(rings))
}

// RidgeHeight is the z of the highest point of the roof; NaN for a building
// that Faces refuses.
func (b Building) RidgeHeight() float64 {
	top := math.Inf(-1)
	for _, f := range b.Screens() {
		if f.Kind == RoofFace {
			top = max(top, f.Highest())
		}
	}
	if math.IsInf(top, -1) {
		return math.NaN()
	}
	return top
}
