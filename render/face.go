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
	Sun         *Grid
	Breaks      []float64 // class limits; nil: round ones
	Unit        string
	Openings    []Opening
	Collectors  []Collector
	Dimensions  []Dimension
	Ground      float64 // v of the ground line; NaN for none
	NoLegend    bool    // where a pair shares one
}

// Opening is a window or door in the face.
type Opening struct {
	ID   string
	Ring orb.Ring
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
	faceFoot      = 46.0 // ends, scale bar and legend
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

// side is the room kept at the left and above for tape measures.
func (d FaceMap) side() float64 {
	if len(d.Collectors) > 0 {
		return 14
	}
	return 2
}

// Figure gives the face at the width of a page.
func (d FaceMap) Figure() ink.Figure {
	b := d.bound()
	w := PageWidth - 2*margin - d.side()
	h := w * (b.Max[1] - b.Min[1]) / (b.Max[0] - b.Min[0])
	return d.figure(PageWidth, max(110, min(faceMaxHeight, h))+faceFoot+2*margin, d)
}

// Draw draws the face as large as the page allows.
func (d FaceMap) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	foot := s.frame.Y1 - faceFoot
	box := ink.Box{X0: s.frame.X0 + d.side(), Y0: s.frame.Y0, X1: s.frame.X1, Y1: foot}
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
	d.collectors(s, v, box)
	for _, m := range d.Dimensions {
		s.dimension(v.pt(m.A), v.pt(m.B), m.Off, m.Text, s.frame)
	}
	if !math.IsNaN(d.Ground) {
		d.groundLine(s, v.at(0, d.Ground).Y, max(s.frame.X0, x0-16), min(s.frame.X1, x1+16))
	}
	var off []ink.Box
	for _, o := range d.Openings {
		a, b, c, e := ink.Polygon(v.points(o.Ring)).Bounds()
		off = append(off, ink.Box{X0: a, Y0: b, X1: c, Y1: e})
	}
	for _, o := range d.Collectors {
		a, b, c, e := ink.Polygon(v.points(o.Ring)).Bounds()
		off = append(off, ink.Box{X0: a, Y0: b, X1: c, Y1: e})
	}
	s.contourNames(d.Sun, breaks, v.at, around, off)

	s.text(max(s.frame.X0, x0), foot+14, fit(d.Left, 90, body()), body())
	s.text(min(s.frame.X1, x1), foot+14, fit(d.Right, 90, body()), right(body()))
	used := s.scaleBar(s.frame.X0+2, foot+30, min(100, s.frame.W()/3), v.scale)
	if d.Sun.valid() && !d.NoLegend {
		s.legend(s.frame.X0+used+24, foot+25, s.frame.W()-used-24, breaks, d.Unit)
	}
	return s.end()
}

// opening is glass: paper with two strokes of reflection, its name inside if
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
	if r > 7 {
		s.Path(ink.Rectangle(x0+2, y0+2, x1-x0-4, y1-y0-4), line(hair, black))
	}
	box := ink.Box{X0: x0, Y0: y0, X1: x1, Y1: y1}
	if s.try((x0+x1)/2, (y0+y1)/2+2.6, o.ID, bold(centred(small())), grown(box, 0.5)) {
		return
	}
	s.label((x0+x1)/2, y0-6, fit(o.ID, 60, small()), haloed(bold(small())), s.frame)
}

// collectors draws each with a bar across two corners, and the tape measures
// from the face's left end and foot.
func (d FaceMap) collectors(s *sheet, v view, box ink.Box) {
	b := d.bound()
	foot := b.Min[1]
	for _, p := range d.Outline {
		for _, r := range p {
			if len(r) > 0 {
				foot = r.Bound().Min[1]
			}
		}
	}
	left := math.Inf(1)
	for _, p := range d.Outline {
		for _, r := range p {
			for _, q := range r {
				left = min(left, q[0])
				foot = min(foot, q[1])
			}
		}
	}
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
		x0, y0, x1, y1 := ring.Bounds()
		s.label((x0+x1)/2, (y0+y1)/2, fit(c.ID, 80, small()), haloed(bold(small())), s.frame)
	}
	for _, c := range d.Collectors {
		if len(c.Ring) < 3 {
			continue
		}
		r := c.Ring.Bound()
		mid := (r.Min[1] + r.Max[1]) / 2
		if c.FromLeft != "" {
			s.dimension(v.at(left, mid), v.at(r.Min[0], mid), 0, c.FromLeft, s.frame)
		}
		if c.Up != "" {
			x := r.Min[0] + (r.Max[0]-r.Min[0])*0.25
			s.dimension(v.at(x, foot), v.at(x, r.Min[1]), 0, c.Up, s.frame)
		}
		if c.Width != "" {
			s.dimension(v.at(r.Min[0], r.Max[1]), v.at(r.Max[0], r.Max[1]), 6, c.Width, s.frame)
		}
		if c.Height != "" {
			s.dimension(v.at(r.Max[0], r.Max[1]), v.at(r.Max[0], r.Min[1]), 6, c.Height, s.frame)
		}
	}
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
