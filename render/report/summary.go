package report

import (
	"fmt"

	"github.com/southyard/southyard/model/measure"
)

// summary is the answer, its reasons and the surfaces it rests on.
func (r Report) summary() section {
	st := r.Study
	s := section{Name: "answer", Title: "The answer"}
	put := func(b ...block) { s.Blocks = append(s.Blocks, b...) }
	if st.Heat != nil {
		put(lead(st.Heat.Verdict.Headline), list(st.Heat.Verdict.Reasons))
	} else {
		put(lead(r.plainAnswer()))
	}
	t := &table{Columns: []column{words("sun in the heating season"), figure("area"), figure("open field, kWh/m²"), figure("now"), figure("of open"), figure("after the best set"), figure("of open"), figure("no trees"), figure("of open")}}
	for _, x := range st.Summaries() {
		t.add(x.Name, measure.FormatArea(x.Area, r.unit()), whole(x.Open), whole(x.Now), percent(x.Share(x.Now)),
			whole(x.Best), percent(x.Share(x.Best)), whole(x.NoTrees), percent(x.Share(x.NoTrees)))
	}
	put(t)
	put(note("An open field is the same surface with nothing around it. " + r.bestWords() + " No trees: every tree gone, whoever owns it."))
	if st.Heat != nil {
		if v := st.Heat.Verdict; len(v.WouldChange) > 0 {
			put(subtitle("What would change the answer"), list(v.WouldChange))
		}
	}
	if first := r.measureFirst(); len(first) > 0 {
		put(subtitle("Measure first"), paragraph(fmt.Sprintf("%s assumed, not measured. Those that weigh most:", counted(len(st.Site.Assumed), "value was", "values were"))), list(first))
	}
	put(blanks{"Prepared by", "Date of the walk", "Date of this report", "Address or parcel"})
	return s
}

// plainAnswer is the answer without heat and money.
func (r Report) plainAnswer() string {
	all := r.Study.Summaries()
	if len(all) == 0 {
		return "No sunny surface to judge."
	}
	best := all[0]
	for _, x := range all {
		if x.Share(x.Now) > best.Share(best.Now) {
			best = x
		}
	}
	return fmt.Sprintf("Of the heating season's sun %s reaches the %s as the lot stands, %s after the best set of removals.",
		percent(best.Share(best.Now)), best.Name, percent(best.Share(best.Best)))
}

// bestWords names the best set and what it costs.
func (r Report) bestWords() string {
	st := r.Study
	if len(st.Targets) == 0 {
		return "No target was stated, so there is no best set."
	}
	t := st.Targets[0]
	limit := "no budget stated"
	if st.Site.Budget > 0 {
		limit = "within " + measure.FormatMoney(st.Site.Budget)
	}
	if len(t.Best.IDs) == 0 {
		return "Best set for " + t.Name + " (" + limit + "): none; nothing that is allowed and affordable adds sun."
	}
	return fmt.Sprintf("Best set for %s (%s): %s, for %s.", t.Name, limit, listed(t.Best.IDs), money(t.Best.Cost, t.Best.CostUnknown))
}

func (r Report) measureFirst() []string {
	if r.Study.Heat == nil || len(r.Study.Site.Assumed) == 0 {
		return nil
	}
	return r.Study.Heat.Verdict.MeasureFirst
}

func whole(x float64) string { return measure.Number(x, 0) }

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
