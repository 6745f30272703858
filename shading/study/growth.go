package study

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/species"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
)

// growthYears are the years looked at, today first. Between them courses are
// taken as straight lines.
var growthYears = []float64{0, 5, 10, 20}

// enoughSun is the share of an open field's sun in the target's season below
// which a collector is said to have lost its place.
const enoughSun = heat.AccessGood

// Course is how one target fares under one plan as the trees that stay, and
// those planted, grow.
type Course struct {
	Target string    `json:"target"`
	Plan   string    `json:"plan"`
	Years  []float64 `json:"years_from_now"`
	Sun    []float64 `json:"kwh"`
	Access []float64 `json:"access"`

	// Enough is the share asked for, 0..1. Until is the year from now in which
	// access falls below it; null where it is below already (Below) or stays
	// above for all the years looked at.
	Enough float64  `json:"enough_access"`
	Below  bool     `json:"below_today"`
	Until  *float64 `json:"years_until_below"`
}

// Outlook is the courses of every target under every plan.
type Outlook []Course

// grown are the scene's trees so many years on, by the species table: never
// beyond their kind's mature size, or their own where they are past it.
func (st *Study) grown(years float64) map[staged]model.Tree {
	out := st.shapes()
	for k, t := range out {
		out[k] = growTree(t, years)
	}
	return out
}

func growTree(t model.Tree, years float64) model.Tree {
	kind, ok := species.Find(t.Species)
	if !ok {
		kind = species.GenericTree(t.Evergreen)
	}
	return kind.Grow(t, years)
}

// outlook casts the lot of later years, thinly, and adds what changes to the
// full cast's figures of today.
func (st *Study) outlook(demands []demand) (Outlook, error) {
	surfaces, narrowed := wanted(demands)
	if len(surfaces) == 0 {
		return nil, nil
	}
	light := st.seasons(narrowed)
	states := st.states()
	suns := make([][][]float64, len(growthYears)) // year → target → state
	for k, years := range growthYears {
		later := &Study{Site: st.Site, Plans: st.Plans, Account: st.recast(st.grown(years), surfaces, light, 0)}
		for n, d := range narrowed {
			var row []float64
			for _, s := range states {
				row = append(row, later.reach(d, s.on(later.Account, n)))
			}
			suns[k] = append(suns[k], row)
		}
	}
	var out Outlook
	for n := range st.Targets {
		t := &st.Targets[n]
		for i, s := range states {
			c := Course{Target: t.Name, Plan: s.name, Years: growthYears, Enough: enoughSun}
			today := st.reach(demands[n], s.on(st.Account, n))
			for k := range growthYears {
				sun := max(0, min(today+suns[k][n][i]-suns[0][n][i], t.Open))
				c.Sun = append(c.Sun, sun)
				share := 0.0
				if t.Open > 0 {
					share = sun / t.Open
				}
				c.Access = append(c.Access, share)
			}
			c.Below = c.Access[0] < c.Enough
			c.Until = crossing(c.Years, c.Access, c.Enough)
			out = append(out, c)
		}
	}
	return out, nil
}

// state is a named state of the lot that any account of the same scene can
// read, for target number n.
type state struct {
	name string
	on   func(a *shading.Account, n int) shading.State
}

// states are the lot as it is, each plan, the best set for the target, and no
// trees.
func (st *Study) states() []state {
	out := []state{{AsItIs, func(a *shading.Account, _ int) shading.State { return a.Today() }}}
	for _, p := range st.Plans {
		out = append(out, state{p.Name, func(a *shading.Account, _ int) shading.State {
			return (&Study{Account: a}).stateOf(p.Steps, p.Name)
		}})
	}
	out = append(out, state{BestSet, func(a *shading.Account, n int) shading.State {
		return a.Without(a.Today(), st.Targets[n].Best.IDs...)
	}})
	return append(out, state{NoTreesAtAll, func(a *shading.Account, _ int) shading.State {
		return a.Without(a.Today(), st.treeIDs()...)
	}})
}

// Names of the states that are no plan of the file.
const (
	AsItIs       = "as it is"
	BestSet      = "best set"
	NoTreesAtAll = "no trees at all"
)

// crossing is when a course first falls below a level, on straight lines
// between its points; nil where it starts below or never does.
func crossing(years, values []float64, level float64) *float64 {
	if len(values) == 0 || values[0] < level {
		return nil
	}
	for k := 1; k < len(values); k++ {
		if a, b := values[k-1], values[k]; b < level {
			at := years[k-1] + (years[k]-years[k-1])*(a-level)/(a-b)
			return &at
		}
	}
	return nil
}

// CSV writes one line for every target, plan and year.
func (o Outlook) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"target", "plan", "years_from_now", "sun_kwh", "access", "enough_access", "below_today", "years_until_below"})
	for _, c := range o {
		for k, y := range c.Years {
			out.Write([]string{c.Target, c.Plan, num(y, 0), num(c.Sun[k], 1), num(c.Access[k], 4), num(c.Enough, 2), fmt.Sprint(c.Below), maybe(c.Until, 1)})
		}
	}
	out.Flush()
	return out.Error()
}

// Text prints the courses for people.
func (o Outlook) Text(w io.Writer) {
	target := ""
	for _, c := range o {
		if c.Target != target {
			target = c.Target
			fmt.Fprintf(w, "\n%s: share of an open field's sun as the trees grow\n  %-34s", c.Target, "plan")
			for _, y := range c.Years {
				fmt.Fprintf(w, " %9s", yearsWords(y))
			}
			fmt.Fprintf(w, "   %s\n", "below "+measure.FormatPercent(c.Enough, 0))
		}
		fmt.Fprintf(w, "  %-34s", shorten(c.Plan, 34))
		for _, a := range c.Access {
			fmt.Fprintf(w, " %7.0f %%", 100*a)
		}
		fmt.Fprintf(w, "   %s\n", c.untilWords())
	}
	if len(o) > 0 {
		p := printerTo(w)
		p("")
		p.within("", []string{"Trees that stay, and planted ones, grow by the species table toward their kind's mature size; crowns do not climb. What is mended between, storms and pruning are not in it."}, 1, "")
	}
}

func yearsWords(y float64) string {
	if y == 0 {
		return "now"
	}
	return fmt.Sprintf("%.0f years", y)
}

// untilWords says when the sun is no longer enough.
func (c Course) untilWords() string {
	switch {
	case c.Below:
		return "already"
	case c.Until == nil:
		return fmt.Sprintf("not in %.0f years", c.Years[len(c.Years)-1])
	}
	if *c.Until < 1.5 {
		return "in about a year"
	}
	return fmt.Sprintf("in about %.0f years", math.Round(*c.Until))
}
