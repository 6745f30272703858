package study

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
)

// PlanRows compares plans, with the lot as it is first and without trees last.
type PlanRows []PlanRow

// PlanRow is one state of the lot against one target.
type PlanRow struct {
	Plan       string   `json:"plan"`
	Target     string   `json:"target"`
	Season     string   `json:"season"`
	Sun        float64  `json:"kwh"`
	Access     float64  `json:"access"`
	Gain       float64  `json:"gain_kwh"`
	Cost       *float64 `json:"cost_usd"`
	Assumed    bool     `json:"cost_partly_assumed"`
	CostPerKWh *float64 `json:"cost_usd_per_kwh"`
	Summer     float64  `json:"summer_gain_on_windows_kwh"`
	Low        *float64 `json:"gain_p10_kwh"`
	High       *float64 `json:"gain_p90_kwh"`
}

// MarshalJSON keeps seven digits of each figure, as results.json does.
func (r PlanRow) MarshalJSON() ([]byte, error) {
	type plain PlanRow
	data, err := json.Marshal(plain(r))
	if err != nil {
		return nil, err
	}
	return fewDigits(data, 7), nil
}

// PlanTable compares every plan, the best set within the budget, the lot as it
// is and the lot without trees, for every target.
func (st *Study) PlanTable() PlanRows {
	type state struct {
		name    string
		reached []shading.Reached
		cost    *float64
		assumed bool
	}
	var rows PlanRows
	summer := st.summer()
	for at, t := range st.Targets {
		states := []state{{"as it is", st.Today, nil, false}}
		for _, p := range st.Plans {
			states = append(states, state{p.Name, p.Reached, &p.Cost, p.Unknown})
		}
		cost := t.Best.Cost
		states = append(states, state{"best set" + within(st.Site.Budget), st.Account.Read(st.BestState(at)), &cost, t.Best.CostUnknown})
		states = append(states, state{"no trees at all", st.NoTrees, nil, false})
		weigh := func(d demand, reached []shading.Reached) float64 {
			sum := 0.0
			for i, w := range d.Weights {
				sum += w * reached[i].Total(d.Months...)
			}
			return sum
		}
		for _, s := range states {
			row := PlanRow{Plan: s.name, Target: t.Name, Season: MonthsText(t.Months), Sun: weigh(t.demand, s.reached), Cost: s.cost, Assumed: s.assumed}
			row.Gain = row.Sun - t.Now
			if t.Open > 0 {
				row.Access = min(1, row.Sun/t.Open)
			}
			if s.cost != nil {
				row.CostPerKWh = removal.CostPerKWh(*s.cost, row.Gain)
			}
			if len(summer.Months) > 0 {
				row.Summer = weigh(summer, s.reached) - weigh(summer, st.Today)
			}
			row.Low, row.High = t.gainRange(s.name, s.name == "best set"+within(st.Site.Budget))
			if math.Abs(row.Gain) < 1e-9 {
				row.Gain = 0
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// CSV writes the rows.
func (rows PlanRows) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"target", "season", "plan", "sun_kwh", "access", "gain_kwh", "cost_usd", "cost_partly_assumed", "cost_per_kwh", "summer_gain_on_windows_kwh", "gain_p10_kwh", "gain_p90_kwh"})
	for _, r := range rows {
		out.Write([]string{r.Target, r.Season, r.Plan, num(r.Sun, 1), num(r.Access, 4), num(r.Gain, 1), maybe(r.Cost, 0), fmt.Sprint(r.Assumed), maybe(r.CostPerKWh, 3), num(r.Summer, 1), maybe(r.Low, 1), maybe(r.High, 1)})
	}
	out.Flush()
	return out.Error()
}

// Text prints the rows for people.
func (rows PlanRows) Text(w io.Writer) {
	target := ""
	for _, r := range rows {
		if r.Target != target {
			target = r.Target
			fmt.Fprintf(w, "\n%s, %s\n  %-34s %8s %7s %6s %-13s %9s %7s %7s\n", r.Target, r.Season, "plan", "sun, kWh", "access", "gain", "(8 of 10)", "cost", "$/kWh", "summer")
		}
		cost := "–"
		if r.Cost != nil {
			cost = measure.FormatMoney(*r.Cost) + mark(r.Assumed)
		}
		fmt.Fprintf(w, "  %-34s %8.0f %5.0f %% %6.0f %-13s %9s %7s %7.0f\n", shorten(r.Plan, 34), r.Sun, 100*r.Access, r.Gain, r.rangeWords(), cost, perKWh(r.CostPerKWh), r.Summer)
	}
	p := printerTo(w)
	p("")
	p.within("", []string{"access: share of an open field's sun in the season.  (8 of 10): where the gain lies in 8 of 10 trials with measurement error.",
		"summer: kWh more sun on windows in the cooling season.  * partly assumed prices."}, 2, " ")
}

// TreesText prints the whole ranking of every target for people.
func (st *Study) TreesText(w io.Writer) {
	p := printerTo(w)
	p("%s   which trees stand in the way, target by target", strings.ToUpper(st.Site.Name))
	for i := range st.Targets {
		st.printTarget(p, &st.Targets[i])
		st.Targets[i].printCurve(p, st.Site.Budget)
		st.printWork(p, &st.Targets[i])
	}
	if len(st.Site.Trees) == 0 {
		return
	}
	st.printKeep(p)
	p("")
	p.within("", []string{"alone: nothing else cut.  after all: cut last, all others gone.  fair share: averaged over every order of work, so that the shares add up to the whole gain.",
		"T1+T2 in the order of work: go together; each alone first would buy less for its money.",
		"range: where the fair share lies in 8 of 10 trials with measurement error.  in best: how often the tree is in the best set then.",
		"summer: more sun on windows in the cooling season, kWh.  * price from the species table, not a quote."}, 4, " ")
}
