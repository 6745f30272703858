package shading

import (
	"math/rand/v2"
	"testing"

	"github.com/southyard/southyard/model"
)

// TestPruningACrownNeverLowersTheSun raises, reduces and thins every tree of
// random lots, one after the other: what is left stands within what stood.
func TestPruningACrownNeverLowersTheSun(t *testing.T) {
	year := testYear(42)
	raised := 0
	for seed := range uint64(12) {
		random := rand.New(rand.NewPCG(seed, 4))
		site := randomLot(random)
		sc, err := NewScene(site)
		if err != nil {
			t.Fatal(err)
		}
		for i := range site.Trees {
			tree := site.Trees[i]
			if random.IntN(3) > 0 {
				tree.Cleared = tree.CrownBase + random.Float64()*random.Float64()*(tree.Height-tree.CrownBase)
				raised++
			}
			if random.IntN(3) == 0 {
				tree = tree.Reduced(tree.CrownBase+(0.3+0.7*random.Float64())*(tree.Height-tree.CrownBase), 0)
			}
			if random.IntN(3) == 0 {
				tree.InLeaf, tree.Bare = tree.InLeaf+0.1, tree.Bare+0.1
			}
			sc.AddTree(&tree, "pruned")
		}
		a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{Row: 0.4}), lightOf(year))
		state := a.Today()
		before := a.Read(state)
		for _, tree := range site.Trees {
			state = a.With(state, tree.ID, "pruned")
			after := a.Read(state)
			for s := range after {
				if d := after[s].Total() - before[s].Total(); !(d >= -1e-9) {
					t.Errorf("lot %d: pruning %s (%s, crown from %.1f to %.1f m) takes %.3g kWh/m² from %s",
						seed, tree.ID, tree.Shape, tree.CrownBase, tree.Height, -d, after[s].ID)
				}
			}
			before = after
		}
	}
	if raised < 30 {
		t.Errorf("only %d of the crowns raised", raised)
	}
}

// A trunk bared by raising the crown passes what the crown did: in an open
// field nothing else of it is counted twice.
func TestBaredTrunkPassesWhatItsCrownDid(t *testing.T) {
	tree := model.Tree{ID: "T", Height: 12, CrownBase: 3, SpreadX: 8, SpreadY: 8, Shape: model.Ellipsoid, Trunk: 0.6, InLeaf: 0.2, Bare: 0.7, Cleared: 6}
	sc := &Scene{}
	crown := sc.AddTree(&tree, "raised")
	if b := sc.Blockers[crown]; len(b.solids) != 2 || b.solids[1].Top != 6 || b.Optics.Bare != 0.7 {
		t.Errorf("the raised crown is %+v", b)
	}
	if b := sc.Blockers[crown+1]; b.Optics != Opaque || b.solids[0].Top != 3 {
		t.Errorf("the trunk below is %+v, want it opaque up to 3 m", b)
	}
}
