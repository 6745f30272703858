package heat

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

func rect(u0, v0, u1, v1 float64) orb.Bound {
	return orb.Bound{Min: orb.Point{u0, v0}, Max: orb.Point{u1, v1}}
}

func even(b orb.Bound) float64 { return (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1]) }

func wall(width, height float64) orb.MultiPolygon {
	return orb.MultiPolygon{rect(0, 0, width, height).ToPolygon()}
}

// Every set of row placements on a small board, tried one by one.
func bruteForce(g grid, count int) float64 {
	var all []spot
	for r, line := range g.value {
		for c, v := range line {
			if v >= 0 {
				all = append(all, spot{r, c})
			}
		}
	}
	best := math.Inf(-1)
	var try func(from int, chosen []spot, sum float64)
	try = func(from int, chosen []spot, sum float64) {
		if len(chosen) == count {
			best = max(best, sum)
			return
		}
		for i := from; i < len(all); i++ {
			fits := true
			for _, s := range chosen {
				dr, dc := all[i].row-s.row, all[i].column-s.column
				if dr == 0 && max(dc, -dc) < g.stepU || dr != 0 && max(dr, -dr) < g.stepV {
					fits = false
					break
				}
			}
			if fits {
				try(i+1, append(chosen, all[i]), sum+g.value[all[i].row][all[i].column])
			}
		}
	}
	try(0, nil, 0)
	return best
}

func TestRowSearchEqualsBruteForce(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	compared := 0
	for n := 0; n < 120; n++ {
		g := grid{stepU: 1 + random.Intn(3), stepV: 1 + random.Intn(3)}
		rows, columns := 2+random.Intn(4), 4+random.Intn(5)
		for r := 0; r < rows; r++ {
			line := make([]float64, columns)
			for c := range line {
				line[c] = random.Float64()
				if random.Intn(4) == 0 {
					line[c] = -1
				}
			}
			g.value = append(g.value, line)
		}
		count := 1 + random.Intn(4)
		want := bruteForce(g, count)
		spots, got := g.best(count, 0)
		if math.IsInf(want, -1) {
			if len(spots) >= count {
				t.Fatalf("board %d: placed %d panels where %d cannot hang", n, len(spots), count)
			}
			continue
		}
		compared++
		if len(spots) != count || math.Abs(got-want) > 1e-9 || math.Abs(g.sum(spots)-want) > 1e-9 {
			t.Fatalf("board %d: %d panels worth %g (sum %g), brute force %d worth %g", n, len(spots), got, g.sum(spots), count, want)
		}
	}
	t.Logf("%d boards compared", compared)
	if compared < 60 {
		t.Errorf("only %d boards compared", compared)
	}
}

func TestPanelsStayInsideClearOfWindowsAndOfEachOther(t *testing.T) {
	random := rand.New(rand.NewSource(3))
	for n := 0; n < 25; n++ {
		width, height := 5+random.Float64()*5, 2.4+random.Float64()*3
		outline := wall(width, height)
		if n%3 == 0 { // a hip's trapezoid
			outline = orb.MultiPolygon{{{{0, 0}, {width, 0}, {width * .7, height}, {width * .3, height}, {0, 0}}}}
		}
		values := make([]float64, 40*25)
		for i := range values {
			values[i] = random.Float64() * 500
		}
		m, err := NewValueMap(0, 0, .25, 40, values)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := WallSetbacks()
		b := Board{Outline: outline, Setbacks: s, Value: m.Sum}
		for k := 0; k < 2; k++ {
			u, v := random.Float64()*width, random.Float64()*height
			b.KeepOuts = append(b.KeepOuts, KeepOut{"window", rect(u, v, u+.8, v+1.2), .1})
		}
		l, err := b.Best(Panels{Kind: "air heater", Width: .9, Height: 1.6, Count: 1 + random.Intn(5), Turn: n%2 == 0, Gap: .03})
		if err != nil {
			t.Fatal(err)
		}
		if share(l) > 1+1e-9 || len(l.Places) > 0 && share(l) < .9 {
			t.Errorf("board %d: %.3f of the bound", n, share(l))
		}
		for i, p := range l.Places {
			r := p.Bound()
			for _, corner := range []orb.Point{r.Min, r.Max, {r.Min[0], r.Max[1]}, {r.Max[0], r.Min[1]}} {
				if !inside(outline, corner) {
					t.Errorf("board %d: corner %v outside", n, corner)
				}
			}
			near(t, "on the inch", math.Mod(p.Left/metresPerInch+1e-6, 1), 0, 1e-4)
			near(t, "value", p.Value, m.Sum(r), 1e-6)
			for _, k := range b.KeepOuts {
				if r.Pad(-1e-5).Intersects(k.Rect.Pad(k.Margin)) {
					t.Errorf("board %d: panel over a window", n)
				}
			}
			for _, q := range l.Places[:i] {
				if r.Pad(-1e-5).Intersects(q.Bound()) {
					t.Errorf("board %d: panels overlap", n)
				}
				if q.Bottom != p.Bottom && math.Abs(q.Bottom-p.Bottom) < p.Height {
					t.Errorf("board %d: rows cross", n)
				}
				if q.Turned != p.Turned {
					t.Errorf("board %d: upright and turned mixed", n)
				}
			}
		}
	}
}

// inside by the half-plane rule for these convex outlines.
func inside(m orb.MultiPolygon, p orb.Point) bool {
	ring := m[0][0]
	for i := 0; i+1 < len(ring); i++ {
		a, b := ring[i], ring[i+1]
		if (b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]) < -1e-9 {
			return false
		}
	}
	return true
}

func TestPanelsGoWhereTheSunIsAndStandNeatly(t *testing.T) {
	s := Setbacks{}
	bright := func(b orb.Bound) float64 { // brighter to the right
		return even(b) * (100 + 10*(b.Min[0]+b.Max[0])/2)
	}
	b := Board{Outline: wall(8, 2), Setbacks: s, Value: bright}
	l, err := b.Best(Panels{Width: 1.2192, Height: 1.8, Count: 2})
	if err != nil || len(l.Places) != 2 {
		t.Fatal(l, err)
	}
	if last := l.Places[1]; 8-last.U-last.Width > metresPerInch {
		t.Errorf("right panel ends %g m from the bright end", 8-last.U-last.Width)
	}
	near(t, "side by side", l.Places[1].Left-l.Places[0].Left, 1.2192, 1e-6)
	near(t, "one line", l.Places[0].Bottom, l.Places[1].Bottom, 0)
	// A 2 × 2 block on an even roof shares left edges and bottom lines.
	l, err = Board{Outline: wall(3, 4), Setbacks: s, Value: even}.Best(Panels{Width: 1.2, Height: 1.9, Count: 4})
	if err != nil || len(l.Places) != 4 {
		t.Fatal(l, err)
	}
	near(t, "left edges line up", l.Places[0].Left, l.Places[2].Left, 0)
	near(t, "and the next", l.Places[1].Left, l.Places[3].Left, 0)
}

// Rows line up for a hundredth of a row's sun and no more: the upper half of
// this wall is brighter to the right, the lower to the left.
func TestRowsLineUpWhereThatCostsNextToNothing(t *testing.T) {
	for name, c := range map[string]struct {
		slope  float64 // share of the sun a metre
		lineUp bool
	}{
		"a thousandth a metre":    {0.001, true},
		"eight thousandths":       {0.008, true}, // 0.5 % over the 0.6 m there are
		"three hundredths":        {0.03, false}, // 1.8 %
		"a tenth of it a metre":   {0.1, false},
		"even, so nothing to win": {0, true},
	} {
		value := func(b orb.Bound) float64 {
			u := b.Min[0]
			if b.Min[1] < 1.9 {
				u = -u
			}
			return even(b) * 100 * (1 + c.slope*u)
		}
		l, err := Board{Outline: wall(3, 4), Value: value}.Best(Panels{Width: 1.2, Height: 1.9, Count: 4})
		if err != nil || len(l.Places) != 4 {
			t.Fatal(name, l, err)
		}
		upper, lower := l.Places[0], l.Places[2]
		if lined := math.Abs(upper.Left-lower.Left) < 1e-9; lined != c.lineUp {
			t.Errorf("%s: the rows begin at %.3f and %.3f m", name, upper.Left, lower.Left)
		}
		if l.Value < (1-aligning)*l.Bound {
			t.Errorf("%s: lining up cost %.2f %%", name, 100*(1-share(l)))
		}
	}
}

func TestBetweenTwoWindowsThePanelFillsTheGapExactly(t *testing.T) {
	// Wall 20 ft long; windows leave 4 ft in the middle, less 6 in trim each.
	ft := metresPerFoot
	b := Board{Outline: wall(20*ft, 9*ft), Value: even, KeepOuts: []KeepOut{
		{"W1", rect(0, 2*ft, 8*ft, 7*ft), .5 * ft}, {"W2", rect(12.5*ft, 2*ft, 20*ft, 7*ft), .5 * ft}}}
	l, err := b.Best(Panels{Width: 3.5 * ft, Height: 6 * ft, Count: 3})
	if err != nil || len(l.Places) != 1 {
		t.Fatal(l, err)
	}
	near(t, "left", l.Places[0].Left, 8.5*ft, 1e-9)
	if l.Note != "room for 1 of 3" {
		t.Error(l.Note)
	}
	words := l.Places[0].Words(func(m float64) string { return measure.FormatTape(m, measure.Feet) }, "the south-west corner", "the water table")
	t.Log(words)
	if want := "left edge 8 ft 6 in from the south-west corner, bottom 0 in above the water table"; words != want {
		t.Errorf("got %q, want %q", words, want)
	}
}

func TestRoofKeepsItsSetbacks(t *testing.T) {
	s, assumed := RoofSetbacks()
	if len(assumed) == 0 {
		t.Error("setbacks must be listed as assumed")
	}
	l, err := Board{Outline: wall(10, 5), Setbacks: s, Value: even}.Best(Panels{Width: 1.2192, Height: 2.4384, Count: 9, Turn: true})
	if err != nil || len(l.Places) == 0 {
		t.Fatal(l, err)
	}
	for _, p := range l.Places {
		r := p.Bound()
		if r.Min[0] < s.Side-1e-6 || r.Max[0] > 10-s.Side+1e-6 || r.Min[1] < s.Bottom-1e-6 || r.Max[1] > 5-s.Top+1e-6 {
			t.Errorf("panel at %v", r)
		}
	}
}

func TestPlacementRefusesNonsense(t *testing.T) {
	b := Board{Outline: wall(5, 3), Value: even}
	for name, p := range map[string]Panels{
		"no size": {Count: 1}, "nan": {Width: math.NaN(), Height: 1, Count: 1}, "too many": {Width: 1, Height: 1, Count: 1e6}, "negative": {Width: 1, Height: 1, Count: -1},
	} {
		if _, err := b.Best(p); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := (Board{Outline: wall(1e9, 3), Value: even}).Best(Panels{Width: 1, Height: 1, Count: 1}); err == nil {
		t.Error("an endless wall was taken")
	}
	if l, err := (Board{Value: even}).Best(Panels{Width: 1, Height: 1, Count: 1}); err != nil || len(l.Places) != 0 {
		t.Error("no outline:", l, err)
	}
	if l, err := b.Best(Panels{Width: 6, Height: 1, Count: 1}); err != nil || len(l.Places) != 0 || l.Note == "" {
		t.Error("too wide:", l, err)
	}
	if _, err := NewValueMap(0, 0, 1, 3, make([]float64, 4)); err == nil {
		t.Error("a ragged map was taken")
	}
}

func TestValueMapSumsLikeAddingCells(t *testing.T) {
	random := rand.New(rand.NewSource(2))
	values := make([]float64, 7*5)
	for i := range values {
		values[i] = random.Float64()
	}
	m, err := NewValueMap(1, 2, .5, 7, values)
	if err != nil {
		t.Fatal(err)
	}
	for n := 0; n < 200; n++ {
		u, v := random.Float64()*5, random.Float64()*5
		b := rect(u, v, u+random.Float64()*2, v+random.Float64()*2)
		want := 0.0
		for i, x := range values {
			cu, cv := 1+.5*float64(i%7), 2+.5*float64(i/7)
			w := min(b.Max[0], cu+.5) - max(b.Min[0], cu)
			h := min(b.Max[1], cv+.5) - max(b.Min[1], cv)
			want += x * max(0, w) * max(0, h)
		}
		near(t, "sum", m.Sum(b), want, 1e-9)
	}
}

// share of the proven bound reached; 1 when nothing fits.
func share(l Layout) float64 {
	if l.Bound <= 0 {
		return 1
	}
	return l.Value / l.Bound
}
