package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/study"
)

// keyFigure is one of the three figures of the committee's page.
type keyFigure struct{ Value, Words string }

func (r Report) answer() string {
	if h := r.Study.Heat; h != nil && h.Verdict.Headline != "" {
		return h.Verdict.Headline
	}
	return r.plainAnswer()
}

// figures are three: sun, heat, money; fewer where the study has none.
func (r Report) figures() []keyFigure {
	st := r.Study
	var out []keyFigure
	if len(st.Targets) > 0 {
		t := st.Targets[0]
		if t.Open > 0 {
			now, then := min(1, t.Now/t.Open), min(1, (t.Now+t.Best.Gain)/t.Open)
			k := keyFigure{percent(now) + " → " + percent(then), fmt.Sprintf("of the sun of %s on the %s: now, and after the best set of removals (%s)", study.MonthsText(t.Months), t.Name, named(t.Best.IDs))}
			if len(t.Best.IDs) == 0 {
				k = keyFigure{percent(now), fmt.Sprintf("of the sun of %s on the %s; no removal that is allowed and affordable adds to it", study.MonthsText(t.Months), t.Name)}
			}
			out = append(out, k)
		}
	}
	h := st.Heat
	if h == nil || len(h.Returns) == 0 {
		return out
	}
	all := h.Together()
	out = append(out, keyFigure{st.HeatFigure(all.Heat) + " " + st.HeatUnit(), "of useful heat a year from tree work and panels together; the mended house needs " + st.HeatFigure(h.Columns[study.Rehab].Need)})
	if all.Cost > 0 {
		back := study.PaybackText(all)
		text := "together, saving " + measure.FormatMoney(measure.Significant(all.Saving, 2)) + " a year; paid back in " + back + " at today's prices"
		if all.Simple.Never {
			text = "together; at today's prices it is never paid back"
		}
		if all.Guess {
			text += " (part of the cost is assumed)"
		}
		out = append(out, keyFigure{measure.FormatMoney(all.Cost), text})
	}
	return out
}

// named lists trees where they are few and their names short, else says how
// many.
func named(ids []string) string {
	if text := listed(ids); len(text) <= 60 {
		return text
	}
	return counted(len(ids), "tree", "trees")
}

// assumption says what nobody measured and how far that may be off; what
// matters most comes first.
func (r Report) assumption() string {
	st := r.Study
	text := "Every value was stated. "
	if n := len(st.Site.Assumed); n > 0 {
		text = counted(n, "value was", "values were") + " assumed, not measured. "
		if first := r.measureFirst(); len(first) > 0 {
			text += "Measure first: " + strings.Join(first, "; ") + ". "
		}
	}
	if len(st.Targets) > 0 {
		if t := &st.Targets[0]; t.Sure != nil && len(t.Best.IDs) > 0 {
			text += fmt.Sprintf("With errors of measurement the best set gains %s to %s kWh in 8 of 10 trials. ", whole(t.Sure.BestGain.Low), whole(t.Sure.BestGain.High))
		}
	}
	return text + "Crowns measured by hand hold to about ±10 %. Sun: " + st.Year.Source + "."
}

// fewCautions are the first of every topic, felling's first two, in the order
// in which they kill; the report has the rest.
func (r Report) fewCautions() []string {
	topics, common := r.topics()
	rank := map[string]int{"felling": 0, "roof": 1, "hot water": 2, "wall": 3, "digging": 4, "tightening": 5, "air heater": 6, "windows": 7, "duct coil": 8}
	slices.SortStableFunc(topics, func(a, b caution) int { return rank[a.Topic] - rank[b.Topic] })
	var out []string
	for _, c := range topics {
		out = append(out, c.Lines[0])
		if c.Topic == "felling" && len(c.Lines) > 1 {
			out = append(out, c.Lines[1])
		}
	}
	if len(out) > mostCautions {
		out = out[:mostCautions]
	}
	return append(out, common...)
}
