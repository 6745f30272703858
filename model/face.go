package model

import (
	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// FaceKind tells what a face is.
type FaceKind string

// The kinds of face.
const (
	WallFace   FaceKind = "wall"
	WindowFace FaceKind = "window"
	RoofFace   FaceKind = "roof"
	GroundFace FaceKind = "ground"
	OtherFace  FaceKind = "other"
)

// Face is a flat piece of a building: its plane and its outline in the
// plane's own coordinates. U is level; seen from outside (against N) U points
// to the right and V up the face, so U × V = N. Point (u, v) stands at
// Origin + u·U + v·V.
type Face struct {
	ID      string
	Kind    FaceKind
	Part    string // the part of the building it belongs to
	Origin  r3.Vector
	U, V, N r3.Vector        // unit vectors
	Outline orb.MultiPolygon // as exposed: without what other parts cover; holes where windows are cut out
	Area    float64          // of Outline, m²
}

// At is the point of space that (u, v) names.
func (f Face) At(u, v float64) r3.Vector {
	return f.Origin.Add(f.U.Mul(u)).Add(f.V.Mul(v))
}

// Tilt of the face from horizontal: 0 level and facing up, 90° a wall.
func (f Face) Tilt() s1.Angle { return tilt(f.N) }

// Azimuth the face looks toward, clockwise from true north, in [0, 2π). A
// level face has azimuth π (south) by convention.
func (f Face) Azimuth() s1.Angle { return azimuth(f.N) }
