package lots

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"github.com/southyard/southyard/model/measure"
)

// Text prints the first lots for people; most ≤ 0 prints all.
func (s Sheet) Text(w io.Writer, most int) error {
	var fault error
	p := func(format string, args ...any) {
		if _, err := fmt.Fprintf(w, format+"\n", args...); err != nil && fault == nil {
			fault = err
		}
	}
	shown := s.Lots
	if most > 0 && len(shown) > most {
		shown = shown[:most]
	}
	order := "after the best plan"
	if s.By == ByNow {
		order = "as they stand"
	}
	if len(s.Lots) == 0 {
		p("No lot could be ranked.")
	} else {
		p("%s by winter sun %s", counted(len(s.Lots), "lot"), order)
	}
	if len(shown) > 0 {
		p("Judged: %s in the heating season, kWh/m² and share of an open field.  Budget: %s.", JudgedWords(s.Options.For), s.BudgetWords())
		p("")
		p("%5s  %-24s %-15s %11s %11s %9s %9s  %-12s %s", "rank", "lot", "verdict", "now", "after", "cost", "no trees", "roof", "plan")
		for _, r := range shown {
			plan := r.Plan
			if plan == "" {
				plan = "none adds sun within the budget"
				if r.Trees == 0 {
					plan = "no trees"
				}
			}
			p("%5d  %-24s %-15s %11s %11s %9s %9s  %-12s %s", r.Rank, clip(r.label(), 24), r.Verdict, both(r.Now, r.ShareNow), both(r.After, r.ShareAfter),
				r.CostText(), percent(r.ShareFree), r.roofText(), clip(plan, 44))
		}
		if n := len(s.Lots) - len(shown); n > 0 {
			p("       … and %d more", n)
		}
		p("")
		p("roof: share of the season's sun on the planes that take it, now → after.  * partly assumed prices.  Verdict: good 75 %% or")
		p("more now, good after work 75 %% with the plan, fair 50 %%, else poor; for the surfaces judged here alone.")
		p("Screening only: walk a lot and study it (southyard study) before money goes down or a tree comes down.")
	}
	if len(s.Failed) > 0 {
		p("")
		p("Could not be studied: %s", counted(len(s.Failed), "file"))
		for i, f := range s.Failed {
			if most > 0 && i == most {
				p("  … and %d more", len(s.Failed)-i)
				break
			}
			f.brief().Lines(func(line string) { p("  %s", line) })
		}
	}
	return fault
}

// brief is the failure with its first fault alone.
func (f Failure) brief() Failure {
	if len(f.Faults) > 1 {
		f.More += len(f.Faults) - 1
		f.Faults = f.Faults[:1]
	}
	return f
}

// Lines gives a failure line by line, each naming the file.
func (f Failure) Lines(line func(string)) {
	for _, x := range f.Faults {
		line(x)
	}
	if f.More > 0 {
		line(fmt.Sprintf("%s: and %s", f.File, counted(f.More, "more fault")))
	}
}

// BudgetWords says what a lot's plan may cost.
func (s Sheet) BudgetWords() string {
	if b := s.Options.Budget; b != nil {
		if *b == 0 {
			return "none, every tree of the lot's own may go"
		}
		return measure.FormatMoneyExact(*b) + " a lot"
	}
	return "as each file says"
}

// JudgedWords names the surfaces lots are ranked for.
func JudgedWords(what string) string {
	switch what {
	case ForWindows:
		return "sun-side windows"
	case ForRoof:
		return "roof planes that take the sun"
	}
	return "sun-side walls and windows"
}

func (r Row) label() string {
	if r.Name != "" {
		return r.Name
	}
	return r.File
}

// CostText is the plan's cost for people.
func (r Record) CostText() string {
	if r.Plan == "" {
		return "–"
	}
	text := measure.FormatMoney(r.Cost)
	if r.CostAssumed {
		text += "*"
	}
	return text
}

// roofText is the roof's share now and after for people.
func (r Record) roofText() string {
	if r.RoofNow < 0 {
		return "–"
	}
	return fmt.Sprintf("%.0f → %s", 100*r.RoofNow, percent(r.RoofAfter))
}

func both(sun, share float64) string { return fmt.Sprintf("%.0f %6s", sun, percent(share)) }

func percent(x float64) string { return fmt.Sprintf("%.0f %%", 100*x) }

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func clip(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n-1]) + "…"
}

// CSV writes one line a lot, then one a file that could not be studied.
func (s Sheet) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"rank", "lot", "file", "verdict", "judged", "season", "area_m2", "open_kwh_m2", "now_kwh_m2", "after_kwh_m2", "no_trees_kwh_m2",
		"share_now", "share_after", "share_no_trees", "gain_kwh", "roof_share_now", "roof_share_after", "plan", "cost_usd", "cost_partly_assumed", "budget_usd",
		"trees", "values_assumed", "latitude", "longitude", "climate", "fault"})
	num := func(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }
	share := func(x float64) string {
		if x < 0 {
			return ""
		}
		return num(x, 4)
	}
	for _, r := range s.Lots {
		budget := ""
		if r.Budget > 0 {
			budget = num(r.Budget, 0)
		}
		out.Write([]string{strconv.Itoa(r.Rank), r.Name, r.File, r.Verdict, r.Judged, r.Season, num(r.Area, 2), num(r.Open, 1), num(r.Now, 1), num(r.After, 1), num(r.NoTrees, 1),
			share(r.ShareNow), share(r.ShareAfter), share(r.ShareFree), num(r.Gain, 1), share(r.RoofNow), share(r.RoofAfter), r.Plan, num(r.Cost, 0), strconv.FormatBool(r.CostAssumed), budget,
			strconv.Itoa(r.Trees), strconv.Itoa(r.Assumed), num(r.Latitude, 4), num(r.Longitude, 4), r.Climate, ""})
	}
	for _, f := range s.Failed {
		row := make([]string, 27)
		row[2], row[3] = f.File, "could not be studied"
		if len(f.Faults) > 0 {
			row[26] = f.Faults[0]
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}
