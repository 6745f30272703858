package study

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

func (l CrewList) unit() measure.Unit {
	if l.metric {
		return measure.Metres
	}
	return measure.Feet
}

// Text prints the list for the crew, a paragraph a tree.
func (l CrewList) Text(w io.Writer) {
	p := func(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }
	p("%s   work list for: %s", strings.ToUpper(l.Site), l.Plan)
	if len(l.Jobs) == 0 {
		p("\nNo tree is worked on.")
	}
	for i, j := range l.Jobs {
		p("\n%d. %s  %s: %s   %s%s", i+1, j.Tree, j.Species, j.Work, measure.FormatMoney(j.Cost), mark(j.Assumed))
		if len(j.Ties) == 2 {
			p("   where      %s from the %s and %s from the %s, on the %s side",
				measure.FormatLength(j.Ties[0].Distance, l.unit()), j.Ties[0].Corner, measure.FormatLength(j.Ties[1].Distance, l.unit()), j.Ties[1].Corner, j.Side)
		}
		p("   size       %s high, %s wide, trunk %s", measure.FormatFeet(j.Height, l.unit(), 0), measure.FormatFeet(j.Spread, l.unit(), 0), measure.FormatLength(j.Trunk, l.unit()))
		line := func(name string, items []string, none string) {
			if len(items) == 0 && none == "" {
				return
			}
			if len(items) == 0 {
				items = []string{none}
			}
			for k, item := range items {
				if k > 0 {
					name = ""
				}
				p("   %-10s %s", name, item)
			}
		}
		line("hazards", j.Hazards, "none noted; look again on the day")
		line("trainees", prefixed("no: ", j.NotForTrainees), "may help on the ground, under a qualified person and where local rules allow")
		line("agree", j.Agree, "")
		line("call", j.Call, "")
		line("notes", j.Notes, "")
	}
	if len(l.Other) > 0 {
		p("\nOther work in this plan: %s", strings.Join(l.Other, "; "))
	}
	if len(l.Cautions) > 0 {
		p("\nBefore work begins")
		for _, c := range l.Cautions {
			for _, line := range wrapped(c, screenWide-3, "  ") {
				p("   %s", line)
			}
		}
	}
	p("\nTape distances are level, to the middle of the trunk. * price assumed, not a quote")
}

func prefixed(with string, items []string) []string {
	if len(items) == 0 {
		return nil
	}
	return []string{with + strings.Join(items, "; ")}
}

// CSV writes one line a tree, lengths in feet-inches or metres as the site
// file has them, and in metres.
func (l CrewList) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"plan", "tree", "species", "work", "corner_1", "tape_1", "tape_1_m", "corner_2", "tape_2", "tape_2_m", "side", "height_m", "spread_m", "trunk_m",
		"cost_usd", "cost_assumed", "hazards", "not_for_trainees", "who_must_agree", "whom_to_call", "notes"})
	for _, j := range l.Jobs {
		ties := make([]string, 6)
		for k, t := range j.Ties {
			copy(ties[3*k:], []string{t.Corner, measure.FormatLength(t.Distance, l.unit()), num(t.Distance, 2)})
		}
		row := append([]string{l.Plan, j.Tree, j.Species, j.Work}, ties...)
		row = append(row, j.Side, num(j.Height, 2), num(j.Spread, 2), num(j.Trunk, 3), num(j.Cost, 0), fmt.Sprint(j.Assumed))
		for _, list := range [][]string{j.Hazards, j.NotForTrainees, j.Agree, j.Call, j.Notes} {
			row = append(row, strings.Join(list, "; "))
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}
