package removal

import (
	"container/heap"
	"slices"
)

const (
	bestNodes  = 3000 // most branches looked into for one budget
	curveNodes = 100  // and for each of the budgets of a curve
	fewest     = 4    // branches looked into however long the ledger
	rootTurns  = 60   // most rounds of tightening the bound at the root
	leastTurns = 12   // and the fewest
	turns      = 6    // and at every other branch
	mostTries  = 400  // sets taken apart and spent again at the root

	// A branch reads the whole ledger some twenty times, the set taken apart for
	// it included. So that a long ledger takes no longer than seconds, these many
	// crossings of a ray and a tree may be read once a branch for one budget, and
	// for each of the budgets of a curve; of a long ledger its heavy terms count
	// (tail.go).
	bestWork  = 3_000_000
	curveWork = 500_000
	talkWork  = 500_000 // with others agreed too, where good sets are known to start from
	woodsWork = 300_000 // in place of curveWork where the ledger has a tail
)

// affordable is how many branches may be looked into when each costs one reading
// of the ledger: by counting, not by the clock, so that the same lot gets the same
// answer on every machine.
func (f *field) affordable(most, work int) int {
	return min(most, max(fewest, work/(f.crossings()+f.heavy+1)))
}

// choice is one option a tree: 0 leaves it, 1.. are its options, -1 undecided.
type choice []int8

type branch struct {
	choice choice
	bound  float64 // no completion gains more, kWh
	split  int     // tree to decide next
	rank   []int32 // the order of work that gave the bound
}

type branches []*branch

func (b branches) Len() int           { return len(b) }
func (b branches) Less(i, j int) bool { return b[i].bound > b[j].bound }
func (b branches) Swap(i, j int)      { b[i], b[j] = b[j], b[i] }
func (b *branches) Push(x any)        { *b = append(*b, x.(*branch)) }
func (b *branches) Pop() any {
	last := (*b)[len(*b)-1]
	*b = (*b)[:len(*b)-1]
	return last
}

// search is a branch and bound for one budget: the most promising branch first,
// its bound by the core (see bound.go).
type search struct {
	f      *field
	budget int64

	best  choice
	gain  float64
	cost  int64
	upper float64 // proven: no set within the budget gains more
	exact bool    // upper and gain agree
	root  []float64

	mixed   int // turns the mean split has behind it already
	states  []state
	w, mean []float64
	list    []increment
}

func (f *field) newSearch(budget int64) *search {
	return &search{
		f: f, budget: budget, best: make(choice, len(f.groups)),
		states: make([]state, len(f.owner)),
		w:      make([]float64, len(f.owner)), mean: make([]float64, len(f.owner)),
	}
}

func (f *field) search(budget int64, nodes int, seeds ...choice) *search {
	s := f.newSearch(budget)
	for _, seed := range seeds {
		s.offer(seed)
	}
	slack := resolution * f.open
	root := &branch{choice: make(choice, len(f.groups)), rank: make([]int32, len(f.owner))}
	for t := range root.choice {
		root.choice[t] = -1
	}
	for i := range root.rank {
		root.rank[i] = int32(i)
	}
	least := leastTurns
	if f.last != nil { // the core does not depend on the budget: go on from there
		copy(s.mean, f.last)
		s.list = f.increments(func(int) bool { return true }, s.mean, budget, s.list)
		f.rank(s.list, root.rank)
		s.mixed, least = turns, turns
	}
	s.look(root, min(rootTurns, max(least, nodes)))
	s.mixed = 0
	f.looked++
	s.root = append([]float64(nil), s.mean...)
	f.last = s.root
	if root.bound > s.gain+slack {
		s.improve(min(nodes, mostTries))
	}
	open := &branches{root}
	for looked := 1; len(*open) > 0; {
		if (*open)[0].bound <= s.gain+slack {
			*open = nil
			break
		}
		if looked >= nodes {
			break
		}
		at := heap.Pop(open).(*branch)
		for option := 0; option <= len(f.groups[at.split]); option++ {
			next := &branch{choice: append(choice(nil), at.choice...), rank: append([]int32(nil), at.rank...)}
			next.choice[at.split] = int8(option)
			if s.spent(next.choice) > budget {
				continue
			}
			looked++
			f.looked++
			s.look(next, turns)
			next.bound = min(next.bound, at.bound)
			if next.bound > s.gain+slack {
				heap.Push(open, next)
			}
		}
	}
	s.upper = s.gain
	if len(*open) > 0 {
		s.upper = max(s.gain, (*open)[0].bound)
	}
	s.exact = s.upper <= s.gain+slack
	f.proofs = append(f.proofs, proof{budget, s.upper, s.root})
	return s
}

// look bounds a branch, picks the tree to decide next and offers the sets it
// comes across.
func (s *search) look(b *branch, most int) {
	f := s.f
	left := s.budget - s.spent(b.choice)
	s.settle(b.choice)
	free := func(t int) bool { return b.choice[t] < 0 }
	slack := resolution * f.open
	if !slices.Contains(b.choice, -1) { // one set, no more: offering it says all there is to say
		s.offer(b.choice)
		b.bound = s.gain
		return
	}
	first := true
	for turn := range most {
		settled := f.shares(s.states, b.rank, s.w)
		step := 2 / float64(turn+s.mixed+2) // Frank & Wolfe's own
		for i, w := range s.w {
			s.mean[i] += step * (w - s.mean[i])
		}
		s.list = f.increments(free, s.mean, left, s.list)
		added, split := fill(s.list, left)
		if bound := settled + added; first || bound < b.bound {
			b.bound, b.split, first = bound, split, false
		}
		if turn == 0 || turn == most-1 || most > turns {
			s.offer(s.round(b.choice, left))
			s.settle(b.choice)
		}
		if b.bound <= s.gain+slack {
			return
		}
		f.rank(s.list, b.rank)
	}
	if b.split < 0 {
		b.split = s.largest(b.choice)
	}
}

// largest is the undecided tree with the largest share under the mean split:
// where the knapsack itself is settled, the loose end is how trees in line share.
// A branch with nothing undecided is never split.
func (s *search) largest(c choice) int {
	split, most := 0, -1.0
	for t := range c {
		if c[t] >= 0 {
			continue
		}
		var share float64
		for i, owner := range s.f.owner {
			if int(owner) == t {
				share += s.mean[i]
			}
		}
		if share > most {
			split, most = t, share
		}
	}
	return split
}

// round takes whole increments while they fit.
func (s *search) round(c choice, left int64) choice {
	set := append(choice(nil), c...)
	for t := range set {
		set[t] = max(set[t], 0)
	}
	for _, step := range s.list {
		cost := s.f.cost[step.group][step.option-1]
		if now := set[step.group]; now > 0 {
			cost -= s.f.cost[step.group][now-1]
		}
		if cost <= left {
			left -= cost
			set[step.group] = int8(step.option)
		}
	}
	return set
}

// offer keeps a whole set if it is the best so far. Where not even the most it
// may gain would make it that, nor a step of the curve, its gain is not worked out.
func (s *search) offer(c choice) {
	cost := s.spent(c)
	if cost > s.budget {
		return
	}
	f := s.f
	slack := resolution * f.open
	at, known := f.gains[string(c.key())]
	if !known {
		s.settle(c)
		at.gain = f.atMost(s.states)
	}
	if !at.exact && (at.gain > s.gain-slack || f.takes(cost, at.gain)) {
		s.settle(c)
		at = worth{f.reach(s.states) - f.nothing, true}
		known = false
	}
	if !known {
		f.gains[string(c.key())] = at
	}
	if !at.exact {
		return
	}
	f.keep(c, cost, at.gain)
	if at.gain > s.gain+slack || at.gain > s.gain-slack && cost < s.cost {
		s.best, s.gain, s.cost = append(choice(nil), c...), at.gain, cost
	}
}

// worth is the gain of a set, kWh, or the most it may gain.
type worth struct {
	gain  float64
	exact bool
}

func (c choice) key() []byte {
	key := make([]byte, len(c))
	for t, option := range c {
		key[t] = byte(option)
	}
	return key
}

func (s *search) settle(c choice) {
	for t, option := range c {
		to := stays
		if option < 0 {
			to = undecided
		}
		for _, screens := range s.f.clears[t] {
			for _, i := range screens {
				s.states[i] = to
			}
		}
		if option > 0 {
			for _, i := range s.f.clears[t][option-1] {
				s.states[i] = gone
			}
		}
	}
}

func (s *search) spent(c choice) int64 {
	var sum int64
	for t, option := range c {
		if option > 0 {
			sum += s.f.cost[t][option-1]
		}
	}
	return sum
}

func (f *field) set(c choice) []int {
	set := []int{}
	for t, option := range c {
		if option > 0 {
			set = append(set, f.groups[t][option-1])
		}
	}
	return set
}
