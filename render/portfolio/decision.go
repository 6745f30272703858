package portfolio

import (
	"fmt"
	"math"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading/study"
)

// decision are the pictures of what to take out: for every target the ranked
// removals and, where asked for, the years of growth; for the first what money
// buys.
func (s set) decision() []Picture {
	var out []Picture
	for i := range s.st.Targets {
		t := &s.st.Targets[i]
		name := plainName(t.Name)
		out = append(out, Picture{"removals-" + name, s.removals(t)})
		if i == 0 {
			out = append(out, Picture{"budget-" + name, s.budget(t)})
		}
		if len(s.st.Growth) > 0 {
			out = append(out, Picture{"growth-" + name, s.growth(t)})
		}
	}
	return out
}

func seasonUnit(t *study.Target) string { return "kWh in " + study.MonthsText(t.Months) }

func (s set) removals(t *study.Target) render.Removals {
	d := render.Removals{Unit: seasonUnit(t)}
	trials := ""
	sure := map[string][2]float64{}
	if t.Sure != nil {
		trials = fmt.Sprintf(" Ranges: 8 in 10 of %d trials, each with every tree redrawn within its measuring error.", t.Sure.Draws)
		for _, c := range t.Sure.Candidates {
			if c.Fair != nil {
				sure[c.ID] = [2]float64{c.Fair.Low, c.Fair.High}
			}
		}
	}
	species := map[string]string{}
	for _, tree := range s.st.Site.Trees {
		species[tree.ID] = tree.Species
	}
	assumed := false
	for _, x := range t.Standing {
		if !x.Allowed || x.Fair == nil {
			continue
		}
		r := render.RemovalRow{ID: x.ID, Name: species[x.ID], Alone: x.Alone, Fair: *x.Fair, Last: x.AfterAllOthers, Low: sure[x.ID][0], High: sure[x.ID][1], Cost: measure.FormatMoney(x.Cost)}
		if x.CostUnknown {
			r.Cost += "*"
			assumed = true
		}
		if x.CostPerKWhFair != nil {
			r.Note = "$" + measure.FormatSignificant(*x.CostPerKWhFair, 2) + " per kWh a season"
		} else if *x.Fair < 1 {
			r.Note = "gives nothing here"
			if r.High >= 1 {
				r.Note = "nothing as measured"
			}
		}
		d.Rows = append(d.Rows, r)
	}
	for _, b := range t.Blockers {
		d.Blockers = append(d.Blockers, render.RemovalRow{ID: b.Thing, Name: b.What, Fair: b.Costs, Note: shareWords(b.Share) + " of open sun"})
	}
	d.Title = fmt.Sprintf("%s: what taking out each tree gives, %s", s.st.Site.Name, t.Name)
	d.Caption = fmt.Sprintf("Now %s of an open field's %s kWh in %s. Fair share: averaged over every order of work, so the bars add up to the whole gain.%s",
		measure.FormatSignificant(t.Now, 3), measure.FormatSignificant(t.Open, 3), study.MonthsText(t.Months), trials)
	if assumed {
		d.Caption += " * price assumed, not a quote."
	}
	d.Caption += " " + s.source()
	return d
}

func shareWords(share float64) string {
	if share < 0.005 {
		return "under 1 %"
	}
	return measure.FormatPercent(share, 0)
}

func (s set) budget(t *study.Target) render.BudgetCurve {
	d := render.BudgetCurve{Budget: s.st.Site.Budget, Unit: "more " + seasonUnit(t)}
	unknown := false
	for i, step := range t.Curve.Steps {
		if step.Gain <= 0 {
			continue
		}
		unknown = unknown || step.CostUnknown
		d.Steps = append(d.Steps, render.BudgetStep{Cost: step.Cost, Gain: step.Gain, Set: strings.Join(step.IDs, " + "), Knee: i == t.Curve.Knee})
	}
	how := "Every set of your own trees was tried."
	if !t.Curve.Exact {
		how = fmt.Sprintf("Searched, not all tried: no set gains more than %.0f kWh beyond the curve.", t.Curve.Gap)
	}
	d.Title = fmt.Sprintf("%s: what each sum of money buys, %s", s.st.Site.Name, t.Name)
	d.Caption = fmt.Sprintf("Best set of removals at each cost. %s Square: the knee, beyond it money buys less", how)
	if d.Budget > 0 {
		d.Caption += "; ring: the best the budget pays for"
	}
	d.Caption += ". Sets whose names find no room are in results.json."
	if unknown {
		d.Caption += " Some prices are assumed, not quotes."
	}
	d.Caption += " " + s.source()
	return d
}

// mostCourses is how many plans the growth picture can tell apart.
const mostCourses = 6

func (s set) growth(t *study.Target) render.Outlook {
	d := render.Outlook{Unit: "% of an open field's sun, " + study.MonthsText(t.Months), Threshold: math.NaN(), Top: 100}
	left := 0
	for _, c := range s.st.Growth {
		if c.Target != t.Name {
			continue
		}
		keep := c.Plan == study.AsItIs || c.Plan == study.BestSet
		if !keep && len(d.Lines) >= mostCourses-1 || c.Plan == study.NoTreesAtAll {
			if c.Plan != study.NoTreesAtAll {
				left++
			}
			continue
		}
		d.Years, d.Threshold, d.ThresholdName = c.Years, 100*c.Enough, fmt.Sprintf("%.0f %%, often asked", 100*c.Enough)
		line := render.OutlookLine{Name: c.Plan}
		for _, a := range c.Access {
			line.Values = append(line.Values, 100*a)
		}
		d.Lines = append(d.Lines, line)
	}
	d.Title = fmt.Sprintf("%s: the sun as the trees grow, %s", s.st.Site.Name, t.Name)
	d.Caption = "Trees that stay and trees planted grow by the species table toward their kind's mature size; straight lines between the years looked at. No pruning or storm in it."
	if !math.IsNaN(d.Threshold) {
		d.Caption += fmt.Sprintf(" Hatched below: the %.0f %% that public programmes often ask of a site.", d.Threshold)
	}
	if left > 0 {
		d.Caption += fmt.Sprintf(" Other plans (%d) are in growth.csv.", left)
	}
	d.Caption += " " + s.source()
	return d
}
