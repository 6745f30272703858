package study

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Targets' games are made together and share their lists of trees; what each says
// of any set of trees is what the account says, and what it says made alone.
func TestGamesMadeTogetherSayWhatTheAccountSays(t *testing.T) {
	st := decidedAlder(t)
	demands, err := st.demands()
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(3, 1))
	for n, together := range st.decisions(demands) {
		alone := st.decisions(demands[n : n+1])[0]
		for range 10 {
			mask := make([]bool, len(together.Candidates))
			var ids []string
			for i := range mask {
				if mask[i] = r.IntN(2) == 0; mask[i] {
					ids = append(ids, together.Candidates[i].ID)
				}
			}
			want := st.reach(demands[n], st.Account.Without(st.Account.Today(), ids...))
			for _, got := range []float64{together.Game.Reach(mask), alone.Game.Reach(mask)} {
				if math.Abs(got-want) > 1e-9*want {
					t.Errorf("%s without %v: %g by the game, %g by the account", demands[n].name, ids, got, want)
				}
			}
		}
	}
}
