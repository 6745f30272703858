package removal

import (
	"math"
	"sort"
)

// halves holds, for both halves of the digits, the cost and number of jobs of
// each combination, so that those of a whole combination are two look-ups.
type halves struct {
	low, high           []int64
	countLow, countHigh []uint8
}

func (d Decision) costs(sp space) halves {
	split := 0
	for split < len(sp.groups) && sp.stride[split]*sp.stride[split] < sp.size {
		split++
	}
	tabulate := func(groups [][]int) ([]int64, []uint8) {
		cost, count := []int64{0}, []uint8{0}
		for _, g := range groups {
			n := len(cost)
			for _, o := range g {
				c := cents(d.Candidates[o].Cost)
				for j := range n {
					cost = append(cost, cost[j]+c)
					count = append(count, count[j]+1)
				}
			}
		}
		return cost, count
	}
	var l halves
	l.low, l.countLow = tabulate(sp.groups[:split])
	l.high, l.countHigh = tabulate(sp.groups[split:])
	return l
}

// entry is a combination as the choice between combinations sees it.
type entry struct {
	cost  int64
	gain  float64 // in steps of the resolution, so that equal gains compare equal
	count uint8
	at    int32
}

// before: cheaper, then more gain, then fewer jobs, then the lower number.
func (a entry) before(b entry) bool {
	switch {
	case a.cost != b.cost:
		return a.cost < b.cost
	case a.gain != b.gain:
		return a.gain > b.gain
	case a.count != b.count:
		return a.count < b.count
	}
	return a.at < b.at
}

// better: more gain, then cheaper, then fewer jobs, then the lower number.
func (a entry) better(b entry) bool {
	if a.gain != b.gain {
		return a.gain > b.gain
	}
	return a.before(b)
}

// resolution is the gain, as a share of the whole, below which two sets are
// called equal: far above rounding, far below anything a tree can matter.
const resolution = 1e-10

// each calls visit for every combination with its cost and gain.
func (d Decision) each(sp space, reach []float64, visit func(entry)) {
	l := d.costs(sp)
	unit := resolution * math.Max(d.Game.Open(), 1e-300)
	base := reach[0]
	at := int32(0)
	for h, costHigh := range l.high {
		for j, costLow := range l.low {
			visit(entry{
				cost:  costHigh + costLow,
				gain:  math.Floor((reach[at]-base)/unit + 0.5),
				count: l.countHigh[h] + l.countLow[j],
				at:    at,
			})
			at++
		}
	}
}

// bestIn is the combination with the greatest gain whose cost keeps the budget.
func (d Decision) bestIn(sp space, reach []float64, budget int64) int {
	var best entry
	d.each(sp, reach, func(e entry) {
		if e.cost <= budget && e.better(best) {
			best = e
		}
	})
	return int(best.at)
}

// front lists the combinations that no other beats: each costs more and gains
// more than the one before. The first pass keeps the best of every bin of cost;
// the second sorts only what the bins do not rule out.
func (d Decision) front(sp space, reach []float64) []int {
	const bins = 1 << 14
	var total int64
	for _, g := range sp.groups {
		var dearest int64
		for _, o := range g {
			dearest = max(dearest, cents(d.Candidates[o].Cost))
		}
		total += dearest
	}
	scale := float64(bins-1) / math.Max(float64(total), 1)
	best := make([]entry, bins)
	for b := range best {
		best[b].gain = math.Inf(-1)
	}
	d.each(sp, reach, func(e entry) {
		if b := &best[int(float64(e.cost)*scale)]; e.better(*b) {
			*b = e
		}
	})
	below := make([]float64, bins) // greatest gain of all cheaper bins
	top := math.Inf(-1)
	for b := range best {
		below[b] = top
		top = math.Max(top, best[b].gain)
	}
	var left []entry
	d.each(sp, reach, func(e entry) {
		b := int(float64(e.cost) * scale)
		if e.gain > below[b] && (e.cost < best[b].cost || e.at == best[b].at) {
			left = append(left, e)
		}
	})
	sort.Slice(left, func(i, j int) bool { return left[i].before(left[j]) })
	var front []int
	top = math.Inf(-1)
	for _, e := range left {
		if e.gain > top {
			front, top = append(front, int(e.at)), e.gain
		}
	}
	return front
}
