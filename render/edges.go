package render

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// FaceEdge is an edge of the face and its name, "eave" or "ridge", lettered
// along it, outside where there is room.
type FaceEdge struct {
	A, B orb.Point
	Name string
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
			in := covers(outline, box)
			if !e.upright() { // the box of a slanting name reaches over the edge: its middle tells the side
				mid := ink.Point{X: x - 2.6*math.Sin(up), Y: y - 2.6*math.Cos(up)}
				in = contains(outline, mid)
			}
			if in != inside || !inside && taped && e.upright() && y > max(a.Y, b.Y) || e.upright() && len(ink.ClipLines(lines, box)) > 0 {
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
