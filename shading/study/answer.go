package study

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
)

// Summary is a group of surfaces in four states of the lot, in the heating
// season.
type Summary struct {
	Name                     string
	Area                     float64 // m²
	Open, Now, Best, NoTrees float64 // kWh/m²
}

// Share of the open sun.
func (s Summary) Share(sun float64) float64 {
	if s.Open <= 0 {
		return 0
	}
	return sun / s.Open
}

// Summaries are the sun side's walls, its windows and the roof, with the best
// set of the first target as the plan.
func (st *Study) Summaries() []Summary {
	best := st.Account.Read(st.BestState(0))
	var out []Summary
	add := func(name string, which []int) {
		s := Summary{Name: name}
		for _, i := range which {
			a := st.Scene.Surfaces[i].Face.Area
			s.Area += a
			s.Open += a * st.Today[i].OpenTotal(st.Heating...)
			s.Now += a * st.Today[i].Total(st.Heating...)
			s.Best += a * best[i].Total(st.Heating...)
			s.NoTrees += a * st.NoTrees[i].Total(st.Heating...)
		}
		if s.Area <= 0 {
			return
		}
		s.Open, s.Now, s.Best, s.NoTrees = s.Open/s.Area, s.Now/s.Area, s.Best/s.Area, s.NoTrees/s.Area
		out = append(out, s)
	}
	side := st.SunSide()
	for _, kind := range []string{"walls", "windows"} {
		if which, err := st.group(side + " " + kind); err == nil {
			add(side+" "+kind, which)
		}
	}
	if which, err := st.group("roof"); err == nil {
		for _, i := range which {
			add(st.Scene.Surfaces[i].ID, []int{i})
		}
	}
	return out
}

// BestState is the lot once the best set within the budget is gone, for target
// number t.
func (st *Study) BestState(t int) shading.State {
	if t >= len(st.Targets) {
		return st.Account.Today()
	}
	return st.Account.Without(st.Account.Today(), st.Targets[t].Best.IDs...)
}

// Answer prints the first screen: can this house get sun, what stands in the
// way, what each removal gives and costs.
func (st *Study) Answer(w io.Writer) {
	unit := measure.Feet
	if st.Site.Metric {
		unit = measure.Metres
	}
	p := func(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }
	p("%s   %s   heating season %s", strings.ToUpper(st.Site.Name), placeText(st.Site.Place), MonthsText(st.Heating))
	p("")
	st.printVerdict(p)
	p("")
	budget := "no budget stated: all your own trees"
	if st.Site.Budget > 0 {
		budget = "best for " + measure.FormatMoney(st.Site.Budget)
	}
	p("Sun in the heating season, kWh/m² and share of an open field")
	p("  %-18s %6s  %12s  %12s  %12s", "", "open", "now", "best set", "no trees")
	for _, s := range st.Summaries() {
		p("  %-18s %6.0f  %12s  %12s  %12s", s.Name, s.Open, both(s, s.Now), both(s, s.Best), both(s, s.NoTrees))
	}
	p("  (best set: %s)", budget)
	for i := range st.Targets {
		if i == 0 {
			st.printTarget(p, &st.Targets[i], unit)
			continue
		}
		t := &st.Targets[i]
		p("For %s alone the best set would be: %s (+%.0f kWh, %s).", t.Name, listText(t.Best.IDs), t.Best.Gain, measure.FormatMoney(t.Best.Cost))
	}
	st.printKeep(p)
	if len(st.Plans) > 0 && len(st.Targets) > 0 {
		p("")
		p("Plans                          %s, %s", st.Targets[0].Name, MonthsText(st.Targets[0].Months))
		for i, plan := range st.Plans {
			gain := st.Targets[0].PlanSun[i] - st.Targets[0].Now
			p("  %-28s %+7.0f kWh   %s%s", shorten(plan.Name, 28), gain, measure.FormatMoney(plan.Cost), mark(plan.Unknown))
		}
	}
	st.printWorth(p)
	st.printChange(p, 3)
	p("")
	if n := len(st.Site.Assumed); n > 0 {
		p("%d values were assumed, not measured (* and results.json). Measure first: %s.", n, strings.Join(st.Heat.Verdict.MeasureFirst, "; "))
	}
	p("Sun from: %s.", st.sourceText(unit))
	p("Felling is work for licensed tree workers, near wires for line-clearance crews only; call before you dig; ask before you")
	p("touch a tree on a lot line or street. Local codes and permits come first.")
}

func (st *Study) printTarget(p func(string, ...any), t *Target, unit measure.Unit) {
	p("")
	p("Which trees stand in the way of: %s, %s (kWh in the season; an open field gives %.0f, now %.0f)", t.Name, MonthsText(t.Months), t.Open, t.Now)
	p("  %-5s %-18s %6s %7s %12s %-18s %8s %9s %7s %7s", "tree", "kind", "height", "alone", "after others", "fair share (range)", "in best", "cost", "$/kWh", "summer")
	for _, s := range t.Standing {
		if !s.Allowed {
			continue
		}
		tree := st.tree(s.ID)
		p("  %-5s %-18s %6s %7.0f %12.0f %-18s %8s %9s %7s %+7.0f", shorten(s.ID, 5), shorten(tree.Species, 18), measure.FormatFeet(tree.Height, unit, 0),
			s.Alone, s.AfterAllOthers, t.fairWords(s), t.inBestWords(s.ID), measure.FormatMoney(s.Cost)+mark(s.CostUnknown), perKWh(s.CostPerKWhFair), t.Summer[s.ID])
	}
	if len(t.Best.IDs) > 0 {
		p("Best set%s: %s   %+.0f kWh a season for %s%s", within(st.Site.Budget), listText(t.Best.IDs), t.Best.Gain, measure.FormatMoney(t.Best.Cost), mark(t.Best.CostUnknown))
	} else {
		p("Best set%s: none; nothing affordable adds sun here.", within(st.Site.Budget))
	}
	st.printSure(p, t)
	var order []string
	for _, j := range t.Order {
		order = append(order, fmt.Sprintf("%s %+.0f (to %.0f, %s)", strings.Join(j.IDs, "+"), j.Gain, t.Now+j.TotalGain, measure.FormatMoney(j.TotalCost)))
	}
	if len(order) > 0 {
		p("Order of work: %s", strings.Join(order[:min(6, len(order))], ", "))
	}
	if len(t.Blockers) > 0 {
		var list []string
		for _, b := range t.Blockers {
			list = append(list, fmt.Sprintf("%s (%s) costs %.0f %%", b.Thing, b.What, 100*b.Share))
		}
		p("Not yours to remove: %s", strings.Join(list[:min(5, len(list))], ", "))
	}
	for _, talk := range t.Talk {
		if talk.Gain > 0.005*t.Open {
			p("If %s agreed to %s: %s more kWh for the same money (%s).", ownerWords(talk.Owner), listText(talk.Trees),
				measure.FormatSignificant(talk.Gain, 2), listText(talk.With.IDs))
		}
	}
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

func listText(ids []string) string {
	if len(ids) == 0 {
		return "none"
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
