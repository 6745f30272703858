package render

import (
	"strings"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

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

// collectors draws each with strokes from corner to corner.
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
}

// collectorNames letters each's name and size, off lines drawn where they do
// not fit into its frame.
func (d FaceMap) collectorNames(s *sheet, v view, lines ink.Path, bounds ink.Box) {
	var frames []ink.Box
	for _, o := range d.Openings {
		frames = append(frames, boxOf(v.points(o.Ring)))
	}
	for _, c := range d.Collectors {
		frames = append(frames, boxOf(v.points(c.Ring)))
	}
	for _, c := range d.Collectors {
		if len(c.Ring) > 2 && !c.inside(s, v) {
			c.outside(s, v, frames, lines, bounds)
		}
	}
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

// outside letters name and size together off every frame and line, with a
// leader; on a face too full for that, wherever there is room.
func (c Collector) outside(s *sheet, v view, frames []ink.Box, lines ink.Path, bounds ink.Box) {
	words := fit(c.ID, 80, small())
	if c.size() != "" {
		words += ", " + c.size()
	}
	box := boxOf(v.points(c.Ring))
	x, y := (box.X0+box.X1)/2, (box.Y0+box.Y1)/2
	s.labelClear(x, y, words, frames, lines, bounds)
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
