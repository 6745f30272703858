package render

import (
	"cmp"
	"math"
	"slices"

	"github.com/southyard/southyard/render/ink"
)

// stand draws buildings and crowns, the farthest first.
func (d SkyView) stand(clip ink.Page, leaf bool, degree float64, at func(SkyPoint) ink.Point) {
	type thing struct {
		away float64
		draw func()
	}
	var things []thing
	for _, o := range d.Solids {
		outline := ink.Polygon(d.unrolled(o.Outline, at, degree))
		things = append(things, thing{o.Away, func() { clip.Path(outline, edged(shade, medium, black)) }})
	}
	for _, c := range d.Crowns {
		through, turn := c.Bare, 60.0
		if leaf {
			through = c.InLeaf
		}
		if c.Evergreen {
			turn = 90
		}
		outline := ink.Polygon(d.unrolled(c.Outline, at, degree))
		things = append(things, thing{c.Away, func() {
			clip.Path(outline, area(ink.Colour{R: 255, G: 255, B: 255, A: 150}))
			gap := 1.5 + 4.5*max(0, min(1, through)) // the denser the crown, the closer the strokes
			clip.Path(ink.Hatch(outline, gap, turn, false), line(hair, black))
			clip.Path(outline, line(light, black))
		}})
	}
	slices.SortStableFunc(things, func(a, b thing) int { return cmp.Compare(b.away, a.away) })
	for _, x := range things {
		x.draw()
	}
	for _, c := range d.Crowns { // a crown behind others stays traceable
		clip.Path(ink.Polygon(d.unrolled(c.Outline, at, degree)), line(hair, pencil))
	}
}

// behind are the pieces of sky that lie behind the surface, as rings down to
// the horizon.
func (d SkyView) behind(at func(SkyPoint) ink.Point) ink.Path {
	var out ink.Path
	var run []ink.Point
	flush := func() {
		if n := len(run); n > 1 {
			foot := at(SkyPoint{Azimuth: d.Facing}).Y
			run = append(run, ink.Point{X: run[n-1].X, Y: foot}, ink.Point{X: run[0].X, Y: foot})
			out = append(out, ink.Run{Points: run, Closed: true})
		}
		run = nil
	}
	for _, q := range d.Behind {
		p := at(q)
		if n := len(run); n > 0 && p.X < run[n-1].X-1 { // over the seam
			flush()
		}
		if q.Altitude <= 0 {
			flush()
			continue
		}
		run = append(run, p)
	}
	flush()
	return out
}

// front is the part of a band that does not lie behind the surface from the
// horizon to high up.
func (d SkyView) front(at func(SkyPoint) ink.Point, box ink.Box) ink.Box {
	const high = 45
	out := box
	middle := (box.X0 + box.X1) / 2
	for _, q := range d.Behind {
		if q.Altitude < high {
			continue
		}
		if x := at(q).X; x < middle {
			out.X0 = max(out.X0, x)
		} else {
			out.X1 = min(out.X1, x)
		}
	}
	if out.W() < 20 {
		return box
	}
	return out
}

// hidden tells whether a direction lies behind the surface.
func (d SkyView) hidden(q SkyPoint) bool {
	off := func(a float64) float64 { return math.Mod(a-d.Facing+900, 360) - 180 }
	x := off(q.Azimuth)
	for i := 1; i < len(d.Behind); i++ {
		a, b := d.Behind[i-1], d.Behind[i]
		if x0, x1 := off(a.Azimuth), off(b.Azimuth); x >= x0 && x <= x1 && x1 > x0 {
			return q.Altitude < a.Altitude+(b.Altitude-a.Altitude)*(x-x0)/(x1-x0)
		}
	}
	return false
}

// unrolled keeps an outline in one piece where it crosses the seam opposite
// the facing.
func (d SkyView) unrolled(outline []SkyPoint, at func(SkyPoint) ink.Point, degree float64) []ink.Point {
	out := make([]ink.Point, 0, len(outline))
	for i, p := range outline {
		q := at(p)
		if i > 0 {
			turn := 360 * degree
			for q.X-out[i-1].X > turn/2 {
				q.X -= turn
			}
			for q.X-out[i-1].X < -turn/2 {
				q.X += turn
			}
		}
		out = append(out, q)
	}
	return out
}
