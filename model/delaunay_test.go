package model

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// scattered are points of one of several kinds that hand measuring makes:
// anywhere, on a grid, in rows, on a circle, and with repeats.
func scattered(r *rand.Rand, n int) []r3.Vector {
	kind := r.IntN(5)
	var out []r3.Vector
	for i := range n {
		p := r3.Vector{X: 40 * r.Float64(), Y: 40 * r.Float64(), Z: 3 * r.Float64()}
		switch kind {
		case 1:
			p.X, p.Y = float64(r.IntN(6)), float64(r.IntN(6))
		case 2:
			p.Y = 10 * float64(i%3)
		case 3:
			sin, cos := math.Sincos(float64(i%16) * math.Pi / 8)
			p.X, p.Y = 10*cos, 10*sin
		case 4:
			p.X = 0.1 * math.Round(100*p.X) // columns, as off a tape
		}
		out = append(out, p)
	}
	return out
}

// inside is the sign of Delaunay's in-circle determinant without rounding: 1
// where d lies in the circle through a, b, c. It shares no code with delaunay.
func inside(a, b, c, d r3.Vector) int {
	rat := func(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }
	mul := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
	sub := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }
	add := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Add(x, y) }
	var m [3][3]*big.Rat
	for i, p := range []r3.Vector{a, b, c} {
		x, y := sub(rat(p.X), rat(d.X)), sub(rat(p.Y), rat(d.Y))
		m[i] = [3]*big.Rat{x, y, add(mul(x, x), mul(y, y))}
	}
	det := new(big.Rat)
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		det = add(det, mul(m[i][2], sub(mul(m[j][0], m[k][1]), mul(m[j][1], m[k][0]))))
	}
	return det.Sign()
}

// depth is how far d reaches into the circle through a, b, c, metres.
func depth(a, b, c, d r3.Vector) float64 {
	bx, by, cx, cy := b.X-a.X, b.Y-a.Y, c.X-a.X, c.Y-a.Y
	k := 2 * (bx*cy - by*cx)
	x, y := (cy*(bx*bx+by*by)-by*(cx*cx+cy*cy))/k, (bx*(cx*cx+cy*cy)-cx*(bx*bx+by*by))/k
	return math.Hypot(x, y) - math.Hypot(d.X-a.X-x, d.Y-a.Y-y)
}

// hullArea of points by Andrew's chain.
func hullArea(points []r3.Vector) float64 {
	var flatly []orb.Point
	for _, p := range points {
		flatly = append(flatly, flat(p))
	}
	slices.SortFunc(flatly, func(a, b orb.Point) int {
		return r3.Vector{X: a[0], Y: a[1]}.Cmp(r3.Vector{X: b[0], Y: b[1]})
	})
	half := func() (out orb.Ring) {
		for _, p := range flatly {
			for n := len(out); n > 1 && turnAt(out[n-2], out[n-1], p) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, p)
		}
		return out
	}
	ring := half()
	slices.Reverse(flatly)
	return signedArea(append(ring, half()...))
}

func checkDelaunay(t *testing.T, points []r3.Vector) {
	t.Helper()
	triangles := delaunay(points)
	used := map[int]bool{}
	area := 0.0
	for _, tri := range triangles {
		a, b, c := points[tri[0]], points[tri[1]], points[tri[2]]
		used[tri[0]], used[tri[1]], used[tri[2]] = true, true, true
		double := turnAt(flat(a), flat(b), flat(c))
		// Points in a line but for a rounding make a sliver of the right turn,
		// which rounded arithmetic as here cannot tell: side does, exactly.
		if size := math.Abs(a.X-c.X) + math.Abs(a.Y-c.Y) + math.Abs(b.X-c.X) + math.Abs(b.Y-c.Y); double < -1e-15*size*size {
			t.Fatalf("triangle %v runs clockwise in %v", tri, points)
		}
		area += double / 2
		for i, d := range points {
			if inside(a, b, c, d) > 0 && depth(a, b, c, d) > 1e-6 {
				t.Fatalf("point %d lies %g m in the circle of %v of %v", i, depth(a, b, c, d), tri, points)
			}
		}
	}
	if want := hullArea(points); math.Abs(area-want) > 1e-9*(1+want) {
		t.Fatalf("triangles cover %v of %v: %v", area, want, points)
	}
	if len(triangles) == 0 {
		return
	}
	for i, p := range points {
		if first := slices.IndexFunc(points, func(q r3.Vector) bool { return flat(p) == flat(q) }); first == i && !used[i] {
			t.Fatalf("point %d is no corner in %v", i, points)
		}
	}
}

// TestNoPointLiesInATrianglesCircle is the definition itself (Delaunay 1934,
// Sur la sphère vide), asked of every triangle and point; triangles that all
// run counter-clockwise and cover the hull's area do not overlap.
func TestNoPointLiesInATrianglesCircle(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		checkDelaunay(t, scattered(r, r.IntN(26)))
	}
}

func TestPointsInALineMakeNoTriangle(t *testing.T) {
	for n := range 6 {
		var row []r3.Vector
		for i := range n {
			row = append(row, r3.Vector{X: 0.1 * float64(i), Y: 0.3 * float64(i)})
		}
		// 0.1·3 and 0.3·1 are not exact, so the row may be off a line by a
		// rounding: a sliver is right, a fault is not.
		checkDelaunay(t, row)
		for i := range row {
			row[i].Y = 0
		}
		if got := delaunay(row); len(got) != 0 {
			t.Errorf("%d points in a line make %v", n, got)
		}
	}
}

// On a grid either fold of every square is Delaunay's; the higher one is
// taken, whatever the order of the points.
func TestOfTwoFoldsTheHigherIsTaken(t *testing.T) {
	square := []r3.Vector{{X: 0, Y: 0, Z: 1}, {X: 1, Y: 0}, {X: 1, Y: 1, Z: 1}, {X: 0, Y: 1}}
	for turn := range 4 {
		turned := append(slices.Clone(square[turn:]), square[:turn]...)
		g := groundBetween(turned, nil)
		if z := g.At(orb.Point{0.5, 0.5}); math.Abs(z-1) > 1e-12 {
			t.Errorf("from corner %d on, the middle stands at %v", turn, z)
		}
	}
}

func FuzzDelaunay(f *testing.F) {
	f.Add([]byte{0, 0, 1, 0, 0, 1, 1, 1, 2, 2})
	f.Add([]byte{10, 10, 20, 20, 30, 30, 10, 30, 200, 7})
	f.Fuzz(func(t *testing.T, data []byte) {
		var points []r3.Vector
		for i := 0; i+1 < len(data) && i < 80; i += 2 {
			// A third of a unit is not exact: rows and circles off by a rounding.
			points = append(points, r3.Vector{X: float64(data[i]) / 3, Y: float64(data[i+1]) / 3, Z: float64(data[i] % 5)})
		}
		checkDelaunay(t, points)
		g := groundBetween(points, nil)
		for _, p := range points {
			if z := g.At(flat(p).Bound().Pad(1).Max); math.IsNaN(z) || math.IsInf(z, 0) || z < -1e-6 || z > 4+1e-6 {
				t.Fatal(fmt.Sprint("ground at ", z, " over ", points))
			}
		}
		for _, face := range g.Faces(10) {
			if !(face.N.Z > 0) || math.Abs(face.N.Norm()-1) > 1e-9 {
				t.Fatal(face)
			}
		}
	})
}
