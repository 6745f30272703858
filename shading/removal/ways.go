package removal

import (
	"math"
	"slices"
)

// Weighed are the answers that belong together: what is agreed and what would be
// were everybody to agree, for the budget and for every other sum.
type Weighed struct {
	Best   Best  // for the budget, of what is agreed
	Curve  Curve // of what is agreed
	Agreed Curve // if everybody agreed
	Talk   []TalkValue
}

// Weigh is Best, Curve and Talk at once. Where sets are searched for, each search
// starts from what the others found, so that the answers agree: whoever may do
// more never gets less for the same money.
func (d Decision) Weigh(budget float64) Weighed {
	agreed := d.Agreed()
	own := d.ways(agreed)
	own.search(budget, bestWork)
	own.explore()
	if !slices.Contains(agreed, false) {
		c := own.curve()
		return Weighed{Best: own.best(budget), Curve: c, Agreed: c, Talk: []TalkValue{}}
	}
	all := d.ways(d.All())
	all.learn(own.found())
	all.search(budget, talkWork)
	all.explore()
	own.learn(all.found())
	out := Weighed{Best: own.best(budget), Curve: own.curve(), Agreed: all.curve()}
	most := all.best(budget)
	out.Talk = d.talk(out.Best, func(allowed []bool) Best {
		if !slices.Contains(allowed, false) {
			return most
		}
		w := d.ways(allowed)
		w.learn(own.found())
		w.learn(all.found())
		w.search(budget, talkWork)
		with := w.best(budget)
		with.Upper = math.Max(with.Gain, math.Min(with.Upper, most.Upper)) // fewer gain no more than all
		return with
	})
	return out
}

// ways are all that may be done with what is allowed, ready to be asked for the
// best set and for the curve: tabulated where that can be; otherwise what was
// searched for or learnt before is read.
type ways struct {
	d     Decision
	space space
	reach []float64 // of every combination; nil where searched
	f     *field    // nil where tabulated
	seeds []choice
}

func (d Decision) ways(allowed []bool) *ways {
	groups := d.groups(allowed)
	w := &ways{d: d, space: newSpace(groups)}
	if w.reach = d.Game.table(w.space); w.reach == nil {
		w.f = d.field(groups)
		w.seeds = w.f.greedy()
	}
	return w
}

// search looks for the best set for a budget, dollars, with so much work.
func (w *ways) search(budget float64, work int) {
	if w.f != nil {
		s := w.f.search(budgetCents(budget), w.f.affordable(bestNodes, work), w.seeds...)
		w.seeds = append(w.seeds, s.best)
	}
}

// explore looks for the best sets for a row of budgets.
func (w *ways) explore() {
	if w.f != nil {
		w.f.explore(w.seeds)
	}
}

// found is a set that no other beats, with its gain, kWh.
type found struct {
	set  []int
	gain float64
}

// learn takes over sets found elsewhere, as far as they are allowed here.
func (w *ways) learn(sets []found) {
	if w.f == nil {
		return
	}
	type choosing struct{ group, option int }
	place := map[int]choosing{} // by candidate
	for t, group := range w.f.groups {
		for c, i := range group {
			place[i] = choosing{t, c + 1}
		}
	}
	s := w.f.newSearch(math.MaxInt64)
next:
	for _, known := range sets {
		c := make(choice, len(w.f.groups))
		for _, i := range known.set {
			at, ok := place[i]
			if !ok {
				continue next
			}
			c[at.group] = int8(at.option)
		}
		w.f.gains[string(c.key())] = worth{known.gain, true}
		s.offer(c)
		w.seeds = append(w.seeds, c)
	}
}

// found are the sets that no other beats, of all or of those found.
func (w *ways) found() []found {
	var sets []found
	if w.f == nil {
		for _, at := range w.d.front(w.space, w.reach) {
			sets = append(sets, found{w.space.set(at), w.reach[at] - w.reach[0]})
		}
		return sets
	}
	for _, p := range w.f.points {
		sets = append(sets, found{w.f.set(p.choice), p.gain})
	}
	return sets
}

// best is the best set for a budget, dollars, of all or of those found.
func (w *ways) best(budget float64) Best {
	d, limit := w.d, budgetCents(budget)
	if w.f == nil {
		b := d.best(w.space.set(d.bestIn(w.space, w.reach, limit)))
		b.Upper, b.Exact = b.Gain, true
		return b
	}
	b := d.best(w.f.set(w.f.bestPoint(limit).choice))
	upper := w.f.proven(limit)
	b.Upper, b.Exact = math.Max(upper, b.Gain), upper <= b.Gain+resolution*w.f.open
	return b
}

// curve is the best set for every budget, of all or of those found.
func (w *ways) curve() Curve {
	c := Curve{Exact: true}
	if w.f == nil {
		for _, known := range w.found() {
			step := w.d.best(known.set).step()
			step.Upper = step.Gain
			c.Steps = append(c.Steps, step)
		}
	} else {
		c = w.f.curve()
	}
	c.Knee = knee(c.Steps)
	return c
}
