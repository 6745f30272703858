package study

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/removal"
)

// rangeWords is a range of kWh as it stands behind a figure: (1700–2500).
func rangeWords(r *removal.Range) string {
	if r == nil {
		return ""
	}
	return fmt.Sprintf(" (%.0f–%.0f)", r.Low, r.High)
}

// fairWords is a tree's fair share with its range: 2160 (1700–2500).
func (t *Target) fairWords(s removal.Standing) string {
	sure := t.sureOf(s.ID)
	if sure == nil || s.Fair == nil {
		return whole(s.Fair)
	}
	return whole(s.Fair) + rangeWords(sure.Fair)
}

// inBestWords is how often a tree belongs to the best set: 94 %.
func (t *Target) inBestWords(id string) string {
	if sure := t.sureOf(id); sure != nil {
		return measure.FormatPercent(sure.InBest, 0)
	}
	return "–"
}

// again names a measurement for people.
func again(q removal.Quantity) string {
	words := map[string]string{
		"transmissivity": "the sun that passes the crown of", eastWest: "the place (east–west) of", northSouth: "the place (north–south) of",
	}
	if w, ok := words[q.Name]; ok {
		return w + " " + q.Tree
	}
	return "the " + q.Name + " of " + q.Tree
}

// sureText is how sure the best set's gain is, to stand behind it.
func (t *Target) sureText() string {
	if t.Sure == nil || len(t.Best.IDs) == 0 {
		return ""
	}
	return fmt.Sprintf(" (%.0f–%.0f in 8 of 10 trials)", t.Sure.BestGain.Low, t.Sure.BestGain.High)
}

// printSure says how sure the target's answer is, and what crown work would do
// in place of felling.
func (st *Study) printSure(p printer, t *Target) {
	if s := t.Sure; s != nil && len(t.Best.IDs) > 0 {
		text := fmt.Sprintf("How sure: %.0f–%.0f kWh in 8 of 10 trials with measurement error; the same set is best in %.0f %% of them.", s.BestGain.Low, s.BestGain.High, 100*s.SameBest)
		if t.sharpest() != "" {
			text += "\nMeasure " + again(s.Measures[0].Quantity) + " again first: it would sharpen this most."
		}
		p("%s", text)
	}
	if w := t.Work; w != nil {
		if w.Instead() {
			p("%s", st.insteadText(w))
		} else {
			p("Raising or reducing crowns in place of felling buys no more sun for the money here.")
		}
	}
}

// insteadText is the work that buys more than felling alone.
func (st *Study) insteadText(w *Work) string {
	return fmt.Sprintf("With crowns raised or reduced where that buys more%s: %s, %+.0f kWh for %s*", within(st.Site.Budget), st.workList(w), w.Best.Gain, measure.FormatMoney(w.Best.Cost))
}

func (st *Study) workList(w *Work) string {
	var list []string
	for _, i := range w.Best.Set {
		c := w.Decision.Candidates[i]
		if c.Kind == "remove" {
			list = append(list, "remove "+c.ID)
			continue
		}
		list = append(list, c.Tree+": "+w.workWords(c, st.unit()))
	}
	return strings.Join(list, ", ")
}

// keepGroup are trees to leave for one reason.
type keepGroup struct {
	why          string
	trees, kinds []string
}

// keepGroups are the trees to leave, those with the same reason together.
func (st *Study) keepGroups() []keepGroup {
	var out []keepGroup
	for _, a := range st.KeepAdvice() {
		i := slices.IndexFunc(out, func(k keepGroup) bool { return k.why == a.Why })
		if i < 0 {
			i, out = len(out), append(out, keepGroup{why: a.Why})
		}
		k := &out[i]
		k.trees = append(k.trees, a.Tree)
		if kind := st.tree(a.Tree).Species; !slices.Contains(k.kinds, kind) {
			k.kinds = append(k.kinds, kind)
		}
	}
	return out
}

// printKeep names the trees to leave.
func (st *Study) printKeep(p printer) {
	for _, k := range st.keepGroups() {
		p("Leave %s (%s): %s.", strings.Join(k.trees, ", "), strings.Join(k.kinds, ", "), k.why)
	}
}

// printWork lists raising and reducing beside removal, each done alone.
func (st *Study) printWork(p printer, t *Target) {
	if t.Work == nil {
		return
	}
	told := false
	for _, s := range t.Work.Standing {
		if s.Kind == "remove" || s.Alone < 0.5 {
			continue
		}
		if !told {
			p("Less than removal, done alone (at most a quarter of the live crown; prices are planning figures)")
			told = true
		}
		p("  %-5s %-42s %+7.0f kWh %9s %7s", shorten(s.Tree, 5), t.Work.workWords(s.Candidate, st.unit()), s.Alone, measure.FormatMoney(s.Cost)+mark(s.CostUnknown), perKWh(s.CostPerKWhAlone))
	}
}

// WorkCSV writes one line for every target and piece of work: removal, raising
// or reducing of one tree, done alone.
func (st *Study) WorkCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"target", "season", "tree", "work", "detail", "gain_alone_kwh_thin_cast", "cost_usd", "cost_stated", "cost_per_kwh_alone_thin_cast", "in_best_work"})
	for i := range st.Targets {
		t := &st.Targets[i]
		if t.Work == nil {
			continue
		}
		for _, s := range t.Work.Standing {
			best := false
			for _, id := range t.Work.Best.IDs {
				best = best || id == s.ID
			}
			out.Write([]string{t.Name, MonthsText(t.Months), s.Tree, s.Kind, t.Work.workWords(s.Candidate, st.unit()), num(s.Alone, 1), num(s.Cost, 0),
				fmt.Sprint(!s.CostUnknown), maybe(s.CostPerKWhAlone, 3), fmt.Sprint(best)})
		}
	}
	out.Flush()
	return out.Error()
}

// WorkResult is the work of a target for the results file.
type WorkResult struct {
	Standing []removal.Standing
	Details  []string // what each piece of work leaves of the tree, in words
	Best     removal.Best
}

func (st *Study) workResult(w *Work) *WorkResult {
	if w == nil {
		return nil
	}
	out := &WorkResult{Standing: w.Standing, Best: w.Best}
	for _, s := range w.Standing {
		out.Details = append(out.Details, w.workWords(s.Candidate, st.unit()))
	}
	return out
}

// gainRange is where a plan's gain lies in 8 of 10 trials; nil without trials.
func (t *Target) gainRange(plan string, best bool) (low, high *float64) {
	if t.Sure == nil {
		return nil, nil
	}
	if best {
		return &t.Sure.BestGain.Low, &t.Sure.BestGain.High
	}
	for i := range t.Sure.Plans {
		if r := &t.Sure.Plans[i]; r.Name == plan {
			return &r.Gain.Low, &r.Gain.High
		}
	}
	return nil, nil
}

func (r PlanRow) rangeWords() string {
	if r.Low == nil || r.High == nil {
		return ""
	}
	return fmt.Sprintf("(%.0f–%.0f)", *r.Low, *r.High)
}

// fairAt, aloneAt and chanceInBest are cells of the table of trees, empty
// without trials.
func (t *Target) fairAt(id string, high bool) string {
	sure := t.sureOf(id)
	if sure == nil {
		return ""
	}
	return endOf(sure.Fair, high)
}

func (t *Target) aloneAt(id string, high bool) string {
	sure := t.sureOf(id)
	if sure == nil {
		return ""
	}
	return endOf(&sure.Alone, high)
}

func endOf(r *removal.Range, high bool) string {
	switch {
	case r == nil:
		return ""
	case high:
		return num(r.High, 1)
	}
	return num(r.Low, 1)
}

func (t *Target) chanceInBest(id string) string {
	sure := t.sureOf(id)
	if sure == nil {
		return ""
	}
	return num(sure.InBest, 3)
}

// adviceOn is why a tree is better left, by tree.
func (st *Study) adviceOn() map[string]string {
	out := map[string]string{}
	for _, a := range st.KeepAdvice() {
		out[a.Tree] = "leave: " + a.Why
	}
	return out
}
