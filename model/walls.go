package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// wallOn is the wall over one edge of a counter-clockwise footprint, from the
// part's base up to the underside of its roof: with its gable, or the slanting
// top under a shed roof. Its (0, 0) is the bottom of its left end, seen from
// outside.
func (p Part) wallOn(a, b orb.Point, roof roofing) Face {
	nx, ny, _ := edgeLine(a, b)
	f := Face{
		Kind: WallFace, Part: p.ID,
		Origin: r3.Vector{X: a[0], Y: a[1], Z: p.Base},
		U:      r3.Vector{X: -ny, Y: nx},
		V:      r3.Vector{Z: 1},
		N:      r3.Vector{X: nx, Y: ny},
	}
	length := distance(a, b)
	top := p.WallHeight + 100
	for _, b := range roof.bays {
		for _, c := range b.over {
			for _, s := range b.slopes {
				top = max(top, s.at(c)-p.Base)
			}
		}
	}
	var under []orb.Ring
	for _, bay := range roof.bays {
		ring := orb.Ring{{0, 0}, {length, 0}, {length, top}, {0, top}, {0, 0}}
		for i := 0; i+1 < len(bay.over); i++ {
			ea, eb, ec := edgeLine(bay.over[i], bay.over[i+1])
			across := ea*f.U.X + eb*f.U.Y
			room := ec - ea*a[0] - eb*a[1]
			if math.Abs(across) < 0.1 {
				room += samePlane // a wall on the edge of a roof without overhang is under it
			}
			if math.Abs(across) < 1e-3 {
				if room < 0 {
					ring = nil
				}
				continue
			}
			ring = clipped(ring, across, 0, room)
		}
		for _, s := range bay.slopes {
			ring = clipped(ring, -(s.b*f.U.X + s.c*f.U.Y), 1, s.at(a)-p.Base)
		}
		under = appendRing(under, ring)
	}
	f.Outline = union(under)
	if p.Roof.Kind == Plane && lengthAtBottom(f.Outline) < length-samePlane {
		// Where no explicit plane lies over the wall it ends at its stated height.
		f.Outline = union(append(under, orb.Ring{{0, 0}, {length, 0}, {length, p.WallHeight}, {0, p.WallHeight}, {0, 0}}))
	}
	return f
}

func lengthAtBottom(m orb.MultiPolygon) float64 {
	sum := 0.0
	for _, p := range m {
		for i := 0; i+1 < len(p[0]); i++ {
			if a, b := p[0][i], p[0][i+1]; math.Abs(a[1]) < 1e-3 && math.Abs(b[1]) < 1e-3 {
				sum += distance(a, b)
			}
		}
	}
	return sum
}

// faceOn is a roof plane as a face, with (0, 0) at the left end of its eave.
func (r roofPlane) face(part string) Face {
	f := Face{Kind: RoofFace, Part: part, N: r.slope.normal()}
	if m := r.slope.steepness(); m < levelSlope {
		f.N, f.U, f.V = r3.Vector{Z: 1}, r3.Vector{X: 1}, r3.Vector{Y: 1}
	} else {
		f.U = r3.Vector{X: r.slope.c / m, Y: -r.slope.b / m}
		f.V = f.N.Cross(f.U)
	}
	c := r.plan[0][0][0]
	f.Origin = r3.Vector{X: c[0], Y: c[1], Z: r.slope.at(c)}
	for _, poly := range r.plan {
		var out orb.Polygon
		for _, ring := range poly {
			var to orb.Ring
			for _, c := range ring {
				to = append(to, f.on(r3.Vector{X: c[0], Y: c[1], Z: r.slope.at(c)}))
			}
			out = append(out, to)
		}
		f.Outline = append(f.Outline, out)
	}
	return f.fromCorner(true)
}

// levelSlope is the rise a metre below which a roof counts as level.
const levelSlope = 1e-3

// on is where a point of the face's plane lies on it.
func (f Face) on(p r3.Vector) orb.Point {
	d := p.Sub(f.Origin)
	return orb.Point{d.Dot(f.U), d.Dot(f.V)}
}

// fromCorner moves the origin so that the outline begins at u = 0, and at
// v = 0 too if up is set.
func (f Face) fromCorner(up bool) Face {
	if len(f.Outline) == 0 {
		return f
	}
	b := f.Outline.Bound()
	du, dv := b.Min[0], 0.0
	if up {
		dv = b.Min[1]
	}
	f.Origin = f.At(du, dv)
	moved := make(orb.MultiPolygon, len(f.Outline))
	for i, poly := range f.Outline {
		for _, ring := range poly {
			to := make(orb.Ring, len(ring))
			for k, c := range ring {
				to[k] = orb.Point{c[0] - du, c[1] - dv}
			}
			moved[i] = append(moved[i], to)
		}
	}
	f.Outline = moved
	return f
}

// Width is the level extent of the outline, m.
func (f Face) Width() float64 {
	if len(f.Outline) == 0 {
		return 0
	}
	b := f.Outline.Bound()
	return b.Max[0] - b.Min[0]
}

// Height is the extent of the outline up the face, m: for a roof plane
// measured along the slope.
func (f Face) Height() float64 {
	if len(f.Outline) == 0 {
		return 0
	}
	b := f.Outline.Bound()
	return b.Max[1] - b.Min[1]
}

// Highest is the z of the outline's highest point.
func (f Face) Highest() float64 {
	top := math.Inf(-1)
	for _, poly := range f.Outline {
		for _, c := range poly[0] {
			top = max(top, f.At(c[0], c[1]).Z)
		}
	}
	return top
}
