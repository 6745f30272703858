package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// meshArea adds up triangles; upside is how many look against the face.
func meshArea(f Face) (area float64, upside int) {
	for _, t := range f.Triangles() {
		n := t[1].Sub(t[0]).Cross(t[2].Sub(t[0]))
		if n.Dot(f.N) < -1e-12 {
			upside++
		}
		area += n.Norm() / 2
	}
	return area, upside
}

// openEdges counts inner edges that only one triangle has: those whose middle
// does not lie on the outline.
func openEdges(f Face) int {
	key := func(v r3.Vector) [3]int64 {
		return [3]int64{int64(math.Round(v.X * 1e5)), int64(math.Round(v.Y * 1e5)), int64(math.Round(v.Z * 1e5))}
	}
	count := map[[2][3]int64]int{}
	mid := map[[2][3]int64]orb.Point{}
	for _, t := range f.Triangles() {
		for i := range 3 {
			a, b := t[i], t[(i+1)%3]
			k := [2][3]int64{key(a), key(b)}
			if _, turned := count[[2][3]int64{k[1], k[0]}]; turned {
				k[0], k[1] = k[1], k[0]
			}
			count[k]++
			mid[k] = f.on(a.Add(b).Mul(0.5))
		}
	}
	open := 0
	for k, n := range count {
		if n == 2 {
			continue
		}
		onOutline := false
		for _, poly := range f.Outline {
			for _, r := range poly {
				for i := 0; i+1 < len(r); i++ {
					if distance(r[i], r[i+1]) == 0 {
						continue
					}
					if s, off := alongSegment([2]orb.Point{r[i], r[i+1]}, mid[k]); off < 1e-5 && s > -1e-6 && s < 1+1e-6 {
						onOutline = true
					}
				}
			}
		}
		if !onOutline {
			open++
		}
	}
	return open
}

func TestTrianglesCoverTheFaceOnceWithoutGaps(t *testing.T) {
	plane := Face{U: r3.Vector{X: 1}, V: r3.Vector{Z: 1}, N: r3.Vector{Y: -1}}
	cases := []struct {
		name    string
		outline orb.MultiPolygon
		area    float64
	}{
		{"nothing", nil, 0},
		{"a square", rectangle(0, 0, 2, 2), 4},
		{"a gable", orb.MultiPolygon{{{{0, 0}, {4, 0}, {4, 2}, {2, 4}, {0, 2}, {0, 0}}}}, 12},
		{"an L", orb.MultiPolygon{{{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}, {0, 0}}}}, 6},
		{"a U turned over", orb.MultiPolygon{{{{0, 0}, {1, 0}, {1, 2}, {3, 2}, {3, 0}, {4, 0}, {4, 3}, {0, 3}, {0, 0}}}}, 8},
		{"two windows at unlike heights", orb.MultiPolygon{{
			{{0, 0}, {6, 0}, {6, 3}, {0, 3}, {0, 0}},
			{{1, 1}, {1, 2}, {2, 2}, {2, 1}, {1, 1}},
			{{3, 0.5}, {3, 2.5}, {5, 2.5}, {5, 0.5}, {3, 0.5}},
		}}, 13},
		{"two pieces", orb.MultiPolygon{{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}}, {{{5, 0}, {6, 0}, {6, 1}, {5, 0}}}}, 1},
	}
	for _, c := range cases {
		plane.Outline = c.outline
		area, upside := meshArea(plane)
		if math.Abs(area-c.area) > 1e-9 || upside > 0 {
			t.Errorf("%s: area %v, want %v; %d triangles look inward", c.name, area, c.area, upside)
		}
		if n := openEdges(plane); n > 0 {
			t.Errorf("%s: %d edges inside the face are open", c.name, n)
		}
	}
}

func TestTrianglesOfAnyHouseHaveItsFacesAreas(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 60 {
		turn := s1.Angle(rng.Float64() * 2 * math.Pi)
		sin, cos := math.Sincos(turn.Radians())
		box := func(x0, y0, x1, y1 float64) orb.Ring {
			var r orb.Ring
			for _, p := range []orb.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}} {
				r = append(r, orb.Point{p[0]*cos + p[1]*sin, p[1]*cos - p[0]*sin})
			}
			return r
		}
		kinds := []RoofKind{Gable, Hip, Shed, Flat}
		b := Building{Parts: []Part{
			{ID: "main", Footprint: box(0, 0, 6+4*rng.Float64(), 7+3*rng.Float64()), WallHeight: 3 + 3*rng.Float64(),
				Roof: Roof{Kind: kinds[rng.IntN(3)], Ridge: turn, Down: turn, Pitch: s1.Angle(0.3 + 0.5*rng.Float64()), Overhang: 0.4}},
			{ID: "ell", Footprint: box(2, 5, 5, 12), WallHeight: 2.5,
				Roof: Roof{Kind: kinds[rng.IntN(4)], Ridge: turn, Down: turn, Pitch: s1.Angle(0.3), Overhang: 0.2}},
		}}
		faces, err := b.Faces()
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range faces {
			area, upside := meshArea(f)
			if math.Abs(area-f.Area) > 1e-4*(1+f.Area) || upside > 0 {
				t.Errorf("%s: triangles cover %v of %v m², %d look inward", f.ID, area, f.Area, upside)
			}
			if n := openEdges(f); n > 0 {
				t.Errorf("%s: %d edges inside are open", f.ID, n)
			}
		}
	}
}
