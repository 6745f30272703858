package report

import (
	"github.com/southyard/southyard/render/ink"
)

// Shares of its usual height at which a picture is drawn on paper, and to which
// it may be drawn smaller so as to end on the page in hand. Its lettering keeps
// its size.
const (
	usualPicture = 0.8
	leastPicture = 0.75

	beforePicture = 8.0 // points
)

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
	for share := leastPicture; share < 1; share += 0.05 {
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

// draw sets a drawing a little below its usual size, smaller where only so it
// ends on the page.
func (f *flow) draw(b picture) {
	w, h := min(b.Width, f.width()), min(max(usualPicture*b.Height, f.leastHigh(b)), f.bottom()-top)
	if f.y > top {
		f.y += beforePicture
	}
	h = min(h, f.bottom()-f.y)
	box := ink.Box{X0: side, Y0: f.y, X1: side + w, Y1: f.y + h}
	f.put(func(p ink.Page) error { return b.Draw(ink.Inset(p, box)) })
	f.y += h + 14
}
