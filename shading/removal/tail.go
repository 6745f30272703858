package removal

import (
	"math"
	"slices"
)

const (
	// A ledger with more crossings of a ray and a tree than this is searched by
	// its heavier terms.
	longLedger = 30_000
	// tailShare is the share of all that could be gained that may lie in the
	// terms left to the tail.
	tailShare = 0.03
	// Where more crossings than heaviest would be left, the tail may hold up to
	// longTail of it: a wood of a hundred trees has millions.
	heaviest, longTail = 150_000, 0.10
)

// cutTail parts a long ledger. Through a wood of forty trees three hundredths
// of the energy lie in six sevenths of the terms; a search that read them at every
// step would spend its time on what cannot matter. So the lightest terms that
// together could gain no more than a small share of the whole become the tail, whose
// energy is split among the screens once and for all.
//
// What the search says stays proven. The game is the sum of the game of the
// heavy terms and that of the tail, each convex, and shares of the core of one
// added to shares of the core of the other are in the core of the whole: the
// bound of a branch is that of its heavy terms plus the tail's shares. For the
// same reason the tail's shares tell from above what a set gains in the tail;
// where even that would not make it the best known, its gain is not worked out.
// Every gain that is kept is that of all terms.
func (f *field) cutTail(longest int) {
	f.heavy, f.tail = len(f.energy), make([]float64, len(f.owner))
	if len(f.screen) <= longest {
		return
	}
	weight := make([]float64, len(f.energy)) // what opening a term could gain
	order := make([]int32, len(f.energy))
	whole := 0.0
	for k, e := range f.energy {
		through := 1.0
		for _, tau := range f.tau[f.start[k]:f.start[k+1]] {
			through *= tau
		}
		weight[k], order[k] = e*(1-through), int32(k)
		whole += weight[k]
	}
	slices.SortStableFunc(order, func(a, b int32) int {
		switch {
		case weight[a] > weight[b]:
			return -1
		case weight[a] < weight[b]:
			return 1
		}
		return 0
	})
	left := len(f.screen)
	for light := 0.0; f.heavy > 0; f.heavy-- {
		k := order[f.heavy-1]
		if light += weight[k]; light > longTail*whole || light > tailShare*whole && left <= heaviest {
			break
		}
		left -= int(f.start[k+1] - f.start[k])
	}
	energy := make([]float64, 0, len(f.energy))
	start := make([]int32, 1, len(f.start))
	screen, tau := make([]int32, 0, len(f.screen)), make([]float64, 0, len(f.tau))
	for _, k := range order {
		energy = append(energy, f.energy[k])
		screen = append(screen, f.screen[f.start[k]:f.start[k+1]]...)
		tau = append(tau, f.tau[f.start[k]:f.start[k+1]]...)
		start = append(start, int32(len(screen)))
	}
	f.energy, f.start, f.screen, f.tau = energy, start, screen, tau
	f.splitTail()
}

// splitTail gives every screen its fair share of the tail, which is in the core
// of the tail's game.
func (f *field) splitTail() {
	rules := map[int][]node{}
	var before []float64
	for k := f.heavy; k < len(f.energy); k++ {
		screen, tau := f.screen[f.start[k]:f.start[k+1]], f.tau[f.start[k]:f.start[k+1]]
		points := (len(screen) + 1) / 2
		if rules[points] == nil {
			rules[points] = gaussLegendre(points)
		}
		if len(before) < len(screen) {
			before = make([]float64, len(screen))
		}
		fairShares(rules[points], f.energy[k], tau, before, func(j int, share float64) { f.tail[screen[j]] += share })
	}
}

// crossings of a ray and a tree in the heavy terms.
func (f *field) crossings() int { return int(f.start[f.heavy]) }

// atMost is a gain no set with these screens gone exceeds: that of the heavy
// terms worked out, that of the tail by its shares. It is the gain itself where
// there is no tail.
func (f *field) atMost(states []state) float64 {
	gain := f.reachOf(f.heavy, states) - f.heavyNothing
	return math.Max(0, gain) + f.tailOf(states, gone)
}

// tailOf is the tail's shares of the screens in a state.
func (f *field) tailOf(states []state, is state) float64 {
	sum := 0.0
	if f.heavy < len(f.energy) {
		for s, share := range f.tail {
			if states[s] == is {
				sum += share
			}
		}
	}
	return sum
}

// tailAdds is the tail's shares of those of the screens that stand.
func (f *field) tailAdds(states []state, screens []int32) float64 {
	sum := 0.0
	for _, s := range screens {
		if states[s] != gone {
			sum += f.tail[s]
		}
	}
	return sum
}
