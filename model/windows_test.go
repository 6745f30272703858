package model

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

func TestGlassStandsBehindTheWallWithItsRevealAroundIt(t *testing.T) {
	for _, turn := range []float64{0, 40, 180} {
		faces, err := turned(Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, 35, 0.4)}}, turn).Faces()
		if err != nil {
			t.Fatal(err)
		}
		wall := faces[0]
		w := Window{ID: "W1", Left: 2, Sill: 0.8, Width: 1.2, Height: 1.5, Reveal: 0.1}
		glass, reveal, err := GlassFace(w, wall)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "glass area", glass.Area, 1.8, 1e-12)
		near(t, "depth of glass", wall.Origin.Sub(glass.Origin).Dot(wall.N), 0.1, 1e-12)
		if len(reveal) != 4 {
			t.Fatalf("%d reveal faces", len(reveal))
		}
		centre := glass.At(0.6, 0.75).Add(wall.N.Mul(0.05)) // the middle of the opening
		var sum r3.Vector
		for _, f := range reveal {
			if f.U.Cross(f.V).Sub(f.N).Norm() > 1e-12 {
				t.Errorf("%s is not right-handed", f.ID)
			}
			sum = sum.Add(f.N.Mul(f.Area))
			near(t, f.ID+" area", f.Area, areaOf(f.Outline), 1e-12)
			b := f.Outline.Bound().Center()
			toward := centre.Sub(f.At(b[0], b[1]))
			if toward.Normalize().Dot(f.N) < 1-1e-9 {
				t.Errorf("%s does not face the opening's middle: %v against %v", f.ID, f.N, toward)
			}
			for _, c := range f.Outline[0][0] {
				d := wall.Origin.Sub(f.At(c[0], c[1])).Dot(wall.N)
				if d < -1e-12 || d > 0.1+1e-12 {
					t.Errorf("%s reaches %g behind the wall, want 0 to 0.1", f.ID, d)
				}
			}
		}
		near(t, "jambs, head and sill cancel", sum.Norm(), 0, 1e-12)

		net := CutWindows(wall, []Face{glass})
		near(t, "net wall", net.Area, wall.Area-1.8, 1e-9)
		if len(net.Outline) != 1 || len(net.Outline[0]) != 2 {
			t.Errorf("want one polygon with one hole, got %v", net.Outline)
		}
	}
}

func TestWindowFlushWithTheWallHasNoReveal(t *testing.T) {
	faces, _ := Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, 35, 0)}}.Faces()
	_, reveal, err := GlassFace(Window{Left: 1, Sill: 1, Width: 1, Height: 1}, faces[0])
	if err != nil || reveal != nil {
		t.Errorf("reveal %v, error %v", reveal, err)
	}
}

func TestWindowMayStandInTheGable(t *testing.T) {
	faces := mustFaces(t, Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, 45, 0)}})
	if _, _, err := GlassFace(Window{Left: 3.5, Sill: 3.5, Width: 1, Height: 1.4}, faces["east"]); err != nil {
		t.Error(err)
	}
	if _, _, err := GlassFace(Window{Left: 0.5, Sill: 3.5, Width: 1, Height: 1.4}, faces["east"]); err == nil {
		t.Error("a window above the slope of the gable should be refused")
	}
}

func TestCutWindowsTakesTouchingWindowsTogether(t *testing.T) {
	faces := mustFaces(t, Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, 45, 0)}})
	var glass []Face
	for i := range 3 {
		g, _, err := GlassFace(Window{Left: 2 + float64(i), Sill: 0, Width: 1, Height: 2}, faces["south"])
		if err != nil {
			t.Fatal(err)
		}
		glass = append(glass, g)
	}
	near(t, "net wall", CutWindows(faces["south"], glass).Area, 30-6, 1e-9)
}

func TestWallsAreFoundByNameOrByPartAndWind(t *testing.T) {
	ell := gable(box(3, -5, 9, 4), 0, 40, 0.3)
	ell.ID = "ell"
	faces, err := Building{Parts: []Part{gable(box(0, 0, 12, 8), 90, 40, 0.3), ell}}.Faces()
	if err != nil {
		t.Fatal(err)
	}
	for name, at := range map[string]r3.Vector{
		"south-1":   {X: 0, Y: 0},
		"south-2":   {X: 3, Y: -5},
		"South 2":   {X: 3, Y: -5},
		"ell/south": {X: 3, Y: -5},
		"ell-south": {X: 3, Y: -5},
		"north":     {X: 12, Y: 8},
	} {
		wall, err := FindWall(faces, name)
		if err != nil {
			t.Error(err)
		} else if wall.Origin.Sub(at).Norm() > 1e-6 {
			t.Errorf("%s begins at %v, want %v", name, wall.Origin, at)
		}
	}
	for name, says := range map[string]string{"south": " long or south-2 of ell, 19 ft 8 in (6.00 m) long", "up": "the walls are", "ell/north": "there is no wall"} {
		if _, err := FindWall(faces, name); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want it to say %q", name, err, says)
		}
	}
}

func TestWindsAreNamedByTheNearestEighth(t *testing.T) {
	for az, want := range map[float64]string{0: "north", 22: "north", 23: "north-east", 90: "east", 135: "south-east", 180: "south", 203: "south-west", 270: "west", 337: "north-west", 338: "north", 359.9: "north"} {
		if got := wind(Toward(0, s1.Angle(az)*s1.Degree)); got != want {
			t.Errorf("%g° is %s, want %s", az, got, want)
		}
	}
}

func TestShedRoofMeetsTheWallTopAtTheLowWall(t *testing.T) {
	p := Part{Footprint: box(0, 0, 6, 4), WallHeight: 2.5, Roof: Roof{Kind: Shed, Down: 180 * s1.Degree, Pitch: 15 * s1.Degree, Overhang: 0.3}}
	tan, cos := math.Tan(15*math.Pi/180), math.Cos(15*math.Pi/180)
	faces := mustFaces(t, Building{Parts: []Part{p}})
	near(t, "low wall", faces["south"].Area, 6*2.5, 1e-9)
	near(t, "high wall", faces["north"].Area, 6*(2.5+4*tan), 1e-6)
	near(t, "side wall", faces["east"].Area, 4*2.5+4*4*tan/2, 1e-6)
	near(t, "roof", faces["roof-south"].Area, 6.6*4.6/cos, 1e-6)
	near(t, "high edge", faces["roof-south"].Highest(), 2.5+4.3*tan, 1e-9)
}

func TestShedFallsSquareToTheWallNearestItsDirection(t *testing.T) {
	p := Part{Footprint: box(0, 0, 6, 4), WallHeight: 2.5, Roof: Roof{Kind: Shed, Down: 171 * s1.Degree, Pitch: 15 * s1.Degree}}
	near(t, "azimuth", mustFaces(t, Building{Parts: []Part{p}})["roof-south"].Azimuth().Degrees(), 180, 1e-9)
}

func TestFlatRoofOverAnyPolygonIncludesItsOverhang(t *testing.T) {
	p := Part{Footprint: orb.Ring{{0, 0}, {8, 0}, {8, 3}, {3, 3}, {3, 8}, {0, 8}, {0, 0}}, WallHeight: 3, Roof: Roof{Kind: Flat, Overhang: 0.5}}
	roof := mustFaces(t, Building{Parts: []Part{p}})["roof"]
	near(t, "roof", roof.Area, 9*4+4*5, 1e-6)
	if len(roof.Outline) != 1 || len(roof.Outline[0][0]) != 7 {
		t.Errorf("outline %v, want an L", roof.Outline)
	}
}

func TestOpenPorchHasARoofAndNoWalls(t *testing.T) {
	p := Part{Footprint: box(0, 0, 6, 2), WallHeight: 2.5, Open: true, Roof: Roof{Kind: Shed, Down: 180 * s1.Degree, Pitch: 10 * s1.Degree}}
	b := Building{Parts: []Part{p}}
	if s := b.Screens(); len(s) != 1 || s[0].Kind != RoofFace {
		t.Errorf("screens %v, want the roof only", s)
	}
	if b.FootprintArea() != 0 {
		t.Error("an open porch has no floor area")
	}
}

func TestExplicitPlanesEqualTheGableTheyDescribe(t *testing.T) {
	const m, o = 0.75, 0.4
	e, r := 3-o*m, 3+4*m
	p := Part{Footprint: box(0, 0, 10, 8), WallHeight: 3, Roof: Roof{Kind: Plane, Planes: [][]Point3{
		{{-o, -o, e}, {10 + o, -o, e}, {10 + o, 4, r}, {-o, 4, r}},
		{{-o, 8 + o, e}, {-o, 4, r}, {10 + o, 4, r}, {10 + o, 8 + o, e}},
	}}}
	got := mustFaces(t, Building{Parts: []Part{p}})
	want := mustFaces(t, Building{Parts: []Part{gable(box(0, 0, 10, 8), 90, math.Atan(m)*180/math.Pi, o)}})
	for id, f := range want {
		near(t, id, got[id].Area, f.Area, 1e-6)
		near(t, id+" origin", got[id].Origin.Sub(f.Origin).Norm(), 0, 1e-6)
	}
	p.Roof.Planes[0][0].Z += 0.3
	if _, err := (Building{Parts: []Part{p}}).Faces(); err == nil || !strings.Contains(err.Error(), "off the plane") {
		t.Errorf("a plane bent by 30 cm: %v", err)
	}
}

func TestChimneyShowsAboveTheRoofOnly(t *testing.T) {
	b := Building{Parts: []Part{{Footprint: box(0, 0, 10, 8), WallHeight: 3, Roof: Roof{Kind: Flat}}},
		Chimneys: []Chimney{{ID: "C", At: orb.Point{5, 4}, Width: 0.6, Depth: 0.4, Top: 4.5}}}
	faces := mustFaces(t, b)
	near(t, "south side", faces["C-south"].Area, 0.6*1.5, 1e-9)
	near(t, "east side", faces["C-east"].Area, 0.4*1.5, 1e-9)
	near(t, "top", faces["C-top"].Area, 0.24, 1e-9)
	near(t, "roof", faces["roof"].Area, 80-0.24, 1e-9)
	near(t, "foot of the south side", faces["C-south"].Origin.Z, 3, 1e-9)
}

func TestUpperStoreyStandsOnALowerFlatRoof(t *testing.T) {
	low := Part{Footprint: box(0, 0, 10, 8), WallHeight: 3, Roof: Roof{Kind: Flat}}
	up := Part{Footprint: box(2, 2, 6, 6), Base: 3, WallHeight: 2, Roof: Roof{Kind: Flat}}
	faces := mustFaces(t, Building{Parts: []Part{low, up}})
	near(t, "lower roof", faces["roof-1"].Area, 80-16, 1e-9)
	near(t, "upper wall", faces["south-2"].Area, 8, 1e-9)
	near(t, "upper wall's foot", faces["south-2"].Origin.Z, 3, 1e-9)
}

func TestFencePanelsStandOnTheirLine(t *testing.T) {
	f := Fence{ID: "F", Line: orb.LineString{{0, 0}, {4, 0}, {4, 0}, {4, 3}}, Height: 2, Base: 0.5}
	s := f.Screens()
	if len(s) != 2 {
		t.Fatalf("%d panels, want 2", len(s))
	}
	near(t, "first", s[0].Area, 8, 1e-12)
	near(t, "second", s[1].Area, 6, 1e-12)
	near(t, "foot", s[0].Origin.Z, 0.5, 0)
	if s[1].At(3, 2) != (r3.Vector{X: 4, Y: 3, Z: 2.5}) {
		t.Errorf("far top corner at %v", s[1].At(3, 2))
	}
}

func TestHouseFiguresForTheCheck(t *testing.T) {
	b := Building{Parts: []Part{gable(box(0, 0, 12, 8), 90, 45, 0.3), gable(box(3, -5, 9, 4), 0, 45, 0.3)}}
	near(t, "footprint", b.FootprintArea(), 12*8+6*5, 1e-9)
	near(t, "ridge", b.RidgeHeight(), 7, 1e-9)
	faces, err := b.Faces()
	if err != nil {
		t.Fatal(err)
	}
	var walls []string
	for _, f := range faces {
		if f.Kind == WallFace {
			walls = append(walls, f.ID)
		}
	}
	if got := strings.Join(walls, " "); got != "south-1 east-2 north west-1 south-2 east-1 west-2" {
		t.Errorf("walls: %s", got)
	}
	wall, err := FindWall(faces, "north")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "north wall", wall.Width(), 12, 1e-9)
}
