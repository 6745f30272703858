package gltf

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
)

// bankSite is the example lot with a bank along its front and a hollow behind.
func bankSite(t *testing.T) *model.Site {
	t.Helper()
	site := exampleSite(t)
	b := site.Lot.Bound()
	front := site.House.Parts[0].Footprint.Bound().Min[1] - 5
	for _, x := range []float64{b.Min[0] - 4, b.Max[0] + 4} {
		site.Terrain.Spots = append(site.Terrain.Spots,
			model.Spot{At: orb.Point{x, front}, Up: 0.4}, model.Spot{At: orb.Point{x, front - 2}, Up: 2.8})
	}
	site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: orb.Point{(b.Min[0] + b.Max[0]) / 2, b.Max[1]}, Up: -1.5})
	return site
}

func TestGroundMeshFollowsTheSpots(t *testing.T) {
	site := bankSite(t)
	ground := site.Ground()
	_, pieces := written(t, site, Options{})
	p := named(t, pieces, "ground")
	low, high := r3.Vector{X: math.Inf(1), Y: math.Inf(1)}, r3.Vector{X: math.Inf(-1), Y: math.Inf(-1)}
	area := 0.0
	for _, tri := range p.triangles {
		for _, c := range tri {
			low, high = r3.Vector{X: min(low.X, c.X), Y: min(low.Y, c.Y)}, r3.Vector{X: max(high.X, c.X), Y: max(high.Y, c.Y)}
			if z := ground.At(orb.Point{c.X, c.Y}); math.Abs(z-c.Z) > 1e-4 {
				t.Fatalf("a corner at %v; the ground there is at %v", c, z)
			}
		}
		up := tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0])).Z / 2
		if up < 0 {
			t.Fatalf("a triangle looks down: %v", tri)
		}
		area += up
	}
	if whole := (high.X - low.X) * (high.Y - low.Y); math.Abs(area-whole) > 1e-4*whole {
		t.Errorf("the mesh covers %.3f of %.3f m²", area, whole)
	}
	for _, s := range site.Terrain.Spots {
		found := false
		for _, c := range p.positions {
			found = found || math.Hypot(float64(c[0])-s.At[0], -float64(c[2])-s.At[1]) < 1e-3 && math.Abs(float64(c[1])-s.Up) < 1e-5
		}
		if !found {
			t.Errorf("spot %v is no corner of the mesh", s)
		}
	}
}

// With the ground counted as one more thing that lets nothing pass, a ray
// tracer finds in the file the shade of the bank as well.
func TestRaysFindTheBanksShade(t *testing.T) {
	site := bankSite(t)
	at := time.Date(2026, 12, 21, 12, 0, 0, 0, time.FixedZone("", -5*3600))
	_, pieces := written(t, site, Options{At: at})
	for i := range pieces {
		if pieces[i].name == "ground" {
			pieces[i].extras["kind"] = "land"
		}
	}
	scene, err := shading.NewScene(site)
	if err != nil {
		t.Fatal(err)
	}
	bare := *site
	bare.Terrain.Spots = nil
	level, err := shading.NewScene(&bare)
	if err != nil {
		t.Fatal(err)
	}
	share := func(sc *shading.Scene, id string, d r3.Vector) float64 {
		l := sc.Cast([]int{sc.SurfaceNamed(id)}, 1, func(int, int) (r3.Vector, bool) { return d, true }, shading.Casting{Row: 0.02})
		sum := 0.0
		for _, e := range l.Surfaces[0].Lines[0] {
			for _, b := range l.Sets[e.Set] {
				e.Share *= sc.Blockers[b].Optics.On(at.YearDay())
			}
			sum += e.Share
		}
		return sum
	}
	for _, c := range []struct{ altitude, azimuth float64 }{{14, 178}, {18, 170}} {
		d := model.Toward(s1.Angle(c.altitude)*s1.Degree, s1.Angle(c.azimuth)*s1.Degree)
		want, open := share(scene, "south", d), share(level, "south", d)
		if open-want < 0.02 {
			t.Errorf("sun %v: the bank takes %.3f; the test tests nothing", c, open-want)
		}
		if got := lightOn(pieces, named(t, pieces, "wall south"), d, 0.08); math.Abs(got-want) > 0.012 {
			t.Errorf("sun %v: rays find %.4f, the ledger %.4f (level ground %.4f)", c, got, want, open)
		}
	}
}
