package board

import (
	"fmt"
	"math"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// Columns and Rows of lots on a page.
const (
	Columns = 2
	Rows    = 6
)

// Page is one page of the board.
type Page struct {
	render.Words
	Cards []Card // at most Columns × Rows are drawn
}

// Card is one lot.
type Card struct {
	Rank             string
	Name             string
	Under            string // below the name, small: the file
	Verdict          string
	Now, After, Bare float64 // shares of an open field's sun, 0..1
	Lines            []string
	Plan             render.LotPlan
	NotDrawn         int // trees left off the plan
}

// Measures, points.
const (
	cardHeight = 104.0
	cardGap    = 12.0 // between columns
	planWidth  = 104.0
	planSide   = 28.0 // what a plan keeps beside itself, for the needle
	barAt      = 86.0 // where the scale bar's feet are lettered
	barBelow   = 14.0 // what the bar takes below them
	above      = 22.0
	lead       = 9.5
	edge       = 2.0
)

var (
	black = ink.RGB(0x1c1e21)
	grey  = ink.RGB(0x6a6e73)
	faint = ink.RGB(0xc4c8d0)
)

func letters(size float64) ink.Type { return ink.Type{Size: size, Colour: black} }

func bold(t ink.Type) ink.Type { t.Face = ink.Bold; return t }

// Figure gives the page at its printed size.
func (d Page) Figure() ink.Figure {
	rows := (min(len(d.Cards), Columns*Rows) + Columns - 1) / Columns
	h := above + cardHeight*float64(max(1, rows)) + lead*float64(len(d.caption())) + 10
	alt := d.Alt
	if alt == "" {
		alt = d.Caption
	}
	return ink.Figure{Width: render.PageWidth, Height: h, Title: d.Title, Alt: alt, Draw: d.Draw}
}

func (d Page) caption() []string { return atMost(d.Caption, render.PageWidth-2*edge, letters(7), 20) }

// Draw draws the page at its own size from the upper left corner.
func (d Page) Draw(p ink.Page) error {
	w, h := p.Size()
	if !(w >= render.PageWidth && h >= d.Figure().Height-0.5) {
		return fmt.Errorf("the page is too small for the board: %.0f × %.0f points, not %.0f × %.0f", w, h, render.PageWidth, d.Figure().Height)
	}
	p.Begin(d.Title, d.Alt)
	p.Text(edge, edge+10.5, ink.Fit(d.Title, render.PageWidth-2*edge, bold(letters(10.5))), bold(letters(10.5)))
	p.Path(ink.Line(edge, above-5, render.PageWidth-edge, above-5), ink.Style{Stroke: black, Width: 0.25})
	width := (render.PageWidth - 2*edge - cardGap) / Columns
	for i, c := range d.Cards[:min(len(d.Cards), Columns*Rows)] {
		x := edge + float64(i%Columns)*(width+cardGap)
		y := above + float64(i/Columns)*cardHeight
		if err := c.draw(ink.Inset(p, ink.Box{X0: x, Y0: y, X1: x + width, Y1: y + cardHeight})); err != nil {
			return fmt.Errorf("lot %s: %w", c.Name, err)
		}
	}
	y := d.Figure().Height - lead*float64(len(d.caption())) + 5
	for _, line := range d.caption() {
		p.Text(edge, y, line, letters(7))
		y += lead
	}
	p.End()
	return nil
}

func (c Card) draw(p ink.Page) error {
	w, h := p.Size()
	// The plan draws its needle and its key too; the page has one for all.
	whole := ink.Box{X1: planWidth + planSide, Y1: barAt + c.belowBar()}
	keep := ink.Box{X1: planWidth, Y1: barAt + barBelow}
	if err := c.Plan.Draw(ink.Clip(ink.Inset(p, whole), keep)); err != nil {
		return err
	}
	x := planWidth + 12
	room := w - x
	p.Text(x, 10, c.Rank, bold(letters(9)))
	in := ink.Width(c.Rank, 9, ink.Bold) + 5
	p.Text(x+in, 10, ink.Fit(c.Name, room-in, bold(letters(8))), bold(letters(8)))
	under := letters(7)
	under.Colour = grey
	p.Text(x, 19.5, fitTail(c.Under, room, under), under)
	p.Text(x, 30, ink.Fit(c.Verdict, room, bold(letters(8))), bold(letters(8)))
	c.bar(p, x, 35, room-2)
	y := 61.0
	for _, line := range c.Lines {
		for _, part := range atMost(line, room, letters(7), 2) {
			if y > h-4 {
				return nil
			}
			p.Text(x, y, part, letters(7))
			y += 8.6
		}
	}
	if c.NotDrawn > 0 && y <= h-4 {
		p.Text(x, y, measure.Count(c.NotDrawn, "tree")+" not drawn", under)
	}
	p.Path(ink.Line(0, h-3, w, h-3), ink.Style{Stroke: faint, Width: 0.25})
	return nil
}

// belowBar is the height of what the plan has below its scale bar, which
// depends on its key: found by drawing it once on a page that only remembers.
func (c Card) belowBar() float64 {
	trial := ink.Record{W: planWidth + planSide, H: 300}
	if c.Plan.Draw(&trial) == nil {
		for _, t := range trial.Texts {
			if strings.HasSuffix(t.S, " ft") {
				return trial.H - t.Y
			}
		}
	}
	return 36
}

// bar is the share of an open field's sun: full for now, hatched for what the
// plan adds, a stroke where the lot without trees would stand.
func (c Card) bar(p ink.Page, x, y, width float64) {
	const high = 7.0
	now, after, bare := width*clamp(c.Now), width*clamp(max(c.Now, c.After)), width*clamp(c.Bare)
	thin := ink.Style{Stroke: black, Width: 0.4}
	p.Path(ink.Rectangle(x, y, now, high), ink.Style{Fill: black})
	if after-now > 0.2 {
		add := ink.Rectangle(x+now, y, after-now, high)
		p.Path(add, ink.Style{Fill: faint})
		p.Path(ink.Hatch(add, 2.2, 45, false), ink.Style{Stroke: black, Width: 0.3})
	}
	p.Path(ink.Rectangle(x, y, width, high), thin)
	p.Path(ink.Line(x+bare, y-1.8, x+bare, y+high+1.8), ink.Style{Stroke: black, Width: 1})
	words := fmt.Sprintf("%.0f %% now, %.0f %% after", 100*c.Now, 100*c.After)
	p.Text(x, y+high+9, ink.Fit(words, width, letters(7)), letters(7))
}

func clamp(x float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return min(1, max(0, x))
}
