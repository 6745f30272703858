package removal

import (
	"math/rand/v2"
	"testing"
)

func TestGainsOfPlainTreesMatchWhatIfsWhoeverPlays(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 1))
	for range 20 {
		d := randomDecision(r, 8, 60, 6)
		var players []int
		all := make([]bool, 8)
		for i := range all {
			if r.IntN(3) > 0 {
				players, all[i] = append(players, i), true
			}
		}
		alone, last := d.alone(players)
		for i := range d.Candidates {
			near(t, "alone", alone[i], d.Game.Alone(i), 1e-9)
			rest := append([]bool(nil), all...)
			rest[i] = false
			with := append([]bool(nil), all...)
			with[i] = true
			near(t, "last", last[i], d.Game.Reach(with)-d.Game.Reach(rest), 1e-9)
		}
	}
}
