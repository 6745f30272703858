package study

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// A first screen is for a window of some forty lines of a hundred signs: each
// table shows its first rows, and says which command has the rest.
const (
	screenTrees = 5
	screenRows  = 4 // of groups of surfaces
	screenPlans = 1
	screenWide  = 100
)

// Units: sun is in kWh, as the published sun of the United States is too, and
// stands beside an electric bill; heat is in the unit fuel is spoken of in where
// the file is written in feet, million Btu, and in kWh where it is in metres.

// Answer prints the first screen: can this house get sun, what stands in the
// way, what each removal gives and costs, where collectors go, what it is
// worth, and what would change the answer.
func (st *Study) Answer(w io.Writer) {
	p := printerTo(w)
	p("%s   %s   heating season %s", strings.ToUpper(st.Site.Name), placeText(st.Site.Place), MonthsText(st.Heating))
	st.printVerdict(p)
	st.screenSun(p)
	if len(st.Targets) > 0 {
		st.screenTarget(p, &st.Targets[0])
		st.screenOthers(p)
		st.screenPlans(p)
	}
	st.printWorth(p)
	p.within("What would change the answer: ", st.Heat.Verdict.WouldChange, 3, " ")
	if n := len(st.Site.Assumed); n > 0 {
		p.within(measure.Count(n, "value")+" assumed, not measured (southyard check). Measure first: ", st.Heat.Verdict.MeasureFirst, 4, "; ")
	}
	units := ""
	if !st.Site.Metric {
		units = " A million Btu is 293 kWh."
	}
	p.within("Sun from ", []string{st.sourceText(st.unit()) + "." + units}, 1, "")
	p("Felling, wires and roofs: licensed trades only. Call before you dig. Local codes and permits first.")
}

// within prints a paragraph of at most so many items as wide as the screen.
func (p printer) within(head string, items []string, most int, between string) {
	if len(items) == 0 {
		return
	}
	for _, line := range wrapped(head+strings.Join(items[:min(most, len(items))], between), screenWide, "  ") {
		p("%s", line)
	}
}

// screenSun is the table of sun on the groups of surfaces.
func (st *Study) screenSun(p printer) {
	p("")
	best := "best set"
	if st.Site.Budget > 0 {
		best = "for " + measure.FormatMoney(st.Site.Budget)
	}
	p("%-44s %6s  %12s  %12s  %12s", "Sun in "+MonthsText(st.Heating)+", kWh/m², share of open field", "open", "now", best, "no trees")
	all := st.Summaries()
	slices.SortStableFunc(all, func(a, b Summary) int { // the sunniest roof planes first
		if !a.Roof || !b.Roof {
			return 0
		}
		return cmp.Compare(b.Best, a.Best)
	})
	for _, s := range all[:min(screenRows, len(all))] {
		p("  %-42s %6.0f  %12s  %12s  %12s", s.Name, s.Open, both(s, s.Now), both(s, s.Best), both(s, s.NoTrees))
	}
	if left := len(all) - screenRows; left > 0 {
		p("  and %d more: see access.csv", left)
	}
}

// screenTarget is the ranking of the first target, its best set and the order
// of work.
func (st *Study) screenTarget(p printer, t *Target) {
	p("")
	allowed := t.allowed()
	if len(allowed) == 0 {
		p("%s", st.noneText(t))
		st.screenBlockers(p, t)
		return
	}
	var shown []removal.Standing
	for _, s := range allowed {
		if len(shown) < screenTrees && s.AfterAllOthers >= 0.5 {
			shown = append(shown, s)
		}
	}
	if len(shown) == 0 {
		p("None of your trees takes sun from %s.", t.Name)
		st.screenBlockers(p, t)
		return
	}
	some := ""
	if len(shown) < len(allowed) {
		some = fmt.Sprintf(" (%d of %d, southyard trees)", len(shown), len(allowed))
	}
	p("Trees in the way of %s, %s%s: kWh (open %.0f, now %.0f)", t.Name, MonthsText(t.Months), some, t.Open, t.Now)
	st.treeHeads(p)
	for _, s := range shown {
		st.treeRow(p, t, s)
	}
	p("  alone: cut alone; after all: cut last; in best: share of trials; summer: kWh more on windows then")
	p.within("", []string{st.bestText(t) + t.sureText()}, 1, "")
	if w := t.Work; w != nil && w.Instead() {
		p.within("", []string{st.insteadText(w)}, 1, "")
	}
	p.within("Order of work: ", t.orderWords(), 5, ", ")
	st.screenBlockers(p, t)
}

// screenBlockers are what is not the owner's to remove, and the trees to leave.
func (st *Study) screenBlockers(p printer, t *Target) {
	var list []string
	for _, b := range t.Blockers {
		if b.Share >= 0.005 {
			list = append(list, b.words())
		}
	}
	var lines []string
	if len(list) > 0 {
		lines = append(lines, "Also in the way, and staying: "+strings.Join(list[:min(3, len(list))], ", ")+".")
	}
	for _, k := range st.keepGroups() {
		why, _, _ := strings.Cut(k.why, ":")
		lines = append(lines, fmt.Sprintf("Leave %s: %s.", strings.Join(k.trees, ", "), why))
	}
	p.within("", append(lines, st.talkTexts(t)...), 4, " ")
}

// screenOthers names the best sets of the other targets where they differ.
func (st *Study) screenOthers(p printer) {
	var list []string
	for i := range st.Targets {
		t := &st.Targets[i]
		if !slices.Equal(t.Best.IDs, st.Targets[0].Best.IDs) {
			list = append(list, fmt.Sprintf("%s: %s %+.0f kWh for %s", t.Name, listText(t.Best.IDs), t.Best.Gain, measure.FormatMoney(t.Best.Cost)))
		}
	}
	p.within("Best set for other targets: ", list, 2, "; ")
}

// screenPlans are the plans that gain most.
func (st *Study) screenPlans(p printer) {
	t := &st.Targets[0]
	order := make([]int, len(st.Plans))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.PlanSun[b], t.PlanSun[a]) })
	var list []string
	for _, i := range order {
		plan := st.Plans[i]
		words := fmt.Sprintf("%s, %+.0f kWh for %s%s", plan.Name, t.PlanSun[i]-t.Now, measure.FormatMoney(plan.Cost), mark(plan.Unknown))
		if st.Site.Budget > 0 && plan.Cost > st.Site.Budget {
			words += ", over the budget"
		}
		list = append(list, words)
	}
	head := fmt.Sprintf("Best of %d plans (southyard plans): ", len(list))
	if len(list) == 1 {
		head = "Your plan: "
	}
	p.within(head, list, screenPlans, "; ")
}

func within(budget float64) string {
	if budget <= 0 {
		return ""
	}
	return " within " + measure.FormatMoney(budget)
}

// measureFirst names the assumed values that weigh most: those of the trees
// with the greatest fair share in the first target, crown sizes before light.
func (st *Study) measureFirst() []string {
	weight := map[string]int{"height": 0, "spread": 1, "crown base": 2}
	var out []string
	if len(st.Targets) == 0 {
		return out
	}
	for _, s := range st.Targets[0].Standing {
		best, rank := "", math.MaxInt
		for _, a := range st.Site.Assumed {
			if r, ok := weight[a.Field]; ok && a.Subject == "tree "+s.ID && r < rank {
				best, rank = a.Field, r
			}
		}
		if best != "" {
			out = append(out, fmt.Sprintf("%s of %s", best, s.ID))
		}
		if len(out) == 3 {
			return out
		}
	}
	if len(out) == 0 {
		out = append(out, "nothing that changes crown sizes; check removal quotes")
	}
	return out
}

func both(s Summary, sun float64) string {
	return fmt.Sprintf("%.0f  %3.0f %%", sun, 100*s.Share(sun))
}

func whole(x *float64) string {
	if x == nil {
		return "–"
	}
	return fmt.Sprintf("%.0f", *x)
}

func perKWh(x *float64) string {
	if x == nil {
		return "–"
	}
	return measure.FormatSignificant(*x, 2)
}

func mark(assumed bool) string {
	if assumed {
		return "*"
	}
	return ""
}

// mostListed is how many things a sentence lists by name; results.json names
// every one.
const mostListed = 24

func listText(ids []string) string {
	if len(ids) == 0 {
		return "none"
	}
	if more := len(ids) - mostListed; more > 1 {
		return fmt.Sprintf("%s and %d more", strings.Join(ids[:mostListed], ", "), more)
	}
	return strings.Join(ids, ", ")
}

func shorten(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n-1]) + "…"
}

func placeText(p model.Place) string {
	ns, ew := "N", "E"
	if p.Latitude() < 0 {
		ns = "S"
	}
	if p.Longitude() < 0 {
		ew = "W"
	}
	return fmt.Sprintf("%.2f° %s, %.2f° %s", math.Abs(p.Latitude()), ns, math.Abs(p.Longitude()), ew)
}

// MonthTable is a surface's access by month and local standard hour, 0..1, NaN
// without sun.
func MonthTable(r shading.Reached) [12][24]float64 {
	var out [12][24]float64
	for m := range out {
		for h := range out[m] {
			out[m][h] = math.NaN()
			if r.Open[m][h] > 1e-6 {
				out[m][h] = min(1, r.Sun[m][h]/r.Open[m][h])
			}
		}
	}
	return out
}

// ownerWords name whose agreement is meant.
func ownerWords(owner string) string {
	switch owner {
	case string(model.OwnerNeighbour):
		return "the neighbour"
	case string(model.OwnerStreet):
		return "the city"
	}
	return owner
}
