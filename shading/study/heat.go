package study

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
)

// Heat is what the sun is worth on this lot. Heat is kWh a year.
type Heat struct {
	House      heat.House
	Before     heat.Shell
	After      heat.Shell
	Economy    heat.Economy
	Assumed    []heat.Default
	Columns    []heat.Column // AsFound, Rehab, each plan, the best set, no trees
	States     []Worth       // by column
	Best       int           // number of the best set's column
	BestName   string        // empty: nothing affordable adds sun
	BestCost   float64
	BestGuess  bool // part of the cost is assumed
	Trees      []TreeWorth
	Collectors []Placed
	Water      *heat.WaterSystem
	WaterHeat  *heat.WaterHeat // after the best set
	AirHeat    *heat.AirHeat   // after the best set
	Coil       *heat.CoilHeat  // after the best set
	CoilCost   float64
	CoilGuess  bool // its cost is assumed

	unit        measure.Unit // of its reader
	asksForCoil bool
	work        *heatStudy
	Returns     []heat.Return // what each part does for its money; the last is all together
	Tornado     []heat.Bar
	Verdict     heat.Verdict
}

// Numbers of the first two columns.
const (
	AsFound = 0
	Rehab   = 1
)

// heatStudy is the work in hand.
type heatStudy struct {
	*Study
	out     *Heat
	air     []float64
	windows receivers
	panels  receivers
	owner   []int // panel surface → wish
	scene   shading.Scene
	base    heat.WaterHeat // hot water after the best set, for what does not change
	rehab   result
	now     [2][]float64 // today's sun of the lot's surfaces and the panels'
}

// heating works out the whole of Heat.
func (st *Study) heating() (*Heat, error) {
	w := heatStudy{Study: st, out: &Heat{unit: st.unit()}, air: make([]float64, len(st.Year.Hours))}
	for i := range st.Year.Hours {
		w.air[i] = st.Year.Hours[i].Air
	}
	if err := w.measure(); err != nil {
		return nil, err
	}
	today := st.Account.Today()
	best := w.best()
	var err error
	if w.out.Collectors, err = st.placeCollectors(best); err != nil {
		return nil, err
	}
	w.scene, w.owner = st.panelScene(w.out.Collectors)
	if len(w.scene.Surfaces) > 0 {
		ledger := w.scene.CastYear(st.Light, nil, shading.Casting{})
		w.panels = st.receive(&w.scene, ledger, w.scene.NewAccount(ledger, st.Light), numbers(len(w.scene.Surfaces)))
	}
	var glass []int
	for i := range st.Scene.Surfaces {
		if st.Scene.Surfaces[i].Kind == model.WindowFace {
			glass = append(glass, i)
		}
	}
	w.windows = st.receive(st.Scene, st.Ledger, st.Account, glass)
	for k, r := range []receivers{w.windows, w.panels} {
		if r.account != nil {
			w.now[k] = r.account.Totals(r.account.Today())
		}
	}
	if err := w.water(best); err != nil {
		return nil, err
	}
	if err := w.columns(today, best); err != nil {
		return nil, err
	}
	if err := w.trees(today); err != nil {
		return nil, err
	}
	w.mountingDefaults()
	for i, a := range w.out.Assumed {
		w.out.Assumed[i] = a.In(st.unit())
	}
	w.money()
	if w.out.Tornado, err = w.tornado(best); err != nil {
		return nil, err
	}
	w.judge(best)
	w.out.work = &w
	return w.out, nil
}

// measure fills the house, its shells and the economy.
func (w *heatStudy) measure() error {
	d, assumed := w.dimensions()
	h, before, after, more, err := heat.FromChoice(w.Site.Heat, d)
	if err != nil {
		return fmt.Errorf("heat: %w", err)
	}
	e, money, err := heat.EconomyFromChoice(w.Site.Heat)
	if err != nil {
		return fmt.Errorf("heat: %w", err)
	}
	o := w.out
	o.asksForCoil = w.Site.Heat.Water.Coil != nil
	o.House, o.Before, o.After, o.Economy = h, before, after, e
	o.Assumed = append(append(assumed, more...), money...)
	return nil
}

// best is the state after the best set of the first target.
func (w *heatStudy) best() shading.State {
	if len(w.Targets) > 0 && len(w.Targets[0].Best.IDs) > 0 {
		b := w.Targets[0].Best
		w.out.BestName, w.out.BestCost, w.out.BestGuess = "best set"+within(w.Site.Budget), b.Cost, b.CostUnknown
	}
	return w.BestState(0)
}

// result is one state of the lot with one shell.
type result struct {
	column heat.Column
	air    heat.AirHeat
	water  float64
	pump   float64
	coil   heat.CoilHeat
	err    error
}

// run works out one state.
func (w *heatStudy) run(name string, shell heat.Shell, state shading.State) result {
	column, err := w.out.House.Balance(heat.Case{Name: name, Shell: shell, Windows: w.glass(w.windows, w.windows.sun(state))}, w.air)
	if err != nil {
		return result{err: fmt.Errorf("heat: %w", err)}
	}
	r := result{column: column}
	if units := w.heaters(state); len(units) > 0 {
		if r.air, err = w.out.House.AirHeaters(column, w.air, units, heat.BandDefault); err != nil {
			return result{err: fmt.Errorf("air heaters: %w", err)}
		}
	}
	r.water = w.waterIn(state)
	if w.out.WaterHeat != nil && w.out.WaterHeat.Solar > 0 {
		r.pump = w.out.WaterHeat.Pump * r.water / w.out.WaterHeat.Solar
	}
	if r.coil, err = w.coilIn(state, r); err != nil {
		return result{err: fmt.Errorf("duct coil: %w", err)}
	}
	return r
}

// runAll works out many states, on all processors.
func runAll(n int, one func(i int) result) ([]result, error) {
	out := make([]result, n)
	next := make(chan int)
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := range next {
				out[i] = one(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	all.Wait()
	for _, r := range out {
		if r.err != nil {
			return nil, r.err
		}
	}
	return out, nil
}

// columns are the conditions a committee asks for.
func (w *heatStudy) columns(today, best shading.State) error {
	type condition struct {
		name  string
		shell heat.Shell
		state shading.State
	}
	list := []condition{{"as found", w.out.Before, today}, {"after the rehab", w.out.After, today}}
	for _, p := range w.Plans {
		list = append(list, condition{p.Name, w.out.After, p.State})
	}
	w.out.Best = len(list)
	name := w.out.BestName
	if name == "" {
		name = "best set: nothing"
	}
	list = append(list, condition{name, w.out.After, best},
		condition{"no trees at all", w.out.After, w.Account.Without(today, w.treeIDs()...)})
	all, err := runAll(len(list), func(i int) result { return w.run(list[i].name, list[i].shell, list[i].state) })
	if err != nil {
		return err
	}
	from := all[Rehab]
	w.rehab = from
	for i, r := range all {
		w.out.Columns = append(w.out.Columns, r.column)
		worth := w.worth(list[i].name, from, r)
		if i == AsFound { // another shell: no worth of trees
			worth = Worth{Name: list[i].name, Air: r.air.Useful, Water: r.hotWater(), Coil: r.coil.Useful, Fan: r.power()}
		}
		w.out.States = append(w.out.States, worth)
	}
	if len(w.heaters(best)) > 0 {
		w.out.AirHeat = &all[w.out.Best].air
	}
	if w.hasCoil() {
		w.out.Coil = &all[w.out.Best].coil
	}
	return nil
}

// trees are what each tree's removal alone is worth.
func (w *heatStudy) trees(today shading.State) error {
	ids := w.treeIDs()
	all, err := runAll(len(ids), func(i int) result {
		state := w.Account.Without(today, ids[i])
		if !w.matters(state) {
			return w.rehab
		}
		return w.run(ids[i], w.out.After, state)
	})
	if err != nil {
		return err
	}
	for i, r := range all {
		x := w.worth(ids[i], w.rehab, r)
		w.out.Trees = append(w.out.Trees, TreeWorth{ID: ids[i], Windows: x.Windows.Saved, Air: x.AirMore, Water: x.WaterMore, Coil: x.CoilMore,
			SummerGain: x.Windows.SummerGain, Dollars: x.Saving})
	}
	return nil
}

// matters tells whether a state changes the sun on a window or a panel.
func (w *heatStudy) matters(state shading.State) bool {
	for k, r := range []receivers{w.windows, w.panels} {
		if len(r.which) == 0 {
			continue
		}
		then := r.account.Totals(state)
		if slices.ContainsFunc(r.which, func(i int) bool { return math.Abs(then[i]-w.now[k][i]) > 1e-9 }) {
			return true
		}
	}
	return false
}

func numbers(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// monthlySun is what a panel surface gets by month in a state, kWh/m².
func monthlySun(r *shading.Reached) heat.Months {
	var out heat.Months
	for m := range out {
		out[m] = r.Total(time.Month(m + 1))
	}
	return out
}
