package report

import (
	"slices"
	"strings"
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
				sections[at].Blocks = append(sections[at].Blocks, picture{p.Figure()})
			}
		}
	}
	more := section{Name: "pictures", Title: "More pictures", Own: true}
	for i, p := range r.Pictures {
		if r.Full && !used[i] {
			more.Blocks = append(more.Blocks, picture{p.Figure()})
		}
	}
	if len(more.Blocks) > 0 {
		sections = append(sections, more)
	}
	return sections
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
