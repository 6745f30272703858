package report

import (
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

const beforePicture, afterPicture = 8.0, 14.0 // points

// picture sets a drawing; where the page has no room for it, the words go on
// and it stands at the head of the next.
func (f *flow) picture(b picture) {
	if len(f.waiting) > 0 || f.y > top && !f.fits(b) {
		f.waiting = append(f.waiting, b)
		return
	}
	f.draw(b)
}

func (f *flow) fits(b picture) bool {
	return f.y+beforePicture+min(f.leastHigh(b), f.bottom()-top) <= f.bottom()
}

// leastHigh is how low a picture may be drawn: some need more than their usual
// share, which drawing them on a page that only remembers tells.
func (f *flow) leastHigh(b picture) float64 {
	if h, ok := f.lowest[b.Title]; ok {
		return h
	}
	h := b.Height
	for share := b.Least; share < 1; share += 0.05 {
		if b.Draw(&ink.Record{W: min(b.Width, f.width()), H: share * b.Height}) == nil {
			h = share * b.Height
			break
		}
	}
	if f.lowest == nil {
		f.lowest = map[string]float64{}
	}
	f.lowest[b.Title] = h
	return h
}

// draw sets a drawing at its share of its own height, lower where only so it
// ends on the page, or where it leaves half of one to the next.
func (f *flow) draw(b picture) {
	w, h, least := min(b.Width, f.width()), b.Usual*b.Height, f.leastHigh(b)
	if half := (f.bottom() - top - beforePicture - afterPicture) / 2; f.y == top && least <= half {
		h = min(h, half)
	}
	h = min(max(h, least), f.bottom()-top)
	if f.y > top {
		f.y += beforePicture
	}
	h = min(h, f.bottom()-f.y)
	box := ink.Box{X0: side - render.Margin, Y0: f.y, X1: side - render.Margin + w, Y1: f.y + h}
	f.put(func(p ink.Page) error { return b.Draw(ink.Inset(p, box)) })
	f.y += h + afterPicture
}
