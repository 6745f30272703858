package ink

import (
	"math"

	"golang.org/x/image/math/fixed"
)

// dots is a page of dots, each with its red, green and blue from the lowest
// byte up.
type dots struct {
	w, h   int
	colour []uint32
	cover  coverage
	paper  [2]float64 // points
	scale  float64    // dots a point
}

// lay puts a bare sheet of w × h dots down for a figure.
func (d *dots) lay(w, h int, f Figure, scale float64) {
	d.w, d.h, d.paper, d.scale = w, h, [2]float64{f.Width, f.Height}, scale
	if cap(d.colour) < w*h {
		d.colour = make([]uint32, w*h)
	}
	d.colour = d.colour[:w*h]
	bare := packed(Paper)
	for i := range d.colour {
		d.colour[i] = bare
	}
	d.cover.fit(w, h)
}

func packed(c Colour) uint32 { return uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 }

// Size of the paper in points.
func (d *dots) Size() (w, h float64) { return d.paper[0], d.paper[1] }

// Begin and End: dots know no groups.
func (d *dots) Begin(string, string) {}

// End does nothing.
func (d *dots) End() {}

// Path fills and strokes.
func (d *dots) Path(p Path, s Style) {
	if len(p) == 0 || !p.finite() {
		return
	}
	if s.Fill.A > 0 {
		for _, run := range p {
			for i, q := range run.Points {
				if i == 0 {
					d.cover.Start(d.place(q))
				} else {
					d.cover.Add1(d.place(q))
				}
			}
		}
		d.paint(s.Fill, s.Winding)
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		stroke(&d.cover, p, s, d.scale, d.place)
		d.paint(s.Stroke, true)
	}
}

// Text fills the outlines of letters.
func (d *dots) Text(x, y float64, s string, t Type) {
	p := letterPath(x, y, s, t)
	if t.Halo > 0 {
		d.Path(p, Style{Stroke: Paper, Width: 2 * t.Halo})
	}
	d.Path(p, Style{Fill: t.Colour, Winding: true})
}

// place of a point of the paper among the dots. What lies far off the sheet is
// drawn nearer, where it is as little seen.
func (d *dots) place(q Point) fixed.Point26_6 {
	const far = 1 << 14 * sub
	on := func(v float64) fixed.Int26_6 {
		return fixed.Int26_6(math.Round(max(-far, min(far, v*d.scale*sub))))
	}
	return fixed.Point26_6{X: on(q.X), Y: on(q.Y)}
}

// paint inks what is covered: a dot covered in part takes that part of the ink.
func (d *dots) paint(c Colour, winding bool) {
	ink := packed(c)
	const one = full * 255
	d.cover.sweep(winding, func(y, x0, x1 int, share uint32) {
		row := d.colour[y*d.w+x0 : y*d.w+x1]
		a := share * uint32(c.A)
		if a == one {
			for i := range row {
				row[i] = ink
			}
			return
		}
		b := one - a
		r, g, l := uint32(c.R)*a+one/2, uint32(c.G)*a+one/2, uint32(c.B)*a+one/2
		for i, k := range row {
			row[i] = (k&255*b+r)/one | (k>>8&255*b+g)/one<<8 | (k>>16*b+l)/one<<16
		}
	})
}
