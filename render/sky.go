package render

import (
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
