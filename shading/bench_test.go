package shading

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/shading/removal"
	"github.com/southyard/southyard/sun"
)

func referenceScene(b testing.TB, trees int) *Scene {
	b.Helper()
	sc, err := NewScene(readReference(b, trees))
	if err != nil {
		b.Fatal(err)
	}
	if len(sc.Surfaces) != 18 {
		b.Fatalf("%d receivers, not 18", len(sc.Surfaces))
	}
	return sc
}

// rayEquivalents is how many point rays a year's cast stands for: a point every
// 3 inches along every row, in every hour the sun is ahead of the receiver and
// above the horizon, in every sun-up hour, and in every direction that is cast.
func rayEquivalents(sc *Scene, year *sun.Year) (ahead, up, cast float64) {
	const point = 0.0762 // 3 inches
	aim := sc.hours(year)
	var rays []ray
	for i := range sc.Surfaces {
		s := &sc.Surfaces[i]
		p := newPlate(s.Face, SixInches, []float64{0.5})
		for j := range year.Hours {
			if year.Hours[j].Up > 0 {
				up += p.combs[0].total / point
			}
			if year.Hours[j].Incidence(s.Face.N) > 0 {
				ahead += p.combs[0].total / point
			}
			rays = aim(i, j, rays[:0])
			cast += float64(len(rays)) * p.combs[0].total / point
		}
	}
	return ahead, up, cast
}

// BenchmarkYear casts every sun-up hour of the year on the reference lot, all
// 18 receivers, in 6-inch rows. "Mrays/s" counts hours with the sun ahead of
// the receiver, once each; "Mrays-up/s" every sun-up hour, though a receiver's
// back is turned to more than a third of them; "Mrays-cast/s" the rays really
// cast: two an hour with the sun ahead, and no others.
func BenchmarkYear(b *testing.B) {
	year := testYear(41.65)
	for _, trees := range referenceTrees {
		b.Run(fmt.Sprintf("trees=%d", trees), func(b *testing.B) {
			sc := referenceScene(b, trees)
			all := make([]int, len(sc.Surfaces))
			for i := range all {
				all[i] = i
			}
			ahead, up, cast := rayEquivalents(sc, year)
			aim := sc.hours(year)
			var l *Ledger
			for b.Loop() {
				l = sc.castLines(all, sun.HoursAYear, aim, Casting{})
			}
			perSecond := 1e-6 * float64(b.N) / b.Elapsed().Seconds()
			b.ReportMetric(ahead*perSecond, "Mrays/s")
			b.ReportMetric(up*perSecond, "Mrays-up/s")
			b.ReportMetric(cast*perSecond, "Mrays-cast/s")
			b.ReportMetric(b.Elapsed().Seconds()*1e6/float64(b.N)/float64(sun.HoursAYear/2), "µs/hour")
			entries := 0
			for _, s := range l.Surfaces {
				for _, line := range s.Lines {
					entries += len(line)
				}
			}
			b.ReportMetric(float64(len(l.Sets)), "sets")
			b.ReportMetric(float64(entries), "entries")
			reportMemory(b)
		})
	}
}

// hours aims at the sun of every hour of the year.
func (sc *Scene) hours(year *sun.Year) aims {
	hours := momentsOf(year)
	return func(surface, i int, out []ray) []ray {
		return hours.rays(i, i/24, raysAnHour, sc.Surfaces[surface].Face.N, out)
	}
}

// reportMemory reports the most memory the process has asked for so far; run
// one benchmark alone to read it.
func reportMemory(b *testing.B) {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.Sys)/1e6, "MB-asked")
}

// BenchmarkSky casts the patches of the sky.
func BenchmarkSky(b *testing.B) {
	for _, trees := range []int{24, 384} {
		b.Run(fmt.Sprintf("trees=%d", trees), func(b *testing.B) {
			sc := referenceScene(b, trees)
			patches := Dome()
			all := make([]int, len(sc.Surfaces))
			for i := range all {
				all[i] = i
			}
			for b.Loop() {
				sc.Cast(all, len(patches), func(_, i int) (r3.Vector, bool) { return patches[i].Direction, true }, Casting{})
			}
		})
	}
}

// BenchmarkAccount enters a year's energies into a ledger.
func BenchmarkAccount(b *testing.B) {
	year := testYear(41.65)
	for _, trees := range []int{24, 384} {
		b.Run(fmt.Sprintf("trees=%d", trees), func(b *testing.B) {
			sc := referenceScene(b, trees)
			l := sc.CastYear(lightOf(year), nil, Casting{})
			for b.Loop() {
				sc.NewAccount(l, lightOf(year))
			}
			reportMemory(b)
		})
	}
}

// BenchmarkMap casts the year for every 6-inch cell of the south wall and of
// the south roof plane.
func BenchmarkMap(b *testing.B) {
	year := testYear(41.65)
	for _, trees := range []int{24, 384} {
		for _, id := range []string{"south", "roof-south"} {
			b.Run(fmt.Sprintf("trees=%d/%s", trees, id), func(b *testing.B) {
				sc := referenceScene(b, trees)
				s := &sc.Surfaces[sc.SurfaceNamed(id)]
				b.ReportAllocs()
				var m *Map
				for b.Loop() {
					m = sc.CastMap(s, SixInches, lightOf(year))
				}
				b.ReportMetric(float64(len(m.covered)), "cells")
				reportMemory(b)
			})
		}
	}
}

// BenchmarkWhatIf asks what the lot would get with every third tree gone: for
// all tables of all surfaces, and for the south windows in the heating season
// as the search for removals asks.
func BenchmarkWhatIf(b *testing.B) {
	year := testYear(41.65)
	for _, trees := range referenceTrees {
		sc := referenceScene(b, trees)
		a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{}), lightOf(year))
		var gone []string
		chosen := make([]bool, trees)
		for i := 0; i < trees; i += 3 {
			gone = append(gone, fmt.Sprintf("T%d", i+1))
			chosen[i] = true
		}
		today := a.Today()
		b.Run(fmt.Sprintf("read/trees=%d", trees), func(b *testing.B) {
			for b.Loop() {
				a.Read(a.Without(today, gone...))
			}
		})
		b.Run(fmt.Sprintf("totals/trees=%d", trees), func(b *testing.B) {
			for b.Loop() {
				a.Totals(a.Without(today, gone...), 10, 11, 12, 1, 2, 3, 4)
			}
		})
		b.Run(fmt.Sprintf("game/trees=%d", trees), func(b *testing.B) {
			game := referenceGame(a)
			for b.Loop() {
				game.Reach(chosen)
			}
			b.ReportMetric(float64(len(game.Terms)), "terms")
		})
	}
}

// referenceGame is what the south windows get in the heating season as a game
// over all trees: one player a tree, crown and trunk together.
func referenceGame(a *Account) removal.Game {
	d := Demand{Weights: make([]float64, len(a.Surfaces)), Months: []time.Month{10, 11, 12, 1, 2, 3, 4}}
	for i, s := range a.Surfaces {
		if slices.Contains([]string{"W1", "W2", "W6", "W7"}, s.ID) {
			d.Weights[i] = s.Area
		}
	}
	player := map[string]int{}
	for _, b := range a.Blockers {
		if _, ok := player[b.Thing]; !ok {
			player[b.Thing] = len(player)
		}
	}
	fixed, behind := a.Behind(d)
	game := removal.Game{Trees: len(player), Fixed: fixed}
	today := a.Today()
	for _, e := range behind {
		tau := map[int]float64{}
		on := a.On(today, e.Period)
		for _, b := range a.Sets[e.Set] {
			p := player[a.Blockers[b].Thing]
			if _, ok := tau[p]; !ok {
				tau[p] = 1
			}
			tau[p] *= on[b]
		}
		term := removal.Term{Energy: e.Energy}
		for p := range player {
			if t, ok := tau[player[p]]; ok && t < 1 {
				term.Trees = append(term.Trees, player[p])
			}
		}
		slices.Sort(term.Trees)
		for _, p := range term.Trees {
			term.Tau = append(term.Tau, tau[p])
		}
		game.Terms = append(game.Terms, term)
	}
	return game
}

func TestReferenceGameReachesWhatTheAccountReads(t *testing.T) {
	year := testYear(41.65)
	sc := referenceScene(t, 6)
	a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{}), lightOf(year))
	game := referenceGame(a)
	if err := game.Check(); err != nil {
		t.Fatal(err)
	}
	want := 0.0
	for _, r := range a.Read(a.Without(a.Today(), "T1", "T4")) {
		if slices.Contains([]string{"W1", "W2", "W6", "W7"}, r.ID) {
			want += r.Area * r.Total(10, 11, 12, 1, 2, 3, 4)
		}
	}
	got := game.Reach([]bool{true, false, false, true})
	if math.Abs(got-want) > 1e-9*want {
		t.Errorf("game %.9g kWh, account %.9g kWh", got, want)
	}
}
