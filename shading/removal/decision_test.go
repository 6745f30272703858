package removal

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestStandingsAreWhatTheGameReaches(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 1))
	for round := range 30 {
		d := randomDecision(r, 8, 40, 6)
		if round%2 == 1 {
			d = randomMenu(r, 5, 60)
		}
		allowed, removals := make([]bool, len(d.Candidates)), d.Removals()
		for i := range allowed {
			allowed[i] = r.IntN(3) > 0
		}
		for _, s := range d.Rank(allowed) {
			var i int
			others := make([]bool, len(d.Candidates))
			for j, c := range d.Candidates {
				if c.ID == s.ID {
					i = j
				}
				others[j] = allowed[j] && removals[j] && c.tree() != s.tree()
			}
			near(t, s.ID+" alone", s.Alone, d.Game.Alone(i), 1e-9)
			before := d.Game.Reach(others)
			others[i] = true
			near(t, s.ID+" after all others", s.AfterAllOthers, d.Game.Reach(others)-before, 1e-9)
		}
	}
}

func TestOrderOfTreesIsIrrelevant(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 1))
	for round := range 20 {
		d := randomDecision(r, 8, 40, 5)
		if round%2 == 1 {
			d = randomMenu(r, 4, 40)
		}
		e := shuffled(r, d)
		if err := e.Check(); err != nil {
			t.Fatal(err)
		}
		a, b := d.Curve(d.All()), e.Curve(e.All())
		if len(a.Steps) != len(b.Steps) || a.Knee != b.Knee {
			t.Fatalf("curves of %d and %d steps, knees %d and %d", len(a.Steps), len(b.Steps), a.Knee, b.Knee)
		}
		for i := range a.Steps {
			if !slices.Equal(a.Steps[i].IDs, b.Steps[i].IDs) {
				t.Errorf("step %d: %v or %v", i, a.Steps[i].IDs, b.Steps[i].IDs)
			}
		}
		x, y := d.Rank(d.All()), e.Rank(e.All())
		for i := range x {
			if x[i].ID != y[i].ID {
				t.Errorf("standing %d: %s or %s", i, x[i].ID, y[i].ID)
			}
			near(t, x[i].ID+" alone", y[i].Alone, x[i].Alone, 1e-9)
			near(t, x[i].ID+" after all others", y[i].AfterAllOthers, x[i].AfterAllOthers, 1e-9)
		}
		last := a.Steps[len(a.Steps)-1]
		jobs, err := d.Order(last.Set)
		if err != nil {
			t.Fatal(err)
		}
		again, err := e.Order(b.Steps[len(b.Steps)-1].Set)
		if err != nil {
			t.Fatal(err)
		}
		for i := range jobs {
			if !slices.Equal(jobs[i].IDs, again[i].IDs) {
				t.Errorf("job %d: %v or %v", i, jobs[i].IDs, again[i].IDs)
			}
		}
	}
}

func TestResultsMarshalWithoutNaN(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 1))
	d := randomDecision(r, 5, 0, 0) // no tree gains anything
	d.Candidates[2].Cost = 0
	d.Candidates[3].Agreed = false
	jobs, err := d.Order([]int{0, 1, 2, 3, 4})
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]any{
		"rank": d.Rank(d.All()), "curve": d.Curve(d.All()), "best": d.Best(math.Inf(1), d.All()),
		"order": jobs, "talk": d.Talk(math.Inf(1)),
	} {
		if _, err := json.Marshal(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if CostPerKWh(100, 0) != nil || CostPerKWh(0, 0) != nil || CostPerKWh(math.Inf(1), 5) != nil || CostPerKWh(math.NaN(), 5) != nil {
		t.Error("a price without a gain or without a cost is not null")
	}
	near(t, "price", *CostPerKWh(100, 50), 2, 0)
}

func TestDecisionCheckNamesTheFault(t *testing.T) {
	game := Game{Trees: 2, Clears: [][]int{{0}, {0, 1}}}
	for name, c := range map[string]struct {
		candidates []Candidate
		says       string
	}{
		"too few":                   {[]Candidate{{ID: "a"}}, "one each"},
		"same id":                   {[]Candidate{{ID: "a"}, {ID: "a"}}, "used twice"},
		"negative cost":             {[]Candidate{{ID: "a", Tree: "t", Cost: -1}, {ID: "b", Tree: "t"}}, "cost"},
		"cost not a number":         {[]Candidate{{ID: "a", Tree: "t", Cost: math.NaN()}, {ID: "b", Tree: "t"}}, "cost"},
		"a screen of two trees":     {[]Candidate{{ID: "a"}, {ID: "b"}}, "belongs to tree a"},
		"the game's own fault too ": {nil, "one each"},
	} {
		err := Decision{Game: game, Candidates: c.candidates}.Check()
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v does not say %q", name, err, c.says)
		}
	}
}
