package removal

import (
	"math/rand/v2"
	"testing"
)

// lot is a ledger of an everyday size: 3,000 terms, rays through up to six trees.
func lot(trees int) Decision {
	return randomDecision(rand.New(rand.NewPCG(20, uint64(trees))), trees, 3000, 6)
}

func BenchmarkWhatIf(b *testing.B) {
	d := lot(20)
	mask := d.mask([]int{1, 4, 9})
	for b.Loop() {
		d.Game.Reach(mask)
	}
}

func BenchmarkFairShare(b *testing.B) {
	d := lot(20)
	for b.Loop() {
		d.Game.FairShare()
	}
}

func BenchmarkBestSetOf20(b *testing.B) {
	d := lot(20)
	for b.Loop() {
		d.Best(6000, d.All())
	}
}

func BenchmarkCurveOf20(b *testing.B) {
	d := lot(20)
	for b.Loop() {
		d.Curve(d.All())
	}
}

func BenchmarkCurveOf22(b *testing.B) {
	d := lot(22)
	for b.Loop() {
		d.Curve(d.All())
	}
}

func BenchmarkOrderOf20(b *testing.B) {
	d := lot(20)
	set := make([]int, 20)
	for i := range set {
		set[i] = i
	}
	for b.Loop() {
		if _, err := d.Order(set); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBestOf96(b *testing.B) {
	d := lot(96)
	var best Best
	for b.Loop() {
		best = d.Best(30000, d.All())
	}
	b.ReportMetric(100*(best.Upper-best.Gain)/best.Gain, "gap-%")
}

// rows is a tamer lot than lot: trees stand side by side in three rows and a ray
// meets at most a neighbour or two in each.
func rows(trees int) Decision {
	r := rand.New(rand.NewPCG(29, uint64(trees)))
	d := randomDecision(r, trees, 0, 0)
	wide := trees / 3
	for range 3000 {
		t := Term{Energy: 10 * r.Float64()}
		at := r.IntN(wide)
		for row := range 3 {
			for _, i := range []int{at, at + 1} {
				if i < wide && r.IntN(3) == 0 {
					t.Trees = append(t.Trees, row*wide+i)
					t.Tau = append(t.Tau, 0.2+0.4*r.Float64())
				}
			}
		}
		d.Game.Terms = append(d.Game.Terms, t)
	}
	return d
}

func BenchmarkBestOf96InRows(b *testing.B) {
	d := rows(96)
	var best Best
	for b.Loop() {
		best = d.Best(30000, d.All())
	}
	b.ReportMetric(100*(best.Upper-best.Gain)/best.Gain, "gap-%")
}

func BenchmarkCurveOf96(b *testing.B) {
	d := lot(96)
	var c Curve
	for b.Loop() {
		c = d.Curve(d.All())
	}
	b.ReportMetric(100*c.Gap/c.Steps[len(c.Steps)-1].Gain, "gap-%-of-whole")
	b.ReportMetric(float64(len(c.Steps)), "steps")
}

func BenchmarkBestOf20BySearch(b *testing.B) {
	d := lot(20)
	f := d.field(d.groups(d.All()))
	var s *search
	for b.Loop() {
		s = f.search(cents(6000), bestNodes, nil)
	}
	if !s.exact {
		b.Log("not proven")
	}
}

func BenchmarkSurenessOf20Trees200Draws(b *testing.B) {
	d := lot(20)
	r := rand.New(rand.NewPCG(31, 1))
	draws := make([]Draw, 200)
	for k := range draws {
		g := d.Game
		g.Terms = append([]Term(nil), g.Terms...)
		shift := r.NormFloat64()
		for i := range g.Terms {
			g.Terms[i].Energy *= 1 + 0.1*r.Float64() + 0.01*shift*shift
		}
		draws[k] = Draw{Values: []float64{shift}, Game: g}
	}
	for b.Loop() {
		if _, err := d.Sureness(draws, []Quantity{{"T01", "height"}}, nil, 6000, d.All()); err != nil {
			b.Fatal(err)
		}
	}
}
