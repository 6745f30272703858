package page

import (
	"math"
	"slices"
	"time"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
)

const (
	faceCell   = 0.6096 // m: about 2 ft, wide enough for a figure on a phone
	groundCell = 1.8288 // m: about 6 ft
	mostCells  = 420    // a map has no more, and fewer where trees are many; its cells grow instead
	cellDays   = 5      // days that share the rays of their middle one
	classes    = 12
)

// face is a face to be cut into cells.
type face struct {
	name, words string
	ground      bool
	face        model.Face
	cell        float64 // about; wide and high in the end
	wide, high  float64
	glass       []Pane
}

// faces are the walls and roof planes that look toward the equator, and the
// ground of the lot.
func faces(st *study.Study) []face {
	var out []face
	sign := -1.0
	if st.SunSide() == "north" {
		sign = 1
	}
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		toward := s.Face.N.Y * sign
		if !(s.Kind == model.WallFace && toward > 0.7 || s.Kind == model.RoofFace && toward > 0.1) {
			continue
		}
		f := face{name: s.ID, words: s.Words(), face: s.Face, cell: faceCell}
		for j := range st.Scene.Surfaces {
			if w := &st.Scene.Surfaces[j]; w.Wall == s.ID && len(w.Face.Outline) > 0 {
				f.glass = append(f.glass, Pane{w.ID, j, onFace(s.Face, w.Face)})
			}
		}
		out = append(out, f)
	}
	if len(st.Site.Lot) > 3 {
		out = append(out, face{name: "ground", words: "ground of the lot", ground: true, cell: groundCell, face: model.Face{
			U: r3.Vector{X: 1}, V: r3.Vector{Y: 1}, N: r3.Vector{Z: 1}, Outline: orb.MultiPolygon{{st.Site.Lot}}}})
	}
	return out
}

// cells cuts a face into surfaces of their own. Scraps under half a percent of a
// cell are left out, and ground under roofs.
func cells(st *study.Study, f *face, most int) (list []shading.Surface, corners [][2]float64) {
	box := f.face.Outline.Bound()
	w, h := box.Max[0]-box.Min[0], box.Max[1]-box.Min[1]
	if !(w > 0 && h > 0) {
		return nil, nil
	}
	cell := max(f.cell, math.Sqrt(w*h/float64(most)))
	columns, rows := max(1, math.Round(w/cell)), max(1, math.Round(h/cell))
	f.wide, f.high = w/columns, h/rows
	ground := st.Site.Ground()
	for r := range int(rows) {
		for c := range int(columns) {
			u, v := box.Min[0]+float64(c)*f.wide, box.Min[1]+float64(r)*f.high
			square := orb.Bound{Min: orb.Point{u, v}, Max: orb.Point{u + f.wide, v + f.high}}
			if f.ground && built(st, square.Center()) {
				continue
			}
			outline := clip.MultiPolygon(square, f.face.Outline.Clone())
			area := math.Abs(planar.Area(outline))
			if area < f.wide*f.high/200 {
				continue
			}
			one := f.face
			one.Kind, one.Outline, one.Area = model.OtherFace, outline, area
			if f.ground { // level, at the ground's own height; the land about it is left out
				one.Kind, one.Origin.Z = model.GroundFace, ground.At(square.Center())
			}
			list = append(list, shading.Surface{Kind: one.Kind, Face: one})
			corners = append(corners, [2]float64{round(u), round(v)})
		}
	}
	return list, corners
}

// built tells whether a point of the ground is inside a building.
func built(st *study.Study, at orb.Point) bool {
	for _, list := range [][]model.Building{{st.Site.House}, st.Site.Porches, st.Site.Neighbours} {
		for _, b := range list {
			for _, p := range b.Parts {
				if planar.RingContains(p.Footprint, at) {
					return true
				}
			}
		}
	}
	return false
}

// account casts the cells for the months of the heating season.
func account(st *study.Study, list []shading.Surface, months []time.Month) *shading.Account {
	sc := *st.Scene
	sc.Surfaces = list
	year := *st.Year
	year.Hours = make([]sun.Hour, len(st.Year.Hours))
	for i := range year.Hours {
		if m, _ := sun.Month(i); slices.Contains(months, m) {
			year.Hours[i] = st.Year.Hours[i]
		}
	}
	light := shading.NewLight(&year, st.Sky)
	return sc.NewAccount(sc.CastThinned(light, nil, cellDays, shading.Casting{Row: 2 * shading.SixInches}), light)
}

// mapOf casts a face in at most so many cells and enters its terms.
func mapOf(st *study.Study, f face, months []time.Month, t *terms, most int) Map {
	m := Map{Name: f.name, Words: f.words, Ground: f.ground, Glass: f.glass}
	list, corners := cells(st, &f, most)
	m.Wide, m.High = round(f.wide), round(f.high)
	for _, polygon := range f.face.Outline {
		for _, ring := range polygon {
			m.Outline = append(m.Outline, points(ring))
		}
	}
	if len(list) == 0 {
		return m
	}
	least, greatest := math.Inf(1), 0.0
	const atOnce = 60 // cells: keeps the ledger in hand small
	for first := 0; first < len(list); first += atOnce {
		part := list[first:min(first+atOnce, len(list))]
		a := account(st, part, months)
		today, trees := a.Read(a.Today()), treesGone(st, a)
		for i := range part {
			least, greatest = min(least, today[i].Total(months...)), max(greatest, trees[i].Total(months...))
			m.Cells = append(m.Cells, Cell{At: corners[first+i], Area: round(part[i].Face.Area), Sun: t.one(a, i, months, today[i].OpenTotal(months...), inMaps)})
		}
	}
	m.Breaks = render.Breaks(least, greatest, classes) // the same for every set
	for _, c := range render.ClassColours(len(m.Breaks) - 1) {
		m.Colours = append(m.Colours, hex(c.Fill))
		m.Inks = append(m.Inks, hex(c.Lettering))
	}
	return m
}

// treesGone is what an account's surfaces get without any tree.
func treesGone(st *study.Study, a *shading.Account) []shading.Reached {
	state := a.Today()
	for _, tree := range st.Site.Trees {
		state = a.Without(state, tree.ID)
	}
	return a.Read(state)
}
