package study

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
)

// No tree of any kind, whatever its size today, grows beyond its kind's mature
// height and width, or its own size where that is more already.
func TestGrowthNeverGoesBeyondMatureSize(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	for _, kind := range species.All() {
		for range 40 {
			tree := model.Tree{Species: kind.Name, Evergreen: kind.Evergreen, Height: 1 + 1.4*kind.Height*r.Float64(), Trunk: 0.2}
			tree.SpreadX, tree.SpreadY = 0.5+1.4*kind.Width*r.Float64(), 0.5+1.4*kind.Width*r.Float64()
			before := tree
			for _, years := range growthYears {
				later := growTree(tree, years)
				if later.Height > max(kind.Height, tree.Height)+1e-9 || later.SpreadX > max(kind.Width, tree.SpreadX)+1e-9 || later.SpreadY > max(kind.Width, tree.SpreadY)+1e-9 {
					t.Fatalf("%s of %.1f m becomes %.1f m high and %.1f m wide in %v years; mature %.1f and %.1f", kind.Name, tree.Height, later.Height, later.SpreadX, years, kind.Height, kind.Width)
				}
				if later.Height < before.Height-1e-9 || later.SpreadX < before.SpreadX-1e-9 {
					t.Fatalf("%s shrinks in %v years", kind.Name, years)
				}
				before = later
			}
		}
	}
}

func TestGrowingTreesNeverBringSun(t *testing.T) {
	st := decidedAlder(t)
	if len(st.Growth) != len(st.Targets)*(len(st.Plans)+3) {
		t.Fatalf("%d courses", len(st.Growth))
	}
	for _, c := range st.Growth {
		for k := 1; k < len(c.Sun); k++ {
			if c.Sun[k] > c.Sun[k-1]*1.001 {
				t.Errorf("%s, %s: %v kWh, then %v", c.Target, c.Plan, c.Sun[k-1], c.Sun[k])
			}
		}
		if c.Plan == NoTreesAtAll && math.Abs(c.Sun[len(c.Sun)-1]/c.Sun[0]-1) > 1e-9 {
			t.Errorf("%s: without trees the sun changes from %v to %v", c.Target, c.Sun[0], c.Sun[len(c.Sun)-1])
		}
	}
}

func TestGrowthBeginsAtTheStudysOwnFigures(t *testing.T) {
	st := decidedAlder(t)
	for _, row := range st.PlanTable() {
		for _, c := range st.Growth {
			if c.Target == row.Target && c.Plan == row.Plan && math.Abs(c.Sun[0]-row.Sun) > 1e-6*row.Sun {
				t.Errorf("%s, %s: growth begins at %v kWh, the plan table says %v", c.Target, c.Plan, c.Sun[0], row.Sun)
			}
		}
	}
}

func TestTheYearOfTooLittleSunIsOnTheStraightLine(t *testing.T) {
	years := []float64{0, 5, 10, 20}
	for _, c := range []struct {
		name   string
		access []float64
		want   float64 // NaN for never or already
	}{
		{"half way from 5 to 10", []float64{0.9, 0.8, 0.7, 0.6}, 7.5},
		{"in the first year", []float64{0.76, 0.71, 0.7, 0.6}, 1},
		{"at the very end", []float64{0.9, 0.85, 0.8, 0.74}, 10 + 10*0.05/0.06},
		{"stays above", []float64{0.9, 0.85, 0.8, 0.75}, math.NaN()},
		{"is below already", []float64{0.7, 0.6, 0.5, 0.4}, math.NaN()},
	} {
		got := crossing(years, c.access, enoughSun)
		if (got == nil) != math.IsNaN(c.want) || got != nil && math.Abs(*got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
