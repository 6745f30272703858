package fieldsheet

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

const drawingHigh = 100.0

// howto is a drawing with its words beneath; it gives where they end.
func (f *form) howto(x, y, width float64, draw func(*form, float64, float64, float64), title string, items []string) float64 {
	f.Text(x, y+9, title, bold(8.5))
	draw(f, x, y+14, width)
	return f.list(x, y+14+drawingHigh+5, width, func(i int) string { return fmt.Sprint(i + 1) }, items)
}

// tree stands with its foot at x, y.
func (f *form) tree(x, y, high float64) {
	f.Path(ink.Polygon([]ink.Point{{X: x - 2.5, Y: y}, {X: x - 1.5, Y: y - 0.45*high}, {X: x + 1.5, Y: y - 0.45*high}, {X: x + 2.5, Y: y}}), ink.Style{Fill: render.Wash, Stroke: render.Black, Width: render.Light})
	crown := ink.Ellipse(x, y-0.64*high, 0.25*high, 0.36*high, 0)
	f.Path(crown, ink.Style{Fill: render.Wash, Stroke: render.Black, Width: render.Medium})
}

// person stands with the feet at x, y and looks to the right; the eye is given
// back.
func (f *form) person(x, y, high float64) (eyeX, eyeY float64) {
	r := high * 0.085
	pen := render.Line(render.Heavy, render.Black)
	pen.Round = true
	f.Path(ink.Circle(x, y-high+r, r), ink.Style{Fill: ink.Paper, Stroke: render.Black, Width: render.Medium})
	f.Path(ink.Line(x, y-high+2*r, x, y-0.45*high), pen)
	f.Path(ink.Polyline(ink.Point{X: x - 0.1*high, Y: y}, ink.Point{X: x, Y: y - 0.45*high}, ink.Point{X: x + 0.1*high, Y: y}), pen)
	return x + r, y - high + r
}

func (f *form) sight(x0, y0, x1, y1 float64) {
	f.Path(ink.Line(x0, y0, x1, y1), ink.Style{Stroke: render.Black, Width: render.Light, Dash: []float64{4, 2.2}})
}

// measure is a tape's line with slashes at its ends, as on a building drawing.
func (f *form) measure(x0, x1, y float64, words string) {
	f.line(x0, y, x1, y, render.Light, render.Black)
	for _, x := range []float64{x0, x1} {
		f.line(x-2.5, y+2.5, x+2.5, y-2.5, render.Medium, render.Black)
	}
	t := text(8)
	t.Anchor = ink.Centre
	f.Text((x0+x1)/2, y+9.5, words, t)
}

// clinometer draws the two sights of a clinometer.
func clinometer(f *form, x, y, width float64) {
	ground := y + drawingHigh - 20
	trunk, feet := x+width-44, x+34
	const high = 74.0
	f.line(x, ground, x+width, ground, render.Medium, render.Black)
	f.tree(trunk, ground, high)
	ex, ey := f.person(feet, ground, 25)
	f.sight(ex, ey, trunk, ground-high)
	f.sight(ex, ey, trunk, ground)
	f.Path(ink.Line(ex, ey, trunk-24, ey), ink.Style{Stroke: render.Pencil, Width: render.Hair, Dash: []float64{1, 2}})
	up := degrees(ground-high-ey, trunk-ex)
	down := degrees(ground-ey, trunk-ex)
	f.Path(ink.Arc(ex, ey, 52, 0, up), render.Line(render.Light, render.Black))
	f.Path(ink.Arc(ex, ey, 96, 0, down), render.Line(render.Light, render.Black))
	t := text(8)
	t.Halo = 1.2
	f.Text(ex+56, ey-8, "top angle", t)
	f.Text(ex+100, ey+8.5, "base angle", t)
	right := t
	right.Anchor = ink.Right
	f.Text(feet-7, ey+14, "eye", right)
	f.Text(feet-7, ey+22, "height", right)
	f.measure(feet, trunk, ground+9, "distance")
}

// degrees of a sight that rises (or, downward positive, falls) over a run, in
// the page's sense: counter-clockwise positive.
func degrees(fall, run float64) float64 { return -math.Atan2(fall, run) * 180 / math.Pi }

// stick draws the sight over an upright stick.
func stick(f *form, x, y, width float64) {
	ground := y + drawingHigh - 20
	const high = 84.0
	trunk := x + width - 44
	eyeAt := trunk - high // as far off as the tree is high
	f.line(x, ground, x+width, ground, render.Medium, render.Black)
	f.tree(trunk, ground, high)
	const tall = 27.0
	ex, ey := f.person(eyeAt-2, ground, tall)
	// the stick stands where both sights pass; its length is its distance
	const arm = 17.0
	top := func(at float64) float64 { return ey + (ground-high-ey)*(at-ex)/(trunk-ex) }
	foot := func(at float64) float64 { return ey + (ground-ey)*(at-ex)/(trunk-ex) }
	sx := ex + arm
	f.sight(ex, ey, trunk, ground-high)
	f.sight(ex, ey, trunk, ground)
	pen := render.Line(1.8, render.Black)
	f.Path(ink.Line(sx, top(sx), sx, foot(sx)+2), pen)
	f.Path(ink.Line(ex-3, ey+6, sx, foot(sx)), render.Line(render.Medium, render.Black))
	t := text(8)
	t.Anchor, t.Halo = ink.Right, 1.2
	f.Text(sx-6, top(sx)-6, "stick as long as the arm", t)
	f.measure(ex, trunk, ground+9, "this far")
	t.Anchor = ink.Left
	f.line(trunk+28, ground, trunk+28, ground-high, render.Light, render.Black)
	for _, at := range []float64{ground, ground - high} {
		f.line(trunk+25.5, at+2.5, trunk+30.5, at-2.5, render.Medium, render.Black)
	}
	t.Turn, t.Anchor = 90, ink.Centre
	f.Text(trunk+39, ground-high/2, "is this high", t)
}
