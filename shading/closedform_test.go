package shading

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/testdata"
)

// Closed forms of plane trigonometry against the real caster. Their figures
// are in testdata/shading_closed_forms.csv: handbook formulas (from memory),
// computed for this project apart from the program.

func closedForms(t *testing.T, form string) []testdata.Row {
	t.Helper()
	all, err := testdata.Read("shading_closed_forms.csv")
	if err != nil {
		t.Fatal(err)
	}
	var out []testdata.Row
	for _, r := range all {
		if r["form"] == form {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		t.Fatalf("no figures for %s", form)
	}
	return out
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, within)
	}
}

func degrees(x float64) s1.Angle { return s1.Angle(x) * s1.Degree }

// toSun is the direction of the sun by degrees.
func toSun(altitude, azimuth float64) r3.Vector {
	return model.Toward(degrees(altitude), degrees(azimuth))
}

// beforeWall is the direction of the sun by its altitude and its azimuth from
// the normal of a south wall.
func beforeWall(altitude, gamma float64) r3.Vector { return toSun(altitude, 180+gamma) }

func rectangle(u0, v0, u1, v1 float64) orb.MultiPolygon {
	return orb.MultiPolygon{{{{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}, {u0, v0}}}}
}

// flat is a level face at height z, seen from above.
func flat(x0, y0, x1, y1, z float64) model.Face {
	return model.Face{
		Origin: r3.Vector{Z: z}, U: r3.Vector{X: 1}, V: r3.Vector{Y: 1}, N: r3.Vector{Z: 1},
		Outline: rectangle(x0, y0, x1, y1), Area: (x1 - x0) * (y1 - y0),
	}
}

// southWall is a face in the plane y looking south.
func southWall(x0, z0, x1, z1, y float64) model.Face {
	return model.Face{
		Origin: r3.Vector{Y: y}, U: r3.Vector{X: 1}, V: r3.Vector{Z: 1}, N: r3.Vector{Y: -1},
		Outline: rectangle(x0, z0, x1, z1), Area: (x1 - x0) * (z1 - z0),
	}
}

// fin is a face in the plane x looking west, from y0 to y1.
func fin(x, y0, y1, z0, z1 float64) model.Face {
	return model.Face{
		Origin: r3.Vector{X: x}, U: r3.Vector{Y: -1}, V: r3.Vector{Z: 1}, N: r3.Vector{X: -1},
		Outline: rectangle(-y1, z0, -y0, z1), Area: (y1 - y0) * (z1 - z0),
	}
}

func receiver(f model.Face) *Scene { return &Scene{Surfaces: []Surface{{ID: "receiver", Face: f}}} }

// screen puts a flat opaque thing into the scene.
func (sc *Scene) screen(thing string, faces ...model.Face) {
	sc.Blockers = append(sc.Blockers, Blocker{Thing: thing, Kind: Structure, Optics: Opaque, screens: faces})
}

// shaded is the area of the first surface that anything stands before, cast in
// rows of 1 cm.
func (sc *Scene) shaded(s r3.Vector) float64 {
	return sc.Surfaces[0].Face.Area * (1 - openShare(sc.one(s, 0.01)))
}

// openShare of the first surface has nothing before it.
func openShare(l *Ledger) float64 {
	open := 0.0
	for _, e := range l.Surfaces[0].Lines[0] {
		if len(l.Sets[e.Set]) == 0 {
			open += e.Share
		}
	}
	return open
}

// shadowAt is where the shadow of everything lies on the first surface: the
// mean of its points, and its highest row.
func (sc *Scene) shadowAt(s r3.Vector) (u, v, top float64) {
	p := sc.plateOf(&sc.Surfaces[0], 0.01, []float64{0.5})
	sweep := newSweeper(p, len(sc.Blockers))
	length := 0.0
	top = -inf
	sweep.cast(s, func(r int, low, high float64, set int32) {
		if set != 0 {
			length += high - low
			u += (high*high - low*low) / 2
			v += (high - low) * p.combs[0].rows[r].v
			top = max(top, p.combs[0].rows[r].v+p.step/2)
		}
	})
	return u / length, v / length, top
}

const far = 2000 // half the length of a long thing, m

// Each edge along the rows is found to half a row. What touches the receiver
// loses the strip within inFront of it, whose shadow is as much longer than
// that as the whole shadow is than the thing.
const halfRow = 0.005

func TestOverhangShadowReachesTheProfileAngle(t *testing.T) {
	for _, r := range closedForms(t, "overhang") {
		sc := receiver(southWall(-1, 0, 1, 3, 0))
		sc.screen("overhang", flat(-far, -r.Number("a"), far, 0, 3))
		depth := sc.shaded(beforeWall(r.Number("altitude"), r.Number("azimuth"))) / 2
		near(t, "overhang, sun "+r["altitude"]+"/"+r["azimuth"], depth, r.Number("want"), 2*halfRow+inFront*r.Number("want")/r.Number("a"))
	}
}

func TestFinShadesSideways(t *testing.T) {
	for _, r := range closedForms(t, "fin") {
		sc := receiver(southWall(-3, 1, 3, 2, 0))
		sc.screen("fin", fin(0, -r.Number("a"), 0, -far, far))
		s := beforeWall(r.Number("altitude"), r.Number("azimuth"))
		near(t, "fin, sun at "+r["azimuth"], sc.shaded(s), r.Number("want"), inFront*r.Number("want")/r.Number("a")+1e-4)
		if u, _, _ := sc.shadowAt(s); u*s.X > 0 {
			t.Errorf("sun at %s: the shadow lies on the sun's side", r["azimuth"])
		}
	}
}

// The infinitely long form overstates what a short overhang does near its end:
// the lost triangle under the end is x·y/2 with x = P|tan γ|, y = P tan Ω.
func TestShortOverhangLosesATriangleAtItsEnd(t *testing.T) {
	const projection, altitude, gamma = 0.6, 26.6, 30
	sc := receiver(southWall(-4, 0, 4, 3, 0))
	sc.screen("overhang", flat(-4, -projection, 4, 0, 3))
	tan := func(x float64) float64 { return math.Tan(x * math.Pi / 180) }
	depth := projection * tan(altitude) / math.Cos(gamma*math.Pi/180)
	want := 8*depth - projection*tan(gamma)*depth/2
	near(t, "shaded area", sc.shaded(beforeWall(altitude, gamma)), want, 0.005*8)
}

func TestTreeShadowTopStandsWhereSimilarTrianglesPutIt(t *testing.T) {
	for _, r := range closedForms(t, "pole") {
		sc := receiver(southWall(-12, 0, 12, 12, 0))
		sc.AddTree(&model.Tree{
			ID: "T1", At: orb.Point{0, -r.Number("b")}, Height: r.Number("a"), SpreadX: 0.002, SpreadY: 0.002, Shape: model.Cylinder,
		}, "")
		u, _, top := sc.shadowAt(beforeWall(r.Number("altitude"), r.Number("azimuth")))
		near(t, "top, sun at "+r["azimuth"], top, r.Number("want"), 0.011)
		near(t, "shift, sun at "+r["azimuth"], math.Abs(u), r.Number("want2"), 0.002)
	}
}

func TestUprightThrowsItsLengthOnTheGround(t *testing.T) {
	for _, r := range closedForms(t, "length") {
		sc := receiver(flat(-0.5, 0, 0.5, 60, 0))
		sc.screen("wall", southWall(-far, 0, far, r.Number("a"), 0))
		got := sc.shaded(toSun(r.Number("altitude"), 180))
		near(t, "altitude "+r["altitude"], got, r.Number("want"), halfRow+inFront*r.Number("want")/r.Number("a")+5e-4)
	}
}

func TestBoxShadowOnTheGround(t *testing.T) {
	for _, r := range closedForms(t, "box") {
		w, d, h := r.Number("a"), r.Number("b"), r.Number("c")
		sc := receiver(flat(-30, -30, 30, 30, 0))
		sc.AddBuilding(&model.Building{ID: "box", Parts: []model.Part{{
			ID: "main", WallHeight: h, Roof: model.Roof{Kind: model.Flat},
			Footprint: orb.Ring{{-w / 2, -d / 2}, {w / 2, -d / 2}, {w / 2, d / 2}, {-w / 2, d / 2}, {-w / 2, -d / 2}},
		}}}, "")
		got := sc.shaded(toSun(r.Number("altitude"), r.Number("azimuth")))
		near(t, "box, sun "+r["altitude"]+"/"+r["azimuth"], got, r.Number("want"), 1e-3*r.Number("want"))
	}
}

func TestCrownShadowsOnTheGround(t *testing.T) {
	tree := map[string]func(a, b float64) model.Tree{
		"sphere": func(a, b float64) model.Tree {
			return model.Tree{SpreadX: 2 * a, SpreadY: 2 * a, CrownBase: b - a, Height: b + a, Shape: model.Ellipsoid}
		},
		"ellipsoid": func(a, b float64) model.Tree {
			return model.Tree{SpreadX: 2 * a, SpreadY: 2 * a, CrownBase: 1, Height: 1 + 2*b, Shape: model.Ellipsoid}
		},
		"cone": func(a, b float64) model.Tree {
			return model.Tree{SpreadX: 2 * a, SpreadY: 2 * a, Height: b, Shape: model.Cone}
		},
	}
	for form, make := range tree {
		for _, r := range closedForms(t, form) {
			for _, azimuth := range []float64{180, 247, 360} {
				crown := make(r.Number("a"), r.Number("b"))
				sc := receiver(flat(-60, -60, 60, 60, 0))
				sc.AddTree(&crown, "")
				s := toSun(r.Number("altitude"), azimuth)
				near(t, form+" at "+r["altitude"], sc.shaded(s), r.Number("want"), 2e-4*r.Number("want"))
				if r["want2"] != "" {
					u, v, _ := sc.shadowAt(s)
					away := math.Hypot(s.X, s.Y)
					near(t, form+" moves away", -(u*s.X+v*s.Y)/away, r.Number("want2"), 2e-3)
				}
			}
		}
	}
}

// A sphere's shadow on a wall is an ellipse of area πR²/cos θ; on a roof plane
// that cuts it through its centre, half of the ellipse and half of the disc.
func TestSphereShadowOnAWallAndOnARoofThatCutsIt(t *testing.T) {
	const r = 2.0
	tree := model.Tree{At: orb.Point{0, -8}, SpreadX: 2 * r, SpreadY: 2 * r, CrownBase: 8, Height: 8 + 2*r, Shape: model.Ellipsoid}
	for _, sun := range [][2]float64{{10, 0}, {30, 30}, {20, -45}} {
		sc := receiver(southWall(-20, -10, 20, 20, 0))
		sc.AddTree(&tree, "")
		s := beforeWall(sun[0], sun[1])
		near(t, "on the wall", sc.shaded(s), math.Pi*r*r/s.Dot(sc.Surfaces[0].Face.N), 0.003)
	}
	for _, altitude := range []float64{20, 45, 90} {
		sc := receiver(flat(-20, -20, 20, 20, 8+r))
		sc.AddTree(&tree, "")
		want := math.Pi * r * r / 2 * (1 + 1/math.Sin(altitude*math.Pi/180))
		near(t, "on the roof that cuts it", sc.shaded(toSun(altitude, 200)), want, 0.003)
	}
}
