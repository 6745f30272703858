package ink

import (
	"image"
	"image/draw"
	"math"
	"math/bits"

	"github.com/fogleman/gg"
)

// dots is a page of dots.
type dots struct {
	sheet *image.RGBA
	paper [2]float64 // points
	scale float64    // dots a point
	pens  map[image.Point]*pen
}

// pen draws on windows of the sheet up to a size, one after the other: making a
// pen costs more than most of what is drawn with it.
type pen struct {
	*gg.Context
	window *image.RGBA
}

// lay puts a bare sheet of w × h dots down for a figure, on the memory of the
// one before where that is as large.
func (d *dots) lay(w, h int, f Figure, scale float64) {
	d.paper, d.scale = [2]float64{f.Width, f.Height}, scale
	if d.sheet == nil || d.sheet.Rect.Dx() != w || d.sheet.Rect.Dy() != h {
		if d.sheet == nil || cap(d.sheet.Pix) < 4*w*h {
			d.sheet = image.NewRGBA(image.Rect(0, 0, w, h))
		} else {
			d.sheet = &image.RGBA{Pix: d.sheet.Pix[:4*w*h], Stride: 4 * w, Rect: image.Rect(0, 0, w, h)}
		}
	}
	draw.Draw(d.sheet, d.sheet.Rect, image.NewUniform(Paper), image.Point{}, draw.Src)
}

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
		if pen := d.pen(p, 0); pen != nil {
			pen.SetFillRule(gg.FillRuleEvenOdd)
			if s.Winding {
				pen.SetFillRule(gg.FillRuleWinding)
			}
			pen.SetColor(s.Fill)
			pen.Fill()
		}
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		for _, part := range strokes(p, s.Stroke) {
			if pen := d.pen(part, s.Width/2); pen != nil {
				d.stroke(pen, s)
			}
		}
	}
}

func (d *dots) stroke(pen *gg.Context, s Style) {
	pen.SetColor(s.Stroke)
	pen.SetLineWidth(s.Width * d.scale)
	pen.SetLineJoinRound()
	pen.SetLineCapButt()
	if s.Round {
		pen.SetLineCapRound()
	}
	dash := make([]float64, len(s.Dash))
	for i, l := range s.Dash {
		dash[i] = l * d.scale
	}
	pen.SetDash(dash...)
	pen.Stroke()
}

// pen has traced a path on that part of the sheet which the path covers, room
// points about it counted: what it costs is then the path's size and not the
// sheet's. It is nil where nothing of the path lies on the sheet.
func (d *dots) pen(p Path, room float64) *gg.Context {
	x0, y0, x1, y1 := p.Bounds()
	dot := func(v float64, up int) int { return int(max(-1e6, min(1e6, math.Floor(v*d.scale)))) + up }
	window := image.Rect(dot(x0-room, -2), dot(y0-room, -2), dot(x1+room, 3), dot(y1+room, 3)).Intersect(d.sheet.Rect)
	if window.Empty() {
		return nil
	}
	pen := d.penFor(window.Size())
	*pen.window = image.RGBA{
		Pix:    d.sheet.Pix[d.sheet.PixOffset(window.Min.X, window.Min.Y):],
		Stride: d.sheet.Stride,
		Rect:   image.Rectangle{Max: window.Size()},
	}
	pen.ClearPath()
	left, top := float64(window.Min.X), float64(window.Min.Y)
	for _, run := range p {
		for i, q := range run.Points {
			if i == 0 {
				pen.MoveTo(q.X*d.scale-left, q.Y*d.scale-top)
			} else {
				pen.LineTo(q.X*d.scale-left, q.Y*d.scale-top)
			}
		}
		if run.Closed && len(run.Points) > 0 {
			pen.ClosePath()
		}
	}
	return pen.Context
}

// penFor is a pen for windows of a size or somewhat larger. What lies beyond a
// window is not painted. A larger pen takes longer, and the rasterizer goes by
// two limits, 24 and 120 dots, in how finely it bends curves.
func (d *dots) penFor(size image.Point) *pen {
	switch larger := max(size.X, size.Y); {
	case larger <= 24:
		size = image.Pt(24, 24)
	case larger <= 120:
		size = image.Pt(120, 120)
	default:
		size = image.Pt(d.sheet.Rect.Dx(), 1<<bits.Len(uint(max(120, size.Y))))
	}
	p := d.pens[size]
	if p == nil {
		if d.pens == nil {
			d.pens = map[image.Point]*pen{}
		}
		p = &pen{window: &image.RGBA{Rect: image.Rectangle{Max: size}}}
		p.Context = gg.NewContextForRGBA(p.window)
		d.pens[size] = p
	}
	return p
}

// strokes are what to stroke in one go. The rasterizer looks for a dot among
// all those of its row, so that many lines at once, as in hatching, cost their
// square; lines one by one look the same where the ink hides what is under it.
func strokes(p Path, ink Colour) []Path {
	if ink.A < 255 {
		return []Path{p}
	}
	parts := make([]Path, len(p))
	for i := range p {
		parts[i] = p[i : i+1]
	}
	return parts
}

// Text fills the outlines of letters, one by one for the reason strokes are.
func (d *dots) Text(x, y float64, s string, t Type) {
	letters := letterPaths(x, y, s, t)
	if t.Halo > 0 {
		for _, p := range letters {
			d.Path(p, Style{Stroke: Paper, Width: 2 * t.Halo})
		}
	}
	for _, p := range letters {
		d.Path(p, Style{Fill: t.Colour, Winding: true})
	}
}
