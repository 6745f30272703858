package render

import (
	"math"
	"slices"
	"sort"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// piece is a flat thing in space to be painted: its ring, which of its edges
// are drawn (not those made by cutting), and what lies on it.
type piece struct {
	ring  []r3.Vector
	drawn []bool // edge from corner i to i+1
	style ink.Style
	on    []piece
}

func newPiece(ring []r3.Vector, st ink.Style) piece {
	drawn := make([]bool, len(ring))
	for i := range drawn {
		drawn[i] = true
	}
	return piece{ring: ring, drawn: drawn, style: st}
}

// normal of the ring by Newell's sum; its length is twice the area.
func normal(ring []r3.Vector) r3.Vector {
	var n r3.Vector
	for i, a := range ring {
		n = n.Add(a.Cross(ring[(i+1)%len(ring)]))
	}
	return n
}

// draw paints the piece; lap is how far, in points, it runs over its edge to
// close the hairs between cut pieces.
func (p piece) draw(page ink.Page, c camera, lap float64) {
	pts := make([]ink.Point, len(p.ring))
	for i, v := range p.ring {
		if c.depth(v) < nearest {
			return
		}
		pts[i] = c.at(v)
	}
	if p.style.Fill.A > 0 {
		fill := area(p.style.Fill)
		if p.style.Fill.A == 255 {
			fill.Stroke, fill.Width = p.style.Fill, 2*lap
		}
		page.Path(ink.Polygon(pts), fill)
	}
	for _, q := range p.on {
		q.draw(page, c, 2.5*lap)
	}
	edges := ink.Polygon(pts)
	if slices.Contains(p.drawn, false) {
		edges = runs(pts, p.drawn)
	}
	st := p.style
	st.Fill, st.Round = ink.Colour{}, true
	page.Path(edges, st)
}

// runs joins neighbouring drawn edges, so that dashes go on round corners.
func runs(pts []ink.Point, drawn []bool) ink.Path {
	n := len(pts)
	start := slices.Index(drawn, false) + 1
	var out ink.Path
	open := false
	for k := range n {
		i := (start + k) % n
		if !drawn[i] {
			open = false
			continue
		}
		if !open {
			out = append(out, ink.Run{Points: []ink.Point{pts[i]}})
			open = true
		}
		last := &out[len(out)-1]
		last.Points = append(last.Points, pts[(i+1)%n])
	}
	return out
}

// cut parts a piece by a plane; a part may be empty.
func (p piece) cut(n r3.Vector, at float64) (front, back piece) {
	front, back = piece{style: p.style}, piece{style: p.style}
	k := len(p.ring)
	for i, a := range p.ring {
		b := p.ring[(i+1)%k]
		da, db := a.Dot(n)-at, b.Dot(n)-at
		crosses := (da > 0 && db < 0) || (da < 0 && db > 0)
		put := func(q *piece, v r3.Vector, drawn bool) {
			q.ring, q.drawn = append(q.ring, v), append(q.drawn, drawn)
		}
		if da >= 0 {
			put(&front, a, p.drawn[i] && (db >= 0 || crosses))
		}
		if da <= 0 {
			put(&back, a, p.drawn[i] && (db <= 0 || crosses))
		}
		if crosses {
			m := a.Add(b.Sub(a).Mul(da / (da - db)))
			put(&front, m, p.drawn[i] && db > 0)
			put(&back, m, p.drawn[i] && db < 0)
		}
	}
	for _, q := range p.on {
		f, b := q.cut(n, at)
		if len(f.ring) > 2 {
			front.on = append(front.on, f)
		}
		if len(b.ring) > 2 {
			back.on = append(back.on, b)
		}
	}
	return front, back
}

// pieces of the view: buildings first and large before small, since the first
// ones cut the rest.
func (d EyeView) pieces(c camera) []piece {
	var faces, windows []piece
	for _, f := range d.Faces {
		f.Ring = d.unburied(f.Ring)
		if len(f.Ring) < 3 || normal(f.Ring).Norm() < 1e-6 {
			continue
		}
		st := edged(d.tone(f), light, black)
		if f.Kind == model.WindowFace {
			windows = append(windows, newPiece(f.Ring, edged(pencil, hair, black)))
			continue
		}
		faces = append(faces, newPiece(f.Ring, st))
	}
	for _, w := range windows {
		lay(w, faces)
	}
	sort.SliceStable(faces, func(i, j int) bool { return normal(faces[i].ring).Norm() > normal(faces[j].ring).Norm() })
	for _, t := range d.Trees {
		faces = append(faces, t.pieces(c, d.Sun)...)
	}
	return faces
}

// lay puts a window on the wall in whose plane it lies, or nearly.
func lay(w piece, walls []piece) {
	const reach = 0.5 // metres: deeper than any reveal
	n := normal(w.ring).Normalize()
	best, bestGap := -1, reach
	for i, f := range walls {
		m := normal(f.ring).Normalize()
		if math.Abs(m.Dot(n)) < 0.999 {
			continue
		}
		gap := math.Abs(w.ring[0].Sub(f.ring[0]).Dot(m))
		if gap < bestGap && holds(f.ring, m, w.ring) {
			best, bestGap = i, gap
		}
	}
	if best < 0 {
		return
	}
	f := walls[best].ring
	m := normal(f).Normalize()
	for i, v := range w.ring {
		w.ring[i] = v.Sub(m.Mul(v.Sub(f[0]).Dot(m)))
	}
	walls[best].on = append(walls[best].on, w)
}

// holds tells whether the middle of a ring lies over a face.
func holds(face []r3.Vector, m r3.Vector, ring []r3.Vector) bool {
	var mid r3.Vector
	for _, v := range ring {
		mid = mid.Add(v.Mul(1 / float64(len(ring))))
	}
	u := m.Ortho()
	v := m.Cross(u)
	in := false
	x, y := mid.Dot(u), mid.Dot(v)
	for i, a := range face {
		b := face[(i+1)%len(face)]
		ax, ay, bx, by := a.Dot(u), a.Dot(v), b.Dot(u), b.Dot(v)
		if (ay > y) != (by > y) && x < ax+(bx-ax)*(y-ay)/(by-ay) {
			in = !in
		}
	}
	return in
}

// tone of a face: lighter toward the sun; roofs darker than walls.
func (d EyeView) tone(f EyeFace) ink.Colour {
	lit := 0.5
	if d.Sun.Norm() > 0 {
		lit = max(0, normal(f.Ring).Normalize().Dot(d.Sun.Normalize()))
	}
	base, span := 0.80, 0.18
	switch {
	case f.Kind == model.RoofFace:
		base, span = 0.58, 0.24
	case f.Neighbour:
		base, span = 0.78, 0.12
	}
	g := uint8(255 * (base + span*lit))
	return ink.Colour{R: g, G: g, B: min(255, g+4), A: 255}
}
