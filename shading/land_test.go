package shading

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
)

// bankLot is a house of 8 × 10 m whose ground runs level for 10 m to the south
// and then rises 3 m over 4 m, read within 12 m to the west and east.
func bankLot() *model.Site {
	site := &model.Site{House: model.Building{ID: "house", Parts: []model.Part{{
		ID: "main", Footprint: box(0, 0, 8, 10), WallHeight: 5, Roof: model.Roof{Kind: model.Flat},
	}}}}
	for _, x := range []float64{-12, 20} {
		site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: orb.Point{x, -10}}, model.Spot{At: orb.Point{x, -14}, Up: 3})
	}
	return site
}

// A long level bank is a horizon: the point at height z is lit where the tangent
// of the profile angle passes (3 − z)/14, plane trigonometry. The bank goes on
// past the last spots, or the sun from the side would find its end.
func TestALongBankIsAHorizon(t *testing.T) {
	sc, err := NewScene(bankLot())
	if err != nil {
		t.Fatal(err)
	}
	wall := sc.SurfaceNamed("south")
	for _, altitude := range []float64{2, 5, 8, 10, 12, 15, 30} {
		for _, gamma := range []float64{-70, -50, -20, 0, 35, 60, 75} {
			s := beforeWall(altitude, gamma)
			profile := math.Tan(altitude*math.Pi/180) / math.Cos(gamma*math.Pi/180)
			want := min(1, (5-max(0, 3-14*profile))/5)
			l := sc.Cast([]int{wall}, 1, func(int, int) (r3.Vector, bool) { return s, true }, Casting{Row: 0.005, heights: []float64{0.5}})
			got := 0.0
			for _, e := range l.Surfaces[0].Lines[0] {
				got += e.Share
			}
			near(t, "share lit", got, want, 0.0011)
		}
	}
}

// A slope is at 0 under the middle of the house, so it stands 5·rise up the
// wall it rises toward, and runs from there to nothing along half of the walls
// beside: plane geometry. Spots read on the slope at the corners say the same.
func TestSlopeCoversTheFootOfTheWallItRisesOver(t *testing.T) {
	for _, rise := range []float64{0.05, 0.12, 0.3} {
		slope, spots := bankLot(), bankLot()
		slope.Terrain = model.Terrain{SlopeRise: rise, SlopeUphill: s1.Angle(math.Pi)}
		ground := slope.Ground()
		spots.Terrain.Spots = nil
		for _, at := range []orb.Point{{-30, -30}, {40, -30}, {40, 40}, {-30, 40}, {0, 0}, {8, 0}, {8, 10}, {0, 10}} {
			spots.Terrain.Spots = append(spots.Terrain.Spots, model.Spot{At: at, Up: ground.At(at)})
		}
		for name, site := range map[string]*model.Site{"slope": slope, "spots": spots} {
			sc, err := NewScene(site)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range []struct {
				wall                 string
				altitude, azimuth    float64
				covered, outOf, edge float64
			}{
				{"south", 40, 180, 5 * rise * 8, 8 * 5, 8}, {"south", 25, 140, 5 * rise * 8, 8 * 5, 8},
				{"east", 50, 90, 5 * rise * 5 / 2, 10 * 5, 5}, {"north", 70, 10, 0, 8 * 5, 0}, {"roof", 60, 200, 0, 1, 0},
			} {
				k := sc.SurfaceNamed(c.wall)
				l := sc.Cast([]int{k}, 1, func(int, int) (r3.Vector, bool) { return toSun(c.altitude, c.azimuth), true }, Casting{Row: 0.005})
				got := 0.0
				for _, e := range l.Surfaces[0].Lines[0] {
					got += e.Share
				}
				// A row, and the strip before the wall that casts nothing.
				near(t, fmt.Sprintf("%s of %g, %s wall, share lit", name, rise, c.wall), got, 1-c.covered/c.outOf, c.edge*(0.005+3*inFront)/c.outOf+1e-9)
			}
		}
	}
}

// underGround marches along a ray and asks of every step whether the ground
// stands above it. It knows the ground's heights alone, none of its faces.
func underGround(g model.Ground, p, s, normal r3.Vector, highest float64) bool {
	const step = 0.05
	for t := inFront / s.Dot(normal); p.Z+t*s.Z < highest; t += step {
		q := p.Add(s.Mul(t))
		if g.At(orb.Point{q.X, q.Y}) > q.Z+1e-9 {
			return true
		}
	}
	return false
}

// randomSpots are spot heights about a lot, away from its house.
func randomSpots(r *rand.Rand, site *model.Site) []model.Spot {
	var out []model.Spot
	for range 4 + r.IntN(10) {
		at := orb.Point{-30 + 60*r.Float64(), -30 + 60*r.Float64()}
		if planar.DistanceFrom(site.House.Parts[0].Footprint, at) > 3 && !planar.RingContains(site.House.Parts[0].Footprint, at) {
			out = append(out, model.Spot{At: at, Up: 6*r.Float64() - 2})
		}
	}
	return out
}

func TestLandAgreesWithAMarchOverItsHeights(t *testing.T) {
	const n = 16
	worst, compared, shaded := 0.0, 0, 0
	for seed := range uint64(10) {
		random := rand.New(rand.NewPCG(seed, 11))
		site := randomLot(random)
		site.House.Parts = site.House.Parts[:1]
		site.Trees, site.Neighbours, site.Porches, site.Fences = nil, nil, nil, nil
		site.Terrain.Spots = randomSpots(random, site)
		sc, err := NewScene(site)
		if err != nil {
			t.Fatal(err)
		}
		ground := site.Ground()
		for range 3 {
			which := random.IntN(len(sc.Surfaces))
			surface := &sc.Surfaces[which]
			var s r3.Vector
			for s.Dot(surface.Face.N) < 0.05 {
				s = model.Toward(s1.Angle(0.03+0.4*random.Float64()), s1.Angle(2*math.Pi*random.Float64()))
			}
			l := sc.Cast([]int{which}, 1, func(int, int) (r3.Vector, bool) { return s, true }, Casting{Row: 0.01, heights: []float64{0.5}})
			got := 0.0
			for _, e := range l.Surfaces[0].Lines[0] {
				got += e.Share
			}
			if got < 0.999 {
				shaded++
			}
			box := surface.Face.Outline.Bound()
			lit, points := 0.0, 0.0
			for i := range n {
				for j := range n {
					q := orb.Point{
						box.Min[0] + (float64(i)+random.Float64())/n*(box.Max[0]-box.Min[0]),
						box.Min[1] + (float64(j)+random.Float64())/n*(box.Max[1]-box.Min[1]),
					}
					if !slices.ContainsFunc(surface.Face.Outline, func(p orb.Polygon) bool { return planar.PolygonContains(p, q) }) {
						continue
					}
					points++
					at := surface.Face.At(q[0], q[1])
					if _, hidden := sc.crossed(surface, at, s); !hidden && !underGround(ground, at, s, surface.Face.N, 4.1) {
						lit++
					}
				}
			}
			if points < 50 {
				continue
			}
			bound := 5*math.Sqrt(8*math.Sqrt(points)*0.25)/points + 0.004 // the march's own step
			d := math.Abs(got - lit/points)
			worst = max(worst, d)
			compared++
			if d > bound {
				t.Errorf("lot %d, %s, sun %v: lit %.4f, by the march %.4f, allowed difference %.4f", seed, surface.ID, s, got, lit/points, bound)
			}
		}
	}
	if shaded < 12 {
		t.Errorf("only %d surfaces were shaded at all", shaded)
	}
	t.Logf("%d shares compared, %d in shade; worst difference %.4f", compared, shaded, worst)
}

// The rules of light hold before a bank as on level ground, and the bank only
// takes.
func TestLandKeepsTheRulesOfLight(t *testing.T) {
	year := everyTenthDay(testYear(42))
	for seed := range uint64(5) {
		random := rand.New(rand.NewPCG(seed, 12))
		site := randomLot(random)
		_, level := accountOf(t, site, year)
		site.Terrain.Spots = randomSpots(random, site)
		_, a := accountOf(t, site, year)
		flat, before := level.Read(level.Today()), a.Read(a.Today())
		for s := range before {
			if d := before[s].Total() - flat[s].Total(); d > 1e-9 {
				t.Errorf("lot %d: the land gives %s %.3g kWh/m²", seed, before[s].ID, d)
			}
		}
		state := a.Today()
		for _, at := range random.Perm(len(site.Trees)) {
			state = a.Without(state, site.Trees[at].ID)
			after := a.Read(state)
			for s := range after {
				if d := after[s].Total() - before[s].Total(); !(d >= -1e-9) {
					t.Errorf("lot %d: removing %s takes %.3g kWh/m² from %s", seed, site.Trees[at].ID, -d, after[s].ID)
				}
			}
			before = after
		}
	}
}

func TestMirroredBankGivesMirroredSun(t *testing.T) {
	year := everyTenthDay(testYear(42))
	site := bankLot()
	site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: orb.Point{16, 3}, Up: 2.5}, model.Spot{At: orb.Point{-9, 14}, Up: -1})
	other := bankLot()
	other.House.Parts[0].Footprint = box(-8, 0, 0, 10)
	other.Terrain.Spots = slices.Clone(site.Terrain.Spots)
	for i := range other.Terrain.Spots {
		other.Terrain.Spots[i].At[0] *= -1
	}
	sc, a := accountOf(t, site, year)
	scM, b := accountOf(t, other, mirrorYear(year))
	ra, rb := a.Read(a.Today()), b.Read(b.Today())
	for from, to := range map[string]string{"south": "south", "east": "west", "west": "east", "north": "north"} {
		i, j := sc.SurfaceNamed(from), scM.SurfaceNamed(to)
		// A slanting fence and its mirror image differ by as much: which quarters
		// of an hour stand for it is not the same from morning and from afternoon.
		if d := math.Abs(ra[i].Total() - rb[j].Total()); d > 0.0005*ra[i].Total() {
			t.Errorf("%s gets %.6f, its mirror image %.6f kWh/m²", from, ra[i].Total(), rb[j].Total())
		}
	}
}

func TestFlatSpotsChangeNothingAtAll(t *testing.T) {
	year := everyTenthDay(testYear(42))
	site := randomLot(rand.New(rand.NewPCG(3, 13)))
	written := func() []byte {
		sc, a := accountOf(t, site, year)
		var out bytes.Buffer
		if err := gob.NewEncoder(&out).Encode(a.Totals(a.Today())); err != nil {
			t.Fatal(err)
		}
		for _, e := range sc.CastMap(&sc.Surfaces[0], 0.5, lightOf(year)).Read(a.Today()) {
			fmt.Fprintf(&out, " %v", e)
		}
		return out.Bytes()
	}
	before := written()
	site.Terrain.Spots = []model.Spot{{At: orb.Point{-20, -20}}, {At: orb.Point{25, -20}}, {At: orb.Point{3, 28}}}
	if !bytes.Equal(before, written()) {
		t.Error("spots at the house's own height change the sun")
	}
}
