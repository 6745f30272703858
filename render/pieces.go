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

// pieces of a tree: its trunk, and its crown as a flat outline that stands
// across the line of sight, with the side toward the sun lighter.
func (t EyeTree) pieces(c camera, sun r3.Vector) []piece {
	foot := r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground}
	outline := t.outline(c)
	if len(outline) < 3 {
		return nil
	}
	thick := c.right.Mul(max(0.12, 0.012*t.Height))
	top := foot.Add(r3.Vector{Z: t.CrownBase + 0.15*(t.Height-t.CrownBase)})
	stump := foot.Add(r3.Vector{Z: min(0.4, t.Height/4)})
	trunk := func(end r3.Vector) piece {
		return newPiece([]r3.Vector{foot.Sub(thick), foot.Add(thick), end.Add(thick), end.Sub(thick)}, edged(pencil, hair, black))
	}
	if t.Removed {
		return []piece{trunk(stump), newPiece(outline, dashed(1.1, red, dashGone))}
	}
	fill, lit := ink.RGB(0xb4bfae), ink.RGB(0xdbe2d6)
	pen := line(medium, black)
	switch {
	case t.Planted:
		pen = line(heavy, green)
	case t.Bare:
		fill.A, lit = 70, ink.Colour{}
		pen = line(light, black)
	case t.Evergreen:
		fill, lit = ink.RGB(0x869686), ink.RGB(0xaebbab)
	}
	pen.Fill = fill
	crown := newPiece(outline, pen)
	if lit.A > 0 {
		toward := sun
		if toward.Norm() == 0 {
			toward = r3.Vector{Z: 1}
		}
		edge := outline[0]
		for _, v := range outline {
			if v.Dot(toward) > edge.Dot(toward) {
				edge = v
			}
		}
		mid := r3.Vector{}
		for _, v := range outline {
			mid = mid.Add(v.Mul(1 / float64(len(outline))))
		}
		edge = mid.Add(edge.Sub(mid).Mul(0.92)) // clear of the outline
		inner := make([]r3.Vector, len(outline))
		for i, v := range outline {
			inner[i] = edge.Add(v.Sub(edge).Mul(0.74))
		}
		crown.on = append(crown.on, newPiece(inner, area(lit)))
	}
	return []piece{trunk(top), crown}
}

// outline is the crown's edge as the eye sees it, in the plane through its
// middle across the line of sight.
func (t EyeTree) outline(c camera) []r3.Vector {
	mid := r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground + (t.Height+t.CrownBase)/2}
	n := c.eye.Sub(mid).Normalize()
	u := c.right.Sub(n.Mul(c.right.Dot(n))).Normalize()
	v := n.Cross(u)
	type flat struct{ x, y float64 }
	var pts []flat
	const levels, around = 16, 24
	for i := range levels + 1 {
		h := float64(i) / levels
		r := radius(t.Shape, h)
		for k := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
			p := r3.Vector{X: t.At[0] + r*cos*t.SpreadX/2, Y: t.At[1] + r*sin*t.SpreadY/2, Z: t.Ground + t.CrownBase + h*(t.Height-t.CrownBase)}
			ray := p.Sub(c.eye)
			along := mid.Sub(c.eye).Dot(n) / ray.Dot(n)
			q := c.eye.Add(ray.Mul(along)).Sub(mid)
			pts = append(pts, flat{q.Dot(u), q.Dot(v)})
		}
	}
	// the convex hull by Andrew's monotone chain (1979)
	sort.Slice(pts, func(i, j int) bool {
		if pts[i].x != pts[j].x {
			return pts[i].x < pts[j].x
		}
		return pts[i].y < pts[j].y
	})
	var hull []flat
	half := func(list []flat) {
		start := len(hull)
		for _, p := range list {
			for len(hull) >= start+2 {
				a, b := hull[len(hull)-2], hull[len(hull)-1]
				if (b.x-a.x)*(p.y-a.y)-(b.y-a.y)*(p.x-a.x) > 1e-9 {
					break
				}
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
	}
	half(pts)
	for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
	half(pts)
	out := make([]r3.Vector, len(hull))
	for i, p := range hull {
		out[i] = mid.Add(u.Mul(p.x)).Add(v.Mul(p.y))
	}
	return out
}

// radius of a crown at a share h of its height, as a share of half its width.
func radius(shape model.CrownShape, h float64) float64 {
	switch shape {
	case model.HalfEllipsoid:
		return math.Sqrt(max(0, 1-h*h))
	case model.Paraboloid:
		return math.Sqrt(max(0, 1-h))
	case model.Cone:
		return 1 - h
	case model.Cylinder:
		return 1
	}
	return math.Sqrt(max(0, 1-(2*h-1)*(2*h-1)))
}
