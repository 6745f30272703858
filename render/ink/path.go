package ink

import "math"

// Point is a place on the page in points.
type Point struct{ X, Y float64 }

// Run is a chain of straight lines, closed or open.
type Run struct {
	Points []Point
	Closed bool
}

// Path is any number of runs inked together.
type Path []Run

// Polyline is an open chain through the points.
func Polyline(pts ...Point) Path { return Path{{Points: pts}} }

// Line is one straight line.
func Line(x0, y0, x1, y1 float64) Path { return Polyline(Point{x0, y0}, Point{x1, y1}) }

// Polygon is a closed chain through the points; give further rings as holes.
func Polygon(rings ...[]Point) Path {
	p := make(Path, 0, len(rings))
	for _, r := range rings {
		p = append(p, Run{Points: r, Closed: true})
	}
	return p
}

// Rectangle has its upper left corner at x, y.
func Rectangle(x, y, w, h float64) Path {
	return Polygon([]Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}})
}

// Circle is a closed many-sided chain, true to a fiftieth of a point.
func Circle(x, y, r float64) Path { return Ellipse(x, y, r, r, 0) }

// Ellipse has half-axes rx, ry and is turned counter-clockwise by turn degrees.
func Ellipse(x, y, rx, ry, turn float64) Path {
	n := max(12, int(math.Ceil(math.Pi/math.Acos(1-min(0.5, 0.02/max(rx, ry, 0.02))))))
	s, c := math.Sincos(turn * math.Pi / 180)
	pts := make([]Point, n)
	for i := range pts {
		sa, ca := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		u, v := rx*ca, ry*sa
		pts[i] = Point{x + u*c + v*s, y - u*s + v*c}
	}
	return Polygon(pts)
}

// Arc is an open chain from one angle to another, degrees counter-clockwise
// from the right.
func Arc(x, y, r, from, to float64) Path {
	n := max(2, int(math.Abs(to-from)/5))
	pts := make([]Point, n+1)
	for i := range pts {
		s, c := math.Sincos((from + (to-from)*float64(i)/float64(n)) * math.Pi / 180)
		pts[i] = Point{x + r*c, y - r*s}
	}
	return Polyline(pts...)
}

// Bounds of the path; all zero for an empty one.
func (p Path) Bounds() (x0, y0, x1, y1 float64) {
	first := true
	for _, r := range p {
		for _, q := range r.Points {
			if first {
				x0, y0, x1, y1, first = q.X, q.Y, q.X, q.Y, false
				continue
			}
			x0, y0, x1, y1 = min(x0, q.X), min(y0, q.Y), max(x1, q.X), max(y1, q.Y)
		}
	}
	return
}

func (p Path) finite() bool {
	for _, r := range p {
		for _, q := range r.Points {
			if math.IsNaN(q.X+q.Y) || math.IsInf(q.X, 0) || math.IsInf(q.Y, 0) {
				return false
			}
		}
	}
	return true
}
