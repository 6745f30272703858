package study

import (
	"fmt"
	"math"
	"strings"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
)

// KeepOuts are the things on surface number i that collectors keep clear of
// besides its edges and windows: chimneys, porches, and what the site file
// names.
func (st *Study) KeepOuts(i int) []heat.KeepOut {
	s := &st.Scene.Surfaces[i]
	things := st.patchesOn(s.Face)
	if s.Kind == model.WallFace {
		return append(things, st.porchesOn(s.Face)...)
	}
	setbacks, _ := heat.RoofSetbacks()
	return append(things, st.chimneysOn(s.Face, setbacks.Chimney)...)
}

// chimneysOn are the chimneys' feet on a roof plane.
func (st *Study) chimneysOn(f model.Face, margin float64) []heat.KeepOut {
	level := math.Hypot(f.V.X, f.V.Y)
	if level < 1e-6 {
		return nil
	}
	var out []heat.KeepOut
	for _, c := range st.Site.House.Chimneys {
		sin, cos := math.Sincos(c.Twist)
		var feet orb.MultiPoint
		for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			x, y := q[0]*c.Width/2, q[1]*c.Depth/2
			d := r3.Vector{X: c.At[0] + x*cos + y*sin - f.Origin.X, Y: c.At[1] - x*sin + y*cos - f.Origin.Y}
			feet = append(feet, orb.Point{d.Dot(f.U), (d.X*f.V.X + d.Y*f.V.Y) / (level * level)})
		}
		out = append(out, heat.KeepOut{What: c.ID, Rect: feet.Bound(), Margin: margin})
	}
	return out
}

// patchesOn are what the site file names to keep clear of on a face.
func (st *Study) patchesOn(f model.Face) []heat.KeepOut {
	var faces []model.Face
	for i := range st.Scene.Surfaces {
		faces = append(faces, st.Scene.Surfaces[i].Face)
	}
	var out []heat.KeepOut
	for _, k := range st.Site.KeepClear {
		if on, err := model.FindBoard(faces, k.On); err == nil && on.ID == f.ID {
			out = append(out, heat.KeepOut{What: k.ID, Rect: k.Bound(f), Margin: k.Margin})
		}
	}
	return out
}

// porchesOn are the stretches of a wall that porches and sheds stand against.
func (st *Study) porchesOn(f model.Face) []heat.KeepOut {
	const against = 0.3 // m from the wall
	var out []heat.KeepOut
	for _, b := range st.Site.Porches {
		var touching orb.MultiPoint
		for _, screen := range b.Screens() {
			for _, polygon := range screen.Outline {
				for _, q := range polygon[0] {
					d := screen.At(q[0], q[1]).Sub(f.Origin)
					if off := d.Dot(f.N); off > -against && off < against {
						touching = append(touching, orb.Point{d.Dot(f.U), d.Dot(f.V)})
					}
				}
			}
		}
		if len(touching) > 2 {
			r := touching.Bound()
			r.Min[1] = min(r.Min[1], 0)
			out = append(out, heat.KeepOut{What: b.ID, Rect: r, Margin: 0.1})
		}
	}
	return out
}

// placeWords say a panel's place as a tape reads it, from a corner with a name.
func (st *Study) placeWords(s *shading.Surface, p heat.Place) string {
	unit := st.unit()
	tape := func(m float64) string { return measure.FormatTape(m, unit) }
	left := model.Face{N: s.Face.U.Mul(-1)}
	if s.Kind == model.RoofFace {
		const eave = "the eave, up the slope"
		if s.Face.N.Z > 0.999 {
			return p.Words(tape, "the west edge", "the south edge of the level roof")
		}
		end, atEave := "its "+measure.CompassWord(left.Azimuth())+" end", leastV(s.Face.Outline)
		if atEave > 0.1 {
			end += " (its farthest point that way, above the eave)"
		}
		return p.Words(tape, end, eave)
	}
	corner := model.Face{N: s.Face.N.Add(s.Face.U.Mul(-1))}
	words := "the " + measure.CompassWord(corner.Azimuth()) + " corner"
	if strings.Contains(s.ID, "-") && s.ID[len(s.ID)-1] >= '0' && s.ID[len(s.ID)-1] <= '9' {
		words = "the left (" + measure.CompassWord(left.Azimuth()) + ") end of wall " + s.ID
	}
	return p.Words(tape, words, "the wall's base")
}

// leastV is how high on a face its leftmost corners begin.
func leastV(outline orb.MultiPolygon) float64 {
	bound := outline.Bound()
	least := math.Inf(1)
	for _, polygon := range outline {
		for _, q := range polygon[0] {
			if q[0] < bound.Min[0]+0.01 {
				least = min(least, q[1]-bound.Min[1])
			}
		}
	}
	return least
}

// panelScene is the lot with the placed panels as its only surfaces: every air
// heater its own, hot-water panels of one wish together, for they are plumbed
// as one. owner tells which wish a surface belongs to.
func (st *Study) panelScene(placed []Placed) (sc shading.Scene, owner []int) {
	sc = *st.Scene
	sc.Surfaces = nil
	for n, p := range placed {
		var whole orb.MultiPolygon
		for k, place := range p.Layout.Places {
			ring := orb.Polygon{place.Bound().ToRing()}
			if !p.Air() {
				whole = append(whole, ring)
				continue
			}
			sc.Surfaces = append(sc.Surfaces, st.panelSurface(p, fmt.Sprintf("%s-%d", p.ID, k+1), orb.MultiPolygon{ring}, place.Width*place.Height))
			owner = append(owner, n)
		}
		if len(whole) > 0 {
			sc.Surfaces = append(sc.Surfaces, st.panelSurface(p, p.ID, whole, p.Area))
			owner = append(owner, n)
		}
	}
	return sc, owner
}

func (st *Study) panelSurface(p Placed, id string, outline orb.MultiPolygon, area float64) shading.Surface {
	f := st.Scene.Surfaces[p.Surface].Face
	f.ID, f.Kind, f.Outline, f.Area = id, model.OtherFace, outline, area
	return shading.Surface{ID: id, Kind: model.OtherFace, Face: f}
}
