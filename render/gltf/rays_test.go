package gltf

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
)

// hits tells whether a ray meets a triangle (Möller & Trumbore 1997, Journal
// of Graphics Tools 2:21).
func hits(from, d r3.Vector, tri [3]r3.Vector) bool {
	e1, e2 := tri[1].Sub(tri[0]), tri[2].Sub(tri[0])
	p := d.Cross(e2)
	det := e1.Dot(p)
	if math.Abs(det) < 1e-12 {
		return false
	}
	s := from.Sub(tri[0])
	u := s.Dot(p) / det
	q := s.Cross(e1)
	v := d.Dot(q) / det
	return u >= 0 && v >= 0 && u+v <= 1 && e2.Dot(q)/det > 1e-4
}

// ball is a sphere about a piece: most rays pass far from most pieces.
type ball struct {
	piece
	middle r3.Vector
	radius float64
}

func around(p piece) ball {
	lo, hi := p.triangles[0][0], p.triangles[0][0]
	for _, tri := range p.triangles {
		for _, c := range tri {
			lo = r3.Vector{X: min(lo.X, c.X), Y: min(lo.Y, c.Y), Z: min(lo.Z, c.Z)}
			hi = r3.Vector{X: max(hi.X, c.X), Y: max(hi.Y, c.Y), Z: max(hi.Z, c.Z)}
		}
	}
	return ball{p, lo.Add(hi).Mul(0.5), hi.Sub(lo).Norm()/2 + 1e-6}
}

func (b ball) stops(from, d r3.Vector) bool {
	if b.middle.Sub(from).Cross(d).Norm() > b.radius {
		return false
	}
	for _, tri := range b.triangles {
		if hits(from, d, tri) {
			return true
		}
	}
	return false
}

// lightOn casts rays from the piece named name through the exported meshes
// alone and gives the share of the sun that arrives.
func lightOn(pieces []piece, surface piece, d r3.Vector, cell float64) float64 {
	var near []ball
	for _, p := range pieces {
		if len(p.triangles) > 0 && p.name != surface.name && p.extras["kind"] != "ground" {
			near = append(near, around(p))
		}
	}
	total, weight := 0.0, 0.0
	for _, tri := range surface.triangles {
		a, b := tri[1].Sub(tri[0]), tri[2].Sub(tri[0])
		n := a.Cross(b)
		area := n.Norm() / 2
		if area < 1e-6 {
			continue
		}
		n = n.Normalize()
		cells := max(2, int(math.Sqrt(area)/cell))
		each := area / float64(cells*cells)
		sample := func(u, v float64) {
			from := tri[0].Add(a.Mul(u)).Add(b.Mul(v)).Add(n.Mul(1e-4))
			passes := 1.0
			for _, p := range near {
				if p.stops(from, d) {
					through, _ := p.extras["transmissivity_at_the_moment"].(float64)
					if p.extras["kind"] == "fence" {
						through, _ = p.extras["transmissivity_bare"].(float64)
					}
					if passes *= through; passes == 0 {
						break
					}
				}
			}
			total, weight = total+each*passes, weight+each
		}
		m := float64(cells)
		for i := range cells {
			for j := range cells - i {
				sample((float64(i)+1./3)/m, (float64(j)+1./3)/m)
				if j < cells-i-1 {
					sample((float64(i)+2./3)/m, (float64(j)+2./3)/m)
				}
			}
		}
	}
	return total / weight
}

// Anyone's ray tracer must find in the file the shading that southyard
// reports: here a small one, which knows the exported triangles and extras
// alone, is held against the ledger.
func TestRaysThroughTheExportedMeshesFindTheLedgersShares(t *testing.T) {
	site := exampleSite(t)
	_, pieces := written(t, site, Options{At: noon})
	scene, err := shading.NewScene(site)
	if err != nil {
		t.Fatal(err)
	}
	compared, partly := 0, 0
	for _, c := range []struct{ altitude, azimuth float64 }{{24, 165}, {35, 190}, {15, 220}} {
		d := model.Toward(s1.Angle(c.altitude)*s1.Degree, s1.Angle(c.azimuth)*s1.Degree)
		for _, id := range []string{"south", "W2", "W4", "roof-south"} {
			k := scene.SurfaceNamed(id)
			ledger := scene.Cast([]int{k}, 1, func(int, int) (r3.Vector, bool) { return d, true }, shading.Casting{Row: 0.02})
			want := 0.0
			for _, e := range ledger.Surfaces[0].Lines[0] {
				for _, b := range ledger.Sets[e.Set] {
					e.Share *= scene.Blockers[b].Optics.On(noon.YearDay())
				}
				want += e.Share
			}
			surface := named(t, pieces, string(scene.Surfaces[k].Kind)+" "+id)
			got := lightOn(pieces, surface, d, math.Sqrt(scene.Surfaces[k].Face.Area)/26)
			if math.Abs(got-want) > 0.012 {
				t.Errorf("sun %v° up at %v°, %s: rays find %.4f, the ledger %.4f", c.altitude, c.azimuth, id, got, want)
			}
			compared++
			if want > 0.02 && want < 0.98 {
				partly++
			}
		}
	}
	if partly < compared/2 {
		t.Errorf("only %d of %d cases are partly shaded", partly, compared)
	}
}

func TestRayThroughTheMiddleOfACrownMeetsItTwice(t *testing.T) {
	site := exampleSite(t)
	_, pieces := written(t, site, Options{})
	for _, tree := range site.Trees {
		crown := named(t, pieces, "crown "+tree.ID)
		solid := tree.Crown()
		middle := r3.Vector{X: solid.At[0], Y: solid.At[1], Z: (solid.Bottom + solid.Top) / 2}
		d := model.Toward(s1.Angle(0.3), s1.Angle(2.9))
		count := 0
		for _, tri := range crown.triangles {
			if hits(middle.Sub(d.Mul(100)), d, tri) {
				count++
			}
		}
		if count != 2 {
			t.Errorf("%s: %d meetings", strings.TrimSpace(crown.name), count)
		}
	}
}
