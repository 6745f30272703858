package render

import (
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

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

func (v view) pt(p orb.Point) ink.Point { return v.at(p[0], p[1]) }

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
