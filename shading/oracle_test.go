package shading

import (
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

// The oracle is the plainest ray caster there is: one point, one ray, every
// thing asked in turn. It shares no code with the sweep.

// meetsSolid reports whether the ray from p toward s goes through the solid
// ahead of p: a quadratic in the ray's parameter, cut to the solid's heights.
func meetsSolid(b model.Solid, p, s r3.Vector) bool {
	if b.Top <= b.Bottom {
		return false
	}
	sin, cos := math.Sincos(b.Twist)
	local := func(x, y float64) (float64, float64) {
		return (x*cos - y*sin) / b.SemiX, (x*sin + y*cos) / b.SemiY
	}
	px, py := local(p.X-b.At[0], p.Y-b.At[1])
	sx, sy := local(s.X, s.Y)
	low, high := max(0, (b.Bottom-p.Z)/s.Z), (b.Top-p.Z)/s.Z
	if high <= low {
		return false
	}
	inside := func(t float64) float64 { // ≤ 0 inside
		x, y, z := px+t*sx, py+t*sy, p.Z+t*s.Z
		return x*x + y*y - (b.A + b.B*z + b.C*z*z)
	}
	if inside(low) <= 0 || inside(high) <= 0 {
		return true
	}
	// Outside at both ends: it can only be met between two roots within.
	qa := sx*sx + sy*sy - b.C*s.Z*s.Z
	qb := 2*(px*sx+py*sy) - b.B*s.Z - 2*b.C*p.Z*s.Z
	if qa <= 0 {
		return false
	}
	t := -qb / (2 * qa)
	return t > low && t < high && inside(t) <= 0
}

// meetsFace reports whether the ray meets a flat screen more than inFront
// ahead of the receiver's plane.
func meetsFace(f *model.Face, p, s, normal r3.Vector) bool {
	along := s.Dot(f.N)
	if math.Abs(along) < 1e-12 {
		return false
	}
	t := f.Origin.Sub(p).Dot(f.N) / along
	if t <= 0 || t*s.Dot(normal) <= inFront {
		return false
	}
	hit := p.Add(s.Mul(t)).Sub(f.Origin)
	at := orb.Point{hit.Dot(f.U), hit.Dot(f.V)}
	for _, polygon := range f.Outline {
		if planar.PolygonContains(polygon, at) {
			return true
		}
	}
	return false
}

// crossed is the set of blockers before a point, and whether the house or the
// land hides the sun from it.
func (sc *Scene) crossed(surface *Surface, p, s r3.Vector) (set []uint16, hidden bool) {
	if sc.hidden(s) {
		return nil, true
	}
	inTheWay := func(f *model.Face) bool { return meetsFace(f, p, s, surface.Face.N) }
	for i := range sc.house {
		f := &sc.house[i]
		if (f.ID != surface.Wall || surface.Wall == "") && inTheWay(f) {
			return nil, true
		}
	}
	for i := range surface.own {
		if inTheWay(&surface.own[i]) {
			return nil, true
		}
	}
	for i := range sc.Blockers {
		b := &sc.Blockers[i]
		hit := slices.ContainsFunc(b.solids, func(solid model.Solid) bool { return meetsSolid(solid, p, s) })
		for j := 0; j < len(b.screens) && !hit; j++ {
			hit = inTheWay(&b.screens[j])
		}
		if hit {
			set = append(set, uint16(i))
		}
	}
	return set, false
}

// oracleShares samples a surface on an n × n grid, one point drawn in every
// cell, and gives the share of the sampled area before each set.
func (sc *Scene) oracleShares(surface *Surface, s r3.Vector, n int, random *rand.Rand) (shares map[string]float64, points int) {
	box := surface.Face.Outline.Bound()
	shares = map[string]float64{}
	for i := range n {
		for j := range n {
			q := orb.Point{
				box.Min[0] + (float64(i)+random.Float64())/float64(n)*(box.Max[0]-box.Min[0]),
				box.Min[1] + (float64(j)+random.Float64())/float64(n)*(box.Max[1]-box.Min[1]),
			}
			if !slices.ContainsFunc(surface.Face.Outline, func(p orb.Polygon) bool { return planar.PolygonContains(p, q) }) {
				continue
			}
			points++
			if set, hidden := sc.crossed(surface, surface.Face.At(q[0], q[1]), s); !hidden {
				shares[fmt.Sprint(set)]++
			}
		}
	}
	for k := range shares {
		shares[k] /= float64(points)
	}
	return shares, points
}

// randomLot is a lot with a house under any roof, trees of every shape before
// and beside it, a neighbour, a porch and a fence.
func randomLot(r *rand.Rand) *model.Site {
	span := func(a, b float64) float64 { return a + r.Float64()*(b-a) }
	turn := span(0, 2*math.Pi)
	box := func(x, y, w, d float64) orb.Ring {
		ring := orb.Ring{{x, y}, {x + w, y}, {x + w, y + d}, {x, y + d}, {x, y}}
		sin, cos := math.Sincos(turn)
		for i, p := range ring {
			ring[i] = orb.Point{p[0]*cos + p[1]*sin, -p[0]*sin + p[1]*cos}
		}
		return ring
	}
	roof := func() model.Roof {
		kind := []model.RoofKind{model.Flat, model.Shed, model.Gable, model.Hip}[r.IntN(4)]
		out := model.Roof{Kind: kind, Pitch: s1.Angle(span(0.2, 0.9)), Overhang: span(0, 0.6)}
		out.Ridge = s1.Angle(turn) + s1.Angle(math.Pi/2*float64(r.IntN(2)))
		out.Down = s1.Angle(turn) + s1.Angle(math.Pi/2*float64(r.IntN(4)))
		if kind == model.Flat {
			out.Pitch = 0
		}
		return out
	}
	w, d := span(5, 12), span(5, 12)
	site := &model.Site{
		House: model.Building{ID: "house", Parts: []model.Part{{ID: "main", Footprint: box(0, 0, w, d), WallHeight: span(2.5, 6), Roof: roof()}}},
	}
	if r.IntN(2) == 0 {
		site.House.Parts = append(site.House.Parts, model.Part{ID: "ell", Footprint: box(w*0.3, -3, w*0.4, d*0.7), WallHeight: span(2.4, 4), Roof: roof()})
	}
	site.Neighbours = []model.Building{{ID: "next", Parts: []model.Part{{ID: "n", Footprint: box(span(-20, -10), span(-20, 10), 6, 8), WallHeight: span(3, 9), Roof: roof()}}}}
	site.Porches = []model.Building{{ID: "porch", Parts: []model.Part{{ID: "p", Footprint: box(1, -2.5, 3, 2.5), WallHeight: 2.3, Open: true, Roof: model.Roof{Kind: model.Flat}}}}}
	site.Fences = []model.Fence{{ID: "fence", Line: orb.LineString{{-8, -9}, {9, -8}}, Height: span(1, 2.5)}}
	shapes := []model.CrownShape{model.Ellipsoid, model.HalfEllipsoid, model.Paraboloid, model.Cone, model.Cylinder}
	for i := range 3 + r.IntN(9) {
		h := span(3, 25)
		site.Trees = append(site.Trees, model.Tree{
			ID: fmt.Sprintf("T%d", i+1), At: orb.Point{span(-25, 25), span(-25, 25)}, Ground: span(-1, 1),
			Height: h, SpreadX: span(2, 14), SpreadY: span(2, 14), Twist: span(0, 3), CrownBase: h * span(0.05, 0.5),
			Shape: shapes[r.IntN(len(shapes))], Trunk: span(0.1, 0.8), InLeaf: 0.2, Bare: 0.6, Evergreen: r.IntN(3) == 0,
		})
	}
	return site
}

// TestLedgerAgreesWithPlainRayCaster casts 200 random lots both ways. The
// oracle draws one point in each cell of an n × n grid; only cells an edge runs
// through can be wrong, so its error falls with n^(−3/2); the bound is five
// times the binomial error of the edge cells, counted generously.
func TestLedgerAgreesWithPlainRayCaster(t *testing.T) {
	const n = 48
	worst, worstOf, compared := 0.0, "", 0
	for seed := range uint64(200) {
		random := rand.New(rand.NewPCG(seed, 1))
		sc, err := NewScene(randomLot(random))
		if err != nil {
			t.Fatalf("lot %d: %v", seed, err)
		}
		for range 3 {
			which := random.IntN(len(sc.Surfaces))
			surface := &sc.Surfaces[which]
			if surface.Face.Area < 0.5 {
				continue
			}
			var s r3.Vector
			for s.Dot(surface.Face.N) < 0.05 {
				s = model.Toward(s1.Angle(0.03+1.5*random.Float64()), s1.Angle(2*math.Pi*random.Float64()))
			}
			l := sc.Cast([]int{which}, 1, func(int, int) (r3.Vector, bool) { return s, true }, Casting{Row: 0.001, heights: []float64{0.5}})
			want, points := sc.oracleShares(surface, s, n, random)
			got := map[string]float64{}
			for _, e := range l.Surfaces[0].Lines[0] {
				got[fmt.Sprint(l.Sets[e.Set])] += e.Share
			}
			bound := 5 * math.Sqrt(8*math.Sqrt(float64(points))*0.25) / float64(points)
			for _, k := range keysOf(got, want) {
				d := math.Abs(got[k] - want[k])
				compared++
				if d > worst {
					worst, worstOf = d, fmt.Sprintf("lot %d, %s, set %s", seed, surface.ID, k)
				}
				if d > bound {
					t.Errorf("lot %d, surface %s, sun %v, set %s: ledger %.4f, oracle %.4f, allowed difference %.4f", seed, surface.ID, s, k, got[k], want[k], bound)
				}
			}
		}
	}
	t.Logf("%d shares compared; worst difference %.4f (%s)", compared, worst, worstOf)
}

func keysOf(a, b map[string]float64) []string {
	var out []string
	for k := range a {
		out = append(out, k)
	}
	for k := range b {
		if _, ok := a[k]; !ok {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return out
}
