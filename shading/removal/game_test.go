package removal

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// twoInLine is the closed form: E behind two trees.
func twoInLine() (g Game, e, tau1, tau2 float64) {
	e, tau1, tau2 = 120, 0.35, 0.6
	return Game{Trees: 2, Fixed: 7, Terms: []Term{{e, []int{0, 1}, []float64{tau1, tau2}}}}, e, tau1, tau2
}

func TestTwoTreesInLineReproduceTheClosedForm(t *testing.T) {
	g, e, tau1, tau2 := twoInLine()
	near(t, "reach now", g.Reach(nil), 7+e*tau1*tau2, 1e-12)
	near(t, "first alone", g.Alone(0), e*(1-tau1)*tau2, 1e-12)
	near(t, "second alone", g.Alone(1), e*(1-tau2)*tau1, 1e-12)
	near(t, "first after the other", g.AfterAllOthers(0), e*(1-tau1), 1e-12)
	near(t, "second after the other", g.AfterAllOthers(1), e*(1-tau2), 1e-12)
	fair := g.FairShare()
	near(t, "first's fair share", fair[0], e*(1-tau1)*(1+tau2)/2, 1e-12)
	near(t, "second's fair share", fair[1], e*(1-tau2)*(1+tau1)/2, 1e-12)
}

func TestTwoOpaqueTreesInLineGainNothingAlone(t *testing.T) {
	g := Game{Trees: 2, Terms: []Term{{100, []int{0, 1}, []float64{0, 0}}}}
	near(t, "alone", g.Alone(0), 0, 0)
	near(t, "after the other", g.AfterAllOthers(0), 100, 0)
	near(t, "fair", g.FairShare()[0], 50, 1e-12)
}

func TestRemovalNeverLowersSun(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 40 {
		g := randomGame(r, 9, 40, 6)
		subsets(9, func(mask []bool) {
			before := g.Reach(mask)
			for i := range mask {
				if mask[i] {
					continue
				}
				mask[i] = true
				if after := g.Reach(mask); after < before-1e-12 {
					t.Fatalf("removing %d lowers reach from %g to %g", i, before, after)
				}
				mask[i] = false
			}
		})
	}
}

// The bounds and the core rest on this.
func TestGainOfATreeNeverFallsWhenAnotherGoes(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	for range 30 {
		g := randomGame(r, 7, 40, 6)
		gain := func(mask []bool, i int) float64 {
			before := g.Reach(mask)
			mask[i] = true
			after := g.Reach(mask)
			mask[i] = false
			return after - before
		}
		subsets(7, func(mask []bool) {
			for i := range mask {
				for j := range mask {
					if i == j || mask[i] || mask[j] {
						continue
					}
					first := gain(mask, i)
					mask[j] = true
					second := gain(mask, i)
					mask[j] = false
					if second < first-1e-12 {
						t.Fatalf("gain of %d falls from %g to %g when %d goes", i, first, second, j)
					}
				}
			}
		})
	}
}

func TestAloneIsLeastAndAfterAllOthersMostOfEveryOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 50 {
		g := randomGame(r, 8, 60, 5)
		fair := g.FairShare()
		for i := range g.Trees {
			if a, f, l := g.Alone(i), fair[i], g.AfterAllOthers(i); a > f+1e-9 || f > l+1e-9 {
				t.Fatalf("tree %d: alone %g, fair %g, after all others %g are out of order", i, a, f, l)
			}
		}
	}
}

func TestWholeTakesATreesScreensTogether(t *testing.T) {
	// Tree A: screens 0 (below) and 1 (above); tree B: screen 2. Option 0 raises
	// A, 1 removes it, 2 removes B.
	g := Game{
		Trees: 3, Fixed: 5,
		Terms: []Term{
			{10, []int{0}, []float64{0.2}},
			{20, []int{1, 2}, []float64{0.3, 0.5}},
			{40, []int{0, 1, 2}, []float64{0.5, 0.5, 0.5}},
		},
		Clears: [][]int{{0}, {0, 1}, {2}},
	}
	near(t, "raised", g.Reach([]bool{true, false, false}), 5+10+20*0.15+40*0.25, 1e-12)
	near(t, "removed", g.Reach([]bool{false, true, false}), 5+10+20*0.5+40*0.5, 1e-12)
	if g.FairShare() != nil {
		t.Error("two options on one screen have a fair share; they must not")
	}
	if _, ok := g.Whole([]int{0, 1}); ok {
		t.Error("two options on one screen made a plain game; they must not")
	}
	plain, ok := g.Whole([]int{1, 2})
	if !ok {
		t.Fatal("removals of two trees make no plain game")
	}
	subsets(2, func(mask []bool) {
		near(t, fmt.Sprint(mask), plain.Reach(mask), g.Reach([]bool{false, mask[0], mask[1]}), 1e-12)
	})
}

func TestThinningIsTwoScreensOnOneRay(t *testing.T) {
	const now, thinned, energy = 0.2, 0.5, 80.0
	g := Game{
		Trees:  2,
		Terms:  []Term{{energy, []int{0, 1}, []float64{now / thinned, thinned}}},
		Clears: [][]int{{0}, {0, 1}},
	}
	near(t, "as it is", g.Reach(nil), energy*now, 1e-12)
	near(t, "thinned", g.Reach([]bool{true, false}), energy*thinned, 1e-12)
	near(t, "removed", g.Reach([]bool{false, true}), energy, 1e-12)
}

func TestCheckNamesTheFault(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		game Game
		says string
	}{
		"energy not a number":    {Game{Trees: 1, Terms: []Term{{nan, []int{0}, []float64{0.5}}}}, "term 0: energy"},
		"negative fixed":         {Game{Fixed: -1}, "fixed energy"},
		"infinite fixed":         {Game{Fixed: math.Inf(1)}, "fixed energy"},
		"tree out of range":      {Game{Trees: 1, Terms: []Term{{1, []int{1}, []float64{0.5}}}}, "outside 0..0"},
		"trees not rising":       {Game{Trees: 3, Terms: []Term{{1, []int{2, 1}, []float64{0.5, 0.5}}}}, "must rise"},
		"tree twice":             {Game{Trees: 3, Terms: []Term{{1, []int{1, 1}, []float64{0.5, 0.5}}}}, "must rise"},
		"too few τ":              {Game{Trees: 3, Terms: []Term{{1, []int{0, 1}, []float64{0.5}}}}, "one each"},
		"τ above 1":              {Game{Trees: 1, Terms: []Term{{1, []int{0}, []float64{1.1}}}}, "0..1"},
		"τ not a number":         {Game{Trees: 1, Terms: []Term{{1, []int{0}, []float64{nan}}}}, "0..1"},
		"option clears no place": {Game{Trees: 1, Clears: [][]int{{3}}}, "clears screen 3"},
	} {
		if err := c.game.Check(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v does not say %q", name, err, c.says)
		}
	}
	if err := randomGame(rand.New(rand.NewPCG(4, 4)), 9, 30, 5).Check(); err != nil {
		t.Errorf("a sound game is called faulty: %v", err)
	}
}
