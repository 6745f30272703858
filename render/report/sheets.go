package report

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// PDF writes the report on paper, pictures as lines and areas.
func (r Report) PDF(w io.Writer, paper ink.Sheet) error {
	return writePDF(w, r.title()+": sun report", r.sheets(paper))
}

func writePDF(w io.Writer, title string, pages []ink.Figure) error {
	var out bytes.Buffer // so that a fault leaves nothing half-written
	if err := ink.WritePDF(&out, title, pages...); err != nil {
		return err
	}
	_, err := out.WriteTo(w)
	return err
}

// sheets are the pages of the report.
func (r Report) sheets(paper ink.Sheet) []ink.Figure {
	f := &flow{paper: paper}
	f.turn()
	f.opening(r)
	for _, s := range r.sections() {
		f.section(s)
	}
	f.flush()
	out := make([]ink.Figure, len(f.pages))
	for i, page := range f.pages {
		out[i] = ink.Figure{Width: paper.Width, Height: paper.Height, Title: fmt.Sprintf("%s, page %d", r.title(), i+1), Draw: func(p ink.Page) error {
			r.edges(p, paper, i+1, len(f.pages))
			for _, mark := range page.marks {
				if err := mark(p); err != nil {
					return fmt.Errorf("report, page %d: %w", i+1, err)
				}
			}
			return nil
		}}
	}
	return out
}

// opening heads the first page.
func (f *flow) opening(r Report) {
	f.y = 44
	f.lines(r.title(), 0, 25, render.Letter(21, ink.Bold))
	f.y += 3
	f.lines("How much sun this house gets, what stands in the way, and what it is worth", 0, bodyLead, render.Letter(bodySize, ink.Regular))
	f.lines(r.where(), 0, bodyLead, render.Letter(bodySize, ink.Regular))
	f.y += 6
	f.rule(side, f.paper.Width-side, f.y, render.Heavy, render.Black)
	f.y += 4
}

// edges letters the head and foot of a page.
func (r Report) edges(p ink.Page, paper ink.Sheet, page, pages int) {
	t := render.Letter(7.5, ink.Regular)
	y := paper.Height - 30
	p.Path(ink.Line(side, y-11, paper.Width-side, y-11), render.Line(render.Hair, render.Pencil))
	right := t
	right.Anchor = ink.Right
	p.Text(paper.Width-side, y, fmt.Sprintf("page %d of %d", page, pages), right)
	p.Text(side, y, ink.Fit("Made with southyard from the site file at the end. State and local codes and the licensed trades decide.", paper.Width-2*side-70, t), t)
	if page > 1 {
		p.Text(side, 40, ink.Fit(strings.TrimSpace(r.title()), paper.Width-2*side, t), t)
		p.Path(ink.Line(side, 46, paper.Width-side, 46), render.Line(render.Hair, render.Pencil))
	}
}
