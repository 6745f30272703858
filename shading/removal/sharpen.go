package removal

import (
	"math"
	"sort"
)

// Quantity names something measured: a tree's height, its distance, its spread.
type Quantity struct {
	Tree string `json:"tree"`
	Name string `json:"name"`
}

// Measurement is how much of the answer's spread one measured quantity causes.
type Measurement struct {
	Quantity

	// Share, 0..1, of the spread (variance of the rank) of the best set's gain
	// that goes with this quantity.
	Share float64 `json:"share"`

	// Narrows is how much narrower, 0..1, the range would be were this quantity
	// known without error: 1 − √(1 − Share).
	Narrows float64 `json:"narrows"`

	// Clear: the share is more than chance would give any of the quantities one
	// time in twenty. If it is not, no advice should rest on it.
	Clear bool `json:"clear"`
}

// sharpen shares the spread of the target out among the quantities by the squared
// rank correlation of each with the target. For quantities drawn independently
// this is the squared standardised rank regression coefficient, an estimate of
// the first-order share of variance where the target rises or falls steadily with
// each quantity (Saltelli and others 2008, "Global Sensitivity Analysis: The
// Primer", section 1.2.5 on standardised regression coefficients; section number
// from memory). What chance alone gives, (1−r²)/(n−2), is taken off.
//
// One correlation a quantity, not a regression on all, so that more quantities
// than draws do no harm. draws are the deviations, draw by draw.
func sharpen(draws [][]float64, quantities []Quantity, target []float64) []Measurement {
	n := float64(len(draws))
	// A squared correlation by chance exceeds x with probability about exp(−n·x/2);
	// ask for one in twenty over all quantities.
	chance := 2 * math.Log(20*math.Max(1, float64(len(quantities)))) / n
	y := ranks(target)
	list := make([]Measurement, len(quantities))
	values := make([]float64, len(draws))
	for q := range quantities {
		for k := range draws {
			values[k] = draws[k][q]
		}
		r := correlation(ranks(values), y)
		share := math.Max(0, r*r-(1-r*r)/(n-2))
		list[q] = Measurement{Quantity: quantities[q], Share: share, Narrows: 1 - math.Sqrt(1-share), Clear: r*r > chance}
	}
	sort.SliceStable(list, func(a, b int) bool {
		if list[a].Share != list[b].Share {
			return list[a].Share > list[b].Share
		}
		if list[a].Tree != list[b].Tree {
			return list[a].Tree < list[b].Tree
		}
		return list[a].Name < list[b].Name
	})
	return list
}

// ranks from 1; equal values share their mean rank.
func ranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	rank := make([]float64, len(values))
	for i := 0; i < len(order); {
		j := i
		for j < len(order) && values[order[j]] == values[order[i]] {
			j++
		}
		for _, at := range order[i:j] {
			rank[at] = float64(i+j+1) / 2
		}
		i = j
	}
	return rank
}

// correlation is Pearson's; 0 where either does not vary.
func correlation(x, y []float64) float64 {
	var mx, my float64
	for i := range x {
		mx += x[i] / float64(len(x))
		my += y[i] / float64(len(y))
	}
	var xx, yy, xy float64
	for i := range x {
		xx += (x[i] - mx) * (x[i] - mx)
		yy += (y[i] - my) * (y[i] - my)
		xy += (x[i] - mx) * (y[i] - my)
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return math.Max(-1, math.Min(1, xy/math.Sqrt(xx*yy)))
}
