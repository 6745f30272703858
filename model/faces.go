package model

import (
	"errors"
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
// It fails, naming the part, where a footprint is not a simple polygon or its
// roof cannot stand on it.
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
			return nil, fmt.Errorf("%s: %w", b.partName(i), err)
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

// footprint tidies a ring and refuses what is not a simple polygon.
func footprint(r orb.Ring) (orb.Ring, error) {
	if n := len(r); n > maxCorners {
		return nil, fmt.Errorf("footprint has %d corners: at most %d are taken", n, maxCorners)
	}
	for _, c := range r {
		if !(math.Abs(c[0]) <= 1e6 && math.Abs(c[1]) <= 1e6) {
			return nil, errors.New("footprint has a corner that is not a number or lies more than 1,000 km away")
		}
	}
	foot := tidy(r)
	if len(foot) < 4 {
		return nil, errors.New("footprint spans no area: list three or more corners in order round the walls")
	}
	if at, bad := crossing(foot); bad {
		return nil, fmt.Errorf("footprint crosses itself near (%.2f, %.2f) m: list its corners in order round the walls", at[0], at[1])
	}
	return foot, nil
}

func (p Part) sizes() error {
	if !(p.WallHeight >= 0 && p.WallHeight <= 1000) || !p.Open && p.WallHeight == 0 && p.Roof.Kind != Plane {
		return fmt.Errorf("wall height is %.4g m: it must be above 0", p.WallHeight)
	}
	if !(math.Abs(p.Base) <= 1000) {
		return fmt.Errorf("base is %.4g m: it must be within 1,000 m of the ground", p.Base)
	}
	return nil
}

func (b Building) partName(i int) string {
	if id := b.Parts[i].ID; id != "" {
		return "part " + id
	}
	return fmt.Sprintf("part %d", i+1)
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
