package model

import (
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// Building is a house, a neighbour's house, a shed or a porch: one or more
// parts that may overlap in plan.
type Building struct {
	ID       string
	Name     string
	Parts    []Part
	Chimneys []Chimney
	Owner    Owner
}

// Part is one volume: walls on a footprint under one roof.
type Part struct {
	ID         string
	Footprint  orb.Ring // counter-clockwise, closed
	Base       float64  // z of the bottom of the walls
	WallHeight float64  // from Base to the eave line on the wall face, under a shed roof its low eave
	Roof       Roof
	Open       bool // no walls (a porch roof on posts)
}

// RoofKind is the shape of a roof.
type RoofKind string

// The roof kinds a part can have.
const (
	Flat  RoofKind = "flat"  // level, or with a pitch toward Down
	Shed  RoofKind = "shed"  // one plane, falling toward Down
	Gable RoofKind = "gable" // two planes meeting at a ridge
	Hip   RoofKind = "hip"   // every eave level; footprint with right angles
	Plane RoofKind = "plane" // explicit planes by corner points
)

// Roof covers a part.
type Roof struct {
	Kind     RoofKind
	Ridge    s1.Angle // azimuth of the ridge line (gable), either end
	Down     s1.Angle // azimuth toward which a shed or flat roof falls
	Pitch    s1.Angle // slope from horizontal
	Overhang float64  // level distance from wall face to eave edge
	Planes   [][]Point3
}

// Point3 is a corner of an explicit plane: x east, y north, z up, metres.
type Point3 struct{ X, Y, Z float64 }

// Chimney is an upright box on the roof.
type Chimney struct {
	ID    string
	At    orb.Point // centre
	Width float64   // east-west before the sketch is turned
	Depth float64
	Top   float64 // z
	Twist float64 // radians the box is turned clockwise with the sketch
}

// Window is a glazed opening in a wall.
type Window struct {
	ID      string
	Wall    string  // wall id, such as "south", or part and wind, "ell/south"; see FindWall
	Left    float64 // from the left end of the exposed wall, seen from outside, to the opening
	Sill    float64 // from the wall's base to the opening
	Width   float64
	Height  float64
	Reveal  float64 // depth of the glass behind the wall face
	Glazing string  // "single", "single + storm", "double", ... see package heat
	Frame   float64 // share of the opening that is frame, 0..1
}

// Fence is an upright screen along a line.
type Fence struct {
	ID             string
	Line           orb.LineString
	Height         float64
	Base           float64
	Feet           []float64 // z of its foot at each point of Line; empty: Base all along
	Transmissivity float64   // share of the sun that passes, 0 for boards
	Owner          Owner
}

// Wire is an overhead line; it casts no shadow worth counting and makes
// felling near it work for qualified people.
type Wire struct {
	ID     string
	Line   orb.LineString
	Height float64
	Note   string
}

// Owner says whose a thing is.
type Owner string

// The owners a tree or building may have.
const (
	OwnerLot       Owner = "lot"
	OwnerNeighbour Owner = "neighbour"
	OwnerStreet    Owner = "street"
)
