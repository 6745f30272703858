package main

import (
	"fmt"
	"sort"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

func (u understood) plans() {
	var rows [][]string
	for _, p := range u.site.Plans {
		var steps []string
		for _, s := range p.Steps {
			steps = append(steps, string(s.Kind)+" "+s.Thing())
		}
		on := ""
		if p.On != "" {
			on = "after " + p.On + ": "
		}
		for i, steps := range folded(on + grouped(steps)) {
			rows = append(rows, []string{first(i, p.Name), steps})
		}
	}
	u.table("Plans", []string{"plan", "steps"}, rows)
}

func (u understood) wishes() {
	s := u.site
	var rows [][]string
	for _, t := range s.Targets {
		var parts []string
		for name, weight := range t.Parts {
			if weight != 1 {
				name += " × " + measure.Number(weight, 2)
			}
			parts = append(parts, name)
		}
		sort.Strings(parts)
		rows = append(rows, []string{"target", t.Name, strings.Join(parts, ", ")})
	}
	if len(s.Season) > 0 {
		var months []string
		for _, m := range s.Season {
			months = append(months, m.String()[:3])
		}
		rows = append(rows, []string{"heating season", strings.Join(months, " "), "as stated"})
	}
	if s.Budget > 0 {
		rows = append(rows, []string{"budget", measure.FormatMoneyExact(s.Budget), ""})
	}
	for _, c := range s.Collectors {
		on := c.On
		if on == "" {
			on = "the best place"
		}
		kind := c.Kind
		if kind == "" {
			kind = "?"
		}
		rows = append(rows, []string{"collectors", fmt.Sprintf("%s: %d × %s, %s × %s", c.ID, c.Count, kind, u.length(c.Width), u.length(c.Height)), "on " + on})
	}
	for _, k := range s.KeepClear {
		rows = append(rows, []string{"keep clear", fmt.Sprintf("%s: %s × %s, %s from the left, %s up, %s round it", k.ID, u.length(k.Width), u.length(k.Height), u.length(k.Left), u.length(k.Up), u.length(k.Margin)), "on " + k.On})
	}
	u.table("Wanted", []string{"what", "", ""}, rows)
}

// assumed lists the values nobody measured; things that share a value share a
// line.
func (u understood) assumed() {
	type line struct{ field, value, source string }
	of := map[line][]string{}
	var lines []line
	for _, a := range u.site.Assumed {
		l := line{a.Field, a.Value, a.Source}
		if len(of[l]) == 0 {
			lines = append(lines, l)
		}
		of[l] = append(of[l], a.Subject)
	}
	sort.SliceStable(lines, func(i, j int) bool { return lines[i].field < lines[j].field })
	var rows [][]string
	for _, l := range lines {
		for i, things := range folded(grouped(of[l])) {
			rows = append(rows, []string{first(i, l.field), first(i, l.value), things, first(i, l.source)})
		}
	}
	u.table(fmt.Sprintf("Assumed, not measured (%s)", measure.Count(len(u.site.Assumed), "value")), []string{"value", "taken as", "of", "from"}, rows)
}
