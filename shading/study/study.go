package study

import (
	"fmt"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
)

// Options says how to compute.
type Options struct {
	Row float64   // row height, m; 0 for 6 inches
	Sky sky.Model // "" for the anisotropic sky

	// Draws is how often to measure anew, with errors drawn from the stated
	// tolerances, to see how sure the answer is: 0 for not at all, else at
	// least 9. Seed orders the draws.
	Draws int
	Seed  uint64

	// SunOnly leaves the heat and the money of it out, as for a screening.
	SunOnly bool

	// Decide asks for the rest of the decision: crown work in place of felling,
	// and the years of growth.
	Decide bool
}

// Study is everything computed about a lot.
type Study struct {
	Site    *model.Site
	Year    *sun.Year
	Light   *shading.Light // the year under the sky, for casting
	Monthly climate.Monthly
	Sky     sky.Model
	Heating []time.Month
	Cooling []time.Month
	Scene   *shading.Scene
	Ledger  *shading.YearLedger
	Account *shading.Account
	Today   []shading.Reached
	NoTrees []shading.Reached
	Plans   []Plan
	Targets []Target
	Growth  Outlook // where asked for
	Heat    *Heat   // nil with SunOnly

	maps map[int]*shading.Map
}

// Plan is one plan's changes and what they leave of the sun.
type Plan struct {
	Name    string
	Steps   []model.Step // with those of the plan it builds on, first
	State   shading.State
	Reached []shading.Reached
	Cost    float64
	Unknown bool // part of the cost is the species table's guess
}

// Ready reports what would keep Run from studying a site: a building that
// cannot stand, a plan or target that names nothing. It casts nothing.
func Ready(site *model.Site, monthly climate.Monthly) error {
	_, _, err := begin(site, monthly)
	return err
}

// begin sets up everything that needs no sun.
func begin(site *model.Site, monthly climate.Monthly) (*Study, []demand, error) {
	st := &Study{Site: site, Monthly: monthly}
	st.Heating = site.Season
	if len(st.Heating) == 0 {
		st.Heating = climate.HeatingSeason(monthly.HDD)
	}
	st.Cooling = without(climate.CoolingSeason(monthly.Mean), st.Heating)
	var err error
	if st.Scene, err = shading.NewScene(site); err != nil {
		return nil, nil, err
	}
	if len(st.Scene.Surfaces) == 0 {
		return nil, nil, fmt.Errorf("the house has no walls, windows or roof planes to study")
	}
	if st.Plans, err = st.stage(); err != nil {
		return nil, nil, err
	}
	demands, err := st.demands()
	return st, demands, err
}

// Run studies a site under a year of sun.
func Run(site *model.Site, year *sun.Year, monthly climate.Monthly, o Options) (*Study, error) {
	if o.Sky == "" {
		o.Sky = sky.Anisotropic
	}
	st, demands, err := begin(site, monthly)
	if err != nil {
		return nil, err
	}
	st.Year, st.Sky, st.Light = year, o.Sky, shading.NewLight(year, o.Sky)
	st.Ledger = st.Scene.CastYear(st.Light, nil, shading.Casting{Row: o.Row})
	st.Account = st.Scene.NewAccount(st.Ledger, st.Light)
	today := st.Account.Today()
	st.Today = st.Account.Read(today)
	st.NoTrees = st.Account.Read(st.Account.Without(today, st.treeIDs()...))
	for i := range st.Plans {
		st.Plans[i].State = st.stateOf(st.Plans[i].Steps, st.Plans[i].Name)
		st.Plans[i].Reached = st.Account.Read(st.Plans[i].State)
	}
	if st.Targets, err = st.rankAll(demands); err != nil {
		return nil, err
	}
	if o.SunOnly {
		return st, nil
	}
	if st.Heat, err = st.heating(); err != nil {
		return nil, err
	}
	if o.Decide {
		if err := st.weighWork(demands); err != nil {
			return nil, err
		}
		if st.Growth, err = st.outlook(demands); err != nil {
			return nil, err
		}
	}
	if o.Draws > 0 {
		if err := st.makeSure(o.Draws, o.Seed, demands); err != nil {
			return nil, err
		}
	}
	return st, nil
}

func (st *Study) treeIDs() []string {
	var ids []string
	for _, t := range st.Site.Trees {
		ids = append(ids, t.ID)
	}
	return ids
}

// tree finds a tree of the site, or nil.
func (st *Study) tree(id string) *model.Tree {
	for i := range st.Site.Trees {
		if st.Site.Trees[i].ID == id {
			return &st.Site.Trees[i]
		}
	}
	return nil
}

func without(months, taken []time.Month) []time.Month {
	var out []time.Month
	for _, m := range months {
		free := true
		for _, t := range taken {
			free = free && t != m
		}
		if free {
			out = append(out, m)
		}
	}
	return out
}
