package render

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// PlanLand is how the ground lies, as a plan shows it: the heights that were
// read, and lines of one height inside the lot.
type PlanLand struct {
	Ground model.Ground
	Step   float64 // between lines, metres; 0 for none
	Metric bool    // lines are lettered in metres, else in feet
	Spots  []PlanSpot
}

// PlanSpot is a height that was read, with its words: "+4 ft 2 in".
type PlanSpot struct {
	At   orb.Point
	Text string
}

const spotArm = 1.6 // points: half of a spot's cross

// height is a height as it is lettered on its line.
func (l PlanLand) height(z float64) string {
	unit, name := metresAFoot, " ft"
	if l.Metric {
		unit, name = 1, " m"
	}
	sign := ""
	if z > 1e-9 {
		sign = "+"
	}
	return sign + figures(z/unit, l.Step/unit) + name
}

// lines draws the lines of one height; their words come with the lettering.
func (l PlanLand) lines(page ink.Page, v view, lot orb.Ring) {
	var lines ink.Path
	for _, l := range heightLines(l.Ground, lot, l.Step) {
		lines = append(lines, ink.Polyline(v.pt(l.a), v.pt(l.b))...)
	}
	page.Path(lines, ink.Style{Stroke: ink.Paper, Width: 1.6, Round: true})
	page.Path(lines, ink.Style{Stroke: pencil, Width: light, Round: true})
}

// crosses draws the spots.
func (l PlanLand) crosses(page ink.Page, v view) {
	for _, spot := range l.Spots {
		q := v.pt(spot.At)
		spotCross(page, q.X, q.Y)
	}
}

func spotCross(page ink.Page, x, y float64) {
	cross := append(ink.Line(x-spotArm, y-spotArm, x+spotArm, y+spotArm), ink.Line(x-spotArm, y+spotArm, x+spotArm, y-spotArm)...)
	page.Path(cross, line(1.8, ink.Paper))
	page.Path(cross, line(medium, black))
}

// lettering letters the heights where there is room off everything in keep,
// and gives how many spots found none.
func (l PlanLand) lettering(s *sheet, v view, lot orb.Ring, box ink.Box, keep []ink.Box) (missed int) {
	for _, spot := range l.Spots {
		q := v.pt(spot.At)
		keep = append(keep, ink.Box{X0: q.X - spotArm, Y0: q.Y - spotArm, X1: q.X + spotArm, Y1: q.Y + spotArm})
	}
	for _, spot := range l.Spots {
		if q := v.pt(spot.At); (ink.Box{X0: q.X, Y0: q.Y, X1: q.X, Y1: q.Y}).Inside(box) && !spot.letter(s, q, box, keep) {
			missed++
		}
	}
	l.names(s, v, lot, box, keep)
	return missed
}

// letter puts a spot's words beside its cross, or farther off with a leader, and
// tells whether it found room.
func (spot PlanSpot) letter(s *sheet, q ink.Point, box ink.Box, keep []ink.Box) bool {
	const near, down = 3.5, 2.5 // from the cross to the words; half a letter
	t := haloed(small())
	w := ink.Width(spot.Text, t.Size, t.Face)
	put := func(x, y float64) bool {
		return !meetsAny(ink.TextBox(x, y, spot.Text, t), keep) && s.try(x, y, spot.Text, t, box)
	}
	for _, lift := range []float64{0, -down, down} {
		if put(q.X+near, q.Y+down+lift) || put(q.X-near-w, q.Y+down+lift) {
			return true
		}
	}
	if put(q.X-w/2, q.Y-near) || put(q.X-w/2, q.Y+near+2*down) {
		return true
	}
	for _, far := range []float64{9, 14, 20, 27} {
		for k := range 12 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 12)
			x, y := q.X+far*cos, q.Y+far*sin
			left := x
			if cos < 0 {
				left = x - w
			}
			if put(left, y+down) {
				s.Path(ink.Line(q.X+near*cos, q.Y+near*sin, x, y), line(hair, black))
				return true
			}
		}
	}
	return false
}

// names letters each height once on the longest straight of its line that has
// room.
func (l PlanLand) names(s *sheet, v view, lot orb.Ring, box ink.Box, keep []ink.Box) {
	byHeight := map[float64]ink.Path{}
	var heights []float64
	for _, h := range heightLines(l.Ground, lot, l.Step) {
		if byHeight[h.z] == nil {
			heights = append(heights, h.z)
		}
		byHeight[h.z] = append(byHeight[h.z], ink.Polyline(v.pt(h.a), v.pt(h.b))...)
	}
	sort.Float64s(heights)
	ran := tracks{}
	for i, z := range heights {
		ran.mark(i, byHeight[z])
	}
	edge := v.points(lot)
	for i, z := range heights {
		runs := byHeight[z]
		sort.SliceStable(runs, func(a, b int) bool { return long(runs[a]) > long(runs[b]) })
		words, t := l.height(z), haloed(centred(italic(small())))
	search:
		for _, r := range runs {
			for _, share := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
				q := along(r, share)
				b := ink.TextBox(q.X, q.Y+2.5, words, t)
				if meetsAny(b, keep) || ran.others(i, b) || !covers(ink.Polygon(edge), b) {
					continue
				}
				if s.try(q.X, q.Y+2.5, words, t, box) {
					break search
				}
			}
		}
	}
}

// lined tells whether there are lines of one height.
func (l PlanLand) lined(lot orb.Ring) bool { return len(heightLines(l.Ground, lot, l.Step)) > 0 }
