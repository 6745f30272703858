package study

import (
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/removal"
)

// measured lists every value of a tree that has a tolerance. A position is off
// in two directions, a spread in both widths alike; a crown that lets through
// more when bare does so in leaf, by two thirds as much (0.10 and 0.15: what
// published values for one kind differ by).
func (st *Study) measured() []removal.Quantity {
	var out []removal.Quantity
	for _, t := range st.Site.Trees {
		for _, q := range []model.Quantity{model.QHeight, model.QSpread, model.QCrownBase, model.QTransmissivity} {
			if t.Measured[q].SD > 0 {
				out = append(out, removal.Quantity{Tree: t.ID, Name: string(q)})
			}
		}
		if t.Measured[model.QPosition].SD > 0 {
			out = append(out, removal.Quantity{Tree: t.ID, Name: eastWest}, removal.Quantity{Tree: t.ID, Name: northSouth})
		}
	}
	return out
}

const (
	eastWest   = "position east–west"
	northSouth = "position north–south"
)

// perturb moves a tree's values by its deviations, each in standard deviations
// of that value. No tree becomes shorter than a fifth of what it is, and the
// crown keeps at least a foot.
func perturb(t model.Tree, off map[string]float64) model.Tree {
	by := func(name string, q model.Quantity) float64 { return off[name] * t.Measured[q].SD }
	was := t
	t.Height = max(0.2*was.Height, was.Height+by(string(model.QHeight), model.QHeight))
	if mean := (was.SpreadX + was.SpreadY) / 2; mean > 0 {
		k := max(0.2, 1+by(string(model.QSpread), model.QSpread)/mean)
		t.SpreadX, t.SpreadY = k*was.SpreadX, k*was.SpreadY
	}
	t.CrownBase = max(0, min(was.CrownBase+by(string(model.QCrownBase), model.QCrownBase), t.Height-0.3))
	t.At[0] += by(eastWest, model.QPosition)
	t.At[1] += by(northSouth, model.QPosition)
	z := by(string(model.QTransmissivity), model.QTransmissivity)
	inLeaf := z
	if !t.Evergreen {
		inLeaf = z * 2 / 3
	}
	t.InLeaf, t.Bare = clamp(t.InLeaf+inLeaf), clamp(t.Bare+z)
	return t
}

func clamp(share float64) float64 { return max(0, min(1, share)) }

// drawn is the lot as it would be had its measurements been off by so many
// standard deviations each.
func (st *Study) drawn(quantities []removal.Quantity, values []float64) *Study {
	off := map[string]map[string]float64{}
	for i, q := range quantities {
		if off[q.Tree] == nil {
			off[q.Tree] = map[string]float64{}
		}
		off[q.Tree][q.Name] = values[i]
	}
	site := *st.Site
	site.Trees = slices.Clone(st.Site.Trees)
	for i, t := range site.Trees {
		site.Trees[i] = perturb(t, off[t.ID])
	}
	return &Study{Site: &site, Plans: st.Plans}
}
