package render

import (
	"math"
	"strings"

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
}

// FaceEdge is an edge of the face and its name, "eave" or "ridge", lettered
// along it, outside where there is room.
type FaceEdge struct {
	A, B orb.Point
	Name string
}

// Opening is a window or door in the face, or a solid that stands on it.
type Opening struct {
	ID    string
	Ring  orb.Ring
	Solid bool // a chimney
}

// Collector is one placed on the face, with its tape measures as they are to
// be lettered; empty ones are left out.
type Collector struct {
	ID       string
	Ring     orb.Ring // four corners
	FromLeft string   // from the face's left end to its left edge
	Up       string   // from the foot of the face to its lower edge
	Width    string
	Height   string
}

const (
	faceMaxHeight = 4.6 * 72
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

// tapeRoom is what edge names and running measures need at either side, above
// and beneath.
func (d FaceMap) tapeRoom() (side, above, below float64) {
	below = faceEnds
	if len(d.Edges) > 0 {
		side, above = faceEdgeRoom, faceEdgeRoom
	}
	for _, c := range d.Collectors {
		if c.Up != "" {
			side = max(side, 18+ink.Width(c.Up, smallSize, ink.Regular))
		}
		if c.FromLeft != "" {
			below = faceEnds + 28
		}
	}
	return side, above, below
}

// Figure gives the face at the width of a page.
func (d FaceMap) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth)
	return f
}

// heightAt is the height the whole picture fills at a width.
func (d FaceMap) heightAt(width float64) float64 {
	b := d.bound()
	side, above, below := d.tapeRoom()
	w := width - 2*margin - 2*side
	h := w * (b.Max[1] - b.Min[1]) / (b.Max[0] - b.Min[0])
	return d.above() + d.below(width) + max(60, min(faceMaxHeight, h)) + above + below + faceFoot + 2*margin
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
	s.field(d.Sun, breaks, v.at, around)
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
	if !math.IsNaN(d.Ground) {
		d.groundLine(s, v.at(0, d.Ground).Y, max(s.frame.X0, x0-16), min(s.frame.X1, x1+16))
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
	s.contourNames(d.Sun, breaks, v.at, around, lines, func(b ink.Box) bool { return covers(outline, b) && !meetsAny(b, off) })
	used := 0.0
	if !d.noScale {
		used = s.scaleBar(s.frame.X0+2, foot+18, min(100, s.frame.W()/3), v.scale)
	}
	if d.Sun.valid() && !d.NoLegend {
		s.legend(s.frame.X0+used+24, foot+13, s.frame.W()-used-24, breaks, d.Unit)
	}
	return s.end()
}

// ends letters which way the face's two ends lie.
func (d FaceMap) ends(s *sheet, x0, x1, y float64) {
	room := max(20, (x1-x0)/2-4)
	left, right_ := fit(d.Left, room, bold(small())), fit(d.Right, room, bold(small()))
	s.text(x0, y, left, bold(small()))
	s.text(x1, y, right_, right(bold(small())))
}

// edges letters names along the edges: outside, else inside, where nothing is
// drawn.
func (d FaceMap) edges(s *sheet, v view, outline, lines ink.Path) {
	_, _, below := d.tapeRoom()
	for _, e := range d.Edges {
		a, b := v.pt(e.A), v.pt(e.B)
		if a.X > b.X {
			a, b = b, a
		}
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		t := italic(centred(small()))
		if e.Name == "" || long < ink.Width(e.Name, t.Size, t.Face)+4 {
			continue
		}
		up := math.Atan2(a.Y-b.Y, b.X-a.X)
		t.Turn = up * 180 / math.Pi
		taped := below > faceEnds // the tape lies there
		put := func(f, lift float64, inside bool) bool {
			x, y := a.X+f*(b.X-a.X)-lift*math.Sin(up), a.Y+f*(b.Y-a.Y)-lift*math.Cos(up)
			w := t
			if inside {
				w = haloed(t)
			}
			box := ink.TextBox(x, y, e.Name, w)
			if in := covers(outline, box); in != inside || !inside && taped && e.upright() && y > max(a.Y, b.Y) || e.upright() && len(ink.ClipLines(lines, box)) > 0 {
				return false
			}
			return s.try(x, y, e.Name, w, s.frame)
		}
		ways := []float64{3, -8.2} // over the line, under it
		for _, inside := range []bool{false, true} {
			done := false
			for _, f := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				for _, lift := range ways {
					done = done || put(f, lift, inside)
				}
			}
			if done {
				break
			}
		}
	}
}

// upright tells whether an edge lies level or plumb, so that the box of its
// name is all that the name covers.
func (e FaceEdge) upright() bool {
	return math.Abs(e.A[1]-e.B[1]) < 1e-6 || math.Abs(e.A[0]-e.B[0]) < 1e-6
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
	if s.try((x0+x1)/2, (y0+y1)/2+2.6, o.ID, bold(centred(small())), grown(box, 0.5)) {
		return
	}
	var frames []ink.Box
	for _, c := range d.Collectors {
		frames = append(frames, boxOf(v.points(c.Ring)))
	}
	for _, o := range d.Openings {
		frames = append(frames, boxOf(v.points(o.Ring)))
	}
	s.labelClear((x0+x1)/2, y0-6, fit(o.ID, 80, small()), frames)
}

// labelClear letters a small bold line at or near a point, clear of frames
// where there is room.
func (s *sheet) labelClear(x, y float64, words string, frames []ink.Box) {
	n := len(s.taken)
	s.taken = append(s.taken, frames...)
	put := s.label(x, y, words, haloed(bold(small())), s.frame)
	s.taken = append(s.taken[:n:n], s.taken[n+len(frames):]...)
	if !put {
		s.label(x, y, words, haloed(bold(small())), s.frame)
	}
}

// collectors draws each with strokes from corner to corner, its name and its
// size.
func (d FaceMap) collectors(s *sheet, v view) {
	for _, c := range d.Collectors {
		pts := v.points(c.Ring)
		if len(pts) < 3 {
			continue
		}
		ring := ink.Polygon(pts)
		s.Path(ring, line(2.6, ink.Paper))
		s.Path(ring, line(heavy, black))
		if len(pts) == 4 {
			s.Path(append(ink.Polyline(pts[0], pts[2]), ink.Polyline(pts[1], pts[3])...), line(hair, black))
		}
	}
	var frames []ink.Box
	for _, o := range d.Openings {
		frames = append(frames, boxOf(v.points(o.Ring)))
	}
	for _, c := range d.Collectors {
		frames = append(frames, boxOf(v.points(c.Ring)))
	}
	for _, c := range d.Collectors {
		if len(c.Ring) > 2 && !c.inside(s, v) {
			c.outside(s, v, frames)
		}
	}
}

func boxOf(pts []ink.Point) ink.Box {
	x0, y0, x1, y1 := ink.Polygon(pts).Bounds()
	return ink.Box{X0: x0, Y0: y0, X1: x1, Y1: y1}
}

func (c Collector) size() string {
	if c.Width == "" || c.Height == "" {
		return ""
	}
	return c.Width + " × " + c.Height
}

// inside letters name and size within the frame, on as many lines as it takes
// to stay clear of it, and tells whether there was room.
func (c Collector) inside(s *sheet, v view) bool {
	const lead = 8.5
	pts := v.points(c.Ring)
	ring, box := ink.Polygon(pts), boxOf(pts)
	ways := [][]string{{c.ID}}
	if c.size() != "" {
		ways = [][]string{{c.ID, c.size()}, {c.ID, c.Width + " ×", c.Height}}
		if w := strings.Fields(c.ID); len(w) > 1 { // the name on two lines, its number with its last word
			cut := max(1, len(w)-2)
			ways = append(ways, []string{strings.Join(w[:cut], " "), strings.Join(w[cut:], " "), c.Width + " ×", c.Height})
		}
	}
	for _, lines := range ways {
		x, y := (box.X0+box.X1)/2, (box.Y0+box.Y1)/2+2.5-lead*float64(len(lines)-1)/2
		named := max(1, len(lines)-2)
		if len(lines) == 2 {
			named = 1
		}
		pen := func(i int) ink.Type {
			if i < named {
				return haloed(bold(centred(small())))
			}
			return haloed(centred(small()))
		}
		ok := true
		for i, words := range lines {
			b := grown(ink.TextBox(x, y+lead*float64(i), words, pen(i)), 1)
			ok = ok && covers(ring, b) && s.free(b, s.frame)
		}
		if !ok {
			continue
		}
		for i, words := range lines {
			s.text(x, y+lead*float64(i), words, pen(i))
		}
		return true
	}
	return false
}

// outside letters name and size together off every frame, with a leader; on
// a face too full for that, wherever there is room.
func (c Collector) outside(s *sheet, v view, frames []ink.Box) {
	words := fit(c.ID, 80, small())
	if c.size() != "" {
		words += ", " + c.size()
	}
	box := boxOf(v.points(c.Ring))
	x, y := (box.X0+box.X1)/2, (box.Y0+box.Y1)/2
	s.labelClear(x, y, words, frames)
}

// tapes are two running measures, read as a tape is: from the face's left end
// along the row beneath it, and from its foot up its right side.
// It gives the lines that run over the face.
func (d FaceMap) tapes(s *sheet, v view, face ink.Box, below float64) ink.Path {
	var over ink.Path
	type mark struct {
		at, from float64 // along the tape, and where the corner it measures lies
		words    string
	}
	var along, up []mark
	seen := map[string]bool{}
	for _, c := range d.Collectors {
		if len(c.Ring) < 3 {
			continue
		}
		x0, _, x1, y1 := ink.Polygon(v.points(c.Ring)).Bounds()
		if c.FromLeft != "" && !seen["along "+c.FromLeft] {
			along = append(along, mark{x0, y1, c.FromLeft})
			seen["along "+c.FromLeft] = true
		}
		if c.Up != "" && !seen["up "+c.Up] {
			up = append(up, mark{y1, x1, c.Up})
			seen["up "+c.Up] = true
		}
	}
	tick := func(x, y float64) { s.Path(ink.Line(x-2, y+2, x+2, y-2), line(medium, black)) }
	if len(along) > 0 {
		y, end := below+7, face.X0
		tick(face.X0, y)
		for _, m := range along {
			end = max(end, m.at)
			s.Path(ink.Line(m.at, m.from, m.at, y), dashed(hair, black, dashHint))
			over = append(over, ink.Line(m.at, m.from, m.at, y)...)
			tick(m.at, y)
			for _, dy := range []float64{9, 18, -3} {
				if s.try(m.at, y+dy, m.words, haloed(centred(small())), s.frame) {
					break
				}
			}
		}
		s.Path(ink.Line(face.X0, y, end, y), line(hair, black))
		over = append(over, ink.Line(face.X0, y, end, y)...)
	}
	if len(up) > 0 {
		x, top := face.X1+11, face.Y1
		tick(x, face.Y1)
		for _, m := range up {
			top = min(top, m.at)
			s.Path(ink.Line(m.from, m.at, x, m.at), dashed(hair, black, dashHint))
			over = append(over, ink.Line(m.from, m.at, x, m.at)...)
			tick(x, m.at)
			for _, dy := range []float64{2.5, -6, 11} {
				if s.try(x+4, m.at+dy, m.words, haloed(small()), s.frame) {
					break
				}
			}
		}
		s.Path(ink.Line(x, face.Y1, x, top), line(hair, black))
		over = append(over, ink.Line(x, face.Y1, x, top)...)
	}
	return over
}

// groundLine is the ground with strokes of earth beneath.
func (d FaceMap) groundLine(s *sheet, y, x0, x1 float64) {
	s.Path(ink.Line(x0, y, x1, y), line(heavy, black))
	var earth ink.Path
	for x := x0 + 4; x < x1; x += 7 {
		earth = append(earth, ink.Line(x, y+0.5, x-4, y+4.5)...)
	}
	s.Path(earth, line(hair, black))
}
