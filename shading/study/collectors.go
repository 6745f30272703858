package study

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
)

// Placed is one wish for collectors and where they would hang.
type Placed struct {
	ID      string      `json:"id"`
	Kind    string      `json:"kind"`
	Face    string      `json:"on"` // wall or roof plane; empty where none fits
	Layout  heat.Layout `json:"layout"`
	Words   []string    `json:"places_in_words"` // one a panel, as a tape reads
	Area    float64     `json:"gross_area_m2"`
	Cost    float64     `json:"cost"` // of those placed; the usual one where none is stated
	Stated  bool        `json:"cost_stated"`
	Chosen  string      `json:"chosen_by"` // whose sun the place was chosen by
	Caution []string    `json:"cautions"`

	Surface int `json:"-"` // number of the face in the scene, -1 for none

	wish model.CollectorChoice
}

// Air tells whether these are air heaters; the others heat water.
func (p Placed) Air() bool { return p.Kind == "air heater" }

const (
	// placeCell is the cell of the maps places are chosen by: 6 in.
	placeCell = 0.1524
	// panelGap is what two panels leave between them: 2 in, common practice.
	panelGap = 0.0508
)

// placeCollectors hangs the site's collectors where the sun of a state is
// greatest: air heaters by the heating season's, hot water by the year's.
func (st *Study) placeCollectors(state shading.State) ([]Placed, error) {
	hung := map[int][]heat.KeepOut{}
	var out []Placed
	for n, c := range st.Site.Collectors {
		if c.Count <= 0 {
			continue
		}
		faces, err := st.mounts(c)
		if err != nil {
			return nil, fmt.Errorf("collectors, entry %d (%s): %w", n+1, c.ID, err)
		}
		p := Placed{ID: c.ID, Kind: c.Kind, Surface: -1, wish: c, Stated: c.CostKnown || c.Cost > 0, Layout: heat.Layout{Kind: c.Kind, Wanted: c.Count, Note: "no face for it: " + st.wantedFace(c)}}
		months, chosen := st.Heating, "sun of the heating season"
		if !p.Air() {
			months, chosen = nil, "sun of the year"
		}
		p.Chosen = chosen
		for _, i := range faces {
			layout, err := st.layout(i, c, state, months, hung[i])
			if err != nil {
				return nil, fmt.Errorf("collectors, entry %d (%s): %w", n+1, c.ID, err)
			}
			if p.Surface < 0 || len(layout.Places) > len(p.Layout.Places) || len(layout.Places) == len(p.Layout.Places) && layout.Value > p.Layout.Value {
				p.Surface, p.Face, p.Layout = i, st.Scene.Surfaces[i].ID, layout
			}
		}
		if len(p.Layout.Places) < c.Count && !c.Turned && p.Surface >= 0 {
			lying := c
			lying.Turned = true
			other, err := st.layout(p.Surface, lying, state, months, hung[p.Surface])
			if err == nil && len(other.Places) > len(p.Layout.Places) {
				p.Layout.Note += fmt.Sprintf("; for %d if they may lie on their side (may lie: yes)", len(other.Places))
			}
		}
		if len(p.Layout.Places) == 0 && p.Surface >= 0 {
			why := st.tooLow(p.Surface, c)
			if why == "" {
				why = st.whatFits(p.Surface, c, state, months, hung[p.Surface])
			}
			p.Layout.Note += why
		}
		for _, place := range p.Layout.Places {
			area := place.Width * place.Height
			p.Area += area
			each := c.Cost
			if !p.Stated {
				each, _ = heat.TypicalCost(c.Kind, area)
			}
			p.Cost += each
			p.Words = append(p.Words, st.placeWords(&st.Scene.Surfaces[p.Surface], place))
			hung[p.Surface] = append(hung[p.Surface], heat.KeepOut{What: c.ID, Rect: place.Bound(), Margin: panelGap})
		}
		p.Caution = p.cautions(st)
		out = append(out, p)
	}
	return out, nil
}

// tooLow says so where a face is not high enough for a panel and the room kept
// beneath and above it.
func (st *Study) tooLow(i int, c model.CollectorChoice) string {
	s := &st.Scene.Surfaces[i]
	keep, _ := heat.RoofSetbacks()
	if s.Kind == model.WallFace {
		keep, _ = heat.WallSetbacks()
	}
	high := c.Height
	if c.Turned {
		high = min(c.Height, c.Width)
	}
	need := high + keep.Bottom + keep.Top
	if have := s.Face.Height(); need > have {
		return fmt.Sprintf(": with the room kept at foot and top they want %s of height, %s has %s", measure.FormatTape(need, st.unit()), s.ID, measure.FormatTape(have, st.unit()))
	}
	return ""
}

// whatFits says how high or how wide a panel may be where none of the size
// asked for has room between windows and edges.
func (st *Study) whatFits(i int, c model.CollectorChoice, state shading.State, months []time.Month, hung []heat.KeepOut) string {
	const step, least = 0.1524, 0.61 // 6 in, 2 ft
	c.Count = 1
	shrunk := func(c *model.CollectorChoice, side *float64) string {
		for *side -= step; *side >= least; *side -= step {
			if l, err := st.layout(i, *c, state, months, hung); err == nil && len(l.Places) > 0 {
				return measure.FormatTape(*side, st.unit())
			}
		}
		return ""
	}
	low, narrow := c, c
	var words []string
	if high := shrunk(&low, &low.Height); high != "" {
		words = append(words, fmt.Sprintf("one %s wide may be %s high", measure.FormatTape(c.Width, st.unit()), high))
	}
	if wide := shrunk(&narrow, &narrow.Width); wide != "" {
		words = append(words, fmt.Sprintf("one %s high may be %s wide", measure.FormatTape(c.Height, st.unit()), wide))
	}
	if len(words) == 0 {
		return ": windows, edges and the room kept about them leave no place of use"
	}
	return ": with the room kept about windows and edges, " + strings.Join(words, ", ")
}

func (p Placed) cautions(st *Study) []string {
	topics := []string{"air heater"}
	if !p.Air() {
		topics = []string{"hot water"}
	}
	if p.Surface >= 0 {
		topics = append(topics, string(st.Scene.Surfaces[p.Surface].Kind)) // wall or roof
	}
	var out []string
	for _, topic := range topics {
		for _, line := range heat.Cautions(topic, st.unit()) {
			if !contains(out, line) {
				out = append(out, line)
			}
		}
	}
	return out
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func (st *Study) wantedFace(c model.CollectorChoice) string {
	if c.Kind == "air heater" {
		return "the house has no wall toward the " + st.SunSide()
	}
	return "the house has no roof plane toward the " + st.SunSide()
}

// mounts are the faces a wish may hang on: the one it names, or the sun side's
// walls for air heaters and the roof for hot water.
func (st *Study) mounts(c model.CollectorChoice) ([]int, error) {
	name := c.On
	if name == "" {
		name = "roof"
		if c.Kind == "air heater" {
			name = st.SunSide() + " walls"
		}
	}
	usable := func(list []int) []int {
		var out []int
		for _, i := range list {
			if k := st.Scene.Surfaces[i].Kind; k == model.WallFace || k == model.RoofFace {
				out = append(out, i)
			}
		}
		return out
	}
	if list, err := st.group(name); err == nil && (len(usable(list)) > 0 || c.On == "") {
		return usable(list), nil
	}
	var walls, ids []string
	var faces []model.Face
	for i := range st.Scene.Surfaces {
		switch s := &st.Scene.Surfaces[i]; s.Kind {
		case model.WallFace:
			faces, walls = append(faces, s.Face), append(walls, s.ID)
		case model.RoofFace:
			ids = append(ids, s.ID)
		}
	}
	if wall, err := model.FindWall(faces, name); err == nil {
		return []int{st.Scene.SurfaceNamed(wall.ID)}, nil
	}
	return nil, fmt.Errorf("on: %q is no wall or roof plane of the house; the walls are %s, the roof planes %s", c.On, listText(walls), listText(ids))
}

// layout searches one face.
func (st *Study) layout(i int, c model.CollectorChoice, state shading.State, months []time.Month, hung []heat.KeepOut) (heat.Layout, error) {
	s := &st.Scene.Surfaces[i]
	m := st.Map(i)
	if m.Columns == 0 {
		return heat.Layout{Kind: c.Kind, Wanted: c.Count, Note: "the face is too small"}, nil
	}
	cells := m.Read(state, months...)
	for k, x := range cells {
		if math.IsNaN(x) {
			cells[k] = 0
		}
	}
	value, err := heat.NewValueMap(m.U0, m.V0, m.Cell, m.Columns, cells)
	if err != nil {
		return heat.Layout{}, err
	}
	board := heat.Board{Outline: s.Face.Outline, KeepOuts: append(hung, st.KeepOuts(i)...), Value: value.Sum}
	if board.Setbacks, _ = heat.RoofSetbacks(); s.Kind == model.WallFace {
		board.Setbacks, _ = heat.WallSetbacks()
	}
	return board.Best(heat.Panels{Kind: c.Kind, Width: c.Width, Height: c.Height, Count: c.Count, Turn: c.Turned, Gap: panelGap})
}

// Map is the face of a surface cast cell by cell; it is cast once.
func (st *Study) Map(i int) *shading.Map {
	if m := st.maps[i]; m != nil {
		return m
	}
	m := st.Scene.CastMap(&st.Scene.Surfaces[i], placeCell, st.Light)
	if st.maps == nil {
		st.maps = map[int]*shading.Map{}
	}
	st.maps[i] = m
	return m
}

func (st *Study) unit() measure.Unit {
	if st.Site.Metric {
		return measure.Metres
	}
	return measure.Feet
}
