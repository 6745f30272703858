package study

import "github.com/southyard/southyard/shading"

// Summary is a group of surfaces in four states of the lot, in the heating
// season.
type Summary struct {
	Name                     string
	Area                     float64 // m²
	Roof                     bool    // one roof plane
	Open, Now, Best, NoTrees float64 // kWh/m²
}

// Share of the open sun.
func (s Summary) Share(sun float64) float64 {
	if s.Open <= 0 {
		return 0
	}
	return sun / s.Open
}

// Summaries are the sun side's walls, its windows and the roof, with the best
// set of the first target as the plan.
func (st *Study) Summaries() []Summary {
	best := st.Account.Read(st.BestState(0))
	var out []Summary
	add := func(name string, which []int, roof bool) {
		s := Summary{Name: name, Roof: roof}
		for _, i := range which {
			a := st.Scene.Surfaces[i].Face.Area
			s.Area += a
			s.Open += a * st.Today[i].OpenTotal(st.Heating...)
			s.Now += a * st.Today[i].Total(st.Heating...)
			s.Best += a * best[i].Total(st.Heating...)
			s.NoTrees += a * st.NoTrees[i].Total(st.Heating...)
		}
		if s.Area <= 0 {
			return
		}
		s.Open, s.Now, s.Best, s.NoTrees = s.Open/s.Area, s.Now/s.Area, s.Best/s.Area, s.NoTrees/s.Area
		out = append(out, s)
	}
	side := st.SunSide()
	for _, kind := range []string{"walls", "windows"} {
		if which, err := st.group(side + " " + kind); err == nil {
			add(side+" "+kind, which, false)
		}
	}
	if which, err := st.group("roof"); err == nil {
		for _, i := range which {
			add(st.Scene.Surfaces[i].ID, []int{i}, true)
		}
	}
	return out
}

// BestState is the lot once the best set within the budget is gone, for target
// number t.
func (st *Study) BestState(t int) shading.State {
	if t >= len(st.Targets) {
		return st.Account.Today()
	}
	return st.Account.Without(st.Account.Today(), st.Targets[t].Best.IDs...)
}
