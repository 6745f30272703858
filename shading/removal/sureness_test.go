package removal

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// measuredLot is an invented lot of five trees whose sizes are known: a tree's
// height sets how much of the sun it meets, its density how much it lets through.
// Trees stand in two rows, so some rays meet two.
func measuredLot(heights, densities []float64) Game {
	g := Game{Trees: len(heights), Fixed: 100}
	for i, h := range heights {
		tau := math.Exp(-densities[i])
		front := math.Max(0, 12*h)
		g.Terms = append(g.Terms, Term{front, []int{i}, []float64{tau}})
		if i > 0 {
			shared := 4 * math.Max(0, math.Min(h, heights[i-1]))
			g.Terms = append(g.Terms, Term{shared, []int{i - 1, i}, []float64{math.Exp(-densities[i-1]), tau}})
		}
	}
	return g
}

type lotSizes struct{ heights, densities []float64 }

func (l lotSizes) off(r *rand.Rand) (lotSizes, []float64) {
	out := lotSizes{}
	var values []float64
	for i := range l.heights {
		dh, dd := 1.5*r.NormFloat64(), 0.1*r.NormFloat64()
		out.heights = append(out.heights, l.heights[i]+dh)
		out.densities = append(out.densities, math.Max(0, l.densities[i]+dd))
		values = append(values, dh, dd)
	}
	return out, values
}

func (l lotSizes) draws(r *rand.Rand, n int) []Draw {
	draws := make([]Draw, n)
	for k := range draws {
		sizes, values := l.off(r)
		draws[k] = Draw{Values: values, Game: measuredLot(sizes.heights, sizes.densities)}
	}
	return draws
}

func (l lotSizes) quantities() []Quantity {
	var q []Quantity
	for i := range l.heights {
		q = append(q, Quantity{fmt.Sprintf("T%d", i+1), "height"}, Quantity{fmt.Sprintf("T%d", i+1), "density"})
	}
	return q
}

func (l lotSizes) decision() Decision {
	d := Decision{Game: measuredLot(l.heights, l.densities)}
	for i := range l.heights {
		d.Candidates = append(d.Candidates, Candidate{ID: fmt.Sprintf("T%d", i+1), Cost: 1000 + 100*float64(i), Agreed: true})
	}
	return d
}

// The truth is known; what is measured is off by an error of the stated
// tolerance; the draws perturb the measurement. The 10–90 % range of every gain
// should hold the truth 80 times in 100.
func TestRangesCoverTheTruthAsOftenAsTheyClaim(t *testing.T) {
	r := rand.New(rand.NewPCG(24, 1))
	truth := lotSizes{[]float64{14, 12, 16, 11, 13}, []float64{1.2, 0.9, 1.5, 1.0, 1.1}}
	exact := truth.decision()
	fair := exact.Game.FairShare()
	plan := NamedSet{"front pair", []int{1, 2}}
	const rounds = 400
	covered, asked := map[string]float64{}, map[string]float64{}
	count := func(name string, rg Range, value float64) {
		asked[name]++
		if rg.Low <= value && value <= rg.High {
			covered[name]++
		}
	}
	for range rounds {
		measured, _ := truth.off(r)
		s, err := measured.decision().Sureness(measured.draws(r, 99), truth.quantities(), []NamedSet{plan}, 2500, exact.All())
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range s.Candidates {
			count("alone", c.Alone, exact.Game.Alone(i))
			count("after all others", c.AfterAllOthers, exact.Game.AfterAllOthers(i))
			count("fair share", *c.Fair, fair[i])
		}
		count("plan", s.Plans[0].Gain, exact.GainOf(plan.Set))
	}
	for name, n := range asked {
		share := covered[name] / n
		t.Logf("%s: %.0f ranges, %.1f %% hold the truth", name, n, 100*share)
		// 400 rounds: one standard error is 2 %; allow two and a half.
		if math.Abs(share-0.8) > 0.05 {
			t.Errorf("%s: ranges hold the truth in %.1f %%, they claim 80 %%", name, 100*share)
		}
	}
}

// A linear gain of independent normal deviations with standard deviations 1, 2
// and 3 owes them 1/14, 4/14 and 9/14 of its variance (the linear model of
// Saltelli and others 2008, chapter 1; from memory). For normals the rank
// correlation is 6/π·asin(r/2) (Pearson 1907).
func TestSharesOfSpreadMatchTheLinearModel(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 1))
	quantities := []Quantity{{"T1", "height"}, {"T2", "height"}, {"T3", "height"}, {"T3", "distance"}}
	draws := make([]Draw, 4000)
	gain := make([]float64, len(draws))
	for k := range draws {
		z := []float64{r.NormFloat64(), 2 * r.NormFloat64(), 3 * r.NormFloat64(), r.NormFloat64()}
		draws[k].Values = z
		gain[k] = z[0] + z[1] + z[2]
	}
	got := sharpen(valuesOf(draws), quantities, gain)
	for n, want := range []struct {
		tree  string
		share float64
	}{{"T3", 9.0 / 14}, {"T2", 4.0 / 14}, {"T1", 1.0 / 14}} {
		rank := 6 / math.Pi * math.Asin(math.Sqrt(want.share)/2)
		if got[n].Tree != want.tree || !got[n].Clear {
			t.Errorf("place %d: %+v, want %s", n, got[n], want.tree)
		}
		near(t, want.tree, got[n].Share, rank*rank, 0.03)
		near(t, want.tree+" (variance)", got[n].Share, want.share, 0.06)
	}
	if got[3].Name != "distance" || got[3].Clear || got[3].Share > 0.005 {
		t.Errorf("a quantity without effect: %+v", got[3])
	}
}

func TestMeasuringAgainNarrowsTheRangeAsStated(t *testing.T) {
	// The gain of felling T1 is a straight line in one height, so all the spread
	// is that height's.
	r := rand.New(rand.NewPCG(26, 1))
	draws := make([]Draw, 200)
	for k := range draws {
		h := r.NormFloat64()
		draws[k] = Draw{Values: []float64{h, r.NormFloat64()}, Game: Game{Trees: 1, Terms: []Term{{100 + 10*h, []int{0}, []float64{0.5}}}}}
	}
	d := Decision{
		Game:       Game{Trees: 1, Terms: []Term{{100, []int{0}, []float64{0.5}}}},
		Candidates: []Candidate{{ID: "T1", Cost: 800, Agreed: true}},
	}
	s, err := d.Sureness(draws, []Quantity{{"T1", "height"}, {"T1", "spread"}}, nil, 1000, d.All())
	if err != nil {
		t.Fatal(err)
	}
	if m := s.Measures[0]; m.Name != "height" || m.Share < 0.999 || m.Narrows < 0.97 {
		t.Errorf("first to measure again: %+v", m)
	}
	if s.Measures[1].Clear {
		t.Errorf("the spread plays no part: %+v", s.Measures[1])
	}
	near(t, "chance in the best set", s.Candidates[0].InBest, 1, 0)
	near(t, "same set in every draw", s.SameBest, 1, 1e-9)
	// 10 and 90 % of 50 ± 5·z: 50 ± 6.41.
	near(t, "low", s.BestGain.Low, 50-5*1.2816, 1.2)
	near(t, "high", s.BestGain.High, 50+5*1.2816, 1.2)
	if _, err := json.Marshal(s); err != nil {
		t.Error(err)
	}
}

func TestChanceOfBelongingToTheBestSetIsHowOftenItDoes(t *testing.T) {
	// Money for one of two equal trees; T1 gains 100 + z, T2 100 + 0.5: T1 wins
	// when z > 0.5, in 30.9 % of cases (standard normal table).
	r := rand.New(rand.NewPCG(27, 1))
	game := func(z float64) Game {
		return Game{Trees: 2, Terms: []Term{{100 + z, []int{0}, []float64{0}}, {100.5, []int{1}, []float64{0}}}}
	}
	draws := make([]Draw, 3000)
	for k := range draws {
		z := r.NormFloat64()
		draws[k] = Draw{Values: []float64{z}, Game: game(z)}
	}
	d := Decision{Game: game(0), Candidates: []Candidate{{ID: "T1", Cost: 500}, {ID: "T2", Cost: 500}}}
	s, err := d.Sureness(draws, []Quantity{{"T1", "height"}}, nil, 600, d.All())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "T1", s.Candidates[0].InBest, 0.3085, 0.025)
	near(t, "T1 and T2", s.Candidates[0].InBest+s.Candidates[1].InBest, 1, 1e-9)
	near(t, "standard error", s.Candidates[0].InBestError, 0.0084, 0.001)
}

func TestQuantilesLeaveTheirShareBelow(t *testing.T) {
	// Definition 6: the k-th of n values is the k/(n+1) quantile.
	values := []float64{10, 20, 30, 40, 50, 60, 70, 80, 90}
	near(t, "10 %", quantile(values, 0.1), 10, 1e-9)
	near(t, "50 %", quantile(values, 0.5), 50, 1e-9)
	near(t, "90 %", quantile(values, 0.9), 90, 1e-9)
	near(t, "25 %", quantile(values, 0.25), 25, 1e-9)
}

func TestSurenessRefusesWhatItCannotRead(t *testing.T) {
	lot := lotSizes{[]float64{10, 12}, []float64{1, 1}}
	d := lot.decision()
	r := rand.New(rand.NewPCG(28, 1))
	good := func() []Draw { return lot.draws(r, 20) }
	for name, c := range map[string]struct {
		draws func() []Draw
		plan  []NamedSet
		says  string
	}{
		"too few draws":  {func() []Draw { return good()[:5] }, nil, "at least 9"},
		"missing value":  {func() []Draw { x := good(); x[3].Values = x[3].Values[1:]; return x }, nil, "draw 3: 3 values for 4"},
		"value not one":  {func() []Draw { x := good(); x[4].Values[0] = math.NaN(); return x }, nil, "draw 4: a drawn deviation"},
		"faulty game":    {func() []Draw { x := good(); x[5].Game.Fixed = -1; return x }, nil, "draw 5: fixed energy"},
		"fewer trees":    {func() []Draw { x := good(); x[6].Game = Game{Trees: 1}; return x }, nil, "draw 6: 2 candidates"},
		"plan off limit": {good, []NamedSet{{"all", []int{0, 7}}}, `plan "all" names candidate number 7`},
	} {
		if _, err := d.Sureness(c.draws(), lot.quantities(), c.plan, 1000, d.All()); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v does not say %q", name, err, c.says)
		}
	}
}

func TestFewDrawsDoNotGiveEveryMeasurementAShare(t *testing.T) {
	// Uncorrected, a quantity without effect would show 1/(n−1) = 5 % on average.
	r := rand.New(rand.NewPCG(34, 1))
	mean, clear := 0.0, 0.0
	const rounds = 1000
	for range rounds {
		draws, gain := make([]Draw, 21), make([]float64, 21)
		for k := range draws {
			draws[k].Values, gain[k] = []float64{r.NormFloat64()}, r.NormFloat64()
		}
		m := sharpen(valuesOf(draws), []Quantity{{"T1", "height"}}, gain)[0]
		mean += m.Share / rounds
		if m.Clear {
			clear += 1.0 / rounds
		}
	}
	if mean > 0.03 {
		t.Errorf("a quantity without effect gets a share of %.3f on average", mean)
	}
	if clear > 0.05 {
		t.Errorf("a quantity without effect is called clear in %.1f %% of cases", 100*clear)
	}
}

func valuesOf(draws []Draw) (values [][]float64) {
	for _, d := range draws {
		values = append(values, d.Values)
	}
	return values
}
