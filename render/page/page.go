package page

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
)

//go:embed page.html
var markup string

//go:embed page.css
var style string

//go:embed page.js
var script string

//go:embed heat.js
var heatScript string

// Of gathers a study for the page. It casts the maps' cells, which takes a few
// seconds.
func Of(st *study.Study) (Lot, error) {
	lot, t, err := tables(st)
	if err != nil {
		return lot, err
	}
	bare := t.mark()
	for most := mostCells; ; most /= 2 {
		lot.Maps = nil
		for _, f := range faces(st) {
			if m := mapOf(st, f, lot.Months, t, most); len(m.Cells) > 0 {
				lot.Maps = append(lot.Maps, m)
			}
		}
		if t.bytes() <= mostTerms || most < leastCells {
			break
		}
		t.back(bare) // many trees: larger cells
	}
	t.pack(&lot)
	return lot, nil
}

// Bounds that keep the page below 3 MB: of the terms, which grow by a third as
// text, and of the cells of a map before they are halved again.
const (
	mostTerms  = 1_100_000 // bytes
	leastCells = 100
)

// tables gathers all but the maps.
func tables(st *study.Study) (Lot, *terms, error) {
	site := st.Site
	lot := Lot{
		Name: site.Name, Place: placeWords(site.Place), Season: study.MonthsText(st.Heating), Months: st.Heating,
		Source: st.Year.Source, Sky: st.Sky.Words(), Assumed: len(site.Assumed), Feet: !site.Metric, HeatIn: heatUnit(site.Metric), Budget: site.Budget,
		Sun: SunPlace{Latitude: site.Place.Latitude(), Longitude: site.Place.Longitude(), Offset: st.Year.Offset.Hours(),
			Year: st.Year.Calendar, Terrain: site.Terrain.SlopeRise > 0 || len(site.Terrain.Spots)+len(site.Terrain.Skyline) > 0},
		Plan: planOf(site),
	}
	if len(lot.Months) == 0 { // no season to heat in: the year
		lot.Months, lot.Season = allMonths(), "the year"
	}
	trees := map[string]int{}
	for i, t := range site.Trees {
		trees[t.ID] = i
	}
	t, dayState := newTerms(st.Account, trees)
	lot.DayState = dayState
	lot.Trees = treesOf(st, t.number(st.Account))
	var rest []time.Month
	for _, m := range allMonths() {
		if !slices.Contains(lot.Months, m) {
			rest = append(rest, m)
		}
	}
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		surface := Surface{ID: s.ID, Words: s.Words(), Area: s.Face.Area, Heating: t.one(st.Account, i, lot.Months, st.Today[i].OpenTotal(lot.Months...), exact)}
		if len(rest) > 0 {
			surface.Rest = t.one(st.Account, i, rest, st.Today[i].OpenTotal(rest...), exact)
		}
		lot.Surfaces = append(lot.Surfaces, surface)
	}
	if err := lot.group(st); err != nil {
		return lot, nil, err
	}
	for i := range st.Targets {
		g := &st.Targets[i]
		d := shading.Demand{Weights: st.Weights(i), Months: g.Months}
		lot.Targets = append(lot.Targets, Target{Name: g.Name, Season: study.MonthsText(g.Months), Sun: t.read(st.Account, d, g.Open, exact)})
	}
	lot.Sets = setsOf(st, trees)
	var err error
	if lot.Heat, err = heatOf(st, t); err != nil {
		return lot, nil, err
	}
	return lot, t, nil
}

// group adds what people ask for first: the sun side's walls and windows, and
// every roof plane that takes sun.
func (lot *Lot) group(st *study.Study) error {
	side := st.SunSide()
	for _, kind := range []string{"walls", "windows"} {
		which, err := st.Group(side + " " + kind)
		if err != nil {
			return err
		}
		if len(which) > 0 {
			lot.Groups = append(lot.Groups, Group{side + " " + kind, which})
		}
	}
	which, err := st.Group("roof")
	if err != nil {
		return err
	}
	for _, i := range which {
		lot.Groups = append(lot.Groups, Group{st.Scene.Surfaces[i].ID, []int{i}})
	}
	return nil
}

// treesOf are the trees.
func treesOf(st *study.Study, number []int) []Tree {
	unit := measure.Feet
	if st.Site.Metric {
		unit = measure.Metres
	}
	var out []Tree
	for _, t := range st.Site.Trees {
		x := Tree{ID: t.ID, At: point(t.At), Semi: [2]float64{round(t.SpreadX / 2), round(t.SpreadY / 2)}, Twist: t.Twist, Cost: t.Cost, Known: t.CostKnown}
		x.Words = fmt.Sprintf("%s, %s high, %s wide", t.Species, measure.FormatFeet(t.Height, unit, 0), measure.FormatFeet((t.SpreadX+t.SpreadY)/2, unit, 0))
		switch {
		case t.Owner == model.OwnerNeighbour:
			x.Whose = "the neighbour’s: ask first"
		case t.Owner == model.OwnerStreet:
			x.Whose = "street tree: permit first"
		case !t.Removable:
			x.Whose = "marked to keep"
		}
		for b, n := range number {
			if n < 0 || st.Account.Blockers[b].Thing != t.ID {
				continue
			}
			s := t.Crown()
			if st.Account.Blockers[b].Kind == shading.Trunk {
				s = t.TrunkSolid()
			}
			if !s.Empty() {
				x.Solids = append(x.Solids, Solid{n, point(s.At), [2]float64{s.SemiX, s.SemiY}, s.Twist, s.Bottom, s.Top, [3]float64{s.A, s.B, s.C}})
			}
		}
		out = append(out, x)
	}
	return out
}

// setsOf are today, the best set, the plans that only remove, and no trees.
func setsOf(st *study.Study, trees map[string]int) []Set {
	out := []Set{{Name: "as it stands", Gone: []int{}}}
	add := func(name string, ids []string) {
		s := Set{Name: name, Gone: []int{}}
		for _, id := range ids {
			s.Gone = append(s.Gone, trees[id])
		}
		slices.Sort(s.Gone)
		s.Gone = slices.Compact(s.Gone)
		out = append(out, s)
	}
	if len(st.Targets) > 0 && len(st.Targets[0].Best.IDs) > 0 {
		name := "best set"
		if st.Site.Budget > 0 {
			name += " for " + measure.FormatMoney(st.Site.Budget)
		}
		add(name, st.Targets[0].Best.IDs)
	}
	for _, p := range st.Plans {
		if ids, ok := onlyRemoves(p); ok {
			add("plan: "+p.Name, ids)
		}
	}
	var all []string
	for _, t := range st.Site.Trees {
		all = append(all, t.ID)
	}
	if len(all) > 0 {
		add("no trees at all", all)
	}
	return out
}

// onlyRemoves tells which trees a plan takes out, and whether that is all.
func onlyRemoves(p study.Plan) (ids []string, ok bool) {
	for _, s := range p.Steps {
		if s.Kind != model.Remove {
			return nil, false
		}
		ids = append(ids, s.Tree)
	}
	return ids, len(ids) > 0
}

func heatUnit(metric bool) string {
	if metric {
		return "kWh"
	}
	return "million Btu"
}

func placeWords(p model.Place) string {
	ns, ew, lat, lng := "N", "E", p.Latitude(), p.Longitude()
	if lat < 0 {
		ns, lat = "S", -lat
	}
	if lng < 0 {
		ew, lng = "W", -lng
	}
	return fmt.Sprintf("%.2f° %s, %.2f° %s", lat, ns, lng, ew)
}

func allMonths() []time.Month {
	var out []time.Month
	for m := time.January; m <= time.December; m++ {
		out = append(out, m)
	}
	return out
}

// Write writes the page: one HTML file with everything in it.
func Write(w io.Writer, lot Lot) error {
	data, err := json.Marshal(lot)
	if err != nil {
		return fmt.Errorf("page: %w", err)
	}
	t, err := template.New("page").Parse(markup)
	if err != nil {
		return fmt.Errorf("page: %w", err)
	}
	// json.Marshal has written <, > and & as escapes, so that no text of the
	// site file can end the block it stands in.
	return t.Execute(w, map[string]any{
		"Lot": lot, "Data": template.JS(data), "Style": template.CSS(style), "Script": template.JS(strings.TrimSpace(heatScript) + "\n" + strings.TrimSpace(script)),
	})
}
