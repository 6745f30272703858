package removal

import (
	"math/rand/v2"
	"reflect"
	"testing"
)

// owned gives a few of the candidates to two owners who have not agreed.
func owned(r *rand.Rand, d Decision) Decision {
	for i := range d.Candidates {
		switch r.IntN(6) {
		case 0:
			d.Candidates[i].Owner, d.Candidates[i].Agreed = "neighbour", false
		case 1:
			d.Candidates[i].Owner, d.Candidates[i].Agreed = "street", false
		}
	}
	return d
}

func TestWeighingAFewTreesIsEachAnswerByItself(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 1))
	for range 10 {
		d := owned(r, randomDecision(r, 9, 40, 6))
		budget := float64(r.IntN(8000))
		got := d.Weigh(budget)
		want := Weighed{
			Best: d.Best(budget, d.Agreed()), Curve: d.Curve(d.Agreed()), Agreed: d.Curve(d.All()),
			Talk: d.Talk(budget),
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("together\n%+v\none by one\n%+v", got, want)
		}
	}
}

func TestWhoMayDoMoreGetsNoLess(t *testing.T) {
	r := rand.New(rand.NewPCG(62, 1))
	for _, terms := range []int{5000} { // long enough for a tail
		d := owned(r, randomDecision(r, 24, terms, 14))
		w := d.Weigh(9000)
		checkCurve(t, w.Curve)
		checkCurve(t, w.Agreed)
		if at := reached(w.Curve, w.Best.Cost); at.Gain > w.Best.Gain+1e-7 || w.Best.Gain > w.Best.Upper {
			t.Errorf("the curve has %g for what the best set costs, the best set gains %g of at most %g", at.Gain, w.Best.Gain, w.Best.Upper)
		}
		if at := reached(w.Curve, 9000); at.Gain > w.Best.Gain+1e-7 {
			t.Errorf("the budget buys %g by the curve, %g by the best set", at.Gain, w.Best.Gain)
		}
		for _, s := range w.Curve.Steps {
			if at := reached(w.Agreed, s.Cost); at.Gain < s.Gain-1e-7 {
				t.Errorf("$%g: %g kWh of what is agreed, %g if everybody agreed", s.Cost, s.Gain, at.Gain)
			}
		}
		all := reached(w.Agreed, 9000)
		for _, talk := range w.Talk {
			if talk.Gain < 0 || talk.With.Gain > all.Gain+1e-7 || talk.With.Gain > talk.With.Upper {
				t.Errorf("%s: %g more, to %g of at most %g; everybody %g", talk.Owner, talk.Gain, talk.With.Gain, talk.With.Upper, all.Gain)
			}
		}
	}
}
