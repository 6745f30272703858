package report

import (
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// setTable is a table measured for a width.
type setTable struct {
	*table
	size, gap float64   // of letters; between columns
	widths    []float64 // of columns, without the gap
	head      float64   // height
	rows      []float64 // heights
	lead      float64
}

// measure gives every column its room: figures as much as they need, words
// what is left, the widest giving way first.
func (f *flow) measure(t *table) setTable { return measureTable(t, f.width()) }

// narrowest is the first column of a tight table, points.
const narrowest = 118.0

func measureTable(t *table, width float64) setTable {
	s := setTable{table: t, size: cellSize, gap: 10}
	if t.Small {
		s.gap = 6
	}
	s.widths = natural(t, s.size)
	if t.Tight {
		s.size = render.SmallSize
		s.widths = natural(t, s.size)
		s.widths[0] = min(s.widths[0], narrowest)
	}
	if t.Small { // many short columns spread over the page
		if spare := width - total(s.widths, s.gap); spare > 0 {
			s.gap = min(12, s.gap+spare/float64(len(t.Columns)-1))
		}
	}
	if total(s.widths, s.gap) > width && !t.Tight { // many columns
		s.size, s.gap = render.SmallSize, 6
		s.widths = natural(t, s.size)
	}
	s.lead = s.size + 2.2
	for total(s.widths, s.gap) > width {
		widest, next := -1, 0.0
		for j := range s.widths {
			if !t.Columns[j].Words && s.widths[j] <= 40 {
				continue // figures give way last
			}
			if widest < 0 || s.widths[j] > s.widths[widest] {
				if widest >= 0 {
					next = max(next, s.widths[widest])
				}
				widest = j
			} else {
				next = max(next, s.widths[j])
			}
		}
		over := total(s.widths, s.gap) - width
		if widest < 0 || s.widths[widest] <= 20 {
			break
		}
		s.widths[widest] = max(20, s.widths[widest]-min(over, max(2, s.widths[widest]-next)))
	}
	for j := range t.Columns {
		s.head = max(s.head, float64(len(s.lines(t.Columns[j].Head, j, true)))*s.lead)
	}
	s.head += 5
	for i, row := range t.Rows {
		high := s.lead
		for j, text := range row {
			high = max(high, float64(len(s.lines(text, j, t.Strong[i])))*s.lead)
		}
		s.rows = append(s.rows, high+3.4)
	}
	return s
}

func total(widths []float64, gap float64) float64 {
	sum := -gap
	for _, w := range widths {
		sum += w + gap
	}
	return sum
}

// natural widths: the widest cell, and room for the head in few lines.
func natural(t *table, size float64) []float64 {
	out := make([]float64, len(t.Columns))
	for j, c := range t.Columns {
		out[j] = min(ink.Width(c.Head, size, ink.Bold), 46)
		for _, w := range strings.Fields(c.Head) {
			out[j] = max(out[j], ink.Width(w, size, ink.Bold))
		}
		for _, row := range t.Rows {
			out[j] = max(out[j], ink.Width(row[j], size, ink.Bold), ink.Width(row[j], size, ink.Regular))
		}
	}
	return out
}

func (s setTable) lines(text string, j int, strong bool) []string {
	return ink.Wrap(text, s.widths[j]+0.01, s.kind(strong))
}

func (s setTable) kind(strong bool) ink.Type {
	face := ink.Regular
	if strong {
		face = ink.Bold
	}
	return render.Letter(s.size, face)
}

// table sets a table, its head again on every page it runs over to.
func (f *flow) table(t *table) {
	if len(t.Rows) == 0 {
		return
	}
	s := f.measure(t)
	f.room(s.head + s.rows[0])
	f.tableHead(s)
	for i, row := range t.Rows {
		high := s.rows[i]
		switch i { // no row alone on a page, and the last with what is said of the table
		case len(t.Rows) - 2:
			high += s.rows[i+1] + f.below
		case len(t.Rows) - 1:
			high += f.below
		}
		if f.y+high > f.bottom() {
			f.turn()
			f.room(s.head + high)
			f.tableHead(s)
		}
		f.row(s, row, f.y, t.Strong[i])
		f.y += s.rows[i]
		f.rule(side, side+total(s.widths, s.gap), f.y-1, render.Hair, render.Pencil)
	}
	f.y += 8
}

func (f *flow) tableHead(s setTable) {
	heads := make([]string, len(s.Columns))
	for j, c := range s.Columns {
		heads[j] = c.Head
	}
	drop := 0.0
	for j := range heads { // heads stand on their line
		drop = max(drop, float64(len(s.lines(heads[j], j, true))))
	}
	for j := range heads {
		f.cell(s, heads[j], j, f.y+(drop-float64(len(s.lines(heads[j], j, true))))*s.lead, true)
	}
	f.y += s.head
	f.rule(side, side+total(s.widths, s.gap), f.y-1.5, render.Medium, render.Black)
	f.y += 1
}

func (f *flow) row(s setTable, row []string, y float64, strong bool) {
	for j, text := range row {
		f.cell(s, text, j, y, strong)
	}
}

func (f *flow) cell(s setTable, text string, j int, y float64, strong bool) {
	x := side + total(s.widths[:j], s.gap)
	if j > 0 {
		x += s.gap
	}
	t := s.kind(strong)
	if j == 0 {
		x = side
	}
	if !s.Columns[j].Words {
		t.Anchor, x = ink.Right, x+s.widths[j]
	}
	for _, l := range s.lines(text, j, strong) {
		f.letter(x, y+1+s.size, l, t)
		y += s.lead
	}
}
