package ink

// Box is an upright rectangle on the page.
type Box struct{ X0, Y0, X1, Y1 float64 }

// W is the width of the box.
func (b Box) W() float64 { return b.X1 - b.X0 }

// H is the height of the box.
func (b Box) H() float64 { return b.Y1 - b.Y0 }

// Meets tells whether two boxes share more than an edge.
func (b Box) Meets(o Box) bool {
	return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1
}

// Inside tells whether b lies within o.
func (b Box) Inside(o Box) bool {
	return b.X0 >= o.X0 && b.X1 <= o.X1 && b.Y0 >= o.Y0 && b.Y1 <= o.Y1
}

// Clip is a page that keeps only what lies in the box. Text that does not fit
// wholly is left out.
func Clip(p Page, b Box) Page { return clipped{p, b} }

type clipped struct {
	Page
	box Box
}

func (c clipped) Path(p Path, s Style) {
	if s.Fill.A > 0 {
		fill := s
		fill.Stroke = Colour{}
		c.Page.Path(ClipArea(p, c.box), fill)
	}
	if s.Stroke.A > 0 {
		line := s
		line.Fill = Colour{}
		c.Page.Path(ClipLines(p, c.box), line)
	}
}

func (c clipped) Text(x, y float64, s string, t Type) {
	if TextBox(x, y, s, t).Inside(c.box) {
		c.Page.Text(x, y, s, t)
	}
}

// ClipArea cuts the closed runs of a path to the box (Sutherland and Hodgman
// 1974). Pieces of a run that falls apart stay joined along the box's edge,
// which changes no filled area.
func ClipArea(p Path, b Box) Path {
	var out Path
	for _, r := range p {
		pts := r.Points
		pts = cut(pts, func(q Point) float64 { return q.X - b.X0 })
		pts = cut(pts, func(q Point) float64 { return b.X1 - q.X })
		pts = cut(pts, func(q Point) float64 { return q.Y - b.Y0 })
		pts = cut(pts, func(q Point) float64 { return b.Y1 - q.Y })
		if len(pts) > 2 {
			out = append(out, Run{pts, true})
		}
	}
	return out
}

// cut keeps the part of a ring where side is not negative.
func cut(pts []Point, side func(Point) float64) []Point {
	var out []Point
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		da, db := side(a), side(b)
		if da >= 0 {
			out = append(out, a)
		}
		if (da >= 0) != (db >= 0) {
			t := da / (da - db)
			out = append(out, Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)})
		}
	}
	return out
}

// ClipLines cuts the lines of a path to the box (Liang and Barsky 1984).
func ClipLines(p Path, b Box) Path {
	var out Path
	for _, r := range p {
		n := len(r.Points)
		if !r.Closed {
			n--
		}
		var run []Point
		for i := range max(n, 0) {
			a, e := r.Points[i], r.Points[(i+1)%len(r.Points)]
			t0, t1, ok := within(a, e, b)
			if !ok {
				continue
			}
			from := Point{a.X + t0*(e.X-a.X), a.Y + t0*(e.Y-a.Y)}
			to := Point{a.X + t1*(e.X-a.X), a.Y + t1*(e.Y-a.Y)}
			if len(run) == 0 || run[len(run)-1] != from {
				if len(run) > 1 {
					out = append(out, Run{Points: run})
				}
				run = []Point{from}
			}
			run = append(run, to)
		}
		if len(run) > 1 {
			closed := r.Closed && len(run) == len(r.Points)+1 && run[0] == run[len(run)-1]
			if closed {
				run = run[:len(run)-1]
			}
			out = append(out, Run{run, closed})
		}
	}
	return out
}

func within(a, e Point, b Box) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	for _, s := range [4][2]float64{
		{a.X - e.X, a.X - b.X0}, {e.X - a.X, b.X1 - a.X},
		{a.Y - e.Y, a.Y - b.Y0}, {e.Y - a.Y, b.Y1 - a.Y},
	} {
		step, room := s[0], s[1]
		switch {
		case step == 0 && room < 0:
			return 0, 0, false
		case step < 0:
			t0 = max(t0, room/step)
		case step > 0:
			t1 = min(t1, room/step)
		}
	}
	return t0, t1, t0 < t1
}

// Inset is a page that draws into a box of another, at the same scale.
func Inset(p Page, b Box) Page { return inset{p, b} }

type inset struct {
	Page
	box Box
}

func (i inset) Size() (w, h float64) { return i.box.W(), i.box.H() }

func (i inset) Path(p Path, s Style) {
	moved := make(Path, len(p))
	for k, r := range p {
		pts := make([]Point, len(r.Points))
		for j, q := range r.Points {
			pts[j] = Point{q.X + i.box.X0, q.Y + i.box.Y0}
		}
		moved[k] = Run{pts, r.Closed}
	}
	i.Page.Path(moved, s)
}

func (i inset) Text(x, y float64, s string, t Type) {
	i.Page.Text(x+i.box.X0, y+i.box.Y0, s, t)
}
