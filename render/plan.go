package render

import (
	"math"
	"strings"

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

// BuildingKind is how a building is drawn.
type BuildingKind string

// The kinds of building on a plan.
const (
	House     BuildingKind = "house"
	Porch     BuildingKind = "porch"
	Neighbour BuildingKind = "neighbour"
)

// PlanBuilding is a building from above.
type PlanBuilding struct {
	Name   string // lettered on it where there is room
	Kind   BuildingKind
	Walls  []orb.Ring       // one a part
	Eaves  []orb.Ring       // roof edges, drawn thin; nil for none
	Ridges []orb.LineString // ridges, hips and valleys
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
	planMaxHeight = 7.2 * 72
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
	f.Height = d.heightAt(PageWidth)
	return f
}

// heightAt is the height the whole picture fills at a width.
func (d LotPlan) heightAt(width float64) float64 {
	b := d.bound()
	w := width - 2*margin - planSideWidth
	h := w * (b.Max[1] - b.Min[1]) / (b.Max[0] - b.Min[0])
	return d.above() + d.below(width) + max(min(200, width), min(planMaxHeight, h)) + 4 + d.foot(width-2*margin) + 2*margin
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

// roomy is the bound of points, with a little air, at least a metre each way.
func roomy(pts orb.MultiPoint) orb.Bound {
	if len(pts) == 0 {
		return orb.Bound{Min: orb.Point{-10, -10}, Max: orb.Point{10, 10}}
	}
	b := pts.Bound()
	return b.Pad(max(0.5, 0.03*max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])))
}

// view turns metres into points on the page, y up into y down.
type view struct {
	scale  float64 // points a metre
	x0, y0 float64 // where the origin falls
}

// viewOf fits a bound into a box, centred.
func viewOf(b orb.Bound, box ink.Box) view {
	k := min(box.W()/(b.Max[0]-b.Min[0]), box.H()/(b.Max[1]-b.Min[1]))
	return view{k,
		(box.X0+box.X1)/2 - k*(b.Min[0]+b.Max[0])/2,
		(box.Y0+box.Y1)/2 + k*(b.Min[1]+b.Max[1])/2}
}

func (v view) at(x, y float64) ink.Point { return ink.Point{X: v.x0 + v.scale*x, Y: v.y0 - v.scale*y} }
func (v view) pt(p orb.Point) ink.Point  { return v.at(p[0], p[1]) }

func (v view) points(l []orb.Point) []ink.Point {
	if n := len(l); n > 1 && l[0] == l[n-1] {
		l = l[:n-1]
	}
	out := make([]ink.Point, len(l))
	for i, p := range l {
		out[i] = v.pt(p)
	}
	return out
}

func (v view) open(l orb.LineString) ink.Path {
	out := make([]ink.Point, len(l))
	for i, p := range l {
		out[i] = v.pt(p)
	}
	return ink.Polyline(out...)
}

func (v view) polygon(p orb.Polygon) ink.Path {
	var out ink.Path
	for _, r := range p {
		out = append(out, ink.Run{Points: v.points(r), Closed: true})
	}
	return out
}

func (v view) polygons(m orb.MultiPolygon) ink.Path {
	var out ink.Path
	for _, p := range m {
		out = append(out, v.polygon(p)...)
	}
	return out
}

// union is polygons with every outer ring turned the same way and every hole
// the other, for filling by the non-zero rule.
func (v view) union(ps []orb.Polygon) ink.Path {
	var out ink.Path
	for _, p := range ps {
		for i, r := range p {
			pts := v.points(r)
			if (signedArea(pts) > 0) != (i == 0) {
				for a, b := 0, len(pts)-1; a < b; a, b = a+1, b-1 {
					pts[a], pts[b] = pts[b], pts[a]
				}
			}
			out = append(out, ink.Run{Points: pts, Closed: true})
		}
	}
	return out
}

func signedArea(pts []ink.Point) float64 {
	sum := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		sum += a.X*b.Y - a.Y*b.X
	}
	return sum / 2
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
			s.field(d.Sun, breaks, v.at, b)
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
	for _, t := range d.Trees { // on top, or a crown beside it hides what goes
		if t.Removed {
			t.cross(s, v)
		}
	}
}

func gridBox(g *Grid, v view) ink.Box {
	a := v.pt(g.Origin)
	b := v.at(g.Origin[0]+g.Cell*float64(g.Cols), g.Origin[1]+g.Cell*float64(g.Rows))
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

func (b PlanBuilding) draw(s *sheet, v view) {
	var walls []orb.Polygon
	for _, r := range b.Walls {
		walls = append(walls, orb.Polygon{r})
	}
	u := v.union(walls)
	switch b.Kind {
	case House:
		s.Path(u, edged(ink.Paper, 2*heavy, black))
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
	case Porch:
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
		s.Path(u, line(light, black))
	default:
		s.Path(u, ink.Style{Fill: ink.Paper, Winding: true})
		s.Path(ink.Hatch(u, 5, 135, true), line(hair, pencil))
		s.Path(u, line(medium, pencil))
	}
	for _, e := range b.Eaves {
		s.Path(ink.Polygon(v.points(e)), dashed(hair, black, dashHint))
	}
	for _, r := range b.Ridges {
		s.Path(v.open(r), line(light, black))
	}
}

// buildingName letters a name on its building, on as many lines as it takes;
// where it is too wide for that, off it and all others with a leader.
func (s *sheet) buildingName(name string, walls ink.Path, bounds ink.Box, others []ink.Box) {
	const lead = 8.5
	x0, y0, x1, y1 := walls.Bounds()
	pen := haloed(centred(small()))
	for _, share := range []float64{1, 0.6, 0.34} { // of the width: on one line, on two, on three
		lines := ink.Wrap(name, max(share*ink.Width(name, pen.Size, pen.Face), widest(name, pen))+1, pen)
		for _, dy := range []float64{0, 10, -10, 20, -20} {
			y := (y0+y1)/2 + 2.8 + dy - lead*float64(len(lines)-1)/2
			ok := len(lines) > 0
			for i, l := range lines {
				b := grown(ink.TextBox((x0+x1)/2, y+lead*float64(i), l, pen), 0.7)
				ok = ok && covers(walls, b) && s.free(b, bounds)
			}
			if !ok {
				continue
			}
			for i, l := range lines {
				s.text((x0+x1)/2, y+lead*float64(i), l, pen)
			}
			return
		}
	}
	if s.part() {
		return
	}
	n := len(s.taken)
	s.taken = append(s.taken, others...)
	s.label((x0+x1)/2, (y0+y1)/2, fit(name, 120, small()), haloed(small()), bounds)
	s.taken = append(s.taken[:n:n], s.taken[n+len(others):]...)
}

// widest is the width of a name's longest word.
func widest(name string, t ink.Type) float64 {
	w := 0.0
	for _, word := range strings.Fields(name) {
		w = max(w, ink.Width(word, t.Size, t.Face))
	}
	return w
}

// lineName letters a name beside a line, where nothing drawn runs through it if
// there is such a place.
func (s *sheet) lineName(name string, p, drawn ink.Path, bounds ink.Box) {
	t := haloed(italic(small()))
	w := ink.Width(name, t.Size, t.Face)
	var longest ink.Run
	for _, r := range p {
		if long(r) > long(longest) {
			longest = r
		}
	}
	if len(longest.Points) < 2 {
		return
	}
	for _, f := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
		q := along(longest, f)
		for _, at := range []ink.Point{{X: q.X - w/2, Y: q.Y - 4}, {X: q.X - w/2, Y: q.Y + 9}, {X: q.X + 5, Y: q.Y + 2.5}, {X: q.X - w - 5, Y: q.Y + 2.5}} {
			if len(ink.ClipLines(drawn, grown(ink.TextBox(at.X, at.Y, name, t), 0.5))) == 0 && s.try(at.X, at.Y, name, t, bounds) {
				return
			}
		}
	}
	q := along(longest, 0.5)
	s.label(q.X, q.Y-6, name, t, bounds)
}

func long(r ink.Run) (sum float64) {
	for i := 1; i < len(r.Points); i++ {
		sum += math.Hypot(r.Points[i].X-r.Points[i-1].X, r.Points[i].Y-r.Points[i-1].Y)
	}
	return sum
}

// along is the point at a share of a line's length.
func along(r ink.Run, share float64) ink.Point {
	left := share * long(r)
	for i := 1; i < len(r.Points); i++ {
		a, b := r.Points[i-1], r.Points[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		if d >= left && d > 0 {
			return ink.Point{X: a.X + (b.X-a.X)*left/d, Y: a.Y + (b.Y-a.Y)*left/d}
		}
		left -= d
	}
	return r.Points[len(r.Points)-1]
}

// lettering puts the words on, the most needed first.
func (d LotPlan) lettering(s *sheet, v view, box ink.Box, breaks []float64) {
	s.taken = append(s.taken, ink.Box{X0: s.frame.X1 - planSideWidth, Y0: s.frame.Y0, X1: s.frame.X1, Y1: s.frame.Y0 + 48})
	missed := 0
	if !d.PlainTrees {
		for _, t := range d.Trees {
			q := v.pt(t.At)
			words := fit(t.ID, 60, small())
			pen := haloed(bold(small()))
			up := 7.0
			if t.Removed {
				up = 11 // clear of the cross
			}
			if !s.label(q.X, q.Y-up, words, pen, box) {
				missed++
			}
		}
	}
	for _, m := range d.Dimensions {
		s.dimension(v.pt(m.A), v.pt(m.B), m.Off, m.Text, box)
	}
	var others []ink.Box
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			others = append(others, boxOf(v.points(r)))
		}
	}
	for _, b := range d.Buildings {
		if len(b.Walls) == 0 || len(b.Walls[0]) == 0 {
			continue
		}
		s.buildingName(b.Name, ink.Polygon(v.points(b.Walls[0])), box, others)
	}
	for _, m := range d.Points {
		q := v.pt(m.At)
		s.Path(ink.Line(q.X-2.5, q.Y, q.X+2.5, q.Y), line(light, black))
		s.Path(ink.Line(q.X, q.Y-2.5, q.X, q.Y+2.5), line(light, black))
		if s.part() {
			continue
		}
		s.label(q.X, q.Y+7, fit(m.Name, 90, small()), haloed(italic(small())), box)
	}
	var drawn ink.Path // what names of fences and wires keep off
	for _, b := range d.Buildings {
		for _, r := range b.Walls {
			drawn = append(drawn, ink.Polygon(v.points(r))...)
		}
	}
	if len(d.Lot) > 2 {
		drawn = append(drawn, ink.Polygon(v.points(d.Lot))...)
	}
	lines := append(append([]PlanLine{}, d.Fences...), d.Wires...)
	for _, w := range lines {
		drawn = append(drawn, ink.ClipLines(v.open(w.Line), box)...)
	}
	for _, w := range lines {
		if len(w.Line) > 1 && w.Name != "" && !s.part() {
			s.lineName(fit(w.Name, 90, small()), ink.ClipLines(v.open(w.Line), box), drawn, box)
		}
	}
	if missed > 0 {
		s.text(s.frame.X0+2, box.Y1-1, figures(float64(missed), 1)+" tree names did not fit", haloed(italic(small())))
	}
	if d.Sun.valid() {
		var off []ink.Box
		var lines ink.Path
		for _, b := range d.Buildings {
			for _, r := range b.Walls {
				off = append(off, boxOf(v.points(r)))
			}
			for _, r := range b.Eaves {
				lines = append(lines, ink.Polygon(v.points(r))...)
			}
		}
		for _, t := range d.Trees {
			const r = crossRadius + 1.5
			q := v.pt(t.At)
			if t.Removed {
				off = append(off, ink.Box{X0: q.X - r, Y0: q.Y - r, X1: q.X + r, Y1: q.Y + r})
			}
		}
		lot := ink.Polygon(v.points(d.Lot))
		s.contourNames(d.Sun, breaks, v.at, box, append(lines, lot...), func(b ink.Box) bool {
			return !meetsAny(b, off) && (len(d.Lot) < 3 || covers(lot, b))
		})
	}
}
