package render

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// FaceMap is a wall or roof plane seen square-on from outside, in its own
// coordinates: u metres to the right, v metres up the face. On a wall that
// looks south, seen from the yard, east is to the right.
type FaceMap struct {
	Words
	Outline     orb.MultiPolygon
	Left, Right string // what lies at either end, "west" and "east"
	Edges       []FaceEdge
	Sun         *Grid
	Breaks      []float64 // class limits; nil: round ones
	Unit        string
	Openings    []Opening
	Collectors  []Collector
	Dimensions  []Dimension
	Ground      float64 // v of the ground line; NaN for none
	NoLegend    bool    // where a pair shares one

	noScale bool // where a pair shares one
	halves  bool // dotted lines halfway, where a pair has them
}

// Opening is a window or door in the face, or a solid that stands on it.
type Opening struct {
	ID    string
	Ring  orb.Ring
	Solid bool   // a chimney
	Sun   string // what reaches the glass, in the map's unit; "" to leave it out
}

const (
	faceMaxHeight = 4.1 * 72
	faceFoot      = 36.0 // scale bar and legend
	faceEnds      = 14.0 // the row with the ends and the lowest edge's name
	faceEdgeRoom  = 11.0 // above and beside, where edges are named
)

func (d FaceMap) bound() orb.Bound {
	var pts orb.MultiPoint
	for _, p := range d.Outline {
		for _, r := range p {
			pts = append(pts, r...)
		}
	}
	b := roomy(pts)
	if !math.IsNaN(d.Ground) && !math.IsInf(d.Ground, 0) {
		b.Min[1], b.Max[1] = min(b.Min[1], d.Ground-0.15), max(b.Max[1], d.Ground)
	}
	return b
}

// Dotted tells whether dotted lines halve the classes, for the caption.
func (d FaceMap) Dotted() bool {
	return d.Sun.valid() && len(d.Breaks) > 1 && halfway(d.Sun, d.Breaks, d.halves) != nil
}

// Figure gives the face at the width of a page.
func (d FaceMap) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth, faceMaxHeight)
	return f
}

// heightAt is the height the whole picture fills at a width, the face itself at
// most so high.
func (d FaceMap) heightAt(width, most float64) float64 {
	b := d.bound()
	side, above, below := d.tapeRoom()
	w := width - 2*margin - 2*side
	h := w * (b.Max[1] - b.Min[1]) / (b.Max[0] - b.Min[0])
	return d.above() + d.below(width) + max(60, min(most, h)) + above + below + faceFoot + 2*margin
}

// box is where the face itself is drawn.
func (d FaceMap) box(s *sheet) ink.Box {
	side, above, below := d.tapeRoom()
	return ink.Box{X0: s.frame.X0 + side, Y0: s.frame.Y0 + above, X1: s.frame.X1 - side, Y1: s.frame.Y1 - faceFoot - below}
}

// Draw draws the face as large as the page allows.
func (d FaceMap) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	foot := s.frame.Y1 - faceFoot
	box := d.box(s)
	if box.W() < 40 || box.H() < 30 {
		return errSmallPage
	}
	breaks := d.Breaks
	if len(breaks) < 2 {
		lo, hi := d.Sun.Range()
		breaks = Breaks(lo, hi, 8)
	}
	v := viewOf(d.bound(), box)
	outline := v.polygons(d.Outline)
	x0, y0, x1, y1 := outline.Bounds()
	around := ink.Box{X0: x0, Y0: y0, X1: x1, Y1: y1}
	s.field(d.Sun, breaks, d.halves, v.at, around)
	s.Path(append(ink.Path{}, append(ink.Rectangle(x0-2, y0-2, x1-x0+4, y1-y0+4), outline...)...), area(ink.Paper))
	if !d.Sun.valid() {
		s.Path(outline, area(wash))
	}
	s.Path(outline, line(heavy, black))
	for _, o := range d.Openings {
		d.opening(s, v, o)
	}
	d.collectors(s, v)
	for _, m := range d.Dimensions {
		s.dimension(v.pt(m.A), v.pt(m.B), m.Off, m.Text, s.frame)
	}
	earth := ink.Path{}
	if !math.IsNaN(d.Ground) {
		earth = d.groundLine(s, v.at(0, d.Ground).Y, max(s.frame.X0, x0-16), min(s.frame.X1, x1+16))
	}
	ground := y1
	if !math.IsNaN(d.Ground) {
		ground = max(ground, v.at(0, d.Ground).Y+5)
	}
	lines := append(d.tapes(s, v, around, ground), outline...)
	row := ground + 10
	if _, _, below := d.tapeRoom(); below > faceEnds {
		row += below - faceEnds
	}
	d.ends(s, max(s.frame.X0, x0), min(s.frame.X1, x1), row)
	d.collectorNames(s, v, append(append(ink.Path{}, lines...), earth...), ink.Box{X0: s.frame.X0, Y0: s.frame.Y0, X1: s.frame.X1, Y1: foot})
	d.edges(s, v, outline, lines)
	for _, o := range d.Openings {
		lines = append(lines, ink.Polygon(v.points(o.Ring))...)
	}
	for _, o := range d.Collectors {
		lines = append(lines, ink.Polygon(v.points(o.Ring))...)
	}
	var off []ink.Box
	for _, o := range d.Openings {
		off = append(off, boxOf(v.points(o.Ring)))
	}
	for _, o := range d.Collectors {
		off = append(off, boxOf(v.points(o.Ring)))
	}
	s.contourNames(d.Sun, breaks, d.halves, v.at, around, lines, func(b ink.Box) bool { return covers(outline, b) && !meetsAny(b, off) })
	used := 0.0
	if !d.noScale {
		used = s.scaleBar(s.frame.X0+2, foot+18, min(100, s.frame.W()/3), v.scale)
	}
	if d.Sun.valid() && !d.NoLegend {
		s.legend(s.frame.X0+used+24, foot+13, s.frame.W()-used-24, breaks, d.Unit)
	}
	return s.end()
}

// opening is glass, paper with a second line within, or a hatched solid, its name inside if
// it fits.
func (d FaceMap) opening(s *sheet, v view, o Opening) {
	pts := v.points(o.Ring)
	if len(pts) < 3 {
		return
	}
	ring := ink.Polygon(pts)
	s.Path(ring, edged(ink.Paper, heavy, black))
	x0, y0, x1, y1 := ring.Bounds()
	r := min(x1-x0, y1-y0)
	if o.Solid {
		s.Path(ink.Hatch(ring, 3, 45, false), line(light, black))
	} else if r > 7 {
		s.Path(ink.Rectangle(x0+2, y0+2, x1-x0-4, y1-y0-4), line(hair, black))
	}
	box := ink.Box{X0: x0, Y0: y0, X1: x1, Y1: y1}
	mid := (y0 + y1) / 2
	if o.Sun != "" && y1-y0 > 21 && x1-x0 > max(ink.Width(o.ID, smallSize, ink.Bold), ink.Width(o.Sun, smallSize, ink.Regular))+5 {
		s.text((x0+x1)/2, mid-1.8, o.ID, bold(centred(small())))
		s.text((x0+x1)/2, mid+7.2, o.Sun, centred(small()))
		return
	}
	if s.try((x0+x1)/2, mid+2.6, o.ID, bold(centred(small())), grown(box, 0.5)) {
		return
	}
	var frames []ink.Box
	for _, c := range d.Collectors {
		frames = append(frames, boxOf(v.points(c.Ring)))
	}
	for _, o := range d.Openings {
		frames = append(frames, boxOf(v.points(o.Ring)))
	}
	name := fit(o.ID, 80, small())
	t := haloed(bold(small()))
	half := ink.Width(name, t.Size, t.Face)/2 + 2
	x, face := (x0+x1)/2, v.polygons(d.Outline)
	for _, q := range []ink.Point{{X: x, Y: y0 - 4}, {X: x1 + half + 3, Y: mid + 2.6}, {X: x, Y: y1 + 9}, {X: x0 - half - 3, Y: mid + 2.6}} {
		b := ink.TextBox(q.X, q.Y, name, centred(t)) // within the face first
		if covers(face, grown(b, 1)) && !meetsAny(b, frames) && s.try(q.X, q.Y, name, centred(t), s.frame) {
			return
		}
	}
	s.labelClear(x, y0-6, name, frames, nil, s.frame)
}

// labelClear letters a small bold line at or near a point, clear of frames and
// of lines where there is room.
func (s *sheet) labelClear(x, y float64, words string, frames []ink.Box, lines ink.Path, bounds ink.Box) {
	clear := func(b ink.Box) bool { return !meetsAny(b, frames) && len(ink.ClipLines(lines, b)) == 0 }
	if !s.labelWhere(x, y, words, haloed(bold(small())), bounds, clear) {
		s.label(x, y, words, haloed(bold(small())), bounds)
	}
}

func boxOf(pts []ink.Point) ink.Box {
	x0, y0, x1, y1 := ink.Polygon(pts).Bounds()
	return ink.Box{X0: x0, Y0: y0, X1: x1, Y1: y1}
}

// groundLine is the ground with strokes of earth beneath; it gives all of it.
func (d FaceMap) groundLine(s *sheet, y, x0, x1 float64) ink.Path {
	s.Path(ink.Line(x0, y, x1, y), line(heavy, black))
	var earth ink.Path
	for x := x0 + 4; x < x1; x += 7 {
		earth = append(earth, ink.Line(x, y+0.5, x-4, y+4.5)...)
	}
	s.Path(earth, line(hair, black))
	return append(earth, ink.Line(x0, y, x1, y)...)
}
