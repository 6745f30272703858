package model

import (
	"math"
	"math/rand"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

func testTree(shape CrownShape) Tree {
	return Tree{At: orb.Point{3, -2}, Ground: 0.7, Height: 11, CrownBase: 2, SpreadX: 6, SpreadY: 4, Twist: 0.6, Shape: shape, Trunk: 0.4}
}

// contains tells whether a point lies in the solid or on its skin.
func contains(s Solid, p r3.Vector) bool {
	if s.Empty() || p.Z < s.Bottom || p.Z > s.Top {
		return false
	}
	x, y := s.Local(p.X, p.Y)
	return x*x+y*y <= s.A+(s.B+s.C*p.Z)*p.Z
}

// Volumes of solids of revolution, as in any handbook of geometry.
func TestCrownVolumesAreTheTextbookOnes(t *testing.T) {
	a, b, h := 3.0, 2.0, 9.0
	for shape, want := range map[CrownShape]float64{
		Ellipsoid:     4. / 3 * math.Pi * a * b * h / 2,
		HalfEllipsoid: 2. / 3 * math.Pi * a * b * h,
		Paraboloid:    1. / 2 * math.Pi * a * b * h,
		Cone:          1. / 3 * math.Pi * a * b * h,
		Cylinder:      math.Pi * a * b * h,
	} {
		near(t, string(shape), testTree(shape).Crown().Volume(), want, 1e-9)
	}
	near(t, "trunk", testTree(Cone).TrunkSolid().Volume(), math.Pi*0.04*2, 1e-12)
}

func TestContainsAgreesWithVolume(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	const n = 200000
	for shape := range profiles {
		s := testTree(shape).Crown()
		in := 0
		for range n {
			p := r3.Vector{X: s.At[0] + 8*(rng.Float64()-0.5), Y: s.At[1] + 8*(rng.Float64()-0.5), Z: s.Bottom + 9*rng.Float64()}
			if contains(s, p) {
				in++
			}
		}
		share := s.Volume() / (8 * 8 * 9)
		near(t, string(shape), float64(in)/n, share, 4*math.Sqrt(share*(1-share)/n))
	}
}

func TestCrownIsWidestWhereItsShapeSays(t *testing.T) {
	for shape, widest := range map[CrownShape]float64{Ellipsoid: 0.5, HalfEllipsoid: 0, Paraboloid: 0, Cone: 0, Cylinder: 0.5} {
		s := testTree(shape).Crown()
		near(t, string(shape), s.Radius(s.Bottom+widest*9), 1, 1e-9)
		for i := range 101 {
			if r := s.Radius(s.Bottom + 9*float64(i)/100); !(r >= 0 && r <= 1) {
				t.Errorf("%s: radius %g", shape, r)
			}
		}
		if shape != Cylinder {
			near(t, string(shape)+" top", s.Radius(s.Top), 0, 1e-6)
		}
		near(t, "outside", s.Radius(s.Top+0.01)+s.Radius(s.Bottom-0.01), 0, 0)
	}
}

func TestTwistTurnsTheWideAxisClockwise(t *testing.T) {
	tree := testTree(Cylinder)
	tree.At, tree.Twist = orb.Point{}, math.Pi/4 // east-west spread now runs north-west to south-east
	s := tree.Crown()
	d := 2.8 / math.Sqrt2
	if !contains(s, r3.Vector{X: d, Y: -d, Z: 5}) || contains(s, r3.Vector{X: d, Y: d, Z: 5}) {
		t.Error("the 6 m spread should run toward the south-east")
	}
}

func TestTreeWithoutCrownOrTrunkIsEmpty(t *testing.T) {
	bare := Tree{Height: 5, CrownBase: 5, SpreadX: 2, SpreadY: 2}
	nan := testTree(Cone)
	nan.Height = math.NaN()
	for name, s := range map[string]Solid{"no crown": bare.Crown(), "no trunk": bare.TrunkSolid(), "NaN": nan.Crown(), "zero": {}} {
		if !s.Empty() || s.Volume() != 0 || contains(s, r3.Vector{}) || s.Radius(0) != 0 {
			t.Errorf("%s: not empty: %+v", name, s)
		}
	}
}

// A crown raised to its middle keeps its outline above: half an ellipsoid, or
// an eighth of a cone. Its trunk is bared up to the cut, from where the crown
// was no narrower than it.
func TestRaisedCrownKeepsItsOutlineAbove(t *testing.T) {
	for shape, want := range map[CrownShape]float64{Ellipsoid: 1.0 / 2, Cone: 1.0 / 8, Cylinder: 1.0 / 2} {
		grown := Tree{Height: 18, CrownBase: 4, SpreadX: 10, SpreadY: 8, Shape: shape, Trunk: 0.5, Ground: 1.5}
		raised := grown
		raised.Cleared = 11
		if got := raised.Crown().Volume() / grown.Crown().Volume(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: raised to the middle %v of the crown is left, want %v", shape, got, want)
		}
		for _, z := range []float64{12.6, 15, 19} {
			if a, b := raised.Crown().Radius(z), grown.Crown().Radius(z); a != b {
				t.Errorf("%s: at height %v the raised crown reaches out %v, before %v", shape, z, a, b)
			}
		}
		bared := raised.BaredTrunk()
		if bared.Top != 12.5 || bared.SemiX != 0.25 || raised.TrunkSolid() != grown.TrunkSolid() {
			t.Errorf("%s: the bared trunk is %+v, want it to end at 12.5", shape, bared)
		}
		if below := bared.Bottom - 5.5; below < 0 || below > 0.02 || below > 0 && math.Abs(4*grown.Crown().Radius(bared.Bottom)-0.25) > 1e-9 {
			t.Errorf("%s: the bared trunk begins %v above the crown base", shape, below)
		}
		raised.Cleared = 2 // below the crown base: nothing to clear
		if raised.Crown() != grown.Crown() || !raised.BaredTrunk().Empty() {
			t.Errorf("%s: clearing below the crown base changed the tree", shape)
		}
	}
}

// What pruning leaves stands within what stood, at every height: a reduced
// crown, and the trunk a raised one bares.
func TestPrunedCrownStaysWithinTheGrownOne(t *testing.T) {
	for _, shape := range []CrownShape{Ellipsoid, HalfEllipsoid, Paraboloid, Cone, Cylinder, "odd"} {
		grown := Tree{Height: 18, CrownBase: 4, SpreadX: 10, SpreadY: 8, Shape: shape, Trunk: 0.5, Ground: 1.5}
		was := grown.Crown()
		for _, height := range []float64{17, 11, 5} {
			reduced := grown.Reduced(height, 0)
			crown := reduced.Crown()
			raised := reduced
			raised.Cleared = 16
			bared := raised.BaredTrunk()
			if bared.Empty() || math.Abs(crown.Top-1.5-height) > 1e-12 {
				t.Errorf("%s reduced to %v m: bared trunk %+v, crown's top %v", shape, height, bared, crown.Top)
			}
			for z := 5.5; z < 19.5; z += 0.01 {
				old := was.Radius(z)
				if x, y := crown.SemiX*crown.Radius(z), crown.SemiY*crown.Radius(z); x > was.SemiX*old+1e-9 || y > was.SemiY*old+1e-9 {
					t.Fatalf("%s reduced to %v m reaches out %v × %v at %v, before %v × %v", shape, height, x, y, z, was.SemiX*old, was.SemiY*old)
				}
				if 0.25*bared.Radius(z) > crown.SemiY*crown.Radius(z)+1e-9 {
					t.Fatalf("%s reduced to %v m and raised: the trunk at %v stands outside what was the crown", shape, height, z)
				}
			}
		}
		if r := grown.Reduced(0, 6); r.SpreadX != 6 || r.SpreadY != 6 || r.Height != 18 {
			t.Errorf("%s: drawn in to 6 m it is %+v", shape, r)
		}
		if r := grown.Reduced(20, 12); r.SpreadX != 10 || r.SpreadY != 8 || r.Height != 18 {
			t.Errorf("%s: reducing made the tree larger: %+v", shape, r)
		}
	}
}
