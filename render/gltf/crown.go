package gltf

import (
	"math"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/model"
)

// How finely a crown is cut: facets round it, and rings from bottom to top.
const (
	facets = 48
	rings  = 24
)

// solidMesh is the closed skin of an upright solid. Rings lie closer together
// toward bottom and top, where crowns curve most. Each ring is the regular
// polygon with the area of the true section, so that the shadow is neither
// larger nor smaller on the average: it lies at most 0.14 % of the half-width
// outside and 0.07 % inside the true ellipse.
func solidMesh(s model.Solid) mesh {
	var m mesh
	if s.Empty() {
		return m
	}
	const turn = 2 * math.Pi / facets
	evenArea := math.Sqrt(turn / math.Sin(turn))
	sinT, cosT := math.Sincos(s.Twist)
	at := func(z, r, angle float64) r3.Vector {
		sin, cos := math.Sincos(angle)
		x, y := s.SemiX*r*evenArea*cos, s.SemiY*r*evenArea*sin
		return r3.Vector{X: s.At[0] + x*cosT + y*sinT, Y: s.At[1] - x*sinT + y*cosT, Z: z}
	}
	point := func(z float64) int { return m.corner(r3.Vector{X: s.At[0], Y: s.At[1], Z: z}) }
	ring := func(z, r float64) []int {
		var out []int
		for k := range facets {
			out = append(out, m.corner(at(z, r, turn*float64(k))))
		}
		return out
	}
	const narrow = 1e-4 // of the half-width; narrower ends are a point
	below := point(s.Bottom)
	var last []int
	for i := range rings + 1 {
		z := s.Bottom + (s.Top-s.Bottom)*(1-math.Cos(math.Pi*float64(i)/rings))/2
		if i == rings {
			z = s.Top
		}
		r := s.Radius(z)
		if r < narrow && (i == 0 || i == rings) {
			continue
		}
		next := ring(z, r)
		for k := range facets {
			j := (k + 1) % facets
			if last == nil {
				m.triangle(below, next[j], next[k])
				continue
			}
			m.triangle(last[k], last[j], next[j])
			m.triangle(last[k], next[j], next[k])
		}
		last = next
	}
	above := point(s.Top)
	for k := range last {
		m.triangle(last[k], last[(k+1)%facets], above)
	}
	return m
}
