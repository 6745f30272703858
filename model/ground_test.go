package model

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

func spotsOf(points []r3.Vector) (out []Spot) {
	for _, p := range points {
		out = append(out, Spot{At: flat(p), Up: p.Z})
	}
	return out
}

func plot(x, y, w, d float64) orb.Ring {
	return orb.Ring{{x, y}, {x + w, y}, {x + w, y + d}, {x, y + d}, {x, y}}
}

// houseSite is a lot with a house of 8 × 10 m at the origin and spots.
func houseSite(spots ...Spot) *Site {
	s := &Site{House: Building{ID: "house", Parts: []Part{{Footprint: plot(0, 0, 8, 10), WallHeight: 5, Roof: Roof{Kind: Flat}}}}}
	s.Terrain.Spots = spots
	return s
}

func TestSpotsOnASlopeGiveTheSlope(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 4))
		points := scattered(r, 4+r.IntN(30))
		plane := func(p orb.Point) float64 { return 0.07*p[0] - 0.03*p[1] + 0.4 }
		for i, p := range points {
			points[i].Z = plane(flat(p))
		}
		g := groundBetween(points, nil)
		for range 200 {
			tri := [3]r3.Vector{points[r.IntN(len(points))], points[r.IntN(len(points))], points[r.IntN(len(points))]}
			u, v := r.Float64(), r.Float64()
			if u+v > 1 {
				u, v = 1-u, 1-v
			}
			p := flat(tri[0].Mul(1 - u - v).Add(tri[1].Mul(u)).Add(tri[2].Mul(v)))
			// A sliver taken off the rim leaves at most its own width.
			if z := g.At(p); math.Abs(z-plane(p)) > 1e-9 && g.within(p) {
				t.Fatalf("seed %d: %v at %v; the slope is at %v", seed, z, p, plane(p))
			}
		}
	}
}

func (g Ground) within(p orb.Point) bool {
	return slices.ContainsFunc(g.triangles, func(t [3]int) bool {
		a, b, c := flat(g.corners[t[0]]), flat(g.corners[t[1]]), flat(g.corners[t[2]])
		return inRing(orb.Ring{a, b, c, a}, p)
	})
}

func TestGroundPassesThroughEverySpot(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 5))
		points := scattered(r, 1+r.IntN(30))
		for i := range points {
			points[i] = points[i].Add(r3.Vector{X: 12}) // clear of the house
		}
		s := houseSite(spotsOf(points)...)
		g := s.Ground()
		for i, p := range points {
			if slices.ContainsFunc(points[:i], func(q r3.Vector) bool { return distance(flat(p), flat(q)) < onePlace }) {
				continue
			}
			if z := g.At(flat(p)); math.Abs(z-p.Z) > 1e-9 {
				t.Fatalf("seed %d: spot %v reads %v", seed, p, z)
			}
		}
	}
}

// However near a spot is and whatever it reads, the house stands at 0.
func TestHouseStandsOnItsOwnGround(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 6))
		var spots []Spot
		for range 1 + r.IntN(12) {
			p := orb.Point{-15 + 38*r.Float64(), -15 + 40*r.Float64()}
			if p[0] > -0.7 && p[0] < 8.7 && p[1] > -0.7 && p[1] < 10.7 {
				continue // read at the wall, or under the house
			}
			spots = append(spots, Spot{At: p, Up: 4*r.Float64() - 2})
		}
		g := houseSite(spots...).Ground()
		for i := range 400 {
			along := float64(i%100) / 99
			p := []orb.Point{{8 * along, 0}, {8 * along, 10}, {0, 10 * along}, {8, 10 * along}}[i/100]
			// The last two feet of a run are left as they fall.
			if z := g.At(p); math.Abs(z) > 0.02 && len(spots) > 0 {
				t.Fatalf("seed %d: the wall's foot at %v stands at %v; spots %v", seed, p, z, spots)
			}
		}
	}
}

func TestASpotAtTheWallTellsTheWallsGround(t *testing.T) {
	s := houseSite(Spot{At: orb.Point{-0.2, -0.3}, Up: -0.5}, Spot{At: orb.Point{5, -0.1}, Up: -0.3})
	g := s.Ground()
	for _, c := range []struct {
		at   orb.Point
		want float64
	}{{orb.Point{-0.2, -0.3}, -0.5}, {orb.Point{5, -0.1}, -0.3}, {orb.Point{8, 0}, 0}, {orb.Point{0, 10}, 0}} {
		if z := g.At(c.at); math.Abs(z-c.want) > 1e-9 {
			t.Errorf("at %v the ground stands at %v, not %v", c.at, z, c.want)
		}
	}
	s.House.Parts[0].Base = -2.4 // a cellar wall in the open
	if z := s.Ground().At(orb.Point{8, 10}); z != -2.4 {
		t.Errorf("below a part at -2.4 the ground stands at %v", z)
	}
}

// Turned, mirrored or told in another order, the ground is the same: on a
// grid, where every square has two folds to choose from.
func TestGroundTurnsAndMirrorsWithTheLot(t *testing.T) {
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 7))
		var spots []Spot
		for i := range 25 {
			if at := (orb.Point{float64(i%5)*5 - 10, float64(i/5)*5 - 7}); !inRing(plot(-1, -1, 10, 12), at) {
				spots = append(spots, Spot{At: at, Up: 0.01 * float64(r.IntN(200))})
			}
		}
		angle := 2 * math.Pi * r.Float64()
		sin, cos := math.Sincos(angle)
		mirror := float64(1 - 2*r.IntN(2))
		moved := func(p orb.Point) orb.Point {
			x, y := mirror*p[0]+3, p[1]-50
			return orb.Point{x*cos - y*sin, x*sin + y*cos}
		}
		was, is := houseSite(spots...), houseSite(slices.Clone(spots)...)
		for i := range spots {
			is.Terrain.Spots[i].At = moved(spots[i].At)
		}
		r.Shuffle(len(spots), func(i, j int) {
			s := is.Terrain.Spots
			s[i], s[j] = s[j], s[i]
		})
		ring := slices.Clone(is.House.Parts[0].Footprint)
		for i, p := range ring {
			ring[i] = moved(p)
		}
		is.House.Parts[0].Footprint = ring
		a, b := was.Ground(), is.Ground()
		for range 300 {
			p := orb.Point{-20 + 40*r.Float64(), -20 + 40*r.Float64()}
			if za, zb := a.At(p), b.At(moved(p)); math.Abs(za-zb) > 1e-9 {
				t.Fatalf("seed %d: %v at %v became %v", seed, za, p, zb)
			}
		}
	}
}

func TestBeyondTheSpotsTheNearestEdgeGoesOn(t *testing.T) {
	g := groundBetween([]r3.Vector{{X: 0, Y: 0, Z: 0}, {X: 10, Y: 0, Z: 2}, {X: 10, Y: 10, Z: 4}, {X: 0, Y: 10, Z: 0}}, nil)
	for _, c := range []struct {
		at   orb.Point
		want float64
	}{{orb.Point{5, -7}, 1}, {orb.Point{15, 5}, 3}, {orb.Point{200, 300}, 4}, {orb.Point{-3, -1}, 0}, {orb.Point{4, 99}, 1.6}} {
		if z := g.At(c.at); math.Abs(z-c.want) > 1e-9 {
			t.Errorf("at %v the ground stands at %v, not %v", c.at, z, c.want)
		}
	}
	if one := groundBetween([]r3.Vector{{Z: 1.5}}, nil); one.At(orb.Point{9, 9}) != 1.5 {
		t.Error("one spot alone makes level ground at its height")
	}
	two := groundBetween([]r3.Vector{{Z: 1}, {X: 10, Z: 2}}, nil)
	if z := two.At(orb.Point{5, 77}); math.Abs(z-1.5) > 1e-12 {
		t.Errorf("beside the middle of two spots the ground stands at %v", z)
	}
}

// The faces are the surface At describes, hull and land beyond it, without a
// gap: every upright line meets one at the height At gives.
func TestFacesAreTheGround(t *testing.T) {
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 8))
		var points []r3.Vector
		for range 3 + r.IntN(15) {
			points = append(points, r3.Vector{X: 40 * r.Float64(), Y: 40 * r.Float64(), Z: 3 * r.Float64()})
		}
		g := groundBetween(points, nil)
		faces := g.Faces(100)
		for range 200 {
			p := orb.Point{-30 + 100*r.Float64(), -30 + 100*r.Float64()}
			want, best := g.At(p), math.Inf(1)
			for _, f := range faces {
				z := f.Origin.Z - (f.N.X*(p[0]-f.Origin.X)+f.N.Y*(p[1]-f.Origin.Y))/f.N.Z
				if inOutline(f.Outline, f.on(r3.Vector{X: p[0], Y: p[1], Z: z})) && math.Abs(z-want) < math.Abs(best-want) {
					best = z
				}
			}
			if math.Abs(best-want) > 1e-6 {
				t.Fatalf("seed %d: at %v the faces stand at %v, the ground at %v", seed, p, best, want)
			}
		}
	}
}

func TestFlatSpotsAreLevelGround(t *testing.T) {
	g := houseSite(Spot{At: orb.Point{-5, -5}}, Spot{At: orb.Point{20, 3}}, Spot{At: orb.Point{3, 30}}).Ground()
	if g.Rises() || len(g.Faces(10)) != 0 || g.At(orb.Point{7, -20}) != 0 {
		t.Error("spots at the house's own height make the ground rise")
	}
}

func TestSlopeIsAsBefore(t *testing.T) {
	s := houseSite()
	s.Terrain.SlopeRise, s.Terrain.SlopeUphill = 0.1, 90*s1.Degree
	if z := s.Ground().At(orb.Point{14, -3}); math.Abs(z-1) > 1e-12 {
		t.Errorf("ten metres uphill of the house's middle the ground stands at %v", z)
	}
}

func TestFaultsOfSpotHeights(t *testing.T) {
	far := Spot{At: orb.Point{-10, -10}, Up: 1}
	cases := []struct {
		name  string
		site  *Site
		want  string
		warns bool
	}{
		{"sound", houseSite(far, Spot{At: orb.Point{-10, 30}, Up: -1}), "", false},
		{"twice", houseSite(far, far), "this spot was given before, as spot 1", false},
		{"two heights", houseSite(far, Spot{At: far.At, Up: -2}), "this is the place of spot 1, which is 3 ft 3 in up and not 6 ft 7 in down", false},
		{"under the house", houseSite(Spot{At: orb.Point{4, 4}, Up: 1}), "lies under the house", false},
		{"no number", houseSite(Spot{At: orb.Point{math.NaN(), 4}}), "not a number", false},
		{"sky-high", houseSite(Spot{At: orb.Point{-10, 4}, Up: 400}), "from the house's", false},
		{"cliff", houseSite(far, Spot{At: orb.Point{-10, -11}, Up: 6}), "rises 16 ft 5 in over 3 ft 3 in", true},
		{"a retaining wall", houseSite(far, Spot{At: orb.Point{-10, -10.2}, Up: 2.2}), "", false},
	}
	both := houseSite(far)
	both.Terrain.SlopeRise = 0.1
	cases = append(cases, struct {
		name  string
		site  *Site
		want  string
		warns bool
	}{"slope and spots", both, "told twice", false})
	tree := houseSite(far)
	tree.Trees = []Tree{{ID: "T1", At: orb.Point{-9, -9}, Ground: -1}}
	for _, f := range tree.Faults() {
		if f.Field == "trees[0].ground" && f.Severity == FaultWarning && strings.Contains(f.Wrong, "its ground is stated as 3 ft 3 in down, and between the spot heights it is 2 ft 11 in up") {
			tree = nil
			break
		}
	}
	if tree != nil {
		t.Errorf("a tree off its ground is not told: %v", tree.Faults())
	}
	for _, c := range cases {
		var said []string
		for _, f := range c.site.Faults() {
			if strings.HasPrefix(f.Field, "terrain") {
				said = append(said, f.Wrong)
				if (f.Severity == FaultWarning) != c.warns {
					t.Errorf("%s: warning %v", c.name, c.site.Faults())
				}
			}
		}
		if got := strings.Join(said, "|"); (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, wanted %q", c.name, got, c.want)
		}
		c.site.Ground().At(orb.Point{1, 2}) // no panic whatever is wrong
	}
}
