package heat

import (
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// Panels are like panels to be placed on one face.
type Panels struct {
	Kind          string
	Width, Height float64 // m, as it stands upright
	Count         int
	Turn          bool    // may lie on its side
	Gap           float64 // m between neighbours
}

// Place is where one panel hangs, seen from outside, m. Left is measured from
// the outline's left end, Bottom from its lowest point, along the face.
type Place struct {
	Left   float64 `json:"left_m"`
	Bottom float64 `json:"bottom_m"`
	Width  float64 `json:"width_m"`
	Height float64 `json:"height_m"`
	U      float64 `json:"u_m"` // of the lower left corner, in the face's own coordinates
	V      float64 `json:"v_m"`
	Turned bool    `json:"turned"`
	Value  float64 `json:"value"` // sun on the panel, in the map's unit × m²
}

// Bound of the panel in the face's coordinates.
func (p Place) Bound() orb.Bound {
	return orb.Bound{Min: orb.Point{p.U, p.V}, Max: orb.Point{p.U + p.Width, p.V + p.Height}}
}

// Words say a place as a builder reads a tape. length writes a length; corner
// names the outline's left end ("the south-west corner") and base its lowest
// line ("the water table").
func (p Place) Words(length func(metres float64) string, corner, base string) string {
	return fmt.Sprintf("left edge %s from %s, bottom %s above %s", length(p.Left), corner, length(p.Bottom), base)
}

// Layout is the answer for one face.
type Layout struct {
	Kind   string  `json:"kind"`
	Wanted int     `json:"wanted"`
	Places []Place `json:"places"`
	Value  float64 `json:"value"`
	Bound  float64 `json:"bound"` // the most that rows of as many panels could get, aligned or not
	Note   string  `json:"note,omitempty"`
}

// maxPositions bounds the search on one face.
const (
	maxPositions = 4_000_000
	maxPanels    = 200
	// neatness is what one more group of panels must win, as a share of one
	// panel's best value, before a row is broken or begun (ours).
	neatness = 0.01
	// aligning may cost this share of a row's value (ours).
	aligning = 0.01
)

// Best places whole panels in level rows on a 1-inch grid from the outline's
// lower left: all upright or all turned, rows sharing a bottom line,
// neighbours at the gap unless more sun makes a break worth it, the left
// edges of rows lined up where that costs next to nothing. The sum of rows is
// searched exactly (dynamic programming over positions and then over rows).
// When not all fit, as many as fit are placed.
func (b Board) Best(p Panels) (Layout, error) {
	out := Layout{Kind: p.Kind, Wanted: p.Count}
	if !(p.Width >= 0.05 && p.Height >= 0.05 && p.Width < 50 && p.Height < 50 && p.Gap >= 0 && p.Gap < 10) || p.Count < 0 || p.Count > maxPanels {
		return out, fmt.Errorf("panels %q: %d of %g × %g m with %g m between; want up to %d of 0.05 to 50 m", p.Kind, p.Count, p.Width, p.Height, p.Gap, maxPanels)
	}
	if b.Value == nil {
		return out, fmt.Errorf("panels %q: no sun map for the face", p.Kind)
	}
	if len(b.Outline) == 0 {
		out.Note = "the face has no outline"
		return out, nil
	}
	bound := b.Outline.Bound()
	if s := (bound.Max[0] - bound.Min[0]) * (bound.Max[1] - bound.Min[1]) / (metresPerInch * metresPerInch); !(s < maxPositions) {
		return out, fmt.Errorf("face of %.0f × %.0f m is too large to place panels on", bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])
	}
	options := []grid{b.grid(p, false)}
	if p.Turn && p.Width != p.Height {
		options = append(options, b.grid(p, true))
	}
	best := -1
	var chosen []spot
	for n, g := range options {
		spots, _ := g.best(p.Count, neatness*g.most)
		if best < 0 || len(spots) > len(chosen) || len(spots) == len(chosen) && g.sum(spots) > options[best].sum(chosen) {
			best, chosen = n, spots
		}
	}
	for _, g := range options {
		if spots, value := g.best(p.Count, 0); len(spots) == len(chosen) {
			out.Bound = max(out.Bound, value)
		}
	}
	g := options[best]
	chosen = g.align(chosen)
	for _, s := range chosen {
		r := g.rect(s)
		place := Place{Left: r.Min[0] - bound.Min[0], Bottom: r.Min[1] - bound.Min[1], Width: g.width, Height: g.height,
			U: r.Min[0], V: r.Min[1], Turned: g.turned, Value: g.value[s.row][s.column]}
		out.Places = append(out.Places, place)
		out.Value += place.Value
	}
	sort.Slice(out.Places, func(i, j int) bool {
		a, c := out.Places[i], out.Places[j]
		if a.V != c.V {
			return a.V > c.V
		}
		return a.U < c.U
	})
	if len(chosen) < p.Count {
		out.Note = fmt.Sprintf("room for %d of %d", len(chosen), p.Count)
	}
	return out, nil
}

// grid holds the value of a panel at each position of the 1-inch grid; -1
// where it may not hang.
type grid struct {
	corner        orb.Point
	width, height float64
	stepU, stepV  int // inches from one panel's corner to the next
	turned        bool
	value         [][]float64 // by row (v), then column (u)
	most          float64
}

type spot struct{ row, column int }

func (b Board) grid(p Panels, turned bool) grid {
	bound := b.Outline.Bound()
	g := grid{corner: bound.Min, width: p.Width, height: p.Height, turned: turned}
	if turned {
		g.width, g.height = p.Height, p.Width
	}
	inches := func(x float64) int { return int(math.Ceil(x/metresPerInch - 1e-6)) }
	g.stepU, g.stepV = inches(g.width+p.Gap), inches(g.height+p.Gap)
	edges := b.edges()
	rows := int((bound.Max[1]-bound.Min[1]-g.height)/metresPerInch + 1e-6)
	columns := int((bound.Max[0]-bound.Min[0]-g.width)/metresPerInch + 1e-6)
	if bound.Max[1]-bound.Min[1] < g.height-touch || bound.Max[0]-bound.Min[0] < g.width-touch {
		return g
	}
	for r := 0; r <= rows; r++ {
		line := make([]float64, columns+1)
		for c := range line {
			line[c] = -1
			rect := g.rect(spot{r, c})
			if b.free(edges, rect) {
				if v := b.Value(rect); v >= 0 && !math.IsInf(v, 0) {
					v = math.Round(v*1e6) / 1e6 // so that ties are ties: lowest and leftmost wins
					line[c] = v
					g.most = max(g.most, v)
				}
			}
		}
		g.value = append(g.value, line)
	}
	return g
}

func (g grid) rect(s spot) orb.Bound {
	low := orb.Point{g.corner[0] + float64(s.column)*metresPerInch, g.corner[1] + float64(s.row)*metresPerInch}
	return orb.Bound{Min: low, Max: orb.Point{low[0] + g.width, low[1] + g.height}}
}

func (g grid) sum(spots []spot) float64 {
	sum := 0.0
	for _, s := range spots {
		sum += g.value[s.row][s.column]
	}
	return sum
}
