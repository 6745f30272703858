package species

import (
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
)

func TestEveryKindIsUsable(t *testing.T) {
	if len(All()) != 44 {
		t.Fatalf("%d kinds, want 44", len(All()))
	}
	for _, s := range append(All(), GenericTree(false), GenericTree(true)) {
		switch {
		case s.Height <= 0 || s.Width <= 0 || s.Growth <= 0, s.CrownBase < 0 || s.CrownBase > 0.5:
			t.Errorf("%s: size %v × %v, base %v, growth %v", s.Name, s.Height, s.Width, s.CrownBase, s.Growth)
		case s.InLeaf <= 0 || s.InLeaf > s.Bare || s.Bare >= 1:
			t.Errorf("%s: light %v in leaf, %v bare", s.Name, s.InLeaf, s.Bare)
		case s.Source == "":
			t.Errorf("%s has no source", s.Name)
		case s.Shape != model.Ellipsoid && s.Shape != model.Paraboloid && s.Shape != model.Cone:
			t.Errorf("%s: crown shape %q", s.Name, s.Shape)
		}
	}
}

func TestKindsAreFoundHoweverTheyAreSpelt(t *testing.T) {
	for text, want := range map[string]string{
		"silver maple": "silver maple", "Silver Maples": "silver maple", "ACER SACCHARINUM": "silver maple", "silver-maple": "silver maple",
		"Box Elder": "boxelder", "tree of heaven": "tree-of-heaven", "London plane": "London planetree", "white pine": "eastern white pine",
		"picea abies": "Norway spruce", "honey-locust": "honeylocust", "red oak": "northern red oak", "Malus spp.": "crabapple",
	} {
		if s, ok := Find(text); !ok || s.Name != want {
			t.Errorf("%q found %q", text, s.Name)
		}
	}
	for text, want := range map[string]string{"sliver maple": "silver maple", "norwy spruce": "Norway spruce", "Acer sacharinum": "silver maple"} {
		if _, ok := Find(text); ok {
			t.Errorf("%q was found without asking", text)
		}
		if like := Like(text); len(like) == 0 || like[0] != want {
			t.Errorf("%q is like %v, want %s", text, like, want)
		}
	}
	if like := Like("zzzzqqq"); like != nil {
		t.Errorf("zzzzqqq is like %v", like)
	}
	for other, named := range otherNames {
		if _, ok := Find(other); !ok {
			t.Errorf("%q leads to %q, which is not in the table", other, named)
		}
	}
	if s, ok := Find("unknown evergreen"); !ok || !s.Evergreen || !s.Generic {
		t.Error("unknown evergreen finds", s.Name)
	}
}

// Hopkins' law worked out by hand: 45° N, 300 m is 25 May (day 145) for full
// leaf, 35° N, 100 m is day 98.4; half leaf is half a ramp earlier.
func TestSpringFollowsHopkins(t *testing.T) {
	middling, _ := Find("silver maple")
	for _, c := range []struct{ latitude, elevation, full float64 }{{40, 300, 125}, {45, 300, 145}, {35, 100, 98.4426}} {
		if got := middling.Leafing(c.latitude, c.elevation).Out + ramp/2.0; math.Abs(got-c.full) > 0.01 {
			t.Errorf("%v° N, %v m: full leaf on day %.2f, want %.2f", c.latitude, c.elevation, got, c.full)
		}
	}
	early, _ := Find("Norway maple")
	if e, m := early.Leafing(42, 200), middling.Leafing(42, 200); m.Out-e.Out != 7 || e.Fall-m.Fall != 10 {
		t.Errorf("Norway maple %v against silver maple %v", e, m)
	}
}

func TestLeafIsOutInTheLocalSummer(t *testing.T) {
	for _, s := range All() {
		for latitude := -60.0; latitude <= 60; latitude += 5 {
			l := s.Leafing(latitude, 200)
			summer, winter := 197, 15
			if latitude < 0 {
				summer, winter = winter, summer
			}
			if got := LeafShare(l, summer); got != 1 {
				t.Fatalf("%s at %v°: share %v in midsummer (%v)", s.Name, latitude, got, l)
			}
			want := 0.0
			if s.Evergreen {
				want = 1
			}
			if got := LeafShare(l, winter); got != want {
				t.Fatalf("%s at %v°: share %v in midwinter (%v)", s.Name, latitude, got, l)
			}
		}
	}
}

func TestLeafComesAndGoesInThreeWeeklySteps(t *testing.T) {
	for _, l := range []model.Leafing{{Out: 114.5, Fall: 303, Ramp: 21}, {Out: 297, Fall: 120.5, Ramp: 21}} {
		count := map[float64]int{}
		jumps := 0
		for day := 1; day <= 365; day++ {
			count[LeafShare(l, day)]++
			if d := math.Abs(LeafShare(l, day) - LeafShare(l, day%365+1)); d > 0.51 {
				t.Errorf("%v: the share jumps by %v after day %d", l, d, day)
			} else if d > 0 {
				jumps++
			}
		}
		if jumps != 8 || count[1.0/6] != 14 || count[0.5] != 14 || count[5.0/6] != 14 {
			t.Errorf("%v: %d jumps, days by share %v", l, jumps, count)
		}
	}
	if LeafShare(model.Leafing{}, 20) != 1 {
		t.Error("the zero Leafing is not evergreen")
	}
}

func TestGrowthRisesAndNeverPassesMatureSize(t *testing.T) {
	for _, s := range append(All(), GenericTree(false), GenericTree(true)) {
		tree := model.Tree{Height: 2, SpreadX: 1, SpreadY: 1.2, CrownBase: 0.3, Trunk: 0.03}
		for range 60 {
			next := s.Grow(tree, 2)
			if next.Height < tree.Height || next.SpreadX < tree.SpreadX || next.Height > s.Height || next.SpreadY > s.Width || next.CrownBase != 0.3 {
				t.Fatalf("%s: %v becomes %v", s.Name, tree, next)
			}
			tree = next
		}
		if tree.Height < 0.9*s.Height {
			t.Errorf("%s is only %.1f m after 120 years, mature %.1f", s.Name, tree.Height, s.Height)
		}
		giant := model.Tree{Height: s.Height + 5, SpreadX: s.Width + 3, SpreadY: s.Width + 3}
		if g := s.Grow(giant, 20); g.Height != giant.Height || g.SpreadX != giant.SpreadX {
			t.Errorf("%s already past mature size changes to %v", s.Name, g)
		}
		two, four := s.Grow(s.Grow(model.Tree{Height: 3}, 2), 2), s.Grow(model.Tree{Height: 3}, 4)
		if math.Abs(two.Height-four.Height) > 1e-9 {
			t.Errorf("%s: two years twice is %v, four years %v", s.Name, two.Height, four.Height)
		}
	}
}

// The table's growth is the mean over about 20 years, so the curve must give
// it back there (kinds held at nine tenths of mature height excepted).
func TestGrowthGivesBackTheTablesRate(t *testing.T) {
	for _, s := range All() {
		if 20*s.Growth < 0.9*s.Height {
			if got := s.HeightAt(20) / 20; math.Abs(got-s.Growth) > 1e-9 {
				t.Errorf("%s: %v m a year, table %v", s.Name, got, s.Growth)
			}
		}
	}
}

// Height reached in ten years by the Morton Arboretum chart (reprinted by Wyman
// 1951; read in a reprint), feet. The quick kinds agree within a third. For
// the slow ones (oaks, hackberry, coffeetree) the curve runs up to 2.2 times as
// high, because the survey counts years from planting, when a street tree is
// already 2 to 3 m tall: a known difference, held where it is.
func TestTenYearHeightsAgainstTheArboretumChart(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64
	}{
		{"hackberry", 10, 14}, {"bur oak", 10, 14}, {"white oak", 10, 14}, {"Kentucky coffeetree", 10, 14},
		{"pin oak", 15, 19}, {"tulip tree", 15, 19}, {"black walnut", 15, 19}, {"sweetgum", 15, 19},
		{"red maple", 20, 24}, {"sugar maple", 20, 24}, {"American linden", 20, 24}, {"eastern white pine", 20, 24}, {"American elm", 20, 24},
		{"green ash", 25, 29}, {"silver maple", 25, 29}, {"American sycamore", 30, 34},
	} {
		s, ok := Find(c.name)
		if !ok {
			t.Fatal(c.name)
		}
		got := s.HeightAt(10) / 0.3048
		t.Logf("%-20s %4.1f ft, chart %v–%v ft", c.name, got, c.low, c.high)
		above := 1.34
		if c.low < 20 {
			above = 2.25
		}
		if got < c.low/1.34 || got > c.high*above {
			t.Errorf("%s: %.1f ft in ten years, chart %v–%v", c.name, got, c.low, c.high)
		}
	}
}

func TestThickerTrunksCostMore(t *testing.T) {
	last := 0.0
	for in := 2.0; in < 60; in++ {
		c := RemovalCost(in*0.0254, false)
		if c <= last || RemovalCost(in*0.0254, true) <= c {
			t.Errorf("%v in: $%v after $%v", in, c, last)
		}
		last = c
	}
}

func FuzzFind(f *testing.F) {
	f.Add("silver maple")
	f.Add(strings.Repeat("x", 1000))
	f.Fuzz(func(t *testing.T, name string) {
		if s, ok := Find(name); ok && s.Height <= 0 {
			t.Fatalf("%q found %v", name, s)
		}
		if len(Like(name)) > 3 {
			t.Fatal("more than three suggestions")
		}
	})
}
