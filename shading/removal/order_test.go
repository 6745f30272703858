package removal

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// hidden is a lot with one plain tree and two opaque ones in line: alone, either
// of the two gains nothing, together they gain the most.
func hidden() Decision {
	return Decision{
		Game: Game{Trees: 3, Terms: []Term{
			{60, []int{0}, []float64{0}},
			{300, []int{1, 2}, []float64{0, 0}},
		}},
		Candidates: []Candidate{
			{ID: "T1", Cost: 1000, Owner: "lot", Agreed: true},
			{ID: "T2", Cost: 1000, Owner: "lot", Agreed: true},
			{ID: "T3", Cost: 1000, Owner: "neighbour"},
		},
	}
}

func TestPairInLineIsOneJobAndComesFirst(t *testing.T) {
	d := hidden()
	jobs, err := d.Order([]int{0, 1, 2})
	if err != nil {
		t.Fatal(err)
	}
	if len(jobs) != 2 || !slices.Equal(jobs[0].IDs, []string{"T2", "T3"}) || !slices.Equal(jobs[1].IDs, []string{"T1"}) {
		t.Fatalf("jobs: %+v", jobs)
	}
	near(t, "gain of the pair", jobs[0].Gain, 300, 1e-9)
	near(t, "dollars for a kWh", *jobs[0].CostPerKWh, 2000.0/300, 1e-9)
	near(t, "total gain", jobs[1].TotalGain, 360, 1e-9)
	near(t, "total cost", jobs[1].TotalCost, 3000, 1e-9)
}

func TestTreesThatHardlyShadeEachOtherAreSingleJobs(t *testing.T) {
	d := Decision{
		Game: Game{Trees: 2, Terms: []Term{
			{100, []int{0}, []float64{0}}, {99, []int{1}, []float64{0}}, {5, []int{0, 1}, []float64{0, 0}},
		}},
		Candidates: []Candidate{{ID: "T1", Cost: 500}, {ID: "T2", Cost: 500}},
	}
	jobs, err := d.Order([]int{1, 0})
	if err != nil {
		t.Fatal(err)
	}
	if len(jobs) != 2 || jobs[0].IDs[0] != "T1" || jobs[1].IDs[0] != "T2" {
		t.Fatalf("jobs: %+v", jobs)
	}
	near(t, "second gains what the first opened", jobs[1].Gain, 104, 1e-9)
}

func TestWithoutCostsTheGreatestGainGoesFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 1))
	d := Decision{Game: randomGame(r, 6, 200, 1)} // no two trees in line
	all := []int{}
	for i := range 6 {
		d.Candidates = append(d.Candidates, Candidate{ID: fmt.Sprint(i), CostUnknown: true})
		all = append(all, i)
	}
	jobs, err := d.Order(all)
	if err != nil {
		t.Fatal(err)
	}
	for k, j := range jobs {
		if len(j.IDs) != 1 || !j.CostUnknown || k > 0 && j.Gain > jobs[k-1].Gain+1e-9 {
			t.Errorf("job %d: %+v", k, j)
		}
	}
}

func TestFreeWorkComesFirst(t *testing.T) {
	d := Decision{
		Game:       Game{Trees: 2, Terms: []Term{{100, []int{0}, []float64{0}}, {1, []int{1}, []float64{0}}}},
		Candidates: []Candidate{{ID: "T1", Cost: 10}, {ID: "T2"}},
	}
	jobs, err := d.Order([]int{0, 1})
	if err != nil {
		t.Fatal(err)
	}
	if jobs[0].IDs[0] != "T2" || *jobs[0].CostPerKWh != 0 {
		t.Errorf("first job: %+v", jobs[0])
	}
}

// The order taken from the pair sums must be the order taken from plain what-ifs.
func TestOrderIsGreedyByPlainWhatIfs(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 1))
	for round := range 40 {
		d := randomDecision(r, 7, 30, 5)
		set := []int{0, 1, 2, 3, 4, 5, 6}
		if round%2 == 1 {
			d = randomMenu(r, 6, 60)
			set = set[:0]
			for _, g := range d.groups(d.All()) {
				set = append(set, g[r.IntN(len(g))])
			}
		}
		jobs, err := d.Order(set)
		if err != nil {
			t.Fatal(err)
		}
		done := make([]bool, len(d.Candidates))
		left := append([]int(nil), set...)
		for _, job := range jobs {
			before := d.Game.Reach(done)
			gain := func(ids ...int) float64 {
				with := append([]bool(nil), done...)
				for _, i := range ids {
					with[i] = true
				}
				return d.Game.Reach(with) - before
			}
			near(t, fmt.Sprint("gain of ", job.IDs), job.Gain, gain(job.Set...), 1e-8)
			got := job.Gain / job.Cost
			for _, i := range left {
				if single := gain(i) / d.Candidates[i].Cost; single > got*(1+1e-7) {
					t.Errorf("job %v pays %g, %s alone pays %g", job.IDs, got, d.Candidates[i].ID, single)
				}
				for _, j := range left {
					if j <= i {
						continue
					}
					pair := gain(i, j)
					if pair-gain(i)-gain(j) > 0.1001*pair && pair/(d.Candidates[i].Cost+d.Candidates[j].Cost) > got*(1+1e-7) {
						t.Errorf("job %v pays %g, the pair %d, %d in line pays more", job.IDs, got, i, j)
					}
				}
			}
			for _, i := range job.Set {
				done[i] = true
				left = without(left, i)
			}
		}
		last := jobs[len(jobs)-1]
		near(t, "total gain", last.TotalGain, d.GainOf(set), 1e-8)
		near(t, "total cost", last.TotalCost, d.CostOf(set), 1e-8)
	}
}

func TestOrderRefusesTwoOptionsOfOneTree(t *testing.T) {
	d := Decision{
		Game:       Game{Trees: 2, Clears: [][]int{{0}, {0, 1}}},
		Candidates: []Candidate{{ID: "raise T1", Tree: "T1"}, {ID: "remove T1", Tree: "T1"}},
	}
	if _, err := d.Order([]int{0, 1}); err == nil || !strings.Contains(err.Error(), "both for tree T1") {
		t.Errorf("error: %v", err)
	}
	if _, err := d.Order([]int{5}); err == nil {
		t.Error("a candidate that is not there is accepted")
	}
}

func TestRankingTellsAloneFromFairFromLast(t *testing.T) {
	d := hidden()
	d.Game.Terms = append(d.Game.Terms, Term{40, nil, nil})
	for _, s := range d.Rank(d.All()) {
		switch s.ID {
		case "T1":
			near(t, "T1 alone", s.Alone, 60, 1e-9)
			near(t, "T1 costs you", s.OfOpen, 60.0/400, 1e-9)
			near(t, "T1 dollars a kWh", *s.CostPerKWhAlone, 1000.0/60, 1e-9)
		case "T2":
			near(t, "T2 alone", s.Alone, 0, 1e-9)
			near(t, "T2 last", s.AfterAllOthers, 300, 1e-9)
			near(t, "T2 fair", *s.Fair, 150, 1e-9)
			if s.CostPerKWhAlone != nil {
				t.Error("T2 alone gains nothing, yet it has a price")
			}
		}
	}
	// The neighbour does not agree: T3 is a blocker, T2 is worth nothing.
	for _, s := range d.Rank(d.Agreed()) {
		switch s.ID {
		case "T2":
			near(t, "T2 last", s.AfterAllOthers, 0, 1e-9)
			near(t, "T2 fair", *s.Fair, 0, 1e-9)
		case "T3":
			near(t, "T3 after the agreed", s.AfterAllOthers, 300, 1e-9)
			if s.Fair != nil || s.Allowed {
				t.Error("a tree that is not allowed has a fair share")
			}
		}
	}
}

func TestRankingOfOptionsSharesAmongRemovals(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 1))
	d := randomMenu(r, 5, 60)
	sum := 0.0
	for _, s := range d.Rank(d.All()) {
		if (s.Fair != nil) != (s.Kind == "remove") {
			t.Errorf("%s: fair share %v", s.ID, s.Fair)
		}
		if s.Fair != nil {
			sum += *s.Fair
		}
		if s.Alone > s.AfterAllOthers+1e-9 {
			t.Errorf("%s: alone %g, last %g", s.ID, s.Alone, s.AfterAllOthers)
		}
	}
	near(t, "sum of fair shares", sum, d.Game.Open()-d.Game.Reach(nil), 1e-9)
}

func TestTalkingToTheNeighbourIsWorthWhatTheTreeInLineHides(t *testing.T) {
	talks := hidden().Talk(2000)
	if len(talks) != 1 || talks[0].Owner != "neighbour" || !slices.Equal(talks[0].Trees, []string{"T3"}) {
		t.Fatalf("talks: %+v", talks)
	}
	near(t, "without", talks[0].Without.Gain, 60, 1e-9)
	near(t, "with", talks[0].With.Gain, 300, 1e-9)
	near(t, "worth", talks[0].Gain, 240, 1e-9)
	if poor := hidden().Talk(1000); poor[0].Gain != 0 {
		t.Errorf("for $1,000 only one of the pair can go, yet the talk is worth %g", poor[0].Gain)
	}
}

func TestTalkingToBothOwnersCanBeWorthMoreThanTheSum(t *testing.T) {
	d := hidden()
	d.Candidates[1].Agreed, d.Candidates[1].Owner = false, "city"
	talks := d.Talk(math.Inf(1))
	if len(talks) != 3 || talks[2].Owner != Everyone {
		t.Fatalf("talks: %+v", talks)
	}
	near(t, "one", talks[0].Gain, 0, 1e-9)
	near(t, "other", talks[1].Gain, 0, 1e-9)
	near(t, "both", talks[2].Gain, 300, 1e-9)
}

func TestOrderAfterGoesOnWhereTheDoneSetEnds(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for n := range 40 {
		d := hidden()
		d.Game.Trees = 6
		d.Game.Terms = nil
		d.Candidates = nil
		for i := range 6 {
			d.Candidates = append(d.Candidates, Candidate{ID: fmt.Sprintf("T%d", i+1), Cost: float64(300 + random.IntN(2000)), Owner: "lot", Agreed: true})
			d.Game.Terms = append(d.Game.Terms, Term{10 + 100*random.Float64(), []int{i}, []float64{.4}})
			if j := random.IntN(6); j > i {
				d.Game.Terms = append(d.Game.Terms, Term{10 + 100*random.Float64(), []int{i, j}, []float64{.3, .2}})
			}
		}
		done, rest := []int{0, 3}, []int{1, 2, 4, 5}
		first, err := d.Order(done)
		if err != nil {
			t.Fatal(err)
		}
		after, err := d.OrderAfter(done, rest)
		if err != nil {
			t.Fatal(err)
		}
		all, _ := d.Order([]int{0, 1, 2, 3, 4, 5})
		gain, cost := first[len(first)-1].TotalGain, first[len(first)-1].TotalCost
		for _, j := range after {
			near(t, "gain adds up", j.TotalGain, gain+j.Gain, 1e-9)
			near(t, "cost adds up", j.TotalCost, cost+j.Cost, 1e-9)
			gain, cost = j.TotalGain, j.TotalCost
		}
		near(t, fmt.Sprintf("lot %d: the end is the same", n), gain, all[len(all)-1].TotalGain, 1e-9)
		near(t, "and its cost", cost, all[len(all)-1].TotalCost, 1e-9)
	}
	if _, err := hidden().OrderAfter([]int{0}, []int{0}); err == nil {
		t.Error("a tree is taken out twice")
	}
}
