package removal

import "math/rand/v2"

// improve betters the best set found by taking a few trees back and spending
// the money again, greedily by gain for each dollar: first every single member
// in turn, then a few at random (large neighbourhood search; Shaw 1998). The
// random numbers are seeded, so the same lot gets the same answer.
func (s *search) improve(tries int) {
	r := rand.New(rand.NewPCG(uint64(s.budget), uint64(tries)))
	for at := 0; tries > 0; tries-- {
		var members []int
		for t, option := range s.best {
			if option > 0 {
				members = append(members, t)
			}
		}
		if len(members) == 0 {
			return
		}
		c := append(choice(nil), s.best...)
		var out []int
		if at < len(members) {
			out = members[at : at+1]
			at++
		} else {
			r.Shuffle(len(members), func(i, j int) { members[i], members[j] = members[j], members[i] })
			out = members[:min(len(members), 2+r.IntN(5))]
		}
		for _, t := range out {
			c[t] = 0
		}
		before := s.gain
		s.offer(s.spend(c, out))
		if s.gain > before {
			at = 0
		}
	}
}

// spend adds work to a set while the budget lasts, the greatest gain for each
// dollar first. What was just taken out waits until nothing else fits, or the
// same set would come back.
func (s *search) spend(c choice, waiting []int) choice {
	f := s.f
	wait := make([]bool, len(c))
	for _, t := range waiting {
		wait[t] = true
	}
	left := s.budget - s.spent(c)
	for {
		s.settle(c)
		adds := f.adds(f.heavy, s.states, s.states)
		best := increment{group: -1}
		for _, second := range []bool{false, true} {
			for t := range c {
				if c[t] > 0 || wait[t] != second {
					continue
				}
				for o, gain := range adds[t] {
					gain += f.tailAdds(s.states, f.clears[t][o])
					step := increment{group: t, option: o + 1, cost: f.cost[t][o], share: gain}
					if step.cost <= left && gain > resolution*f.open && (best.group < 0 || step.steeper(best)) {
						best = step
					}
				}
			}
			if best.group >= 0 {
				break
			}
		}
		if best.group < 0 {
			return c
		}
		c[best.group] = int8(best.option)
		left -= best.cost
	}
}

// adds is the gain of every option by the first so many terms, tree by tree, where own says which screens
// of its tree are gone before and others which of the other trees'. A term gives
// e·(f_c − f_0)·(the other trees' factors), with f_0 the tree's factor as it
// stands and f_c with option c done.
func (f *field) adds(terms int, own, others []state) [][]float64 {
	adds := make([][]float64, len(f.groups))
	for t := range f.groups {
		adds[t] = make([]float64, len(f.groups[t]))
	}
	type met struct {
		tree    int32
		factor  float64 // by own
		behind  float64 // by others
		screens []int32 // places in f.screen, of those that stand by own
	}
	var trees []met
	var after []float64
	for k, energy := range f.energy[:terms] {
		trees = trees[:0]
		for j := f.start[k]; j < f.start[k+1]; j++ {
			screen := f.screen[j]
			stands, hides := own[screen] != gone, others[screen] != gone
			if !stands && !hides {
				continue
			}
			at := 0
			for at < len(trees) && trees[at].tree != f.owner[screen] {
				at++
			}
			if at == len(trees) {
				if at < cap(trees) {
					trees = trees[:at+1]
					trees[at] = met{f.owner[screen], 1, 1, trees[at].screens[:0]}
				} else {
					trees = append(trees, met{tree: f.owner[screen], factor: 1, behind: 1})
				}
			}
			if hides {
				trees[at].behind *= f.tau[j]
			}
			if stands {
				trees[at].factor *= f.tau[j]
				trees[at].screens = append(trees[at].screens, j)
			}
		}
		after = append(after[:0], make([]float64, len(trees)+1)...)
		after[len(trees)] = energy
		for x := len(trees) - 1; x >= 0; x-- {
			after[x] = after[x+1] * trees[x].behind
		}
		before := 1.0
		for x, m := range trees {
			rest := before * after[x+1]
			for o := range adds[m.tree] {
				done := 1.0
				for _, j := range m.screens {
					if f.clearedBy[f.screen[j]]>>o&1 == 0 {
						done *= f.tau[j]
					}
				}
				adds[m.tree][o] += rest * (done - m.factor)
			}
			before *= m.behind
		}
	}
	return adds
}
