package model

import (
	"math"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

func box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

func gable(foot orb.Ring, ridge, pitch, overhang float64) Part {
	return Part{Footprint: foot, WallHeight: 3, Roof: Roof{Kind: Gable,
		Ridge: s1.Angle(ridge) * s1.Degree, Pitch: s1.Angle(pitch) * s1.Degree, Overhang: overhang}}
}

func mustFaces(t *testing.T, b Building) map[string]Face {
	t.Helper()
	list, err := b.Faces()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]Face{}
	for _, f := range list {
		if _, twice := out[f.ID]; twice {
			t.Errorf("two faces are called %s", f.ID)
		}
		out[f.ID] = f
	}
	return out
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

func TestGableHouseHasClosedFormAreas(t *testing.T) {
	pitch, o := 35.0, 0.4
	faces := mustFaces(t, Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, pitch, o)}})
	cos, tan := math.Cos(pitch*math.Pi/180), math.Tan(pitch*math.Pi/180)
	for id, want := range map[string]float64{
		"south": 30, "north": 30,
		"east": 8*3 + 8*4*tan/2, "west": 8*3 + 8*4*tan/2,
		"roof-south": (4 + o) / cos * (10 + 2*o), "roof-north": (4 + o) / cos * (10 + 2*o),
	} {
		near(t, id, faces[id].Area, want, 1e-6)
	}
	if len(faces) != 6 {
		t.Errorf("%d faces, want 6", len(faces))
	}
	roof := faces["roof-south"]
	near(t, "eave edge z", roof.Origin.Z, 3-o*tan, 1e-9)
	near(t, "eave edge x", roof.Origin.X, -o, 1e-9)
	near(t, "eave edge y", roof.Origin.Y, -o, 1e-9)
	near(t, "roof azimuth", roof.Azimuth().Degrees(), 180, 1e-9)
	near(t, "roof tilt", roof.Tilt().Degrees(), pitch, 1e-9)
	east := faces["east"]
	near(t, "east wall's left end y", east.Origin.Y, 0, 1e-9)
	near(t, "east wall's left end x", east.Origin.X, 10, 1e-9)
}

func TestHipRoofAreaIsPlanOverCosine(t *testing.T) {
	const pitch, o = 30.0, 0.5
	for name, c := range map[string]struct {
		foot   orb.Ring
		plan   float64
		planes int
	}{
		"square": {box(0, 0, 8, 8), 81, 4},
		"oblong": {box(0, 0, 12, 8), 13 * 9, 4},
		"L": {orb.Ring{{0, 0}, {12, 0}, {12, 6}, {5, 6}, {5, 11}, {0, 11}, {0, 0}},
			13*7 + 6*5, 6},
		"T": {orb.Ring{{0, 0}, {14, 0}, {14, 6}, {9, 6}, {9, 12}, {5, 12}, {5, 6}, {0, 6}, {0, 0}},
			15*7 + 5*6, 7}, // the two shoulders lie in one plane that runs past the stem
		"U": {orb.Ring{{0, 0}, {15, 0}, {15, 12}, {10, 12}, {10, 5}, {5, 5}, {5, 12}, {0, 12}, {0, 0}},
			16*6 + 2*6*7, 8},
	} {
		for _, turn := range []float64{0, 17, 90, 203} {
			b := turned(Building{Parts: []Part{{Footprint: c.foot, WallHeight: 3,
				Roof: Roof{Kind: Hip, Pitch: pitch * s1.Degree, Overhang: o}}}}, turn)
			sum, n := 0.0, 0
			for _, f := range mustFaces(t, b) {
				if f.Kind == RoofFace {
					sum += f.Area
					n++
				}
			}
			near(t, name, sum, c.plan/math.Cos(pitch*math.Pi/180), 1e-4)
			if n != c.planes {
				t.Errorf("%s: %d roof planes, want %d", name, n, c.planes)
			}
		}
	}
}

// turned is the building turned clockwise by degrees about the origin.
func turned(b Building, degrees float64) Building {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	turn := func(p orb.Point) orb.Point { return orb.Point{p[0]*cos + p[1]*sin, -p[0]*sin + p[1]*cos} }
	out := b
	out.Parts, out.Chimneys = nil, nil
	for _, p := range b.Parts {
		var ring orb.Ring
		for _, c := range p.Footprint {
			ring = append(ring, turn(c))
		}
		p.Footprint = ring
		p.Roof.Ridge += s1.Angle(degrees) * s1.Degree
		p.Roof.Down += s1.Angle(degrees) * s1.Degree
		var planes [][]Point3
		for _, plane := range p.Roof.Planes {
			var to []Point3
			for _, c := range plane {
				q := turn(orb.Point{c.X, c.Y})
				to = append(to, Point3{q[0], q[1], c.Z})
			}
			planes = append(planes, to)
		}
		p.Roof.Planes = planes
		out.Parts = append(out.Parts, p)
	}
	for _, c := range b.Chimneys {
		c.At = turn(c.At)
		c.Twist += degrees * math.Pi / 180
		out.Chimneys = append(out.Chimneys, c)
	}
	return out
}

func TestCrossingGablesShowTheirClosedFormAreas(t *testing.T) {
	// A main house 12 × 8 with its ridge east-west and an ell 6 wide that runs
	// from inside it 5 m out to the south, eaves at one height, one pitch.
	const pitch, o = 40.0, 0.3
	tan, cos := math.Tan(pitch*math.Pi/180), math.Cos(pitch*math.Pi/180)
	main := gable(box(0, 0, 12, 8), 90, pitch, o)
	ell := gable(box(3, -5, 9, 4), 0, pitch, o)
	ell.ID = "ell"
	faces := mustFaces(t, Building{Parts: []Part{main, ell}})
	roofs := 0.0
	for _, f := range faces {
		if f.Kind == RoofFace {
			roofs += f.Area
		}
	}
	plan := (12+2*o)*(8+2*o) + (6+2*o)*5 // the ell runs 5 m past the main eave edge
	near(t, "roofs", roofs, plan/cos, 1e-3)
	south := 0.0
	for _, f := range faces {
		if f.Kind == WallFace && wind(f.N) == "south" {
			south += f.Area
		}
	}
	near(t, "south walls", south, 12*3+6*3*tan/2, 1e-6)
	near(t, "ell's east wall", faces["east-1"].Area, 5*3, 1e-6)
}

func TestPartsSideBySideLoseTheWallBetween(t *testing.T) {
	a, b := gable(box(0, 0, 6, 8), 90, 30, 0), gable(box(6, 0, 12, 8), 90, 30, 0)
	faces := mustFaces(t, Building{Parts: []Part{a, b}})
	for _, id := range []string{"east", "west", "south-1", "south-2", "north-1", "north-2", "roof-south-1", "roof-south-2"} {
		if _, ok := faces[id]; !ok {
			t.Errorf("no face %s among %d", id, len(faces))
		}
	}
	if len(faces) != 10 {
		t.Errorf("%d faces, want 10: the wall between the parts is gone", len(faces))
	}
	near(t, "west of south-1", faces["south-1"].Origin.X, 0, 1e-9)
	near(t, "west of south-2", faces["south-2"].Origin.X, 6, 1e-9)
}
