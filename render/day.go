package render

import (
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// ShadowDay is a sheet of small plans of one lot, one an hour of a day.
type ShadowDay struct {
	Words
	Plan  LotPlan // what stands there; its words, sun and dimensions are left out
	Hours []ShadowHour

	across int // plans in a row; 0: as suits a page of the usual width
}

// ShadowHour is the shadows at one moment.
type ShadowHour struct {
	Name    string        // "9:00"
	Sun     string        // "sun 12° up, S 42° E"
	Shadows []orb.Polygon // shadows on the ground
	Light   []orb.Polygon // shadows of bare crowns, drawn lighter
}

const dayFoot = 22.0

// columns that fit best for the shape of the lot.
func (d ShadowDay) columns() int {
	n := max(1, len(d.Hours))
	if d.across > 0 {
		return min(d.across, n)
	}
	b := d.Plan.bound()
	c := 4
	if (b.Max[0]-b.Min[0])/(b.Max[1]-b.Min[1]) > 1.4 {
		c = 3
	}
	return min(c, n)
}

const dayMaxHeight = 260.0 // of a plan

// Figure gives the sheet at the width of a page.
func (d ShadowDay) Figure() ink.Figure {
	f := d.figure(PageWidth, 0, d)
	f.Height = d.heightAt(PageWidth, dayMaxHeight)
	return f
}

// heightAt is the height the whole sheet fills at a width, each plan at most so
// high.
func (d ShadowDay) heightAt(width, most float64) float64 {
	c := d.columns()
	rows := (max(1, len(d.Hours)) + c - 1) / c
	b := d.Plan.bound()
	w := width/float64(c) - 8
	h := min(most, max(70, w*(b.Max[1]-b.Min[1])/(b.Max[0]-b.Min[0])))
	return d.above() + d.below(width) + float64(rows)*(h+30) + dayFoot + 2*margin
}

// fit has as many plans in a row as draw them largest on a page of that size.
func (d ShadowDay) fit(width, height float64) ShadowDay {
	best, largest := d, 0.0
	b := d.Plan.bound()
	for c := 1; c <= len(d.Hours); c++ {
		d.across = c
		rows := float64((len(d.Hours) + c - 1) / c)
		w := width/float64(c) - 8
		h := (height-d.above()-d.below(width)-dayFoot-2*margin)/rows - 30
		if scale := min(w/(b.Max[0]-b.Min[0]), h/(b.Max[1]-b.Min[1])); w > 110 && scale > largest {
			best, largest = d, scale
		}
	}
	return best
}

// Draw draws the sheet as large as the page allows.
func (d ShadowDay) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	c := d.columns()
	rows := (max(1, len(d.Hours)) + c - 1) / c
	w := s.frame.W() / float64(c)
	h := (s.frame.H() - dayFoot) / float64(rows)
	if w < 60 || h < 60 {
		return errSmallPage
	}
	plan := d.Plan
	plan.Sun, plan.Dimensions, plan.Points, plan.Wires, plan.Fences = nil, nil, nil, nil, nil
	plan.Land, plan.hairCrowns = PlanLand{}, true
	scale := 0.0
	for i, hr := range d.Hours {
		x, y := s.frame.X0+w*float64(i%c), s.frame.Y0+h*float64(i/c)
		s.text(x+2, y+9, fit(hr.Name, w-6, bold(body())), bold(body()))
		s.text(x+2, y+19, fit(hr.Sun, w-6, small()), small())
		box := ink.Box{X0: x + 2, Y0: y + 23, X1: x + w - 6, Y1: y + h - 6}
		v := viewOf(plan.bound(), box)
		scale = v.scale
		plan.Shadows, plan.Light = hr.Shadows, hr.Light
		part := &sheet{Page: ink.Clip(s.Page, box), w: s.w, h: s.h, frame: box}
		plan.ground(part, v, box, nil)
		s.Path(ink.Rectangle(box.X0, box.Y0, box.W(), box.H()), line(hair, pencil))
	}
	if scale > 0 {
		s.scaleBar(s.frame.X0+2, s.frame.Y1-11, 100, scale)
		s.north(s.frame.X1-14, s.frame.Y1-9, 8, 0)
		used := s.frame.X0 + 150
		s.text(used, s.frame.Y1-8, fit(d.signs(), max(0, s.frame.X1-40-used), italic(small())), italic(small()))
	}
	return s.end()
}

// signs says what is drawn, only what there is.
func (d ShadowDay) signs() string {
	words := "hatched: shadow on the ground"
	for _, h := range d.Hours {
		if len(h.Light) > 0 {
			words = "hatched: shadow, lighter of bare crowns"
			break
		}
	}
	for _, t := range d.Plan.Trees {
		if t.Removed {
			return words + "; a cross: taken out"
		}
	}
	return words
}
