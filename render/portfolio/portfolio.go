package portfolio

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
)

// Picture is one drawing and the name of its file, without ending.
type Picture struct {
	Name string
	render.Picture
}

// Moment is a day of the typical year and a local standard time, for shadows.
// The zero Moment stands for noon of midwinter day.
type Moment struct {
	Month   time.Month
	Day     int
	Minutes int // since midnight
}

// Of draws up the whole set, with the lot's shadows at a moment.
func Of(st *study.Study, shadows Moment) []Picture {
	s := set{st}
	if shadows == (Moment{}) {
		month, day := s.midwinter()
		shadows = Moment{month, day, 12 * 60}
	}
	out := []Picture{
		{"lot-shadows", s.lotShadows(shadows)}, {"lot-sun", s.lotSun()}, {"lot-view", s.eyePair()}, {"lot-winter-day", s.shadowDay()},
	}
	for _, i := range s.sunSide() {
		out = append(out, Picture{"sun-" + st.Scene.Surfaces[i].ID, s.face(i, nil, "as it stands")})
	}
	for _, i := range s.tables() {
		surface := &st.Scene.Surfaces[i]
		out = append(out, Picture{"access-" + surface.ID, s.access(i)})
		if surface.Kind == model.WindowFace {
			out = append(out, Picture{"sky-" + surface.ID, s.sky(surface)})
		}
	}
	for i := range st.Plans {
		out = append(out, s.plan(i)...)
	}
	return append(append(out, s.decision()...), s.heat()...)
}

type set struct{ st *study.Study }

// words end every caption: season, sky, and how much was assumed.
func (s set) source() string {
	return s.weather() + s.assumed()
}

// weather says whose sun it is: the stations by name, and how the sky is taken.
func (s set) weather() string {
	var names []string
	main, more := s.st.Monthly.Main()
	for _, n := range main {
		names = append(names, n.Label())
	}
	if more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	text := s.st.Year.Source
	if len(names) > 0 {
		text += " (" + strings.Join(names, "; ") + ")"
	}
	return "Sun: " + text + "; sky taken as " + s.st.Sky.Words() + "."
}

// assumed counts what was not measured, by what it is about.
func (s set) assumed() string {
	n := len(s.st.Site.Assumed)
	if n == 0 {
		return " Nothing of the lot was assumed."
	}
	trees := 0
	for _, a := range s.st.Site.Assumed {
		if strings.HasPrefix(a.Subject, "tree ") {
			trees++
		}
	}
	switch trees {
	case 0:
		return " " + measure.Count(n, "value") + " assumed, not measured."
	case n:
		return " " + measure.Count(n, "value") + " of the trees assumed, not measured."
	}
	return fmt.Sprintf(" %s assumed, not measured, %d of them of the trees.", measure.Count(n, "value"), trees)
}

// scale is the one row of class limits for all surfaces over some months
// (none: the year): from nothing to what the best of them would get in an open
// field.
func (s set) scale(months ...time.Month) []float64 {
	const classes = 9
	top := 0.0
	for _, i := range s.sunSide() {
		top = max(top, s.st.Today[i].OpenTotal(months...))
	}
	return render.Breaks(0, top, classes)
}

// sunSide are the walls that look toward the equator and the roof planes that
// take its sun.
func (s set) sunSide() []int {
	var out []int
	for i := range s.st.Scene.Surfaces {
		f := &s.st.Scene.Surfaces[i]
		toward := s.st.ToEquator(f)
		if f.Kind == model.WallFace && toward > 0.7 || f.Kind == model.RoofFace && toward > -1e-6 {
			out = append(out, i)
		}
	}
	return out
}

// tables are the surfaces that get a month × hour table: what sunSide shows,
// and the windows in those walls.
func (s set) tables() []int {
	out := s.sunSide()
	for i := range s.st.Scene.Surfaces {
		f := &s.st.Scene.Surfaces[i]
		if f.Kind == model.WindowFace && s.st.ToEquator(f) > 0.7 {
			out = append(out, i)
		}
	}
	return out
}

func grid(m shading.Cells, values []float64) *render.Grid {
	return &render.Grid{Origin: orb.Point{m.U0, m.V0}, Cell: m.Cell, High: m.CellV, Cols: m.Columns, Rows: m.Rows, Values: values}
}

// face is a wall or roof plane square-on with its season sun in a state of
// the lot (nil: today).
func (s set) face(i int, state shading.State, how string) render.FaceMap {
	if state == nil {
		state = s.st.Account.Today()
	}
	surface := &s.st.Scene.Surfaces[i]
	m := s.st.Map(i)
	d := render.FaceMap{
		Outline: surface.Face.Outline, Sun: grid(m.Cells, m.Read(state, s.st.Heating...)), Unit: "kWh/m², " + study.MonthsText(s.st.Heating),
		Ground: math.NaN(), Breaks: s.scale(s.st.Heating...), Edges: s.edges(surface.Face),
	}
	d.Left, d.Right = ends(surface.Face)
	for j := range s.st.Scene.Surfaces {
		w := &s.st.Scene.Surfaces[j]
		if w.Kind == model.WindowFace && w.Wall == surface.ID {
			d.Openings = append(d.Openings, render.Opening{ID: w.ID, Ring: onFace(surface.Face, w.Face)})
		}
	}
	d.Openings = append(d.Openings, s.chimneys(surface.Face)...)
	if surface.Kind == model.WallFace {
		d.Ground = -surface.Face.Origin.Z
	}
	s.onGlass(&d, state)
	d.Title = fmt.Sprintf("%s: heating-season sun on %s", s.st.Site.Name, theSurface(surface))
	d.Caption = s.faceCaption(d, i, how)
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// theSurface is a surface as a sentence says it: "the south wall", "the south
// roof", "window W2".
func theSurface(s *shading.Surface) string {
	words := s.Words()
	if strings.HasSuffix(words, " wall") || strings.HasSuffix(words, "roof") {
		return "the " + words
	}
	return words
}

// ends names what lies at a face's left and right, seen from outside.
func ends(f model.Face) (left, right string) {
	return wind(f.U.Mul(-1)) + " end", wind(f.U) + " end"
}

func wind(d r3.Vector) string {
	_, azimuth := sun.Angles(d)
	names := []string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}
	return names[int(math.Round(azimuth.Degrees()/45))%8]
}

// onFace is a window's outline in its wall's coordinates.
func onFace(wall, glass model.Face) orb.Ring {
	var out orb.Ring
	for _, q := range glass.Outline[0][0] {
		rel := glass.At(q[0], q[1]).Sub(wall.Origin)
		out = append(out, orb.Point{rel.Dot(wall.U), rel.Dot(wall.V)})
	}
	return out
}

// access is the month × hour table of a surface as it stands.
func (s set) access(i int) render.AccessTable {
	r := s.st.Today[i]
	d := render.AccessTable{Share: monthTable(r), Clock: "local standard time (" + offsetText(s.st.Year.Offset) + ")"}
	d.Title = fmt.Sprintf("%s: solar access of %s, percent", s.st.Site.Name, theSurface(&s.st.Scene.Surfaces[i]))
	over := fmt.Sprintf("%.0f %% over the year", 100*r.Access())
	if n := len(s.st.Heating); n > 0 && n < 12 {
		over = fmt.Sprintf("%.0f %% over %s, %s", 100*r.Access(s.st.Heating...), study.MonthsText(s.st.Heating), over)
	}
	d.Caption = fmt.Sprintf("Share of an open field's sun that reaches the surface as the lot stands, by energy, trees in leaf from spring to autumn and bare in winter; %s. %s",
		over, s.source())
	d.Alt = d.Title + ". " + d.Caption
	return d
}

func offsetText(d time.Duration) string {
	sign := "+"
	if d < 0 {
		sign, d = "−", -d
	}
	h, m := int(d.Hours()), int(d.Minutes())%60
	if m > 0 {
		return fmt.Sprintf("UTC%s%d:%02d", sign, h, m)
	}
	return fmt.Sprintf("UTC%s%d", sign, h)
}
