package shading

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun/sky"
)

// hillLot is a house of 8 × 10 m and a pole on a slope that rises toward north.
func hillLot(rise float64) *model.Site {
	site := &model.Site{House: model.Building{ID: "house", Parts: []model.Part{{
		ID: "main", Footprint: box(0, 0, 8, 10), WallHeight: 5, Roof: model.Roof{Kind: model.Flat},
	}}}}
	site.Terrain.SlopeRise = rise
	site.Trees = []model.Tree{{ID: "pole", At: orb.Point{30, 5}, Ground: 0, Height: 6, SpreadX: 0.2, SpreadY: 0.2, Shape: model.Cylinder, Evergreen: true}}
	return site
}

// The shadow of a pole of height H up a slope of rise m is H / (tan altitude + m)
// long in plan, H / (tan altitude − m) down it: plane trigonometry.
func TestShadowsGetShorterUphill(t *testing.T) {
	for _, rise := range []float64{0, 0.1, 0.25} {
		sc, err := NewScene(hillLot(rise))
		if err != nil {
			t.Fatal(err)
		}
		for _, altitude := range []float64{20, 35, 60} {
			for _, azimuth := range []float64{180, 0} {
				y := 5.0
				for _, s := range sc.Shadows(toSun(altitude, azimuth)) {
					if s.Thing != "pole" {
						continue
					}
					for _, ring := range s.Outlines {
						for _, p := range ring {
							if math.Abs(p[1]-5) > math.Abs(y-5) {
								y = p[1]
							}
						}
					}
				}
				want, slack := 6/(math.Tan(altitude*math.Pi/180)+rise), 0.1*(1+rise/math.Tan(altitude*math.Pi/180))
				if azimuth == 0 {
					want = -6 / (math.Tan(altitude*math.Pi/180) - rise)
				}
				near(t, "length of the shadow", y-5, want, 2*slack)
			}
		}
	}
}

// The downhill wall stands on its footing: the sun does not pass beneath it.
func TestHouseOnASlopeLetsNoSunUnderIt(t *testing.T) {
	sc, err := NewScene(hillLot(0.1))
	if err != nil {
		t.Fatal(err)
	}
	dark := false
	foot := orb.Point{4, 0.05} // just inside the south wall, which stands 0.5 m free there
	for _, ring := range sc.Shadows(toSun(30, 180))[0].Outlines {
		dark = dark || planar.RingContains(ring, foot)
	}
	if !dark {
		t.Error("the ground just behind the downhill wall is lit")
	}
}

// Land without anything near gets the sun of an open plane as steep as it is,
// added up here hour by hour by the sky model (sun/checks holds that against
// published figures).
func TestOpenSlopeGetsTheSunOfAnOpenPlane(t *testing.T) {
	year := testYear(42)
	for _, rise := range []float64{0, 0.05, 0.2} {
		site := hillLot(rise)
		sc, err := NewScene(site)
		if err != nil {
			t.Fatal(err)
		}
		lot := box(300, 0, 312, 9)
		cells, values := sc.GroundSun(lot, 1, lightOf(year), allOf(sc))
		if cells.Columns != 12 || cells.Rows < 9 || cells.Rows > 10 {
			t.Fatalf("%d × %d cells", cells.Columns, cells.Rows)
		}
		want, normal := 0.0, r3.Vector{Y: -rise, Z: 1}.Normalize()
		for _, h := range year.Hours {
			want += sky.OnPlane(h, normal, sky.Anisotropic).Sum() / 1000
		}
		for _, v := range values {
			if math.Abs(v-want) > 0.02*want { // what the slope hides of the sky and the sun's place in an hour
				t.Fatalf("rise %g: %.1f kWh/m², an open plane gets %.1f", rise, v, want)
			}
		}
	}
}

func allOf(sc *Scene) State { return (&Account{Blockers: sc.Blockers}).Today() }

// Spots read on a plane are that plane: both ways of telling the ground give one
// picture.
func TestSpotsOnASlopeGiveTheGroundOfTheSlope(t *testing.T) {
	year := everyTenthDay(testYear(42))
	slope := hillLot(0.12)
	slope.House.Parts[0].Footprint = box(0, 0, 2, 2) // at whose foot the two do differ
	slope.Trees[0].SpreadX, slope.Trees[0].SpreadY, slope.Trees[0].Ground = 5, 4, 0.12*4
	spots := *slope
	spots.Terrain = model.Terrain{}
	for _, at := range []orb.Point{{15, -20}, {60, -20}, {15, 30}, {60, 30}, {33, 2}, {41, 16}, {27, 11}} {
		spots.Terrain.Spots = append(spots.Terrain.Spots, model.Spot{At: at, Up: 0.12 * (at[1] - 1)})
	}
	a, err := NewScene(slope)
	if err != nil {
		t.Fatal(err)
	}
	b, err := NewScene(&spots)
	if err != nil {
		t.Fatal(err)
	}
	lot := box(20, -5, 42, 20)
	_, va := a.GroundSun(lot, 0.5, lightOf(year), allOf(a))
	cells, vb := b.GroundSun(lot, 0.5, lightOf(year), allOf(b))
	if len(va) != len(vb) {
		t.Fatalf("%d and %d cells", len(va), len(vb))
	}
	sum, worst := 0.0, 0.0
	for i := range va {
		if math.IsNaN(va[i]) || math.IsNaN(vb[i]) {
			t.Fatalf("cell %d of %d columns: %v and %v", i, cells.Columns, va[i], vb[i])
		}
		d := math.Abs(va[i]-vb[i]) / slices.Max(va)
		sum, worst = sum+d, max(worst, d)
	}
	t.Logf("mean difference %.4f, worst %.4f", sum/float64(len(va)), worst)
	if mean := sum / float64(len(va)); mean > 0.005 || worst > 0.15 { // a cell on the edge of a shadow
		t.Errorf("they differ by %.4f on the mean", mean)
	}
}

// Shadows on land between spots, against one ray a point that asks every thing
// and marches over the ground's heights. Points within a hand of an edge may
// fall on either side.
func TestShadowsOnLandAgreeWithRays(t *testing.T) {
	wrong, dark, points := 0, 0, 0
	for seed := range uint64(12) {
		random := rand.New(rand.NewPCG(seed, 17))
		site := randomLot(random)
		site.Terrain.Spots = randomSpots(random, site)
		ground := site.Ground()
		for i := range site.Trees {
			site.Trees[i].Ground = ground.At(site.Trees[i].At)
		}
		sc, err := NewScene(site)
		if err != nil {
			t.Fatal(err)
		}
		feet := slices.Clone(sc.footing)
		for _, b := range sc.Blockers {
			feet = append(feet, b.footing...)
		}
		s := model.Toward(s1.Angle(0.15+0.6*random.Float64()), s1.Angle(2*math.Pi*random.Float64()))
		var rings []orb.Ring
		for _, shade := range sc.Shadows(s) {
			rings = append(rings, shade.Outlines...)
		}
		shaded := func(p orb.Point) bool {
			for _, r := range rings {
				if planar.RingContains(r, p) {
					return true
				}
			}
			return false
		}
		for range 300 {
			p := orb.Point{-25 + 50*random.Float64(), -25 + 50*random.Float64()}
			if planar.RingContains(site.House.Parts[0].Footprint, p) {
				continue
			}
			at := r3.Vector{X: p[0], Y: p[1], Z: ground.At(p) + 0.0005}
			up := &Surface{Face: model.Face{N: r3.Vector{Z: 1}}}
			set, hidden := sc.crossed(up, at, s)
			for _, f := range feet {
				hidden = hidden || meetsFace(&f, at, s, up.Face.N)
			}
			want := hidden || len(set) > 0 || underGround(ground, at, s, r3.Vector{Z: 1}, 4.1)
			points++
			if want {
				dark++
			}
			if shaded(p) != want {
				wrong++
			}
		}
	}
	t.Logf("%d points, %d in shade, %d otherwise", points, dark, wrong)
	if dark < points/10 || wrong > points/100 {
		t.Errorf("of %d points %d lie in shade, %d otherwise than the outlines say", points, dark, wrong)
	}
}

// A bank shades the ground behind it, on the map of the sun too.
func TestBankTakesSunFromTheGroundBehindIt(t *testing.T) {
	year := everyTenthDay(testYear(42))
	sc, err := NewScene(bankLot())
	if err != nil {
		t.Fatal(err)
	}
	level, err := NewScene(&model.Site{House: bankLot().House})
	if err != nil {
		t.Fatal(err)
	}
	behind := box(-8, -9.5, -2, -8)
	sum := func(sc *Scene) (s float64) {
		_, v := sc.GroundSun(behind, 0.5, lightOf(year), allOf(sc))
		for _, x := range v {
			s += x / float64(len(v))
		}
		return s
	}
	if a, b := sum(sc), sum(level); !(a < 0.95*b) || a < 0.3*b {
		t.Errorf("behind the bank %.1f kWh/m², on level ground %.1f", a, b)
	}
}
