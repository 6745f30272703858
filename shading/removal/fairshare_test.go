package removal

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/southyard/southyard/testdata"
)

func read(t *testing.T, name string) []testdata.Row {
	t.Helper()
	rows, err := testdata.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func TestQuadratureMatchesThePublishedTable(t *testing.T) {
	for _, row := range read(t, "gauss_legendre.csv") {
		n, z, weight := int(row.Number("points")), row.Number("z"), row.Number("weight")
		for _, sign := range []float64{1, -1} {
			found := false
			for _, q := range gaussLegendre(n) {
				if math.Abs(2*q.x-1-sign*z) < 1e-10 && math.Abs(2*q.weight-weight) < 1e-10 {
					found = true
				}
			}
			if !found {
				t.Errorf("%d points: no node at %v with weight %v", n, sign*z, weight)
			}
		}
	}
}

func TestQuadratureIntegratesPolynomialsExactly(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for degree := range 2 * n {
			sum := 0.0
			for _, q := range gaussLegendre(n) {
				sum += q.weight * math.Pow(q.x, float64(degree))
			}
			near(t, fmt.Sprintf("∫x^%d with %d points", degree, n), sum, 1/float64(degree+1), 2e-14)
		}
	}
}

// shapleyByOrders averages over every order: the definition (Shapley 1953).
func shapleyByOrders(g Game) []float64 {
	n := g.Trees
	share, orders := make([]float64, n), 0.0
	gone := make([]bool, n)
	adds := make([]float64, n)
	var visit func(left int, reach float64)
	visit = func(left int, reach float64) {
		if left == 0 {
			orders++
			for i, a := range adds {
				share[i] += a
			}
			return
		}
		for i := range n {
			if gone[i] {
				continue
			}
			gone[i] = true
			next := g.Reach(gone)
			adds[i] = next - reach
			visit(left-1, next)
			gone[i] = false
		}
	}
	visit(n, g.Reach(nil))
	for i := range share {
		share[i] /= orders
	}
	return share
}

func TestFairShareIsTheAverageOverEveryOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for _, n := range []int{1, 2, 3, 4, 5, 6, 7, 8} {
		g := randomGame(r, n, 12, n+2)
		fair := g.FairShare()
		for i, want := range shapleyByOrders(g) {
			near(t, fmt.Sprintf("tree %d of %d", i, n), fair[i], want, 1e-10)
		}
	}
}

func TestFairSharesSumToTheWholeGain(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for _, n := range []int{1, 5, 20, 96, 300} {
		g := randomGame(r, n, 500, 40)
		sum := 0.0
		for _, f := range g.FairShare() {
			sum += f
		}
		whole := g.Open() - g.Reach(nil)
		near(t, fmt.Sprintf("%d trees", n), sum, whole, 1e-10*whole)
	}
}

// Opaque trees in a row are an airport game seen from the other end: the reach
// grows by c_k − c_{k−1} once trees k and beyond are gone, which is the dual of
// "the set pays for its longest runway", and a game and its dual have the same
// Shapley value.
func TestFairSharesOfOpaqueTreesInARowMatchThePublishedAirportGames(t *testing.T) {
	rows := read(t, "airport_game.csv")
	for _, name := range []string{"three", "six"} {
		var cost, want []float64
		for _, row := range rows {
			if row["game"] == name {
				cost = append(cost, row.Number("cost"))
				want = append(want, row.Number("numerator")/row.Number("divisor"))
			}
		}
		g := Game{Trees: len(cost)}
		for k := range cost {
			term := Term{Energy: cost[k]}
			if k > 0 {
				term.Energy -= cost[k-1]
			}
			for j := k; j < len(cost); j++ {
				term.Trees, term.Tau = append(term.Trees, j), append(term.Tau, 0)
			}
			g.Terms = append(g.Terms, term)
		}
		for i, f := range g.FairShare() {
			near(t, fmt.Sprintf("game of %s, player %d", name, i+1), f, want[i], 1e-10)
		}
	}
}
