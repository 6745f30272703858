package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/study"
)

// ranking says what each removal gives, for every target.
func (r Report) ranking() section {
	st := r.Study
	s := section{Name: "trees", Title: "Which trees stand in the way"}
	if len(st.Targets) == 0 {
		s.Blocks = append(s.Blocks, paragraph("No target, so nothing to rank."))
	}
	s.Blocks = append(s.Blocks, paragraph("Alone: gained if only this tree goes. After others: gained if it goes last, when all others that may go are gone. "+
		"Fair share: the average over every order of work; fair shares add up to the gain of taking all. A tree behind another gives little alone and much in company. kWh in the season."))
	for i := range st.Targets {
		if r.Full || i == 0 {
			s.Blocks = append(s.Blocks, r.target(&st.Targets[i])...)
		}
	}
	if len(st.Targets) > 1 && !r.Full {
		s.Blocks = append(s.Blocks, r.others()...)
	}
	if advice := r.leave(); len(advice) > 0 {
		s.Blocks = append(s.Blocks, subtitle("Trees better left standing"), advice)
	}
	return s
}

// leave names the trees better left, those with one reason together.
func (r Report) leave() list {
	var reasons []string
	trees := map[string][]string{}
	for _, a := range r.Study.KeepAdvice() {
		if trees[a.Why] == nil {
			reasons = append(reasons, a.Why)
		}
		trees[a.Why] = append(trees[a.Why], a.Tree)
	}
	var out list
	for _, why := range reasons {
		out = append(out, strings.Join(trees[why], ", ")+": "+why+".")
	}
	return out
}

// sure says what errors of measurement leave of the best set.
func sure(t *study.Target) string {
	if t.Sure == nil || len(t.Best.IDs) == 0 {
		return ""
	}
	return fmt.Sprintf("How sure: the best set gains %s to %s kWh in 8 of 10 trials with errors of measurement (%d trials); the same set is best in %s of them.",
		whole(t.Sure.BestGain.Low), whole(t.Sure.BestGain.High), t.Sure.Draws, percent(t.Sure.SameBest))
}

// others are the fair shares for the targets after the first, side by side.
func (r Report) others() []block {
	targets := r.Study.Targets[1:]
	t := &table{Columns: []column{words("fair share, kWh")}}
	var more list
	for i := range targets {
		x := &targets[i]
		t.Columns = append(t.Columns, figure("for "+x.Name+", "+study.MonthsText(x.Months)), figure("in the best set"))
		if len(x.Best.IDs) > 0 {
			more = append(more, fmt.Sprintf("Best set for %s: %s, %s kWh a season for %s.", x.Name, listed(x.Best.IDs), signed(x.Best.Gain), money(x.Best.Cost, x.Best.CostUnknown)))
		}
	}
	for _, first := range r.Study.Targets[0].Standing {
		if !first.Allowed {
			continue
		}
		row := []string{first.ID}
		for i := range targets {
			fair, in := "–", "–"
			for _, x := range targets[i].Standing {
				if x.ID == first.ID && x.Fair != nil {
					fair = whole(*x.Fair)
				}
			}
			if slices.Contains(targets[i].Best.IDs, first.ID) {
				in = "yes"
			}
			row = append(row, fair, in)
		}
		t.add(row...)
	}
	return []block{subtitle("For the other aims"), t, more}
}

// target is one target's ranking.
func (r Report) target(t *study.Target) []block {
	out := []block{subtitle(fmt.Sprintf("%s, %s: open field %s kWh, now %s, no trees %s", t.Name, study.MonthsText(t.Months), whole(t.Open), whole(t.Now), whole(t.NoTrees)))}
	rows := &table{Columns: []column{words("tree"), words("kind"), words("owner"), figure("alone"), figure("after others"), figure("fair share"), figure("cost"), figure("$/kWh"), figure("summer on glass")}}
	likely := t.Sure != nil
	if likely {
		rows.Columns = append(rows.Columns, figure("fair share, 8 in 10 trials"), figure("in the best set"))
	}
	for _, x := range t.Standing {
		kind := ""
		for _, tree := range r.Study.Site.Trees {
			if tree.ID == x.ID {
				kind = tree.Species
			}
		}
		owner := x.Owner
		if !x.Allowed {
			owner += ", not agreed"
		}
		fair := "–"
		if x.Fair != nil {
			fair = whole(*x.Fair)
		}
		row := []string{x.ID, kind, owner, whole(x.Alone), whole(x.AfterAllOthers), fair, money(x.Cost, x.CostUnknown), perKWh(x.CostPerKWhFair), signed(t.Summer[x.ID])}
		if likely {
			span, chance := "–", "–"
			for _, c := range t.Sure.Candidates {
				if c.ID == x.ID {
					chance = percent(c.InBest)
					if c.Fair != nil {
						span = whole(c.Fair.Low) + " to " + whole(c.Fair.High)
					}
				}
			}
			row = append(row, span, chance)
		}
		rows.add(row...)
	}
	if len(rows.Rows) == 0 {
		out = append(out, paragraph("No tree may be considered here."))
	} else {
		out = append(out, rows)
	}
	var more []string
	if len(t.Best.IDs) > 0 {
		more = append(more, fmt.Sprintf("Best set: %s, %s kWh a season for %s.", listed(t.Best.IDs), signed(t.Best.Gain), money(t.Best.Cost, t.Best.CostUnknown)))
	} else {
		more = append(more, "Best set: none; nothing that is allowed and affordable adds sun here.")
	}
	if text := sure(t); text != "" {
		more = append(more, text)
	}
	if w := t.Work; w != nil && w.Instead() {
		more = append(more, fmt.Sprintf("With crowns raised or reduced in place of felling where that buys more: %s, %s kWh for %s.", listed(w.Best.IDs), signed(w.Best.Gain), money(w.Best.Cost, true)))
	}
	var order []string
	best, later := t.WorkOrder()
	for n, j := range append(best, later[:min(1, len(later))]...) { // what comes after that, southyard trees tells
		then := ""
		if n == len(best) && n > 0 {
			then = "then, if more money comes, "
		}
		order = append(order, then+fmt.Sprintf("%s %s (to %s kWh, %s)", strings.Join(j.IDs, " with "), signed(j.Gain), whole(t.Now+j.TotalGain), measure.FormatMoney(j.TotalCost)))
	}
	if len(order) > 0 {
		more = append(more, "Order of work, so that stopping early leaves the best done: "+strings.Join(order, ", ")+".")
	}
	var others []string
	for _, b := range t.Blockers {
		others = append(others, fmt.Sprintf("%s (%s) costs %s of the open sun", b.Thing, b.What, small(b.Share)))
	}
	if len(others) > 0 {
		more = append(more, "Also in the way, and staying: "+strings.Join(others, ", ")+".")
	}
	return append(out, list(more))
}

// small is a share in percent that never rounds to nothing.
func small(share float64) string {
	if share < 0.005 {
		return "under 1 %"
	}
	return percent(share)
}
