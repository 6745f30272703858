package render

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"github.com/southyard/southyard/render/ink"
)

// SkyView is half the sky as seen from one point, unrolled: azimuth across,
// altitude up, one degree as long either way. Two bands show it with trees in
// leaf and bare.
type SkyView struct {
	Words
	Facing  float64   // azimuth in the middle, degrees: 180 north of the equator's side, 0 south of it
	Half    float64   // degrees shown to either side; 0: 120
	Paths   []SunPath // by month
	Hours   []SunPath // the same clock hour through the year, named by it
	Crowns  []SkyCrown
	Solids  []SkySolid // buildings and far skyline, opaque
	Near    []SkySolid // what hangs before all else, such as the wall's own eave
	Behind  []SkyPoint // the altitudes up to which the sky lies behind the surface, by azimuth from left to right; nil for none
	Back    string     // what hides it, "behind the wall"
	OneBand bool       // only the band "in leaf", for a sky without leaf-dropping trees
}

// SkyPoint is a direction in degrees.
type SkyPoint struct{ Azimuth, Altitude float64 }

// SunPath is the sun's way through the sky on one day, or at one hour.
type SunPath struct {
	Name       string // "21 Mar/Sep", or "9"
	Leaf, Bare string // of these the days with trees in leaf, "21 Sep", and those with trees bare, "21 Mar"; empty for none
	Points     []SkyPoint
}

// lettered is what a day's path is called in a band; empty where the trees
// stand otherwise on all its days.
func (d SkyView) lettered(m SunPath, leaf bool) string {
	switch {
	case d.OneBand:
		return m.Name
	case leaf:
		return m.Leaf
	}
	return m.Bare
}

// SkyCrown is a tree's crown as it stands before the sky.
type SkyCrown struct {
	ID           string
	Outline      []SkyPoint
	InLeaf, Bare float64 // share of the sun let through, 0..1
	Evergreen    bool
	Away         float64 // how far off it stands, metres: the nearer is drawn over the farther
}

// SkySolid is a building or the skyline before the sky.
type SkySolid struct {
	Name    string
	Outline []SkyPoint
	Away    float64 // how far off its nearest corner is, metres, as for crowns
}

const (
	skyLeft = 22.0
	skyBand = 34.0 // for a band's name and compass points
)

func (d SkyView) half() float64 {
	if d.Half > 10 && d.Half <= 180 {
		return d.Half
	}
	return 120
}

// top is the altitude to which a band is drawn, degrees.
func (d SkyView) top() float64 {
	top := 50.0
	for _, p := range d.Paths {
		for _, q := range p.Points {
			top = max(top, q.Altitude+4)
		}
	}
	return min(90, math.Ceil(top/10)*10)
}

func (d SkyView) bands() int {
	if d.OneBand {
		return 1
	}
	return 2
}

// Figure gives the view at the width of a page.
func (d SkyView) Figure() ink.Figure {
	degree := (PageWidth - 2*margin - skyLeft - 8) / (2 * d.half())
	return d.figure(PageWidth, float64(d.bands())*(degree*d.top()+skyBand)+2*margin, d)
}

// Draw draws the bands as large as the page allows.
func (d SkyView) Draw(p ink.Page) error {
	s, err := begin(p, d.Words)
	if err != nil {
		return err
	}
	n := float64(d.bands())
	degree := min((s.frame.W()-skyLeft-8)/(2*d.half()), (s.frame.H()/n-skyBand)/d.top())
	if degree < 0.4 {
		return errSmallPage
	}
	left := s.frame.X0 + skyLeft + max(0, s.frame.W()-skyLeft-8-2*d.half()*degree)/2
	for i, leaf := range []bool{true, false} {
		if i >= d.bands() {
			break
		}
		foot := s.frame.Y0 + (float64(i)+1)*(degree*d.top()+skyBand) - 14
		d.band(s, leaf, left, foot, degree)
	}
	return s.end()
}

// band draws the sky in one state of leaf, its horizon at foot and from x0.
func (d SkyView) band(s *sheet, leaf bool, x0, foot, degree float64) {
	box := ink.Box{X0: x0, Y0: foot - degree*d.top(), X1: x0 + 2*d.half()*degree, Y1: foot}
	at := func(q SkyPoint) ink.Point {
		off := math.Mod(q.Azimuth-d.Facing+540, 360) - 180
		return ink.Point{X: x0 + (off+d.half())*degree, Y: foot - q.Altitude*degree}
	}
	clip := ink.Clip(s.Page, box)
	name := "Bare"
	if leaf {
		name = "In leaf"
	}
	if d.OneBand {
		name = ""
	}
	s.text(box.X0, box.Y0-5, name, bold(body()))
	s.text(box.X1, box.Y0-5, "degrees above the horizon", italic(right(small())))
	for alt := 0.0; alt <= d.top(); alt += 10 {
		y := foot - alt*degree
		s.Path(ink.Line(box.X0, y, box.X1, y), line(hair, faint))
		s.try(box.X0-3, y+2.5, strconv.Itoa(int(alt))+"°", right(small()), ink.Box{X1: s.w, Y1: s.h})
	}
	d.stand(clip, leaf, degree, at)
	for _, h := range d.Hours {
		clip.Path(d.track(h.Points, at), dashed(light, pencil, dashHint))
	}
	for _, m := range d.Paths {
		pen := line(1.4, black)
		if d.lettered(m, leaf) == "" {
			pen = dashed(light, black, dashHint)
		}
		halo := pen
		halo.Stroke, halo.Width, halo.Dash = ink.Paper, pen.Width+1.6, nil
		track := d.track(m.Points, at)
		clip.Path(track, halo)
		clip.Path(track, pen)
	}
	var near ink.Path
	for _, o := range d.Near {
		pts := d.unrolled(o.Outline, at, degree)
		if signedArea(pts) < 0 {
			slices.Reverse(pts)
		}
		near = append(near, ink.Run{Points: pts, Closed: true})
	}
	// The edges first: inside the fill they fade, so that pieces join into one.
	clip.Path(near, line(2*light, black))
	clip.Path(near, ink.Style{Fill: ink.Colour{R: shade.R, G: shade.G, B: shade.B, A: 205}, Winding: true})
	for _, r := range d.behind(at) {
		back := ink.Path{r}
		clip.Path(back, area(ink.Colour{R: 255, G: 255, B: 255, A: 215}))
		clip.Path(ink.Hatch(ink.ClipArea(back, box), 4, 135, false), line(hair, pencil))
		clip.Path(back, line(light, pencil))
	}
	s.Path(ink.Line(box.X0, foot, box.X1, foot), line(heavy, black))
	d.names(s, leaf, box, degree, at)
	for a := math.Ceil((d.Facing-d.half())/45) * 45; a <= d.Facing+d.half(); a += 45 {
		q := ink.Point{X: x0 + (a-d.Facing+d.half())*degree, Y: foot}
		compass := [8]string{"north", "NE", "east", "SE", "south", "SW", "west", "NW"}
		s.Path(ink.Line(q.X, foot, q.X, foot+3), line(medium, black))
		s.try(q.X, foot+11, compass[int(math.Mod(math.Round(a/45)+16, 8))], centred(small()), ink.Box{X1: s.w, Y1: s.h})
	}
}

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

// track is a line broken at the seam.
func (d SkyView) track(pts []SkyPoint, at func(SkyPoint) ink.Point) ink.Path {
	var out ink.Path
	var run []ink.Point
	for _, p := range pts {
		q := at(p)
		if n := len(run); n > 0 && math.Abs(q.X-run[n-1].X) > 150 {
			out = append(out, ink.Run{Points: run})
			run = nil
		}
		run = append(run, q)
	}
	if len(run) > 1 {
		out = append(out, ink.Run{Points: run})
	}
	return out
}
