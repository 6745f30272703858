package removal

import "math"

// FairShare splits the gain of removing all trees, kWh, among them: the Shapley
// value, each tree's gain averaged over every order in which the trees could go
// (Shapley 1953, "A value for n-person games"). The shares sum to the whole
// gain. It is exact for any number of trees.
//
// The Shapley value is the integral of the gradient of the multilinear
// extension along the diagonal (Owen 1972, "Multilinear extensions of games").
// For one term over the trees B that gradient is a polynomial,
//
//	φ_i = E ∫₀¹ (1−τ_i) Π_{j∈B, j≠i} (τ_j + (1−τ_j)·x) dx,
//
// of degree |B|−1, which Gauss–Legendre quadrature with ⌈|B|/2⌉ nodes
// integrates without error.
//
// With Clears set, the players are the options; where two options share a screen
// (a raise and a removal of one tree) there is no such split and FairShare is
// nil: ask Whole for the game of the removals first.
func (g Game) FairShare() []float64 {
	if g.Clears != nil {
		all := make([]int, len(g.Clears))
		for i := range all {
			all[i] = i
		}
		plain, ok := g.Whole(all)
		if !ok {
			return nil
		}
		return plain.FairShare()
	}
	share := make([]float64, g.Trees)
	rules := map[int][]node{}
	var before []float64
	for _, t := range g.Terms {
		n := len(t.Trees)
		if n == 0 || t.Energy == 0 {
			continue
		}
		points := (n + 1) / 2
		rule, ok := rules[points]
		if !ok {
			rule = gaussLegendre(points)
			rules[points] = rule
		}
		for len(before) < n {
			before = append(before, 0)
		}
		fairShares(rule, t.Energy, t.Tau, before, func(j int, more float64) { share[t.Trees[j]] += more })
	}
	return share
}

// fairShares gives out what one term could gain: a few times a part of it to
// every one of its trees. before is room for as many numbers.
func fairShares(rule []node, energy float64, taus, before []float64, give func(j int, share float64)) {
	for _, q := range rule {
		// Products of the others' factors, from the left and then from
		// the right: no division, as a factor may be 0.
		p := 1.0
		for j, tau := range taus {
			before[j] = p
			p *= tau + (1-tau)*q.x
		}
		after := q.weight * energy
		for j := len(taus) - 1; j >= 0; j-- {
			tau := taus[j]
			give(j, (1-tau)*before[j]*after)
			after *= tau + (1-tau)*q.x
		}
	}
}

// node is a point and a weight of a quadrature rule on 0..1.
type node struct{ x, weight float64 }

// gaussLegendre is the n-point Gauss–Legendre rule on 0..1: the nodes are the
// zeros of the Legendre polynomial P_n, the weights 2/((1−z²)·P_n′(z)²) on
// −1..1 (Abramowitz & Stegun 1964, 25.4.29). Newton's method from the usual
// cosine guess.
func gaussLegendre(n int) []node {
	rule := make([]node, n)
	for i := range rule {
		z := math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		var slope float64
		for range 100 {
			p, prev := 1.0, 0.0
			for k := 1; k <= n; k++ {
				p, prev = (float64(2*k-1)*z*p-float64(k-1)*prev)/float64(k), p
			}
			slope = float64(n) * (z*p - prev) / (z*z - 1)
			step := p / slope
			z -= step
			if math.Abs(step) < 1e-15 {
				break
			}
		}
		rule[i] = node{x: (1 - z) / 2, weight: 1 / ((1 - z*z) * slope * slope)}
	}
	return rule
}
