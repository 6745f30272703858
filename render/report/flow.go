package report

import (
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// Margins and lettering of the report on paper, points.
const (
	side     = 54.0
	top      = 62.0
	foot     = 54.0
	bodySize = 9.0
	bodyLead = 12.2
	cellSize = 8.0
	noteLead = 9.6
)

var noteType = render.Letter(7.5, ink.Regular)

// leaf is a page being set: what is drawn on it, in order.
type leaf struct{ marks []func(ink.Page) error }

// flow sets blocks one below the other, on as many pages as they need.
type flow struct {
	paper ink.Sheet
	pages []*leaf
	y     float64 // where the next block begins

	below   float64            // height of the note that belongs under the table in hand
	waiting []picture          // for which there was no room yet
	lowest  map[string]float64 // of pictures, by title
}

func (f *flow) width() float64  { return f.paper.Width - 2*side }
func (f *flow) bottom() float64 { return f.paper.Height - foot }

// put adds a mark to the page in hand.
func (f *flow) put(mark func(ink.Page) error) {
	last := f.pages[len(f.pages)-1]
	last.marks = append(last.marks, mark)
}

// turn begins a page, with the pictures that wait for one.
func (f *flow) turn() {
	f.pages = append(f.pages, &leaf{})
	f.y = top
	for len(f.waiting) > 0 && (f.y == top || f.fits(f.waiting[0])) {
		f.draw(f.waiting[0])
		f.waiting = f.waiting[1:]
	}
}

// room turns the page unless a height is left on it.
func (f *flow) room(height float64) {
	for len(f.pages) == 0 || f.y+height > f.bottom() && (f.y > top || len(f.waiting) > 0) {
		f.turn()
	}
}

// flush draws all pictures that wait.
func (f *flow) flush() {
	for len(f.waiting) > 0 {
		f.turn()
	}
}

func (f *flow) letter(x, y float64, s string, t ink.Type) {
	f.put(func(p ink.Page) error { p.Text(x, y, s, t); return nil })
}

func (f *flow) rule(x0, x1, y, width float64, c ink.Colour) {
	f.put(func(p ink.Page) error { p.Path(ink.Line(x0, y, x1, y), render.Line(width, c)); return nil })
}

// lines letters wrapped words, line by line over the page's end.
func (f *flow) lines(text string, indent, lead float64, t ink.Type) {
	for _, l := range ink.Wrap(text, f.width()-indent, t) {
		f.room(lead)
		f.letter(side+indent, f.y+t.Size, l, t)
		f.y += lead
	}
}

// section sets a section; its title never stands alone at a page's end.
func (f *flow) section(s section) {
	if s.Own || s.Whole {
		f.flush()
	}
	if s.Own {
		f.turn()
	}
	f.room(110 + f.opens(s.Blocks))
	if f.y > top {
		f.y += 14
	}
	t := render.Letter(14, ink.Bold)
	f.letter(side, f.y+t.Size, s.Title, t)
	f.y += t.Size + 5
	f.rule(side, f.paper.Width-side, f.y, render.Medium, render.Black)
	f.y += 9
	for i, b := range s.Blocks {
		if leads(b) && i+1 < len(s.Blocks) {
			f.room(22 + f.least(s.Blocks[i+1]))
		}
		f.below = 0
		if i+1 < len(s.Blocks) {
			if n, ok := s.Blocks[i+1].(note); ok {
				f.below = noteLead * float64(len(ink.Wrap(string(n), f.width(), noteType)))
			}
		}
		f.set(b)
	}
}

// opens is the height a section's first block needs beyond its first lines.
func (f *flow) opens(blocks []block) float64 {
	if len(blocks) == 0 {
		return 0
	}
	if len(blocks) > 1 { // a word before it
		if l, ok := blocks[1].(listing); ok {
			return f.least(l)
		}
	}
	switch blocks[0].(type) {
	case *table, gallery:
		return f.least(blocks[0])
	}
	return 0
}

// leads tells whether a block belongs to the next.
func leads(b block) bool {
	switch b := b.(type) {
	case subtitle:
		return true
	case note:
		return strings.HasSuffix(string(b), ":")
	case paragraph:
		return strings.HasSuffix(string(b), ":")
	}
	return false
}

// least is the height a block needs beneath its subtitle before it may be
// broken.
func (f *flow) least(b block) float64 {
	switch b := b.(type) {
	case *table:
		set := f.measure(b)
		height := set.head
		for i := range min(len(set.rows), 5) {
			height += set.rows[i]
		}
		return min(height+noteLead+8, 240)
	case picture:
		return f.leastHigh(b)
	case gallery:
		return photoHigh + 20
	case listing:
		return listingLead * float64(min(24, (len(b)+1)/2)) // columns of a few lines read badly
	}
	return 3 * bodyLead
}

func (f *flow) set(b block) {
	switch b := b.(type) {
	case lead:
		f.lines(string(b), 0, 17, render.Letter(13.5, ink.Bold))
		f.y += 6
	case subtitle:
		f.room(40)
		f.y += 4
		f.lines(string(b), 0, bodyLead, render.Letter(bodySize, ink.Bold))
		f.y += 1
	case paragraph:
		f.lines(string(b), 0, bodyLead, render.Letter(bodySize, ink.Regular))
		f.y += 5
	case note:
		f.lines(string(b), 0, noteLead, noteType)
		f.y += 6
	case list:
		f.list(b, render.Letter(bodySize, ink.Regular), bodyLead)
	case fine:
		f.list(b, render.Letter(8, ink.Regular), 10)
	case blanks:
		f.blanks(b)
	case listing:
		f.listing(b)
	case picture:
		f.picture(b)
	case gallery:
		f.gallery(b)
	case *table:
		f.table(b)
	}
}

func (f *flow) list(items []string, t ink.Type, lead float64) {
	for _, item := range items {
		f.room(min(2, float64(len(ink.Wrap(item, f.width()-11, t)))) * lead)
		f.letter(side, f.y+t.Size, "–", t)
		f.lines(item, 11, lead, t)
		f.y++
	}
	f.y += 3
}

// blanks are lines for a pen, two beside each other.
func (f *flow) blanks(items []string) {
	t := render.Letter(8, ink.Regular)
	half := (f.width() - 18) / 2
	f.room(24*float64((len(items)+1)/2) + 10)
	f.y += 10
	for i, item := range items {
		x := side + float64(i%2)*(half+18)
		f.letter(x, f.y+14, item, t)
		f.rule(x+ink.Width(item, t.Size, t.Face)+6, x+half, f.y+16, render.Light, render.Black)
		if i%2 == 1 || i == len(items)-1 {
			f.y += 24
		}
	}
}

const listingLead = 9.4 // points from line to line

// listing sets a file line by line in two columns, keeping how far each is set
// in.
func (f *flow) listing(rows []string) {
	const lead, gutter = listingLead, 18.0
	t := render.Letter(7.5, ink.Regular)
	column := (f.width() - gutter) / 2
	type line struct {
		indent float64
		text   string
	}
	var lines []line
	for _, row := range rows {
		bare := 0
		for bare < len(row) && row[bare] == ' ' {
			bare++
		}
		indent := min(float64(bare)*4.2, column/2)
		wrapped := ink.Wrap(row, column-indent-12, t)
		if len(wrapped) == 0 {
			lines = append(lines, line{})
		}
		for i, l := range wrapped {
			if i == 1 {
				indent += 12
			}
			lines = append(lines, line{indent, l})
		}
	}
	f.room(lead * float64(min(24, (len(lines)+1)/2))) // columns of a few lines read badly
	for len(lines) > 0 {
		high := max(1, int((f.bottom()-f.y)/lead))
		high = min(high, (len(lines)+1)/2) // both columns end alike on the last page
		for c := range 2 {
			part := lines[:min(high, len(lines))]
			lines = lines[len(part):]
			for i, l := range part {
				if l.text != "" {
					f.letter(side+float64(c)*(column+gutter)+l.indent, f.y+float64(i)*lead+t.Size, l.text, t)
				}
			}
		}
		f.y += float64(high) * lead
		if len(lines) > 0 {
			f.turn()
		}
	}
	f.y += 6
}
