package render

import (
	"math"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// hill is one slope that rises by 1 in 10 toward the north about 0, 0.
func hill() model.Ground {
	site := model.Site{House: model.Building{Parts: []model.Part{{Footprint: rect(-4, -5, 4, 5), WallHeight: 5}}}}
	site.Terrain.SlopeRise, site.Terrain.SlopeUphill = 0.1, 0*s1.Degree
	return site.Ground()
}

func TestLinesOfHeightLieOnTheirHeightAndRunOn(t *testing.T) {
	for name, g := range map[string]model.Ground{"slope": hill(), "bank": demoLand()} {
		region := feet(rect(0, 0, 40, 115))
		const step = 0.3
		ends := map[[2]int]int{}
		list := heightLines(g, region, step)
		if len(list) == 0 {
			t.Fatalf("%s: no lines", name)
		}
		for _, l := range list {
			for _, p := range []orb.Point{l.a, l.b} {
				if z := g.At(p); math.Abs(z-l.z) > 1e-6 || math.Abs(math.Remainder(l.z, step)) > 1e-9 {
					t.Errorf("%s: a line of %g runs at %g", name, l.z, z)
				}
				edge := math.Min(math.Min(p[0], 40*ft-p[0]), math.Min(p[1], 115*ft-p[1])) < 1e-6
				if !edge {
					ends[[2]int{int(math.Round(p[0] * 1e4)), int(math.Round(p[1] * 1e4))}]++
				}
			}
		}
		for at, n := range ends { // a line goes on in the next piece of land
			if n%2 != 0 && math.Abs(g.At(orb.Point{float64(at[0]) / 1e4, float64(at[1]) / 1e4})) > 1e-3 { // at the level foot of the house many meet
				t.Errorf("%s: %d lines end at %v", name, n, at)
			}
		}
	}
	if got := heightLines(model.Ground{}, rect(0, 0, 5, 5), 1); got != nil {
		t.Errorf("level ground has lines %v", got)
	}
}

func TestMoundsStandWhereATrunkIsOffTheLand(t *testing.T) {
	d := demoBank()
	for i, tree := range d.Trees {
		foot, top := d.moundOf(tree)
		if (foot != nil) != (i == 3 || i == 4) {
			t.Errorf("%s, at %.2f on land at %.2f, has a mound of %d points", tree.ID, tree.Ground, d.Land.At(tree.At), len(foot))
		}
		for k := range foot {
			if foot[k].Z != d.Land.At(tree.At) || top[k].Z != tree.Ground {
				t.Fatalf("a mound from %v to %v", foot[k], top[k])
			}
		}
	}
}

func TestWallsEndAtASlope(t *testing.T) {
	d := EyeView{Land: hill(), Faces: box3(-12, -15, 12, 15, 0, 10)}
	bottom := func(north bool) float64 {
		low := math.Inf(1)
		for _, f := range d.Faces {
			for _, v := range d.unburied(f.Ring) {
				if v.Z < d.Land.At(orb.Point{v.X, v.Y})-1e-9 {
					t.Errorf("a wall reaches down to %.3f, under the ground", v.Z)
				}
				if math.Abs(v.Y) > 15*ft-1e-9 && (v.Y > 0) == north {
					low = min(low, v.Z)
				}
			}
		}
		return low
	}
	if up, down := bottom(true), bottom(false); math.Abs(up-1.5*ft) > 1e-9 || down != 0 {
		t.Errorf("the uphill wall begins at %.3f, 15 ft up a slope of 1 in 10; the downhill one at %.3f", up, down)
	}
}
