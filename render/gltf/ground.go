package gltf

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"github.com/southyard/southyard/model"
)

// ground adds the lot with some land about it, lying as stated, and the lot
// line.
func (s *scene) ground(site *model.Site) {
	var all orb.MultiPoint
	for _, r := range append([]orb.Ring{site.Lot}, footprints(site)...) {
		all = append(all, r...)
	}
	for _, t := range site.Trees {
		all = append(all, t.At)
	}
	for _, spot := range site.Terrain.Spots {
		all = append(all, spot.At)
	}
	if len(all) == 0 {
		return
	}
	b := all.Bound().Pad(10)
	ground := site.Ground()
	s.top(s.node("ground", groundMesh(ground, b), "ground", map[string]any{"kind": "ground", "transmissivity_in_leaf": 0, "transmissivity_bare": 0}))
	var line []r3.Vector
	for _, p := range steps(site.Lot, ground.Rises()) {
		line = append(line, r3.Vector{X: p[0], Y: p[1], Z: ground.At(p) + 0.02}) // just above the ground, so that it shows
	}
	s.line("lot line", line, map[string]any{"kind": "lot line"})
}

// groundMesh is the ground within a bound: a plane, or the flat pieces between
// spot heights cut to the bound.
func groundMesh(ground model.Ground, b orb.Bound) mesh {
	rings := []orb.Ring{b.ToRing()}
	if ground.Rises() {
		rings = nil
		for _, f := range ground.Faces(2 * math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])) {
			var ring orb.Ring
			for _, q := range f.Outline[0][0] {
				c := f.At(q[0], q[1])
				ring = append(ring, orb.Point{c.X, c.Y})
			}
			rings = append(rings, clip.Ring(b, ring))
		}
	}
	var m mesh
	number := map[orb.Point]int{}
	for _, ring := range rings {
		var n []int
		for _, p := range ring {
			near := orb.Point{math.Round(p[0]*1e4) / 1e4, math.Round(p[1]*1e4) / 1e4} // a tenth of a millimetre
			k, ok := number[near]
			if !ok {
				k = m.corner(r3.Vector{X: p[0], Y: p[1], Z: ground.At(p)})
				number[near] = k
			}
			if !slices.Contains(n, k) {
				n = append(n, k)
			}
		}
		for i := 1; i+1 < len(n); i++ {
			m.triangle(n[0], n[i], n[i+1])
		}
	}
	return m
}

// steps are the corners of a line, and where the ground is uneven points at
// most a metre apart between them.
func steps(line []orb.Point, uneven bool) []orb.Point {
	if !uneven || len(line) < 2 {
		return line
	}
	out := []orb.Point{line[0]}
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		n := math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1]))
		for k := 1.0; k <= n && n < 10_000; k++ {
			out = append(out, orb.Point{a[0] + k/n*(b[0]-a[0]), a[1] + k/n*(b[1]-a[1])})
		}
	}
	return out
}

func footprints(site *model.Site) (out []orb.Ring) {
	for _, list := range [][]model.Building{{site.House}, site.Neighbours, site.Porches} {
		for _, b := range list {
			for _, p := range b.Parts {
				out = append(out, p.Footprint)
			}
		}
	}
	return out
}
