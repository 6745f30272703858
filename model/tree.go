package model

import "github.com/paulmach/orb"

// CrownShape is the outline of a crown, a solid of revolution about the trunk.
type CrownShape string

// The crown shapes.
const (
	Ellipsoid     CrownShape = "ellipsoid"
	HalfEllipsoid CrownShape = "half-ellipsoid" // widest at the crown base, flat below
	Paraboloid    CrownShape = "paraboloid"     // widest at the crown base, pointed above
	Cone          CrownShape = "cone"
	Cylinder      CrownShape = "cylinder"
)

// Tree is one tree with the crown it has today.
type Tree struct {
	ID        string
	Species   string
	At        orb.Point // centre of the trunk
	Ground    float64   // z of the ground at the trunk
	Height    float64   // above its ground
	SpreadX   float64   // crown width along x (east-west)
	SpreadY   float64   // crown width along y (north-south)
	Twist     float64   // radians the two spreads are turned clockwise with the sketch
	CrownBase float64   // height of the lowest foliage above its ground
	Cleared   float64   // height to which the crown has been raised since, above its ground; its outline above stays as it was. 0: as grown
	Shape     CrownShape
	Trunk     float64 // trunk diameter at breast height
	Evergreen bool
	InLeaf    float64 // transmissivity in leaf, 0..1
	Bare      float64 // transmissivity bare, 0..1
	Leafing   Leafing
	Owner     Owner
	Removable bool // may stand on a removal list
	Keep      bool // marked to keep, whoever owns it
	Cost      float64
	CostKnown bool // stated by the user, not assumed
	Notes     []string
	Measured  map[Quantity]Tolerance // how sure each value is
	Age       float64                // years, for planted trees; 0 unknown
}

// Quantity names a value of a tree that was measured or assumed.
type Quantity string

// The quantities that carry a tolerance.
const (
	QHeight         Quantity = "height"
	QSpread         Quantity = "spread"
	QCrownBase      Quantity = "crown base"
	QPosition       Quantity = "position"
	QTransmissivity Quantity = "transmissivity"
)

// Tolerance says how a value was come by and its standard deviation, in the
// value's own unit (metres, or a share for transmissivity).
type Tolerance struct {
	Method string // tape, pacing, clinometer, guess, species table, stated
	SD     float64
}

// Leafing is when a tree is in leaf, as days of the year 1..365.
type Leafing struct {
	Out  float64 // day on which half of the leaf is out
	Fall float64 // day on which half of the leaf is down
	Ramp float64 // days from bare to full leaf, and back
}
