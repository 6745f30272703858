package render

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// LotPlan is the lot seen from above, north up. Lengths are metres, x east
// and y north.
type LotPlan struct {
	Words
	Lot        orb.Ring
	Buildings  []PlanBuilding
	Fences     []PlanLine
	Wires      []PlanLine
	Trees      []PlanTree
	Points     []PlanPoint   // named points to measure from
	Land       PlanLand      // heights of the ground that were read
	Shadows    []orb.Polygon // at one moment; the caption says which
	Light      []orb.Polygon // shadows at that moment of crowns that are bare, drawn lighter: most of the sun comes through
	Sun        *Grid         // on the ground, drawn inside the lot; nil for none
	Breaks     []float64     // class limits of Sun; nil: round ones
	Unit       string        // of Sun, "kWh/m² a year"
	Dimensions []Dimension
	PlainTrees bool // no ids
	NoLegend   bool // where a pair shares one

	hairCrowns bool // crowns as hairs, so that shadows show
	noScale    bool // where a pair shares one
}

// PlanLine is a fence or an overhead wire.
type PlanLine struct {
	Name string
	Line orb.LineString
}

// PlanPoint is a named point.
type PlanPoint struct {
	Name string
	At   orb.Point
}

// PlanTree is a tree from above.
type PlanTree struct {
	ID               string
	At               orb.Point
	SpreadX, SpreadY float64 // crown width, metres
	Twist            float64 // radians clockwise
	Evergreen        bool
	Removed          bool // taken away in what is shown
	Planted          bool // not there today
	Owner            model.Owner
}

// Dimension is a measured line with its length as it is to be lettered. Off
// is how far, in points, it is drawn to the left of the line from A to B.
type Dimension struct {
	A, B orb.Point
	Off  float64
	Text string
}

const (
	planMaxHeight = 6.7 * 72
	planSideWidth = 28.0 // for the north needle
	lightHatch    = 5.2  // points between strokes where a crown is bare
)

// foot is the height of scale bar, legend and key.
func (d LotPlan) foot(width float64) float64 {
	return 18 + keyLine*float64(len(d.keyLines(width-4)))
}

// Figure gives the plan at the width of a page.
func (d LotPlan) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth, planMaxHeight)
	return f
}

// heightAt is the height the whole picture fills at a width, the plan itself at
// most so high.
func (d LotPlan) heightAt(width, most float64) float64 {
	b := d.bound()
	w := width - 2*margin - planSideWidth
	h := w * (b.Max[1] - b.Min[1]) / (b.Max[0] - b.Min[0])
	return d.above() + d.below(width) + max(min(200, width), min(most, h)) + 4 + d.foot(width-2*margin) + 2*margin
}

// bound is what the plan must show, never empty.
func (d LotPlan) bound() orb.Bound {
	var pts orb.MultiPoint
	pts = append(pts, d.Lot...)
	for _, b := range d.Buildings {
		for _, r := range append(append([]orb.Ring{}, b.Walls...), b.Eaves...) {
			pts = append(pts, r...)
		}
	}
	for _, t := range d.Trees {
		r := max(t.SpreadX, t.SpreadY) / 2
		pts = append(pts, orb.Point{t.At[0] - r, t.At[1] - r}, orb.Point{t.At[0] + r, t.At[1] + r})
	}
	return roomy(pts)
}

// box is where the plan itself is drawn.
func (d LotPlan) box(s *sheet) ink.Box {
	return ink.Box{X0: s.frame.X0, Y0: s.frame.Y0, X1: s.frame.X1 - planSideWidth, Y1: s.frame.Y1 - d.foot(s.frame.W()) - 4}
}

// Draw draws the plan as large as the page allows.
func (d LotPlan) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	breaks := d.breaks()
	foot := s.frame.Y1 - d.foot(s.frame.W())
	box := d.box(s)
	if box.W() < 50 || box.H() < 50 {
		return errSmallPage
	}
	v := viewOf(d.bound(), box)
	d.ground(s, v, box, breaks)
	d.lettering(s, v, box, breaks)
	s.north(s.frame.X1-11, s.frame.Y0+28, 15, 0)
	used := 0.0
	if !d.noScale {
		used = s.scaleBar(s.frame.X0+2, foot+7, min(110, s.frame.W()/3), v.scale)
	}
	if d.Sun.valid() && !d.NoLegend {
		s.legend(s.frame.X0+used+24, foot+2, s.frame.W()-used-24, breaks, d.Unit)
	}
	d.key(s, s.frame.X0+2, foot+28)
	return s.end()
}

func (d LotPlan) breaks() []float64 {
	if len(d.Breaks) > 1 {
		return d.Breaks
	}
	lo, hi := d.Sun.Range()
	return Breaks(lo, hi, 8)
}

// ground draws everything but words.
func (d LotPlan) ground(s *sheet, v view, box ink.Box, breaks []float64) {
	clip := ink.Clip(s.Page, box)
	if d.Sun.valid() {
		b := gridBox(d.Sun, v)
		b = ink.Box{X0: max(b.X0, box.X0), Y0: max(b.Y0, box.Y0), X1: min(b.X1, box.X1), Y1: min(b.Y1, box.Y1)}
		if b.W() > 0 && b.H() > 0 {
			s.field(d.Sun, breaks, false, v.at, b)
			if len(d.Lot) > 2 { // what lies beyond the lot was not reckoned
				off := append(ink.Rectangle(b.X0-2, b.Y0-2, b.W()+4, b.H()+4), ink.Polygon(v.points(d.Lot))...)
				s.Path(off, area(ink.Paper))
			}
		}
	}
	if sh := v.union(d.Light); len(sh) > 0 {
		if !d.Sun.valid() {
			clip.Path(sh, ink.Style{Fill: wash, Winding: true})
		}
		clip.Path(ink.Hatch(sh, lightHatch, 45, true), line(hair, pencil))
	}
	if sh := v.union(d.Shadows); len(sh) > 0 {
		if !d.Sun.valid() {
			clip.Path(sh, ink.Style{Fill: shade, Winding: true})
		}
		clip.Path(ink.Hatch(sh, 2.6, 45, true), line(hair, black))
	}
	d.Land.lines(clip, v, d.Lot)
	if len(d.Lot) > 2 {
		s.Path(ink.Polygon(v.points(d.Lot)), dashed(heavy, black, dashLot))
	}
	for _, kind := range []BuildingKind{Neighbour, Porch, House} {
		for _, b := range d.Buildings {
			if b.Kind == kind {
				b.draw(s, v)
			}
		}
	}
	for _, f := range d.Fences {
		seen := ink.ClipLines(v.open(f.Line), box)
		s.Path(seen, line(light, black))
		crosses(s, seen)
	}
	for _, w := range d.Wires {
		clip.Path(v.open(w.Line), dashed(medium, black, dashWire))
	}
	for _, t := range d.Trees {
		if d.hairCrowns && !t.Removed {
			t.hair(s, v)
			continue
		}
		t.draw(s, v)
	}
	d.Land.crosses(clip, v)
	for _, t := range d.Trees { // on top, or a crown beside it hides what goes
		if t.Removed {
			t.cross(s, v)
		}
	}
}

func gridBox(g *Grid, v view) ink.Box {
	a := v.pt(g.Origin)
	b := v.at(g.Origin[0]+g.Cell*float64(g.Cols), g.Origin[1]+g.high()*float64(g.Rows))
	return ink.Box{X0: a.X, Y0: b.Y, X1: b.X, Y1: a.Y}
}

// crosses are the small strokes that tell a fence from a wall.
func crosses(s *sheet, p ink.Path) {
	var ticks ink.Path
	for _, r := range p {
		for i := 0; i+1 < len(r.Points); i++ {
			a, b := r.Points[i], r.Points[i+1]
			d := math.Hypot(b.X-a.X, b.Y-a.Y)
			for t := 5.0; t < d && d > 0; t += 10 {
				x, y := a.X+(b.X-a.X)*t/d, a.Y+(b.Y-a.Y)*t/d
				ticks = append(ticks, ink.Line(x-1.3, y-1.3, x+1.3, y+1.3)...)
				ticks = append(ticks, ink.Line(x-1.3, y+1.3, x+1.3, y-1.3)...)
			}
		}
	}
	s.Path(ticks, line(light, black))
}
