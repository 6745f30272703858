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
