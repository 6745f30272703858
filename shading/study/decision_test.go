package study

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading/removal"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
)

// alderYear is the year of that lot's place, made once for all tests.
var alderYear struct {
	once    sync.Once
	year    sun.Year
	monthly climate.Monthly
	err     error
}

// alder reads the invented lot of the examples and the year of its place.
func alder(t *testing.T) (*model.Site, *sun.Year, climate.Monthly) {
	t.Helper()
	name := filepath.Join("..", "..", "examples", "alder-row", "site.yaml")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	site, faults := sitefile.Read(name, data)
	for _, f := range faults {
		if !f.Warning {
			t.Fatal(f)
		}
	}
	y := &alderYear
	y.once.Do(func() { y.year, y.monthly, y.err = climate.ForSite(site.Place, site.Climate, os.ReadFile, 1) })
	if y.err != nil {
		t.Fatal(y.err)
	}
	return site, &y.year, y.monthly
}

var decided struct {
	once sync.Once
	st   *Study
	err  error
}

// decidedAlder is the whole decision on that lot, made once for all tests.
func decidedAlder(t *testing.T) *Study {
	t.Helper()
	decided.once.Do(func() {
		site, year, monthly := alder(t)
		decided.st, decided.err = Run(site, year, monthly, Options{Draws: 12, Seed: 7, Decide: true})
	})
	if decided.err != nil {
		t.Fatal(decided.err)
	}
	return decided.st
}

// windowLot is a house with one small window in the middle of its south wall.
func windowLot(trees ...model.Tree) *model.Site {
	site := &model.Site{
		Name: "window", Trees: trees,
		House:   model.Building{ID: "house", Parts: []model.Part{{ID: "main", Footprint: orb.Ring{{-5, 0}, {5, 0}, {5, 8}, {-5, 8}, {-5, 0}}, WallHeight: 4, Roof: model.Roof{Kind: model.Flat}}}},
		Windows: []model.Window{{ID: "W1", Wall: "south", Left: 4.9, Sill: 1.9, Width: 0.2, Height: 0.2}},
		Targets: []model.Target{{Name: "W1", Parts: map[string]float64{"W1": 1}, Season: []time.Month{time.January}}},
	}
	return site
}

// Two crowns in line, one the other scaled twofold about the window: what
// crosses one crosses both. With x behind them and transmissivities a and b,
//
//	alone: x(1−a)b and x(1−b)a; after the other: x(1−a) and x(1−b);
//	both: x(1−ab); fair: the means of alone and after the other.
//
// The cast must give these back.
func TestTwoTreesInLineGiveTheClosedForm(t *testing.T) {
	const a, b, eye = 0.35, 0.6, 2.0 // eye: height of the window's middle
	near := model.Tree{ID: "near", At: orb.Point{1, -6}, Height: 9, CrownBase: 1.5, SpreadX: 6, SpreadY: 5, Shape: model.Ellipsoid, Evergreen: true, InLeaf: a, Bare: a, Owner: model.OwnerLot, Removable: true, Cost: 100}
	far := near
	far.ID, far.At, far.InLeaf, far.Bare = "far", orb.Point{2, -12}, b, b
	far.CrownBase, far.Height = eye+2*(near.CrownBase-eye), eye+2*(near.Height-eye)
	far.SpreadX, far.SpreadY = 2*near.SpreadX, 2*near.SpreadY
	_, year, monthly := alder(t)
	site := windowLot(near, far)
	site.Place = model.Place{LatLng: alderPlace(t)}
	st, err := Run(site, year, monthly, Options{Row: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	target := &st.Targets[0]
	x := target.Decision.GainOf([]int{0, 1}) / (1 - a*b)
	if x < 0.2*target.Open {
		t.Fatalf("only %.3f of %.3f kWh stand behind the trees; the case is empty", x, target.Open)
	}
	for _, s := range target.Standing {
		p, q := a, b
		if s.ID == "far" {
			p, q = b, a
		}
		for what, pair := range map[string][2]float64{
			"alone": {s.Alone, x * (1 - p) * q}, "after the other": {s.AfterAllOthers, x * (1 - p)}, "fair share": {*s.Fair, x * (1 - p) * (1 + q) / 2},
		} {
			// The window is 20 cm wide, not a point: edges differ a little.
			if math.Abs(pair[0]/pair[1]-1) > 0.01 {
				t.Errorf("%s, %s: %.4f kWh, closed form %.4f", s.ID, what, pair[0], pair[1])
			}
		}
	}
}

func TestAPlanOnAPlanIsTheSumOfTheirSteps(t *testing.T) {
	site, year, monthly := alder(t)
	site.Plans = []model.Plan{
		{Name: "first", Steps: []model.Step{{Kind: model.Remove, Tree: "T2"}}},
		{Name: "second", On: "first", Steps: []model.Step{{Kind: model.Remove, Tree: "T7"}}},
		{Name: "both", Steps: []model.Step{{Kind: model.Remove, Tree: "T2"}, {Kind: model.Remove, Tree: "T7"}}},
	}
	st, err := Run(site, year, monthly, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, target := range st.Targets {
		if a, b := target.PlanSun[1], target.PlanSun[2]; math.Abs(a-b) > 1e-9*b || a <= target.PlanSun[0] {
			t.Errorf("%s: the plan on a plan gives %v kWh, all its steps %v, the first alone %v", target.Name, a, b, target.PlanSun[0])
		}
	}
	if a, b := st.Plans[1].Cost, st.Plans[2].Cost; a != b || a != st.tree("T2").Cost+st.tree("T7").Cost {
		t.Errorf("the plan on a plan costs %v, all its steps %v", a, b)
	}
}

func TestPlanTableHasEveryPlanBetweenAsItIsAndNoTrees(t *testing.T) {
	st := decidedAlder(t)
	rows := st.PlanTable()
	each := len(st.Plans) + 3
	if len(rows) != each*len(st.Targets) {
		t.Fatalf("%d rows for %d targets and %d plans", len(rows), len(st.Targets), len(st.Plans))
	}
	for n := range st.Targets {
		part := rows[n*each : (n+1)*each]
		first, last := part[0], part[each-1]
		if first.Plan != AsItIs || first.Gain != 0 || last.Plan != NoTreesAtAll {
			t.Errorf("rows run from %q to %q", first.Plan, last.Plan)
		}
		for _, r := range part[1 : each-1] {
			if r.Gain < -1e-6 || r.Gain > last.Gain+1e-6 {
				t.Errorf("%s, %s: gain %v outside 0..%v", r.Target, r.Plan, r.Gain, last.Gain)
			}
			if r.Low == nil || r.High == nil || *r.Low > *r.High || *r.High < r.Gain/3 || *r.Low > 3*r.Gain {
				t.Errorf("%s, %s: range %v..%v beside a gain of %v", r.Target, r.Plan, r.Low, r.High, r.Gain)
			}
			if r.Cost == nil || r.CostPerKWh != nil && math.Abs(*r.CostPerKWh*r.Gain/(*r.Cost)-1) > 1e-9 {
				t.Errorf("%s, %s: cost %v and cost a kWh do not agree", r.Target, r.Plan, r.Cost)
			}
		}
	}
}

func TestWorkOrderTakesTheBestSetFirst(t *testing.T) {
	st := heat42(t)
	for i := range st.Targets {
		target := &st.Targets[i]
		best, more := target.WorkOrder()
		var ids []string
		for _, j := range best {
			ids = append(ids, j.IDs...)
		}
		slices.Sort(ids)
		want := slices.Sorted(slices.Values(target.Best.IDs))
		if !slices.Equal(ids, want) {
			t.Errorf("%s: first comes %v, the best set is %v", target.Name, ids, want)
		}
		if n := len(best); n > 0 && (!same(best[n-1].TotalGain, target.Best.Gain, 1e-9) || best[n-1].TotalCost != target.Best.Cost) {
			t.Errorf("%s: ends at %+v, the best set gains %g for %g", target.Name, best[n-1], target.Best.Gain, target.Best.Cost)
		}
		taken := slices.Clone(target.Best.Set)
		for _, j := range more {
			if taken = append(taken, j.Set...); j.Gain < leastGain {
				t.Errorf("%s: %v is listed and adds %g kWh", target.Name, j.IDs, j.Gain)
			}
		}
		var left []int
		for _, j := range target.Order {
			for _, i := range j.Set {
				if !slices.Contains(taken, i) {
					left = append(left, i)
				}
			}
		}
		jobs, err := target.Decision.OrderAfter(taken, left)
		for _, j := range jobs {
			if j.Gain >= leastGain {
				t.Errorf("%s: %v adds %g kWh and is not in the order of work", target.Name, j.IDs, j.Gain)
			}
		}
		if err != nil {
			t.Error(err)
		}
	}
}

// A hawthorn and a tree behind the house shade nothing: the screen and the JSON
// leave them out, and no total counts their price. A sumac adds nothing before
// the spruce is gone, but then it does.
func TestWhatAddsNothingIsInNoOrderOfWork(t *testing.T) {
	d := removal.Decision{
		Game: removal.Game{Trees: 5, Fixed: 400, Terms: []removal.Term{
			{Energy: 900, Trees: []int{0}, Tau: []float64{0.1}},
			{Energy: 0.4, Trees: []int{1}, Tau: []float64{0}}, // for little money, so early in the order
			{Energy: 200, Trees: []int{2}, Tau: []float64{0.2}},
			{Energy: 40, Trees: []int{2, 4}, Tau: []float64{0, 0.5}},
			{Energy: 0.4, Trees: []int{4}, Tau: []float64{0}},
		}},
	}
	for i, id := range []string{"maple", "hawthorn", "spruce", "behind the house", "sumac"} {
		d.Candidates = append(d.Candidates, removal.Candidate{ID: id, Cost: []float64{1000, 1, 900, 770, 1}[i], Owner: "lot", Agreed: true})
	}
	order, err := d.Order([]int{0, 1, 2, 3, 4})
	if err != nil {
		t.Fatal(err)
	}
	target := Target{Decision: d, Order: order, Best: d.Best(1000, d.Agreed()), Now: 500}
	if !slices.Equal(target.Best.IDs, []string{"maple"}) {
		t.Fatalf("the best set is %v", target.Best.IDs)
	}
	words := target.orderWords()
	if want := []string{"maple +810 (to 1310, $1,000)", "then if money comes spruce +180 (to 1490, $1,900)", "sumac +20 (to 1510, $1,901)"}; !slices.Equal(words, want) {
		t.Errorf("the screen says %q, want %q", words, want)
	}
	var r TargetResult
	r.Order, r.Then = target.WorkOrder()
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Then []struct {
			Trees []string `json:"trees"`
			Total float64  `json:"total_cost_usd"`
		} `json:"then_if_money_comes"`
	}
	if err := json.Unmarshal(data, &got); err != nil || len(got.Then) != 2 || got.Then[0].Total != 1900 || got.Then[1].Total != 1901 {
		t.Errorf("results.json says %+v, %v", got.Then, err)
	}
}
