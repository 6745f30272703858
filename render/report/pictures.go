package report

import (
	"slices"
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/portfolio"
)

// beside names the pictures that stand with a section's words: of each kind
// (how the name begins) so many, as they come.
var beside = []struct {
	section, kind string
	most          int
}{
	{"answer", "lot-view", 1},
	{"lot", "lot-shadows", 1},
	{"access", "sun-", 1},
	{"access", "access-", 1},
	{"access", "sky-", 1},
	{"plans", "growth-", 1},
	{"trees", "removals-", 1},
	{"trees", "budget-", 1},
	{"heat", "collectors-", 2},
	{"heat", "heat-by-month", 1},
}

// illustrate puts the pictures a committee needs at the end of the sections
// they belong to. In the full report all others follow in one of their own.
func (r Report) illustrate(sections []section) []section {
	used := make([]bool, len(r.Pictures))
	for _, b := range beside {
		at := slices.IndexFunc(sections, func(s section) bool { return s.Name == b.section })
		left := b.most
		for i, p := range r.Pictures {
			if at >= 0 && left > 0 && !used[i] && strings.HasPrefix(p.Name, b.kind) {
				used[i] = true
				left--
				sections[at].Blocks = append(sections[at].Blocks, drawn(p))
			}
		}
	}
	more := section{Name: "pictures", Title: "More pictures", Own: true}
	for i, p := range r.Pictures {
		if r.Full && !used[i] {
			d := drawn(p)
			d.Usual = 1 // nothing else stands on these pages
			more.Blocks = append(more.Blocks, d)
		}
	}
	if len(more.Blocks) > 0 {
		sections = append(sections, more)
	}
	return sections
}

// drawn is a picture as a report sets it: lower than alone, since its lettering
// keeps its size. Rows of bars have no height to lose, and a face with
// collectors little once it is low: their names would not go into them. Before
// and after show one thing twice, so that two pairs may go on a page.
func drawn(p portfolio.Picture) picture {
	const low = 350.0 // points
	out := picture{Figure: p.Figure(), Usual: 0.8, Least: 0.75}
	switch d := p.Picture.(type) {
	case render.Removals, render.Tornado:
		out.Usual, out.Least = 1, 1
	case render.FaceMap:
		if len(d.Collectors) > 0 {
			out.Usual = max(out.Usual, min(1, low/out.Height))
			out.Least = out.Usual
		}
	case render.Pair:
		out.Least = 0.65
	}
	return out
}

// has tells whether there is a picture of a kind.
func (r Report) has(kind string) bool {
	for _, p := range r.Pictures {
		if strings.HasPrefix(p.Name, kind) {
			return true
		}
	}
	return false
}
