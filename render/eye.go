package render

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

// EyeView is the house, its trees and their shadows as an eye sees them from
// any side and height. Shadows are drawn on the ground only, not on walls.
// Lengths are metres, z up, the ground at the house at 0.
type EyeView struct {
	Words
	From    float64 // azimuth in which the eye stands, seen from the lot, degrees
	Height  float64 // how far above the horizon it stands, degrees, 2..89
	Sun     r3.Vector
	Lot     orb.Ring
	Land    model.Ground // its lie; shadows and lot line are laid on it
	Step    float64      // between the lines of height on ground that is not level, metres
	Faces   []EyeFace
	Trees   []EyeTree
	Shadows []orb.Polygon
	Light   []orb.Polygon // shadows of bare crowns, drawn lighter: most of the sun comes through
}

// EyeFace is a flat piece of a building; its corners run round it. Windows
// are laid on the wall they belong to.
type EyeFace struct {
	Ring      []r3.Vector
	Kind      model.FaceKind
	Neighbour bool
}

// EyeFaces are the outer rings of faces, ready to be drawn.
func EyeFaces(faces []model.Face, neighbour bool) []EyeFace {
	var out []EyeFace
	for _, f := range faces {
		for _, p := range f.Outline {
			if len(p) == 0 || len(p[0]) < 4 {
				continue
			}
			e := EyeFace{Kind: f.Kind, Neighbour: neighbour}
			for _, q := range p[0][:len(p[0])-1] {
				e.Ring = append(e.Ring, f.At(q[0], q[1]))
			}
			out = append(out, e)
		}
	}
	return out
}

// EyeTree is a tree in the round. A tree that is Removed is a dashed outline
// over its stump, so that before and after have the same eye.
type EyeTree struct {
	ID               string
	At               orb.Point
	Ground           float64 // z
	Height           float64 // above its ground
	CrownBase        float64 // above its ground
	SpreadX, SpreadY float64
	Shape            model.CrownShape
	Evergreen, Bare  bool
	Removed, Planted bool
}

const (
	eyeMaxHeight = 4.6 * 72
	needleRoom   = 28.0 // beside or beneath the view, points
	eyeAir       = 8.0  // about what the view must hold, points
)

// Figure gives the view at the width of a page.
func (d EyeView) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth, eyeMaxHeight)
	return f
}

// heightAt is the height the whole picture fills at a width, the view itself at
// most so high.
func (d EyeView) heightAt(width, most float64) float64 {
	x0, y0, x1, y1 := d.span(d.stand())
	w := width - 2*margin - 2*eyeAir
	h := w * (y1 - y0) / max(x1-x0, 1e-6)
	return d.above() + d.below(width) + max(90, min(most, 1.3*w, h)) + 2*eyeAir + needleRoom + 2*margin
}

// camera looks at a point from a distance.
type camera struct {
	eye, right, up, ahead r3.Vector
	scale, x0, y0         float64
}

const nearest = 0.5 // metres before the eye at which drawing stops

func (c camera) depth(p r3.Vector) float64 { return p.Sub(c.eye).Dot(c.ahead) }

func (c camera) flat(p r3.Vector) (x, y float64) {
	q := p.Sub(c.eye)
	z := max(nearest, q.Dot(c.ahead))
	return q.Dot(c.right) / z, -q.Dot(c.up) / z
}

func (c camera) at(p r3.Vector) ink.Point {
	x, y := c.flat(p)
	return ink.Point{X: c.x0 + c.scale*x, Y: c.y0 + c.scale*y}
}

// corners of all that the view must hold.
func (d EyeView) corners() []r3.Vector {
	var out []r3.Vector
	for _, p := range d.Lot {
		out = append(out, d.onLand(p))
	}
	for _, f := range d.Faces {
		if !f.Neighbour || len(d.Lot) == 0 {
			out = append(out, f.Ring...)
		}
	}
	for _, t := range d.Trees {
		const levels, around = 8, 12
		for i := range levels + 1 {
			h := float64(i) / levels
			r := radius(t.Shape, h)
			for k := range around {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / around)
				out = append(out, r3.Vector{X: t.At[0] + r*cos*t.SpreadX/2, Y: t.At[1] + r*sin*t.SpreadY/2, Z: t.Ground + t.CrownBase + h*(t.Height-t.CrownBase)})
			}
		}
		out = append(out, r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground})
		foot, _ := d.moundOf(t)
		out = append(out, foot...)
	}
	if len(out) == 0 {
		out = []r3.Vector{{X: -5, Y: -5}, {X: 5, Y: 5, Z: 5}}
	}
	return out
}

// stand places the camera; it is not yet fitted to a page.
func (d EyeView) stand() (camera, []r3.Vector) {
	pts := d.corners()
	lo, hi := pts[0], pts[0]
	for _, p := range pts {
		lo = r3.Vector{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}
		hi = r3.Vector{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
	}
	centre := lo.Add(hi).Mul(0.5)
	height := s1.Angle(max(2, min(89, d.Height))) * s1.Degree
	toEye := model.Toward(height, s1.Angle(d.From)*s1.Degree)
	c := camera{ahead: toEye.Mul(-1)}
	sin, cos := math.Sincos(d.From * math.Pi / 180)
	c.right = r3.Vector{X: -cos, Y: sin} // level, to the right of one who looks from there
	c.up = c.right.Cross(c.ahead)
	c.eye = centre.Add(toEye.Mul(max(5, 1.5*hi.Sub(lo).Norm())))
	return c, pts
}

// span of points on a page before the camera is fitted.
func (d EyeView) span(c camera, pts []r3.Vector) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range pts {
		x, y := c.flat(p)
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	return x0, y0, x1, y1
}

// look places the camera so that all corners fill the box.
func (d EyeView) look(box ink.Box) camera {
	c, pts := d.stand()
	x0, y0, x1, y1 := d.span(c, pts)
	c.scale = min(box.W()/max(x1-x0, 1e-6), box.H()/max(y1-y0, 1e-6))
	c.x0 = (box.X0+box.X1)/2 - c.scale*(x0+x1)/2
	c.y0 = (box.Y0+box.Y1)/2 - c.scale*(y0+y1)/2
	return c
}

// fitted is the box of the view and its camera. The needle keeps a margin of
// its own, at the left or beneath, whichever costs the view less.
func (d EyeView) fitted(s *sheet) (ink.Box, camera) {
	beside, above := s.frame, s.frame
	beside.X0 += needleRoom
	above.Y1 -= needleRoom
	c, other := d.look(grown(beside, -eyeAir)), d.look(grown(above, -eyeAir))
	if other.scale > c.scale {
		return above, other
	}
	return beside, c
}

// Draw draws the view as large as the page allows.
func (d EyeView) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	box, c := d.fitted(s)
	clip := ink.Clip(s.Page, box)
	if len(d.Lot) > 2 {
		d.lot(clip, c)
	}
	thin := d.shadows(c, d.Light)
	clip.Path(thin, ink.Style{Fill: veil, Winding: true})
	clip.Path(ink.Hatch(thin, lightHatch, 20, true), line(hair, pencil))
	shadows := d.shadows(c, d.Shadows)
	clip.Path(shadows, ink.Style{Fill: shade, Winding: true})
	clip.Path(ink.Hatch(shadows, 2.4, 20, true), line(hair, pencil))
	d.heights(clip, c)
	for _, t := range d.Trees {
		d.mound(clip, c, t)
	}
	tree := partition(d.pieces(c))
	tree.walk(c.eye, func(q piece) { q.draw(clip, c, 0.25) })
	s.Path(ink.Rectangle(box.X0, box.Y0, box.W(), box.H()), line(hair, pencil))
	for _, gone := range []bool{false, true} { // what stands is named first
		for _, t := range d.Trees {
			if t.Removed == gone {
				top := c.at(r3.Vector{X: t.At[0], Y: t.At[1], Z: t.Ground + t.Height})
				s.label(top.X, top.Y+9, fit(t.ID, 60, small()), haloed(bold(small())), grown(box, -1))
			}
		}
	}
	d.compass(s, c)
	return s.end()
}

// keep is the part of a ring where side is not negative.
func keep(ring []r3.Vector, side func(r3.Vector) float64) []r3.Vector {
	var out []r3.Vector
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := side(a), side(b)
		if da >= 0 {
			out = append(out, a)
		}
		if (da >= 0) != (db >= 0) {
			out = append(out, a.Add(b.Sub(a).Mul(da/(da-db))))
		}
	}
	return out
}

// compass is a level needle in the margin of the lower left corner, as the eye
// sees it.
func (d EyeView) compass(s *sheet, c camera) {
	x, y, r := s.frame.X0+needleRoom/2, s.frame.Y1-needleRoom/2, 9.0
	north := r3.Vector{Y: 1}
	dx, dy := north.Dot(c.right), -north.Dot(c.up)
	if n := math.Hypot(dx, dy); n < 0.35 { // seen almost end-on: keep it long enough to read
		dx, dy = dx*0.35/max(n, 1e-6), dy*0.35/max(n, 1e-6)
	}
	tip := ink.Point{X: x + r*dx, Y: y + r*dy}
	s.Path(ink.Line(x-r*dx, y-r*dy, tip.X, tip.Y), line(medium, black))
	s.Path(ink.Circle(tip.X, tip.Y, 1.6), area(black))
	long := math.Hypot(dx, dy)
	s.label(tip.X+7*dx/long, tip.Y+7*dy/long, "N", haloed(bold(small())), s.frame)
}
