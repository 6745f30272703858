package removal

import (
	"fmt"
	"math"
)

// Term is one line of the ledger: so much energy on its way to the target, and
// the trees it crosses, each letting the share Tau through.
//
// Trees is ascending without repeats, Tau has the same length and lies in 0..1.
type Term struct {
	Energy float64 // kWh with nothing in the way, not negative
	Trees  []int
	Tau    []float64
}

// Game is the energy that reaches a target as a function of what is done:
//
//	reach(R) = Fixed + Σ_k Energy_k · Π_{s ∈ Trees_k, s not cleared by R} τ_{k,s}
//
// In a plain game every player is a tree and doing means removing it. Where less
// than removal is possible the numbers in Term.Trees are screens: pieces of a
// tree with their own τ. Clears then lists, for every option, the screens it
// takes away. A ray that any of {remove, raise} would free crosses a screen both
// clear; a ray that only removal frees crosses another. Thinning from τ to τ′ is
// two screens on the same ray, τ/τ′ (cleared by thinning and by removal) and τ′
// (cleared by removal).
//
// Every term grows by a factor for each tree that goes, so the gain of a tree
// never falls when others go too: the game is monotone and supermodular
// (convex in the sense of Shapley 1971). The bounds of this package rest on it.
type Game struct {
	Trees  int     // number of trees (plain) or screens (with Clears)
	Fixed  float64 // kWh that no candidate stands in front of
	Terms  []Term
	Clears [][]int // option → screens; nil: option i removes tree i
}

// Options is the number of players: the trees of a plain game, otherwise the
// length of Clears.
func (g Game) Options() int {
	if g.Clears == nil {
		return g.Trees
	}
	return len(g.Clears)
}

// Check says what is wrong with the game, or nil. Every other method expects a
// game that passes.
func (g Game) Check() error {
	if g.Trees < 0 {
		return fmt.Errorf("game has %d trees; it cannot have fewer than 0", g.Trees)
	}
	if !finite(g.Fixed) || g.Fixed < 0 {
		return fmt.Errorf("fixed energy is %v kWh; it must be a number not below 0", g.Fixed)
	}
	for k, t := range g.Terms {
		if !finite(t.Energy) || t.Energy < 0 {
			return fmt.Errorf("term %d: energy is %v kWh; it must be a number not below 0", k, t.Energy)
		}
		if len(t.Trees) != len(t.Tau) {
			return fmt.Errorf("term %d: %d trees but %d transmissivities; there must be one each", k, len(t.Trees), len(t.Tau))
		}
		for j, s := range t.Trees {
			if s < 0 || s >= g.Trees {
				return fmt.Errorf("term %d: tree number %d is outside 0..%d", k, s, g.Trees-1)
			}
			if j > 0 && t.Trees[j-1] >= s {
				return fmt.Errorf("term %d: tree numbers must rise, but %d follows %d", k, s, t.Trees[j-1])
			}
			if !(t.Tau[j] >= 0 && t.Tau[j] <= 1) {
				return fmt.Errorf("term %d: transmissivity of tree %d is %v; it must lie in 0..1", k, s, t.Tau[j])
			}
		}
	}
	for o, screens := range g.Clears {
		for _, s := range screens {
			if s < 0 || s >= g.Trees {
				return fmt.Errorf("option %d clears screen %d, outside 0..%d", o, s, g.Trees-1)
			}
		}
	}
	return nil
}

// Reach is the energy on the target, kWh, when the options marked in chosen are
// carried out. A chosen shorter than Options leaves the rest undone; nil is the
// lot as it is.
func (g Game) Reach(chosen []bool) float64 {
	return g.reach(g.cleared(chosen))
}

// Gain is Reach(chosen) less Reach(nil), kWh; never negative beyond rounding.
func (g Game) Gain(chosen []bool) float64 {
	return g.Reach(chosen) - g.Reach(nil)
}

// Open is the energy that reaches the target with every screen gone, kWh.
func (g Game) Open() float64 {
	sum := g.Fixed
	for _, t := range g.Terms {
		sum += t.Energy
	}
	return sum
}

// Alone is the gain, kWh, of option i when nothing else is done. Rank works
// it out for all options at once and is tested against this definition.
func (g Game) Alone(i int) float64 {
	chosen := make([]bool, g.Options())
	chosen[i] = true
	return g.Gain(chosen)
}

// AfterAllOthers is the gain, kWh, of option i as the last to be done: every
// other screen is gone already. It is the most option i can ever add. See Alone.
func (g Game) AfterAllOthers(i int) float64 {
	left := make([]bool, g.Trees)
	for s := range left {
		left[s] = true
	}
	for _, s := range g.screens(i) {
		left[s] = false
	}
	return g.Open() - g.reach(left)
}

// reach is the sum with the given screens gone.
func (g Game) reach(cleared []bool) float64 {
	sum := g.Fixed
	for k := range g.Terms {
		t := &g.Terms[k]
		e := t.Energy
		for j, s := range t.Trees {
			if !cleared[s] {
				e *= t.Tau[j]
			}
		}
		sum += e
	}
	return sum
}

// cleared are the screens that the chosen options take away.
func (g Game) cleared(chosen []bool) []bool {
	gone := make([]bool, g.Trees)
	for i, yes := range chosen {
		if !yes {
			continue
		}
		for _, s := range g.screens(i) {
			gone[s] = true
		}
	}
	return gone
}

func (g Game) screens(option int) []int {
	if g.Clears == nil {
		return []int{option}
	}
	return g.Clears[option]
}

// Whole is the plain game whose players are the given options of g, each
// standing for all it clears: the screens of a player become one tree whose τ is
// their product. Screens of no player stay where they are, their τ multiplied
// into the energy. The options must not share a screen; ok is false if they do.
func (g Game) Whole(options []int) (plain Game, ok bool) {
	player := make([]int, g.Trees)
	for s := range player {
		player[s] = -1
	}
	for p, o := range options {
		for _, s := range g.screens(o) {
			if player[s] >= 0 && player[s] != p {
				return Game{}, false
			}
			player[s] = p
		}
	}
	plain = Game{Trees: len(options), Fixed: g.Fixed, Terms: make([]Term, 0, len(g.Terms))}
	tau := make([]float64, len(options))
	for _, t := range g.Terms {
		for p := range tau {
			tau[p] = 1
		}
		energy := t.Energy
		for j, s := range t.Trees {
			if p := player[s]; p >= 0 {
				tau[p] *= t.Tau[j]
			} else {
				energy *= t.Tau[j]
			}
		}
		whole := Term{Energy: energy}
		for p, x := range tau {
			if x < 1 {
				whole.Trees = append(whole.Trees, p)
				whole.Tau = append(whole.Tau, x)
			}
		}
		plain.Terms = append(plain.Terms, whole)
	}
	return plain, true
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
