package removal

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestExactBestSetMatchesBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for round := range 60 {
		d := randomDecision(r, 1+r.IntN(10), 30, 6)
		if round%2 == 1 {
			d = randomMenu(r, 1+r.IntN(5), 40)
		}
		if err := d.Check(); err != nil {
			t.Fatal(err)
		}
		allowed := d.All()
		for i := range allowed {
			allowed[i] = r.IntN(6) > 0
		}
		for range 5 {
			budget := float64(r.IntN(8000))
			got := d.Best(budget, allowed)
			gain, cost := bruteBest(d, budget, allowed)
			near(t, "gain", got.Gain, gain, 1e-8)
			near(t, "cost", got.Cost, cost, 1e-8)
			if !got.Exact || got.Cost > budget {
				t.Errorf("budget %g: cost %g, exact %v", budget, got.Cost, got.Exact)
			}
		}
	}
}

func TestManyCandidatesStateTheirGap(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	d := randomDecision(r, 40, 600, 5)
	b := d.Best(8000, d.All())
	if b.Cost > 8000 || b.Upper < b.Gain || b.Gain <= 0 {
		t.Errorf("cost %g, gain %g, upper %g", b.Cost, b.Gain, b.Upper)
	}
	gap := (b.Upper - b.Gain) / b.Gain
	t.Logf("40 candidates, $8,000: %.2f kWh, proven bound %.2f, gap %.3f %%", b.Gain, b.Upper, 100*gap)
	if gap > 0.02 {
		t.Errorf("gap %.1f %% is more than 2 %%", 100*gap)
	}
}

func TestBestSetMatchesPublishedKnapsacks(t *testing.T) {
	rows := read(t, "knapsack.csv")
	for _, name := range []string{"P01", "P08"} {
		d := Decision{}
		var want []string
		var capacity, optimum float64
		for _, row := range rows {
			if row["problem"] != name {
				continue
			}
			i := d.Game.Trees
			d.Game.Trees++
			// No tree shades another: one opaque tree a ray.
			d.Game.Terms = append(d.Game.Terms, Term{row.Number("profit"), []int{i}, []float64{0}})
			id := fmt.Sprintf("%02d", i)
			d.Candidates = append(d.Candidates, Candidate{ID: id, Cost: row.Number("weight"), Agreed: true})
			if row["taken"] == "1" {
				want = append(want, id)
			}
			capacity, optimum = row.Number("capacity"), row.Number("optimum")
		}
		b := d.Best(capacity, d.All())
		near(t, name, b.Gain, optimum, 1e-6)
		if !b.Exact || !slices.Equal(b.IDs, want) {
			t.Errorf("%s: takes %v (exact %v), published %v", name, b.IDs, b.Exact, want)
		}
	}
}

func TestLongRaysAreExactToo(t *testing.T) {
	// One ray through 20 trees and a few more: over the 16 of an everyday term.
	r := rand.New(rand.NewPCG(15, 1))
	d := randomDecision(r, 20, 20, 4)
	long := Term{Energy: 500}
	for i := range 20 {
		long.Trees, long.Tau = append(long.Trees, i), append(long.Tau, 0.5+0.4*r.Float64())
	}
	d.Game.Terms = append(d.Game.Terms, long)
	sp := newSpace(d.groups(d.All()))
	reach := d.Game.table(sp)
	for range 200 {
		at := r.IntN(sp.size)
		near(t, fmt.Sprint(at), reach[at], d.Game.Reach(d.mask(sp.set(at))), 1e-9)
	}
}

func TestTooMuchToTabulateIsSearched(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 1))
	d := randomDecision(r, 22, 0, 0)
	for range 80 { // 80 × 2²² additions are over the limit
		long := Term{Energy: 10}
		for i := range 22 {
			long.Trees, long.Tau = append(long.Trees, i), append(long.Tau, 0.8)
		}
		d.Game.Terms = append(d.Game.Terms, long)
	}
	if d.Game.table(newSpace(d.groups(d.All()))) != nil {
		t.Fatal("tabulated")
	}
	b := d.Best(5000, d.All())
	if b.Cost > 5000 || b.Gain <= 0 || b.Upper < b.Gain {
		t.Errorf("cost %g gain %g upper %g", b.Cost, b.Gain, b.Upper)
	}
}

func TestBudgetsAtTheEdges(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	d := randomDecision(r, 6, 30, 4)
	for _, budget := range []float64{0, -5, math.NaN()} {
		if b := d.Best(budget, d.All()); len(b.Set) != 0 || b.Gain != 0 {
			t.Errorf("budget %v buys %v", budget, b.IDs)
		}
	}
	whole := d.Game.Open() - d.Game.Reach(nil)
	near(t, "no limit", d.Best(math.Inf(1), d.All()).Gain, whole, 1e-9*whole)
	if b := d.Best(1e6, nil); len(b.Set) != 0 {
		t.Errorf("nothing allowed, yet %v", b.IDs)
	}
	none := Decision{}
	if c := none.Curve(nil); len(c.Steps) != 1 || c.Knee != -1 {
		t.Errorf("no candidates: %+v", c)
	}
}

func TestATreeThatGainsNothingIsNeverFelled(t *testing.T) {
	d := Decision{
		Game:       Game{Trees: 3, Terms: []Term{{10, []int{0}, []float64{0.5}}}},
		Candidates: []Candidate{{ID: "T1", Cost: 100}, {ID: "T2"}, {ID: "T3", Cost: 50}},
	}
	if b := d.Best(math.Inf(1), d.All()); !slices.Equal(b.IDs, []string{"T1"}) {
		t.Errorf("fells %v", b.IDs)
	}
	f := d.field(d.groups(d.All()))
	if s := f.search(cents(1e6), 1000); len(f.set(s.best)) != 1 {
		t.Errorf("the search fells %v", f.set(s.best))
	}
}
