package model

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// explicitRoof takes the planes as they are drawn: overhangs are whatever the
// corners include, and Pitch, Ridge and Overhang are not used.
func explicitRoof(p Part, foot orb.Ring) (roofing, error) {
	var r roofing
	if len(p.Roof.Planes) == 0 {
		return r, faultOf("roof.planes", "at least one plane, each by its corners [east, north, height]", "the roof has no planes")
	}
	if n := len(p.Roof.Planes); n > maxCorners {
		return r, faultOf("roof.planes", fmt.Sprintf("at most %d", maxCorners), "the roof has %d planes", n)
	}
	for i, corners := range p.Roof.Planes {
		if len(corners) > maxCorners {
			return r, faultOf(fmt.Sprintf("roof.planes[%d]", i), fmt.Sprintf("at most %d", maxCorners), "the plane has %d corners", len(corners))
		}
		n, centre, err := planeThrough(corners)
		if err != nil {
			return r, asFault(err).at(fmt.Sprintf("roof.planes[%d]", i))
		}
		if math.Abs(n.Z) < math.Cos(maxPitch.Radians()) {
			var cheek []r3.Vector
			for _, c := range corners {
				v := r3.Vector(c)
				cheek = append(cheek, v.Sub(n.Mul(v.Sub(centre).Dot(n))))
			}
			r.cheeks = append(r.cheeks, cheek)
			continue
		}
		s := slope{centre.Dot(n) / n.Z, -n.X / n.Z, -n.Y / n.Z}
		plan := make(orb.Ring, 0, len(corners)+1)
		for _, c := range corners {
			plan = append(plan, orb.Point{c.X, c.Y})
		}
		plan = tidy(plan)
		if at, bad := crossing(plan); bad {
			return r, faultOf(fmt.Sprintf("roof.planes[%d]", i), inOrder, "the plane crosses itself near %s east, %s north", bothUnits(at[0]), bothUnits(at[1]))
		}
		r.planes = append(r.planes, roofPlane{s, orb.MultiPolygon{{plan}}})
		for _, piece := range convexPieces(plan) {
			r.bays = append(r.bays, bay{piece, nil, []slope{s}})
			for _, within := range convexPieces(foot) {
				if core := clippedTo(piece, within); len(core) > 3 && math.Abs(signedArea(core)) > leastArea {
					r.bays = append(r.bays, bay{core, core, []slope{s}})
				}
			}
		}
	}
	return r, nil
}

// planeThrough fits a plane to corners (Newell's method, as in Sutherland,
// Sproull and Schumacker 1974, from memory); every corner must lie within
// 5 cm of it. The normal points up.
func planeThrough(corners []Point3) (normal, centre r3.Vector, err error) {
	if len(corners) < 3 {
		return normal, centre, faultOf("", "three corners or more", "the plane has %s", measure.Count(len(corners), "corner"))
	}
	for i, c := range corners {
		if !(math.Abs(c.X) <= farthest && math.Abs(c.Y) <= farthest && math.Abs(c.Z) <= farthest) {
			return normal, centre, faultOf("", "corners near the house, in the file's unit", "a corner of the plane is not a number or lies more than 5 km (3 miles) away")
		}
		a, b := r3.Vector(c), r3.Vector(corners[(i+1)%len(corners)])
		normal = normal.Add(a.Cross(b))
		centre = centre.Add(a.Mul(1 / float64(len(corners))))
	}
	if !(normal.Norm() > 2*leastArea) || math.IsInf(normal.Norm(), 0) {
		return normal, centre, faultOf("", inOrder, "the plane's corners span no area")
	}
	normal = normal.Normalize()
	if normal.Z < 0 {
		normal = normal.Mul(-1)
	}
	for i, c := range corners {
		if off := math.Abs(r3.Vector(c).Sub(centre).Dot(normal)); off > 0.05 {
			return normal, centre, faultOf("", "corners flat within 5 cm (2 in), or two planes in place of one", "corner %d lies %s off the plane of the others", i+1, bothUnits(off))
		}
	}
	return normal, centre, nil
}
