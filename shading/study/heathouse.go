package study

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/heat"
)

// storeyHeight is floor to floor, 9 ft: a room of 8 ft and a floor. Common
// practice, no source.
const storeyHeight = 2.743

// dimensions are the sizes of the heated house as its outline gives them:
// heated up to the eaves, everything under the roof unheated attic. Floors are
// counted in half storeys.
func (st *Study) dimensions() (heat.Dimensions, []heat.Default) {
	var d heat.Dimensions
	whole, storeys := 0.0, 0.0
	eaves := map[string]float64{}
	for _, p := range st.Site.House.Parts {
		if p.Open {
			continue
		}
		eaves[p.ID] = max(eaves[p.ID], p.WallHeight)
		area := math.Abs(planar.Area(p.Footprint))
		floors := max(1, math.Round(2*p.WallHeight/storeyHeight)/2)
		whole += area
		storeys += area * floors
		d.FloorArea += area * floors
		d.Volume += area * p.WallHeight
	}
	d.GroundArea = st.Site.House.FootprintArea()
	if whole > 0 { // what two parts share counts once
		once := d.GroundArea / whole
		d.FloorArea, d.Volume, storeys = d.FloorArea*once, d.Volume*once, storeys/whole
	}
	d.CeilingArea = d.GroundArea
	party, beside := 0.0, []string{}
	for i := range st.Scene.Surfaces {
		if s := &st.Scene.Surfaces[i]; s.Kind == model.WallFace {
			whole := areaBelow(s.Face.Outline, eaves[s.Face.Part])
			against, who := st.partyWall(s.Face, eaves[s.Face.Part])
			against = min(against, whole)
			d.WallArea += whole - against
			party += against
			for _, name := range who {
				if !contains(beside, name) {
					beside = append(beside, name)
				}
			}
		}
	}
	d.Elevation = st.Year.Elevation
	if e := st.Site.Place.Elevation; !math.IsNaN(e) && e != 0 {
		d.Elevation = e
	}
	if math.IsNaN(d.Elevation) {
		d.Elevation = 0
	}
	assumed := []heat.Default{{Name: "heated part of the house", Value: fmt.Sprintf("up to the eaves: %s of wall without windows, %s of ceiling and of lowest floor", measure.FormatArea(d.WallArea, st.unit()), measure.FormatArea(d.GroundArea, st.unit())), Source: "from the outline in the site file"}}
	if party > 0 {
		assumed = append(assumed, heat.Default{Name: "party wall", Value: fmt.Sprintf("%s against %s loses no heat", measure.FormatArea(party, st.unit()), listText(beside)), Source: "common practice while the neighbour is heated, no source"})
	}
	if st.Site.Heat.FloorArea <= 0 {
		assumed = append(assumed, heat.Default{Name: "storeys", Value: fmt.Sprintf("%.1f", storeys), Source: "wall height by " + measure.FormatLength(9*0.3048, st.unit()) + " a storey, to the half; common practice, no source"})
	}
	return d, assumed
}

// partyWall is the area of a wall, up to its eave, that neighbours' walls stand
// against, m², and whose they are.
func (st *Study) partyWall(f model.Face, eave float64) (area float64, who []string) {
	const against = 0.3 // m between the two faces
	for _, b := range st.Site.Neighbours {
		covered := 0.0
		for _, other := range b.Screens() {
			if other.Kind != model.WallFace || other.N.Dot(f.N) > -0.95 {
				continue
			}
			var corners orb.MultiPoint
			near := true
			for _, polygon := range other.Outline {
				for _, q := range polygon[0] {
					d := other.At(q[0], q[1]).Sub(f.Origin)
					near = near && math.Abs(d.Dot(f.N)) < against
					corners = append(corners, orb.Point{d.Dot(f.U), d.Dot(f.V)})
				}
			}
			if near && len(corners) > 2 {
				r := corners.Bound()
				r.Max[1] = min(r.Max[1], eave)
				covered += areaIn(f.Outline, r)
			}
		}
		if covered > 0.1 {
			area, who = area+covered, append(who, b.ID)
		}
	}
	return area, who
}

// areaBelow is the area of a wall's outline up to the height of its eave, m².
func areaBelow(outline orb.MultiPolygon, eave float64) float64 {
	if len(outline) == 0 {
		return 0
	}
	b := outline.Bound()
	b.Max[1] = min(b.Max[1], eave)
	return areaIn(outline, b)
}

// areaIn is the area of a wall's outline within a rectangle, m².
func areaIn(outline orb.MultiPolygon, b orb.Bound) float64 {
	if !(b.Max[0] > b.Min[0] && b.Max[1] > b.Min[1]) {
		return 0
	}
	sum := 0.0
	for _, polygon := range outline {
		for n, ring := range polygon {
			area := math.Abs(planar.Area(clip.Ring(b, ring.Clone())))
			if n > 0 {
				area = -area
			}
			sum += area
		}
	}
	return max(0, sum)
}

// glass are the windows as the balance wants them, with the sun of a state.
func (st *Study) glass(windows receivers, sunOn []heat.Sun) []heat.Glass {
	var out []heat.Glass
	for k, i := range windows.which {
		s := &st.Scene.Surfaces[i]
		g := heat.Glass{ID: s.ID, Area: s.Face.Area, Sun: sunOn[k]}
		for _, w := range st.Site.Windows {
			if w.ID == s.ID {
				g.Frame, g.Glazing = w.Frame, w.Glazing
			}
		}
		out = append(out, g)
	}
	return out
}
