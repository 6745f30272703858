package study

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/southyard/southyard/model"
)

// The four screens give back what the ray passes in each state of the tree.
func TestScreensGiveBackEveryState(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 10000 {
		// Rays that miss a crown pass everything, trunks nothing.
		pick := func() float64 { return []float64{0, 1, r.Float64(), r.Float64()}[r.IntN(4)] }
		today := pick()
		raised, reduced := max(today, pick()), max(today, pick())
		s := screens(today, raised, reduced)
		for what, pair := range map[string][2]float64{
			"today": {s[0] * s[1] * s[2] * s[3], today}, "raised": {s[2] * s[3], raised}, "reduced": {s[1] * s[3], reduced},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-12 {
				t.Fatalf("%v, %v, %v: %s passes %v", today, raised, reduced, what, pair[0])
			}
		}
		for _, x := range s {
			if x < 0 || x > 1 {
				t.Fatalf("screen of %v", x)
			}
		}
	}
}

func TestCrownWorkTakesNoMoreThanAQuarter(t *testing.T) {
	st := decidedAlder(t)
	for _, tree := range st.Site.Trees {
		whole := tree.Crown().Volume()
		if p, ok := raised(tree); ok {
			if left := p.Crown().Volume() / whole; left < 1-liveCrown-1e-6 || p.Cleared > max(tree.Height/3, tree.CrownBase)+1e-9 {
				t.Errorf("%s: raised to %.1f m of %.1f leaves %.2f of the crown", tree.ID, p.Cleared, tree.Height, left)
			}
		}
		if p, ok := reduced(tree); ok {
			if left := p.Crown().Volume() / whole; math.Abs(left-(1-liveCrown)) > 1e-6 || tree.Evergreen {
				t.Errorf("%s: reduced to %.2f of the crown", tree.ID, left)
			}
		}
	}
}

// What the game says of raising a crown is what a plan that raises it gives,
// but for the thinner cast.
func TestRaisingInTheGameIsRaisingInAPlan(t *testing.T) {
	st := decidedAlder(t)
	w := st.Targets[1].Work
	site, year, monthly := alder(t)
	site.Plans = nil
	var ids []string
	for id, p := range w.Pruned {
		kind, height, spread := model.Raise, p.Cleared, 0.0
		if id == reduceID(p.ID) {
			kind, height, spread = model.Reduce, p.Height, p.SpreadX
		}
		if kind == model.Reduce && p.SpreadX != p.SpreadY {
			continue // a plan's step has one spread
		}
		ids = append(ids, id)
		site.Plans = append(site.Plans, model.Plan{Name: id, Steps: []model.Step{{Kind: kind, Tree: p.ID, Height: height, Spread: spread}}})
	}
	plans, err := Run(site, year, monthly, Options{})
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, s := range w.Standing {
		at := slices.Index(ids, s.ID)
		if at < 0 {
			continue
		}
		gain := plans.Targets[1].PlanSun[at] - plans.Targets[1].Now
		if gain < 10 {
			continue
		}
		compared++
		t.Logf("%s: %.1f kWh in the game, %.1f as a plan", s.ID, s.Alone, gain)
		if math.Abs(s.Alone-gain) > 0.03*gain+0.5 {
			t.Errorf("%s: %.1f kWh in the game, %.1f as a plan", s.ID, s.Alone, gain)
		}
	}
	if compared < 4 {
		t.Errorf("only %d options compared", compared)
	}
}

func TestMoreChoicesNeverBuyLess(t *testing.T) {
	st := decidedAlder(t)
	for _, target := range st.Targets {
		if target.Work == nil {
			t.Fatalf("%s: no crown work weighed", target.Name)
		}
		if target.Work.Best.Gain < 0.99*target.Best.Gain || target.Work.Best.Cost > st.Site.Budget {
			t.Errorf("%s: with crown work %.0f kWh for %.0f dollars, without %.0f", target.Name, target.Work.Best.Gain, target.Work.Best.Cost, target.Best.Gain)
		}
		for _, s := range target.Work.Standing {
			if st.tree(s.Tree).Keep && s.Allowed {
				t.Errorf("%s: work on %s, which is to be kept", target.Name, s.Tree)
			}
		}
	}
}
