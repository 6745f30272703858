package fieldsheet

import (
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

const (
	edge     = 38.0 // of bare paper
	rowHigh  = 16.2 // of a line to write on
	textLead = 10.2
)

// form is a page being drawn from the top down.
type form struct {
	ink.Page
	w, h, y float64
}

func (f *form) right() float64  { return f.w - edge }
func (f *form) width() float64  { return f.w - 2*edge }
func (f *form) bottom() float64 { return f.h - edge - 12 } // above the foot

func text(size float64) ink.Type { return render.Letter(size, ink.Regular) }
func bold(size float64) ink.Type { return render.Letter(size, ink.Bold) }

func (f *form) line(x0, y0, x1, y1, width float64, c ink.Colour) {
	f.Path(ink.Line(x0, y0, x1, y1), render.Line(width, c))
}

// heading letters a line in bold and, behind it, a few words in small.
func (f *form) heading(title, more string) {
	t := bold(10)
	f.Text(edge, f.y+t.Size, title, t)
	x := edge + ink.Width(title, t.Size, t.Face) + 8
	f.Text(x, f.y+t.Size, ink.Fit(more, f.right()-x, text(7.5)), text(7.5))
	f.y += 15
}

// blank is a name with a line behind it to write on.
type blank struct {
	Name  string
	Share float64 // of the row
}

func (f *form) blanks(row ...blank) {
	x := edge
	t := text(8)
	for i, b := range row {
		end := x + b.Share*f.width()
		stop := end - 8
		if i == len(row)-1 {
			stop = f.right()
		}
		f.Text(x, f.y+15, b.Name, t)
		f.line(x+ink.Width(b.Name, t.Size, t.Face)+4, f.y+17, stop, f.y+17, render.Light, render.Black)
		x = end
	}
	f.y += 21
}

// list letters items in a column and gives where it ends.
func (f *form) list(x, y, width float64, marks func(int) string, items []string) float64 {
	t := text(8)
	for i, item := range items {
		f.Text(x, y+t.Size, marks(i), t)
		for _, l := range ink.Wrap(item, width-13, t) {
			f.Text(x+13, y+t.Size, l, t)
			y += textLead
		}
		y += 1.6
	}
	return y
}

// grid of cells to write in, under heads that are keys of the site file.
func (f *form) table(heads []head, rows int) {
	unit := 0.0
	for _, h := range heads {
		unit += h.Share
	}
	unit = f.width() / unit
	t := text(7.5)
	top := f.y
	x := edge
	var edges []float64
	for _, h := range heads {
		edges = append(edges, x)
		f.Text(x+3, top+9.5, ink.Fit(h.Key, h.Share*unit-4, t), t)
		x += h.Share * unit
	}
	f.y = top + 13
	for i := range rows + 1 {
		y := f.y + float64(i)*rowHigh
		width := render.Hair
		if i == 0 {
			width = render.Medium
		}
		f.line(edge, y, f.right(), y, width, render.Black)
	}
	f.y += float64(rows) * rowHigh
	for _, x := range append(edges[1:], edge, f.right()) {
		f.line(x, top, x, f.y, render.Hair, render.Pencil)
	}
	f.y += 9
}

// head of a column: a key of the site file.
type head struct {
	Key   string
	Share float64
}

func (f *form) foot(words string) {
	t := text(7)
	f.Text(edge, f.h-edge+4, ink.Fit(words, f.width(), t), t)
}
