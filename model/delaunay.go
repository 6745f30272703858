package model

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
)

// delaunay cuts the hull of points into triangles no corner of which lies in
// another's circle (Delaunay 1934), so that each is as near to equal-sided as
// the points allow. Triangles run counter-clockwise seen from above and name
// points by number. Points in one line give none; of points at one place the
// first counts. Points must be finite.
//
// Where four points lie on one circle, as on a grid, either fold between them
// would do; the one that stands higher is taken. So the surface depends on
// neither the order of the points nor the way the lot is turned or mirrored.
//
// The points are swept from west to east, each joined to what it sees of the
// hull; then edges are flipped until no corner lies in a neighbour's circle
// (Lawson 1977, Mathematical Software III).
func delaunay(points []r3.Vector) [][3]int {
	order := make([]int, 0, len(points))
	for i := range points {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(points[i].X, points[j].X), cmp.Compare(points[i].Y, points[j].Y))
	})
	order = slices.CompactFunc(order, func(i, j int) bool { return points[i].X == points[j].X && points[i].Y == points[j].Y })
	n := &net{points: points, sides: map[[2]int]int{}}
	n.sweep(order)
	n.flip()
	return n.triangles
}

// net is a set of triangles on the way to Delaunay's.
type net struct {
	points    []r3.Vector
	triangles [][3]int
	sides     map[[2]int]int // side, as a triangle runs along it → that triangle
}

func (n *net) set(number int, t [3]int) {
	n.triangles[number] = t
	for i, from := range t {
		n.sides[[2]int{from, t[(i+1)%3]}] = number
	}
}

func (n *net) add(a, b, c int) {
	n.triangles = append(n.triangles, [3]int{})
	n.set(len(n.triangles)-1, [3]int{a, b, c})
}

// side tells on which side of the line from a to b point c lies: 1 left, −1
// right, 0 on it, exactly.
func (n *net) side(a, b, c int) int {
	p, q, r := n.points[a], n.points[b], n.points[c]
	left, right := (q.X-p.X)*(r.Y-p.Y), (q.Y-p.Y)*(r.X-p.X)
	// Shewchuk (1997), Discrete & Computational Geometry 18:305: beyond this
	// bound the rounded difference has the right sign.
	if d := left - right; math.Abs(d) > 3.4e-16*(math.Abs(left)+math.Abs(right)) {
		return cmp.Compare(d, 0)
	}
	less := func(a, b float64) *big.Rat {
		x := new(big.Rat).SetFloat64(a)
		return x.Sub(x, new(big.Rat).SetFloat64(b))
	}
	l, s := less(q.X, p.X), less(q.Y, p.Y)
	return l.Mul(l, less(r.Y, p.Y)).Cmp(s.Mul(s, less(r.X, p.X)))
}

// sweep joins each point to the sides of the hull that it sees. A point comes
// after all that lie west of it, so it sees the last one.
func (n *net) sweep(order []int) {
	first := 2
	for first < len(order) && n.side(order[0], order[1], order[first]) == 0 {
		first++
	}
	if first >= len(order) {
		return
	}
	next, prev := map[int]int{}, map[int]int{}
	join := func(a, b int) { next[a], prev[b] = b, a }
	row, top := slices.Clone(order[:first]), order[first]
	if n.side(row[0], row[1], top) < 0 {
		slices.Reverse(row)
	}
	for i := 0; i+1 < len(row); i++ {
		n.add(row[i], row[i+1], top)
		join(row[i], row[i+1])
	}
	join(row[len(row)-1], top)
	join(top, row[0])
	for i := first + 1; i < len(order); i++ {
		p, from, to := order[i], order[i-1], order[i-1]
		for n.side(to, next[to], p) < 0 {
			n.add(next[to], to, p)
			to = next[to]
		}
		for n.side(prev[from], from, p) < 0 {
			n.add(from, prev[from], p)
			from = prev[from]
		}
		join(from, p)
		join(p, to)
	}
}

// flip turns sides between two triangles until none should be turned. Each
// turn lowers the surface of points lifted to x² + y², so there is an end.
func (n *net) flip() {
	var waiting [][2]int
	for _, t := range n.triangles {
		for i := range t {
			waiting = append(waiting, [2]int{t[i], t[(i+1)%3]})
		}
	}
	for len(waiting) > 0 {
		s := waiting[len(waiting)-1]
		waiting = waiting[:len(waiting)-1]
		one, ok := n.sides[s]
		other, inside := n.sides[[2]int{s[1], s[0]}]
		if !ok || !inside {
			continue
		}
		a, b := s[0], s[1]
		c, d := third(n.triangles[one], a, b), third(n.triangles[other], a, b)
		if n.side(c, d, a) >= 0 || n.side(c, d, b) <= 0 || !n.inCircle(a, b, c, d) {
			continue
		}
		delete(n.sides, s)
		delete(n.sides, [2]int{b, a})
		n.set(one, [3]int{a, d, c})
		n.set(other, [3]int{d, b, c})
		waiting = append(waiting, [2]int{a, d}, [2]int{d, b}, [2]int{b, c}, [2]int{c, a})
	}
}

func third(t [3]int, a, b int) int {
	for _, c := range t {
		if c != a && c != b {
			return c
		}
	}
	return -1
}

// foldHigh lowers the lifted points by this times their heights, metres. It
// decides between two folds over points on one circle and is far too little,
// under a thousandth of a millimetre on the ground, to decide anything else.
const foldHigh = 1e-6

// inCircle tells whether d lies in the circle through a, b, c by more than
// rounding could feign: whether, lifted, it lies under their plane.
func (n *net) inCircle(a, b, c, d int) bool {
	from := n.points[d]
	lifted := func(i int) (x, y, w float64) {
		p := n.points[i].Sub(from)
		return p.X, p.Y, p.X*p.X + p.Y*p.Y - foldHigh*p.Z
	}
	ax, ay, aw := lifted(a)
	bx, by, bw := lifted(b)
	cx, cy, cw := lifted(c)
	x, y, z := aw*(bx*cy-cx*by), bw*(cx*ay-ax*cy), cw*(ax*by-bx*ay)
	size := math.Abs(aw)*(math.Abs(bx*cy)+math.Abs(cx*by)) + math.Abs(bw)*(math.Abs(cx*ay)+math.Abs(ax*cy)) + math.Abs(cw)*(math.Abs(ax*by)+math.Abs(bx*ay))
	return x+y+z > 1e-14*size
}

// flat is a corner of the ground seen from above.
func flat(p r3.Vector) orb.Point { return orb.Point{p.X, p.Y} }
