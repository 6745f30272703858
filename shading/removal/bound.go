package removal

import (
	"math"
	"sort"
)

// The bound that makes the search past 22 trees honest.
//
// A game in which every tree helps the more the more others are gone is convex,
// and a convex game has a core: ways w to split the whole gain among the screens
// so that no set is promised less than it gains, gain(R) ≤ Σ_{s∈R} w_s for every
// R (Shapley 1971, "Cores of convex games"). Every order of work gives one: each
// screen gets what it adds in its turn. So does every average of them, the fair
// share among these. For any w of the core, what a budget can buy is at most what
// a knapsack with fractions can (Dantzig 1957; with several options a tree, the
// multiple-choice knapsack, Sinha & Zoltners 1979). The tightest w is approached
// by repeatedly mixing in the order that serves the knapsack's present choice
// worst (Frank & Wolfe 1956; the order is the greedy one of Edmonds 1970). The
// limit is the upper concave hull of the budget curve itself. The plainer bound
// Σ of the gains after all others is the loosest of these.

// field is a game laid out for many passes: only the screens some allowed
// candidate clears, every other τ multiplied in.
type field struct {
	d      Decision
	groups [][]int
	cost   [][]int64   // group → option → cents
	clears [][][]int32 // group → option → screens, in the field's numbers
	owner  []int32     // screen → group

	clearedBy []uint64 // screen → bitset of its tree's options that clear it

	energy  []float64
	start   []int32 // term k crosses screen[start[k]:start[k+1]], in any order
	screen  []int32
	tau     []float64
	base    float64 // reach of the energy that meets no screen
	nothing float64 // reach with nothing done
	open    float64 // reach with everything cleared
	looked  int     // branches looked into so far, by all searches

	heavy        int       // the terms from here on are the tail (see tail.go)
	tail         []float64 // screen → its share of what the tail could gain
	heavyNothing float64   // reach of base and heavy terms with nothing done

	gains  map[string]worth // of the sets offered so far, by choice
	points []point          // of them those that no other beats, rising in cost and gain
	proofs []proof          // what each search proved
	last   []float64        // the split of the whole gain it ended with
}

func (d Decision) field(groups [][]int) *field { return d.fieldCut(groups, longLedger) }

// fieldCut is the field of a ledger that has a tail where it is longer than
// longest crossings.
func (d Decision) fieldCut(groups [][]int, longest int) *field {
	f := &field{d: d, groups: groups, base: d.Game.Fixed, gains: map[string]worth{}}
	number := make([]int32, d.Game.Trees)
	for s := range number {
		number[s] = -1
	}
	for t, g := range groups {
		cost := make([]int64, len(g))
		clears := make([][]int32, len(g))
		for c, o := range g {
			cost[c] = cents(d.Candidates[o].Cost)
			for _, s := range d.Game.screens(o) {
				if number[s] < 0 {
					number[s] = int32(len(f.owner))
					f.owner = append(f.owner, int32(t))
					f.clearedBy = append(f.clearedBy, 0)
				}
				f.clearedBy[number[s]] |= 1 << c
				clears[c] = append(clears[c], number[s])
			}
		}
		f.cost, f.clears = append(f.cost, cost), append(f.clears, clears)
	}
	f.start = append(f.start, 0)
	for k := range d.Game.Terms {
		t := &d.Game.Terms[k]
		energy, n := t.Energy, len(f.screen)
		for j, s := range t.Trees {
			switch {
			case number[s] < 0:
				energy *= t.Tau[j]
			case t.Tau[j] < 1:
				f.screen, f.tau = append(f.screen, number[s]), append(f.tau, t.Tau[j])
			}
		}
		if energy == 0 || len(f.screen) == n {
			f.screen, f.tau = f.screen[:n], f.tau[:n]
			f.base += energy
			continue
		}
		f.energy = append(f.energy, energy)
		f.start = append(f.start, int32(len(f.screen)))
	}
	f.open = f.base
	for _, e := range f.energy {
		f.open += e
	}
	f.cutTail(longest)
	standing := make([]state, len(f.owner))
	f.nothing, f.heavyNothing = f.reach(standing), f.reachOf(f.heavy, standing)
	return f
}

// state is what a branch of the search has settled about a screen.
type state uint8

const (
	undecided state = iota
	gone
	stays
)

// reach with every screen standing that is not gone.
func (f *field) reach(states []state) float64 { return f.reachOf(len(f.energy), states) }

// reachOf is reach by the first so many terms alone.
func (f *field) reachOf(terms int, states []state) float64 {
	sum := f.base
	for k, e := range f.energy[:terms] {
		for j := f.start[k]; j < f.start[k+1]; j++ {
			if states[f.screen[j]] != gone {
				e *= f.tau[j]
			}
		}
		sum += e
	}
	return sum
}

// shares fills w with what each undecided screen adds in its turn when they go
// by rising rank after those gone, and returns the gain of those gone. The terms'
// screens are left sorted by rank, which makes the next, similar order cheap. Of
// the tail everyone has the same share whatever the order.
func (f *field) shares(states []state, rank []int32, w []float64) float64 {
	clear(w)
	sum := f.base
	for k, e := range f.energy[:f.heavy] {
		lo, hi := f.start[k], f.start[k+1]
		screen, tau := f.screen[lo:hi], f.tau[lo:hi]
		for i := 1; i < len(screen); i++ {
			s, x := screen[i], tau[i]
			j := i
			for ; j > 0 && rank[screen[j-1]] > rank[s]; j-- {
				screen[j], tau[j] = screen[j-1], tau[j-1]
			}
			screen[j], tau[j] = s, x
		}
		for j, s := range screen {
			if states[s] == stays {
				e *= tau[j]
			}
		}
		// From the last to go, which finds the way clear, to the first.
		for j := len(screen) - 1; j >= 0; j-- {
			if s := screen[j]; states[s] == undecided {
				w[s] += e * (1 - tau[j])
				e *= tau[j]
			}
		}
		sum += e
	}
	for s, share := range f.tail {
		if states[s] == undecided {
			w[s] += share
		}
	}
	return sum - f.heavyNothing + f.tailOf(states, gone)
}

// increment is one step along the options of a tree: from the last step's option
// (or leaving it) to this one, for cost more and share more.
type increment struct {
	group, option int // option counts from 1
	cost          int64
	share         float64
}

// steeper says whether a gives more for each cent than b; free work comes first.
func (a increment) steeper(b increment) bool {
	left, right := a.share*float64(b.cost), b.share*float64(a.cost)
	if left != right {
		return left > right
	}
	if a.share != b.share {
		return a.share > b.share
	}
	return a.group < b.group
}

// increments is the upper concave hull of every open tree's options under w,
// steepest step first. Options beyond the budget are left out.
func (f *field) increments(open func(group int) bool, w []float64, budget int64, list []increment) []increment {
	list = list[:0]
	for t := range f.groups {
		if !open(t) {
			continue
		}
		from := len(list)
		for _, c := range f.byCost(t) {
			if f.cost[t][c] > budget {
				break
			}
			var share float64
			for _, s := range f.clears[t][c] {
				share += w[s]
			}
			at := increment{group: t, option: c + 1, cost: f.cost[t][c], share: share}
			for _, step := range list[from:] {
				at.cost -= step.cost
				at.share -= step.share
			}
			if at.share <= 0 {
				continue
			}
			for len(list) > from && at.steeper(list[len(list)-1]) {
				last := list[len(list)-1]
				at.cost += last.cost
				at.share += last.share
				list = list[:len(list)-1]
			}
			list = append(list, at)
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].steeper(list[j]) })
	return list
}

// byCost lists a tree's options from the cheapest.
func (f *field) byCost(t int) []int {
	order := make([]int, len(f.cost[t]))
	for c := range order {
		order[c] = c
	}
	sort.SliceStable(order, func(i, j int) bool { return f.cost[t][order[i]] < f.cost[t][order[j]] })
	return order
}

// fill is what the budget buys of the increments when the last may be bought in
// part, and the tree bought in part (-1: none).
func fill(list []increment, budget int64) (gain float64, split int) {
	for _, step := range list {
		if step.cost > budget {
			return gain + step.share*float64(budget)/float64(step.cost), step.group
		}
		gain += step.share
		budget -= step.cost
	}
	return gain, -1
}

// rank numbers the screens in the order the increments take them; those taken by
// none come last.
func (f *field) rank(list []increment, rank []int32) {
	for s := range rank {
		rank[s] = math.MaxInt32
	}
	next := int32(0)
	for _, step := range list {
		for _, s := range f.clears[step.group][step.option-1] {
			if rank[s] == math.MaxInt32 {
				rank[s] = next
				next++
			}
		}
	}
	for s, r := range rank {
		if r == math.MaxInt32 {
			rank[s] = next
			next++
		}
	}
}
