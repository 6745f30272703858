package study

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/removal"
)

// printTarget prints the whole ranking of one target.
func (st *Study) printTarget(p printer, t *Target) {
	p("")
	p("Trees in the way of: %s, %s (kWh in the season; open %.0f, now %.0f)", t.Name, MonthsText(t.Months), t.Open, t.Now)
	if allowed := t.allowed(); len(allowed) > 0 {
		st.treeHeads(p)
		for _, s := range allowed {
			st.treeRow(p, t, s)
		}
		p("%s", st.bestText(t))
		st.printSure(p, t)
		p.within("Order of work: ", t.orderWords(), len(t.Order), ", ")
	} else {
		p("  %s", st.noneText(t))
	}
	var list []string
	for _, b := range t.Blockers {
		list = append(list, b.words())
	}
	p.within("Also in the way, and staying: ", list, 8, ", ")
	for _, talk := range st.talkTexts(t) {
		p("%s", talk)
	}
}

// noneText says why there is no ranking.
func (st *Study) noneText(t *Target) string {
	if len(st.Site.Trees) == 0 {
		return "There are no trees on this lot: nothing to remove for " + t.Name + "."
	}
	return "No tree here is yours to remove for " + t.Name + "."
}

// allowed are the trees that may be removed, the most worth first.
func (t *Target) allowed() []removal.Standing {
	var out []removal.Standing
	for _, s := range t.Standing {
		if s.Allowed {
			out = append(out, s)
		}
	}
	return out
}

func (st *Study) treeHeads(p printer) {
	p("  %-5s %-16s %6s %6s %9s %-18s %7s %8s %7s %7s", "tree", "kind", "height", "alone", "after all", "fair share (range)", "in best", "cost", "$/kWh", "summer")
}

func (st *Study) treeRow(p printer, t *Target, s removal.Standing) {
	tree := st.tree(s.ID)
	p("  %-5s %-16s %6s %6.0f %9.0f %-18s %7s %8s %7s %+7.0f", shorten(s.ID, 5), shorten(tree.Species, 16), measure.FormatFeet(tree.Height, st.unit(), 0),
		s.Alone, s.AfterAllOthers, t.fairWords(s), t.inBestWords(s.ID), measure.FormatMoney(s.Cost)+mark(s.CostUnknown), perKWh(s.CostPerKWhFair), t.Summer[s.ID])
}

// bestText is what the budget buys.
func (st *Study) bestText(t *Target) string {
	if len(t.Best.IDs) == 0 {
		return "Best set" + within(st.Site.Budget) + ": none; nothing affordable adds sun here."
	}
	return fmt.Sprintf("Best set%s: %s, %+.0f kWh a season for %s%s", within(st.Site.Budget), listText(t.Best.IDs), t.Best.Gain,
		measure.FormatMoney(t.Best.Cost), mark(t.Best.CostUnknown))
}

// orderWords are the jobs of the best set in their best order and then, should
// more money come, the rest: each with what it adds and the running total of
// sun and money.
func (t *Target) orderWords() []string {
	best, more := t.WorkOrder()
	var out []string
	first := len(best) > 0
	for n, j := range slices.Concat(best, more) {
		words := fmt.Sprintf("%s %+.0f (to %.0f, %s)", strings.Join(j.IDs, "+"), j.Gain, t.Now+j.TotalGain, measure.FormatMoney(j.TotalCost))
		if first && n >= len(best) {
			words, first = "then if money comes "+words, false
		}
		out = append(out, words)
	}
	return out
}

func (b Blocked) words() string {
	return fmt.Sprintf("%s (%s) costs %.0f %%", b.Thing, b.What, 100*b.Share)
}

// talkTexts say what an agreement with other owners would be worth; one that
// leads to the same trees as another before it says nothing new.
func (st *Study) talkTexts(t *Target) []string {
	var out []string
	told := map[string]bool{}
	for _, talk := range t.Talk {
		if trees := listText(talk.With.IDs); talk.Gain > 0.005*t.Open && !told[trees] {
			told[trees] = true
			out = append(out, fmt.Sprintf("If %s agreed to %s: %s more kWh for the same money (%s).", ownerWords(talk.Owner), listText(talk.Trees),
				measure.FormatSignificant(talk.Gain, 2), trees))
		}
	}
	return out
}
