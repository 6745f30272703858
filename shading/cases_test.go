package shading

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun"
)

// ball is a tree whose crown is a sphere.
func ball(id string, x, y, z, r, tau float64) model.Tree {
	return model.Tree{
		ID: id, At: orb.Point{x, y}, CrownBase: z - r, Height: z + r, SpreadX: 2 * r, SpreadY: 2 * r,
		Shape: model.Ellipsoid, Evergreen: true, InLeaf: tau, Bare: tau,
	}
}

func box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

// one casts a single direction on every surface.
func (sc *Scene) one(s r3.Vector, row float64) *Ledger {
	all := make([]int, len(sc.Surfaces))
	for i := range all {
		all[i] = i
	}
	return sc.Cast(all, 1, func(int, int) (r3.Vector, bool) { return s, true }, Casting{Row: row})
}

func (l *Ledger) sum(surface int) float64 {
	total := 0.0
	for _, e := range l.Surfaces[surface].Lines[0] {
		total += e.Share
	}
	return total
}

// lit is the share of a surface's sun that passes when every blocker lets its
// in-leaf share through.
func (sc *Scene) lit(l *Ledger, surface int) float64 {
	total := 0.0
	for _, e := range l.Surfaces[surface].Lines[0] {
		for _, b := range l.Sets[e.Set] {
			e.Share *= sc.Blockers[b].Optics.InLeaf
		}
		total += e.Share
	}
	return total
}

func TestTreeThatPassesNothingIsSolidAndOneThatPassesAllIsNone(t *testing.T) {
	sun := toSun(35, 160)
	var many orb.Ring
	for i := range 181 {
		sin, cos := math.Sincos(float64(i%180) * math.Pi / 90)
		many = append(many, orb.Point{2 * cos, 2 * sin})
	}
	solid := receiver(flat(-20, -20, 20, 20, 0))
	solid.AddBuilding(&model.Building{ID: "tower", Parts: []model.Part{{Footprint: many, WallHeight: 9, Roof: model.Roof{Kind: model.Flat}}}}, "")
	want := solid.lit(solid.one(sun, 0.02), 0)
	for _, c := range []struct{ tau, want float64 }{{0, want}, {1, 1}} {
		sc := receiver(flat(-20, -20, 20, 20, 0))
		sc.AddTree(&model.Tree{ID: "T1", Height: 9, SpreadX: 4, SpreadY: 4, Shape: model.Cylinder, InLeaf: c.tau, Bare: c.tau}, "")
		near(t, fmt.Sprintf("transmissivity %g", c.tau), sc.lit(sc.one(sun, 0.02), 0), c.want, 2e-5)
	}
}

func TestTwoCrownsInLinePassTheProduct(t *testing.T) {
	sc := receiver(southWall(-0.1, 4, 0.1, 4.2, 0))
	first, second := ball("T1", 0, -5, 7, 2, 0.7), ball("T2", 0, -12, 11, 2, 0.7)
	sc.AddTree(&first, "")
	sc.AddTree(&second, "")
	s := r3.Vector{Y: -5, Z: 3}.Normalize()
	near(t, "two crowns of 0.7", sc.lit(sc.one(s, 0.01), 0), 0.49, 1e-12)
}

// A receiver inside two crowns is shaded by both in every hour and from every
// part of the sky; only what comes off the ground is not.
func TestCrownAroundTheReceiverShadesItAlways(t *testing.T) {
	sc := receiver(southWall(-1, 4, 1, 5, 0))
	first, second := ball("T1", 0, 0, 5, 4.9, 0.7), ball("T2", 1, 0, 6, 5, 0.7)
	sc.AddTree(&first, "")
	sc.AddTree(&second, "")
	year := testYear(42)
	a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{}), lightOf(year))
	r := a.Read(a.Today())[0]
	near(t, "share of the sky", r.Sky, 0.49, 1e-9)
	near(t, "sun", r.Total(), 0.49*(r.OpenTotal()-total(&a.Surfaces[0].Ground, nil))+total(&a.Surfaces[0].Ground, nil), 1e-6*r.Total())
	open := a.Read(a.Without(a.Today(), "T1", "T2"))[0]
	near(t, "access with both gone", open.Access(), 1, 1e-9)
}

func TestTreeBehindWallNeverShadesIt(t *testing.T) {
	sc := receiver(southWall(0, 0, 10, 5, 0))
	for i := range 12 {
		tree := ball(fmt.Sprint(i), float64(i), 3.01+float64(i%4), 3+float64(i), 3, 0)
		sc.AddTree(&tree, "")
	}
	year := testYear(42)
	l := sc.CastYear(lightOf(year), nil, Casting{Row: 0.1})
	for i, line := range l.Surfaces[0].Lines {
		for _, e := range line {
			if len(l.Sets[e.Set]) > 0 {
				t.Fatalf("line %d: a tree behind the wall shades %.3g of it", i, e.Share)
			}
		}
	}
}

// A crown that pokes through the wall shades what is inside it, and beyond that
// only by its part in front: at a sun square to the wall that is the disc in
// which the wall cuts it.
func TestCrownThroughTheWallShadesWithItsFrontPart(t *testing.T) {
	for _, y := range []float64{1, 1.9, 0} {
		sc := receiver(southWall(-5, 0, 5, 10, 0))
		tree := ball("T1", 0, y, 5, 2, 0)
		sc.AddTree(&tree, "")
		near(t, "disc in the wall", sc.shaded(beforeWall(0.001, 0)), math.Pi*(4-y*y), 0.01)
	}
}

func TestTreeBetweenTwoWindowsShadesOneAfterTheOther(t *testing.T) {
	sc := &Scene{Surfaces: []Surface{{ID: "west window", Face: southWall(-2, 1, -1, 2, 0)}, {ID: "east window", Face: southWall(1, 1, 2, 2, 0)}}}
	sc.AddTree(&model.Tree{ID: "T1", At: orb.Point{0, -3}, Height: 9, SpreadX: 0.6, SpreadY: 0.6, Shape: model.Cylinder}, "")
	for _, c := range []struct {
		azimuth      float64
		west, eastly float64 // shaded shares
	}{
		{180, 0, 0},
		{180 - 26.565, 0.6 / math.Cos(26.565*math.Pi/180), 0}, // morning: the shadow falls to the west
		{180 + 26.565, 0, 0.6 / math.Cos(26.565*math.Pi/180)},
	} {
		l := sc.one(toSun(20, c.azimuth), 0.01)
		near(t, fmt.Sprintf("west window, sun at %.0f°", c.azimuth), 1-sc.lit(l, 0), c.west, 1e-4)
		near(t, fmt.Sprintf("east window, sun at %.0f°", c.azimuth), 1-sc.lit(l, 1), c.eastly, 1e-4)
	}
}

func TestEaveShadesItsOwnWallByTheProfileAngle(t *testing.T) {
	const height, overhang = 3.0, 0.6
	sc, err := NewScene(&model.Site{House: model.Building{ID: "house", Parts: []model.Part{{
		Footprint: box(0, 0, 10, 8), WallHeight: height, Roof: model.Roof{Kind: model.Flat, Overhang: overhang},
	}}}})
	if err != nil {
		t.Fatal(err)
	}
	south := sc.SurfaceNamed("south")
	for _, altitude := range []float64{15, 26.6, 50, 70} {
		want := max(0, 1-overhang*math.Tan(altitude*math.Pi/180)/height)
		near(t, fmt.Sprintf("sun at %g°", altitude), sc.one(toSun(altitude, 180), 0.01).sum(south), want, 2*halfRow/height+inFront)
	}
	// Half a row of eave all along a north wall is nothing the sun comes over.
	if got := sc.one(toSun(40, 180), 0.01).sum(sc.SurfaceNamed("north")); got != 0 {
		t.Errorf("north wall under a southern sun gets %g", got)
	}
}

// A gable at 45° before a lower flat roof: while the sun stands lower than the
// roof is steep, the ridge's shadow falls beyond the eave behind, to H/tan α
// from the ridge.
func TestRidgeShadesTheRoofBehindIt(t *testing.T) {
	sc, err := NewScene(&model.Site{House: model.Building{ID: "house", Parts: []model.Part{
		{ID: "front", Footprint: box(0, 0, 40, 6), WallHeight: 3, Roof: model.Roof{Kind: model.Gable, Ridge: s1.Angle(math.Pi / 2), Pitch: degrees(45)}},
		{ID: "back", Footprint: box(0, 6, 40, 26), WallHeight: 3, Roof: model.Roof{Kind: model.Flat}},
	}}})
	if err != nil {
		t.Fatal(err)
	}
	back := -1
	for i, s := range sc.Surfaces {
		if s.Kind == model.RoofFace && s.Face.N.Z > 0.999 {
			back = i
		}
	}
	if back < 0 {
		t.Fatal("no flat roof")
	}
	for _, altitude := range []float64{25, 30, 40} {
		reach := 3/math.Tan(altitude*math.Pi/180) - 3
		near(t, fmt.Sprintf("sun at %g°", altitude), sc.one(toSun(altitude, 180), 0.01).sum(back), 1-reach/20, 1e-3)
	}
}

func TestAnyNumberOfTrees(t *testing.T) {
	t.Run("none", func(t *testing.T) {
		sc := receiver(flat(0, 0, 1, 1, 0))
		near(t, "open", sc.one(toSun(30, 100), 0).sum(0), 1, 1e-12)
	})
	t.Run("eighty around one receiver", func(t *testing.T) {
		sc := receiver(flat(-1, -1, 1, 1, 5))
		for i := range 80 {
			tree := ball(fmt.Sprint(i), 0, 0, 5, 3+0.02*float64(i), 0.98)
			tree.CrownBase = max(tree.CrownBase, 0)
			sc.AddTree(&tree, "")
		}
		near(t, "eighty crowns of 0.98", sc.lit(sc.one(toSun(60, 200), 0.1), 0), math.Pow(0.98, 80), 1e-12)
	})
	t.Run("five hundred side by side", func(t *testing.T) {
		sc := receiver(flat(-1, -1, 501, 3, 0))
		for i := range 500 {
			sc.AddTree(&model.Tree{ID: fmt.Sprint(i), At: orb.Point{float64(i) + 0.5, 0}, Height: 1, SpreadX: 0.5, SpreadY: 0.5, Shape: model.Cylinder}, "")
		}
		want := 500 * (math.Pi*0.25*0.25 + 0.5*1/math.Tan(degrees(30).Radians()))
		near(t, "shaded area", sc.shaded(toSun(30, 180)), want, 1e-3*want)
	})
}

func TestSunBehindGrazingOrAtTheZenith(t *testing.T) {
	tree := ball("T1", 0, -4, 6, 2, 0)
	wall, ground := receiver(southWall(-5, 0, 5, 5, 0)), receiver(flat(-10, -10, 10, 10, 0))
	wall.AddTree(&tree, "")
	ground.AddTree(&tree, "")
	for name, s := range map[string]r3.Vector{"behind": toSun(40, 0), "in the plane": toSun(40, 90), "zenith": {Z: 1}, "below": toSun(-5, 180), "level": toSun(0, 180)} {
		if got := wall.one(s, 0.1).sum(0); got != 0 {
			t.Errorf("sun %s: a south wall gets %g", name, got)
		}
	}
	near(t, "disc under the sun at the zenith", ground.shaded(r3.Vector{Z: 1}), 4*math.Pi, 1e-3)
	if got := ground.one(toSun(0.01, 180), 0.1).sum(0); !(got >= 0 && got <= 1) {
		t.Errorf("sun on the horizon: %g", got)
	}
}

func TestYearsWithoutNightOrNoonStayFinite(t *testing.T) {
	site := referenceLot(3)
	for _, latitude := range []float64{-90, -67, 0, 23.4, 69.6, 90} {
		year := testYear(latitude)
		sc, err := NewScene(site)
		if err != nil {
			t.Fatal(err)
		}
		a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{Row: 0.6}), lightOf(year))
		for _, r := range a.Read(a.Today()) {
			for m := time.January; m <= time.December; m++ {
				if x := r.Total(m); !(x >= 0 && x <= r.OpenTotal(m)+1e-9) {
					t.Errorf("latitude %g, %s, %s: %v of %v kWh/m²", latitude, r.ID, m, x, r.OpenTotal(m))
				}
			}
		}
	}
}

// Trees without height, spread or a crown, and trees upside down, cast nothing
// and break nothing.
func TestImpossibleTreesCastNothing(t *testing.T) {
	sc := receiver(southWall(-5, 0, 5, 5, 0))
	nan := math.NaN()
	for _, tree := range []model.Tree{
		{}, {Height: 5}, {Height: 5, SpreadX: 2}, {Height: 2, CrownBase: 4, SpreadX: 2, SpreadY: 2},
		{Height: nan, SpreadX: 2, SpreadY: 2}, {Height: 4, SpreadX: nan, SpreadY: 2}, {Height: -4, SpreadX: 2, SpreadY: 2},
	} {
		tree.At = orb.Point{0, -3}
		sc.AddTree(&tree, "")
	}
	year := testYear(42)
	l := sc.CastYear(lightOf(year), nil, Casting{})
	for i := range sun.HoursAYear {
		line := l.Hour(0, i)
		if len(line) == 0 {
			continue
		}
		if len(line) != 1 || len(l.Sets[line[0].Set]) != 0 || math.Abs(line[0].Share-1) > 1e-9 {
			t.Fatalf("hour %d: %v", i, line)
		}
	}
}

func TestBuildingThatCannotStandIsNotQuietlyLeftOut(t *testing.T) {
	for _, put := range []func(*model.Site, model.Building){
		func(s *model.Site, b model.Building) { s.Neighbours = append(s.Neighbours, b) },
		func(s *model.Site, b model.Building) { s.Porches = append(s.Porches, b) },
	} {
		site := referenceLot(1)
		put(site, model.Building{ID: "next door", Parts: []model.Part{{Footprint: orb.Ring{{20, 0}, {30, 0}}, WallHeight: 5}}})
		if _, err := NewScene(site); err == nil || !strings.Contains(err.Error(), "next door") {
			t.Errorf("a building with two corners: %v", err)
		}
	}
}
