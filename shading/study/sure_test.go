package study

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/removal"
	"github.com/southyard/southyard/sun"
)

func alderPlace(t *testing.T) s2.LatLng {
	t.Helper()
	site, _, _ := alder(t)
	return site.Place.LatLng
}

// The trials' cast takes fewer days and wider rows; undisturbed it must give
// the gains of the full cast within 3 %.
func TestThinnedCastAgreesWithTheFullOne(t *testing.T) {
	st := decidedAlder(t)
	demands, err := st.demands()
	if err != nil {
		t.Fatal(err)
	}
	surfaces, narrowed := wanted(demands)
	lot := &Study{Site: st.Site, Plans: st.Plans, Account: st.recast(st.shapes(), surfaces, st.seasons(narrowed), trialRays)}
	worst := 0.0
	for n, d := range narrowed {
		full, thin := st.Targets[n].Decision, lot.decisions([]demand{d})[0]
		for i, c := range full.Candidates {
			whole := full.Game.AfterAllOthers(i)
			if whole < 0.005*st.Targets[n].Open {
				continue
			}
			off := thin.Game.AfterAllOthers(i)/whole - 1
			worst = max(worst, math.Abs(off))
			if math.Abs(off) > 0.03 {
				t.Errorf("%s, %s: the thinned gain is off by %.1f %%", st.Targets[n].Name, c.ID, 100*off)
			}
		}
		off := st.Targets[n].Thinned
		if math.Abs(off) > 0.03 {
			t.Errorf("%s: the best set's thinned gain is off by %.1f %%", st.Targets[n].Name, 100*off)
		}
		set := st.Targets[n].Best.Set
		if want := thin.GainOf(set)/full.GainOf(set) - 1; want == 0 || math.Abs(off-want) > 1e-9 {
			t.Errorf("%s: the best set's thinned gain is said to be off by %g, it is by %g", st.Targets[n].Name, off, want)
		}
		if said := st.Results().Targets[n].Thinned; math.Abs(said-off) > 1e-5 {
			t.Errorf("%s: the results say %g of %g", st.Targets[n].Name, said, off)
		}
	}
	t.Logf("greatest difference of a tree's gain: %.2f %%", 100*worst)
}

func TestSameSeedSameAnswer(t *testing.T) {
	_, year, _ := alder(t)
	trees := lotOf(rand.New(rand.NewPCG(3, 3)))
	var gains [2]removal.Range
	for k := range gains {
		gains[k] = surely(t, trees, year, 9, 3).BestGain
	}
	if gains[0] != gains[1] || gains[0].Low >= gains[0].High {
		t.Errorf("the same seed gives %v and %v", gains[0], gains[1])
	}
	if other := surely(t, trees, year, 9, 4).BestGain; other == gains[0] {
		t.Errorf("another seed gives the very same %v", other)
	}
}

// surely makes trials of the window lot.
func surely(t *testing.T, trees []model.Tree, year *sun.Year, draws int, seed uint64) *removal.Sureness {
	t.Helper()
	st := bareStudy(t, trees, year)
	demands, err := st.demands()
	if err != nil {
		t.Fatal(err)
	}
	surfaces, narrowed := wanted(demands)
	plain := st.try(nil, nil, surfaces, narrowed, st.seasons(narrowed))
	st.Targets = []Target{{Decision: plain[0].game}}
	if err := st.makeSure(draws, seed, demands); err != nil {
		t.Fatal(err)
	}
	return st.Targets[0].Sure
}

func TestRangesHoldTheGainTheyStandBeside(t *testing.T) {
	st := decidedAlder(t)
	for i := range st.Targets {
		target := &st.Targets[i]
		if s := target.Sure; s.Draws != 12 || s.BestGain.Low >= s.BestGain.High || s.SameBest < 0 || s.SameBest > 1 {
			t.Errorf("%s: %+v", target.Name, s.BestGain)
		}
		for _, s := range target.Standing {
			sure := target.sureOf(s.ID)
			if sure == nil {
				t.Fatalf("%s: no trials of %s", target.Name, s.ID)
			}
			if sure.InBest < 0 || sure.InBest > 1 || !s.Allowed && sure.InBest > 0 {
				t.Errorf("%s: %s is in the best set in %v of trials", target.Name, s.ID, sure.InBest)
			}
		}
	}
}

// Without tolerance every trial is the same lot.
func TestWithoutToleranceNothingIsUnsure(t *testing.T) {
	tree := model.Tree{ID: "T", Height: 9, SpreadX: 6, SpreadY: 6, Measured: map[model.Quantity]model.Tolerance{}}
	got := perturb(tree, map[string]float64{"height": 3, "spread": -2, eastWest: 1})
	if got.Height != 9 || got.SpreadX != 6 || got.At != tree.At {
		t.Errorf("a tree without tolerance moved: %+v", got)
	}
}

// Every value moves by its own deviations: a place east and north apart, a spread
// both ways alike, a bare crown's light and two thirds of that in leaf.
func TestPerturbMovesEveryValueByItsOwnDeviation(t *testing.T) {
	tree := model.Tree{ID: "T", At: orb.Point{3, -7}, Height: 10, CrownBase: 3, SpreadX: 8, SpreadY: 4, InLeaf: 0.2, Bare: 0.6,
		Measured: map[model.Quantity]model.Tolerance{model.QHeight: {SD: 1}, model.QSpread: {SD: 0.6}, model.QCrownBase: {SD: 0.5}, model.QPosition: {SD: 0.3}, model.QTransmissivity: {SD: 0.15}}}
	off := map[string]float64{"height": 2, "spread": -1, "crown base": -2, "transmissivity": 1, eastWest: 1, northSouth: -2}
	for _, evergreen := range []bool{false, true} {
		tree.Evergreen = evergreen
		inLeaf := 0.2 + 0.15*2/3
		if evergreen {
			inLeaf = 0.2 + 0.15
		}
		p := perturb(tree, off)
		for name, c := range map[string][2]float64{"height": {p.Height, 12}, "wide one way": {p.SpreadX, 8 * 0.9}, "and the other": {p.SpreadY, 4 * 0.9},
			"crown base": {p.CrownBase, 2}, "east": {p.At[0], 3.3}, "north": {p.At[1], -7.6}, "bare": {p.Bare, 0.75}, "in leaf": {p.InLeaf, inLeaf}} {
			if math.Abs(c[0]-c[1]) > 1e-12 {
				t.Errorf("evergreen %v, %s: %g, want %g", evergreen, name, c[0], c[1])
			}
		}
	}
}

// However far off a measurement is drawn, a tree keeps a fifth of its height and
// of its spread, and a foot of crown.
func TestATreeKeepsAFifthOfItsSize(t *testing.T) {
	tree := model.Tree{ID: "T", Height: 10, CrownBase: 3, SpreadX: 8, SpreadY: 4,
		Measured: map[model.Quantity]model.Tolerance{model.QHeight: {SD: 1}, model.QSpread: {SD: 0.6}, model.QCrownBase: {SD: 0.5}}}
	for _, off := range []float64{-9, -12, -40} {
		p := perturb(tree, map[string]float64{"height": off, "spread": off, "crown base": 20})
		height, wide := max(2, 10+off), max(0.2, 1+off*0.6/6)
		for name, c := range map[string][2]float64{"height": {p.Height, height}, "wide one way": {p.SpreadX, 8 * wide}, "and the other": {p.SpreadY, 4 * wide}, "crown base": {p.CrownBase, height - 0.3}} {
			if math.Abs(c[0]-c[1]) > 1e-12 {
				t.Errorf("%g deviations, %s: %g m, want %g", off, name, c[0], c[1])
			}
		}
	}
}

func TestPerturbedTreesStayTrees(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	tree := lotOf(r)[0]
	for range 2000 {
		off := map[string]float64{}
		for _, q := range []string{"height", "spread", "crown base", "transmissivity", eastWest, northSouth} {
			off[q] = 4 * r.NormFloat64()
		}
		p := perturb(tree, off)
		if p.Height <= 0 || p.SpreadX <= 0 || p.SpreadY <= 0 || p.CrownBase < 0 || p.CrownBase >= p.Height || p.InLeaf < 0 || p.InLeaf > 1 || p.Bare < 0 || p.Bare > 1 {
			t.Fatalf("%v makes %+v", off, p)
		}
	}
}

// lotOf are two invented trees before the window.
func lotOf(r *rand.Rand) []model.Tree {
	var out []model.Tree
	for i := range 2 {
		t := model.Tree{
			ID: []string{"T1", "T2"}[i], At: orb.Point{-2 + 4*float64(i) + r.Float64(), -9 - 4*r.Float64()}, Height: 9 + 3*r.Float64(), CrownBase: 2,
			SpreadX: 6 + 2*r.Float64(), Shape: model.Ellipsoid, Evergreen: true, InLeaf: 0.35 + 0.1*r.Float64(), Owner: model.OwnerLot, Removable: true, Cost: 500,
			Measured: map[model.Quantity]model.Tolerance{
				model.QHeight: {SD: 0.8}, model.QSpread: {SD: 0.5}, model.QCrownBase: {SD: 0.3}, model.QPosition: {SD: 0.3}, model.QTransmissivity: {SD: 0.06},
			},
		}
		t.SpreadY, t.Bare = t.SpreadX, t.InLeaf
		out = append(out, t)
	}
	return out
}

// An experiment with known truth: a lot is drawn, measured with errors of the
// stated tolerance, and studied. The 10–90 % range of each gain should hold
// the true gain 80 times in 100; three standard errors of that many rounds are
// allowed (binomial).
func TestRangesCoverTheTruthAsOftenAsTheyClaim(t *testing.T) {
	_, year, _ := alder(t)
	r := rand.New(rand.NewPCG(5, 9))
	const rounds, draws = 60, 14
	held := map[string]int{}
	for round := range rounds {
		truth := bareStudy(t, lotOf(r), year)
		quantities := truth.measured()
		error := make([]float64, len(quantities))
		for i := range error {
			error[i] = r.NormFloat64()
		}
		measured := bareStudy(t, truth.drawn(quantities, error).Site.Trees, year)
		demands, err := truth.demands()
		if err != nil {
			t.Fatal(err)
		}
		surfaces, narrowed := wanted(demands)
		season := truth.seasons(narrowed)
		none := make([]float64, len(quantities))
		real := truth.try(quantities, none, surfaces, narrowed, season)[0].game
		read := measured.try(quantities, none, surfaces, narrowed, season)
		measured.Targets = []Target{{Decision: read[0].game}}
		if err := measured.makeSure(draws, uint64(round), demands); err != nil {
			t.Fatal(err)
		}
		sure := measured.Targets[0].Sure
		count := func(name string, rg removal.Range, x float64) {
			if rg.Low <= x && x <= rg.High {
				held[name]++
			}
		}
		for i, c := range sure.Candidates {
			count("alone "+c.ID, c.Alone, real.Game.Alone(i))
			count("fair "+c.ID, *c.Fair, real.Game.FairShare()[i])
		}
		count("best set", sure.BestGain, real.GainOf(measured.Targets[0].Sure.Best.Set))
	}
	bound := 3 * math.Sqrt(0.8*0.2/rounds)
	for name, n := range held {
		share := float64(n) / rounds
		t.Logf("%s: %.1f %% of %d ranges hold the truth", name, 100*share, rounds)
		if math.Abs(share-0.8) > bound {
			t.Errorf("%s: ranges hold the truth in %.1f %%, they claim 80 %%", name, 100*share)
		}
	}
	if len(held) != 5 {
		t.Errorf("only %v were ever held", held)
	}
}

// The most telling measurement of a lot with one badly measured value is that
// value.
func TestTheBadMeasurementIsTheOneToMakeAgain(t *testing.T) {
	_, year, _ := alder(t)
	trees := lotOf(rand.New(rand.NewPCG(4, 4)))
	for i := range trees {
		trees[i].Measured = map[model.Quantity]model.Tolerance{model.QHeight: {SD: 0.05}, model.QSpread: {SD: 0.05}, model.QTransmissivity: {SD: 0.005}}
	}
	trees[1].Measured[model.QSpread] = model.Tolerance{SD: 1.2}
	target := Target{Sure: surely(t, trees, year, 40, 2)}
	if got := target.sharpest(); got != "spread of T2" {
		t.Errorf("measure again: %q, want the spread of T2", got)
	}
}

// bareStudy is the window lot ready for casting, without a ranking.
func bareStudy(t *testing.T, trees []model.Tree, year *sun.Year) *Study {
	t.Helper()
	site := windowLot(slices.Clone(trees)...)
	site.Place = model.Place{LatLng: s2.LatLngFromDegrees(year.Latitude, year.Longitude)}
	st := &Study{Site: site, Year: year, Sky: "anisotropic", Light: shading.NewLight(year, "anisotropic"), Heating: []time.Month{time.January}}
	var err error
	if st.Scene, err = shading.NewScene(site); err != nil {
		t.Fatal(err)
	}
	return st
}
