package render

import (
	"errors"
	"math"
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// sheet is a page being filled: it keeps the boxes of all lettering, so that
// nothing is lettered twice in one place.
type sheet struct {
	ink.Page
	w, h  float64
	frame ink.Box // what title and caption leave
	taken []ink.Box
}

const margin = 2.0 // points of bare paper round the edge

var errSmallPage = errors.New("the page is too small for the picture")

// begin letters title and caption and gives the sheet with what is left. end
// must be called when the picture is done.
func begin(p ink.Page, w Words) (*sheet, error) {
	s := &sheet{Page: p}
	s.w, s.h = p.Size()
	if !(s.w >= 100 && s.h >= 60) || math.IsInf(s.w+s.h, 0) {
		return nil, errSmallPage
	}
	p.Begin(w.Title, w.Alt)
	s.frame = ink.Box{X0: margin, Y0: margin, X1: s.w - margin, Y1: s.h - margin}
	if w.Title != "" && s.part() {
		s.text(s.frame.X0, s.frame.Y0+headSize, fit(w.Title, s.frame.W(), bold(body())), bold(body()))
		s.frame.Y0 += w.above() - 4
	} else if w.Title != "" {
		s.text(s.frame.X0, s.frame.Y0+headSize, fit(w.Title, s.frame.W(), head()), head())
		s.frame.Y0 += w.above()
		s.Path(ink.Line(s.frame.X0, s.frame.Y0-5, s.frame.X1, s.frame.Y0-5), line(hair, black))
	}
	if w.Caption != "" {
		lines := wrap(w.Caption, s.frame.W(), small())
		y := s.frame.Y1 - captionLead*float64(len(lines)) + smallSize
		s.frame.Y1 -= w.below(s.w)
		for _, l := range lines {
			s.text(s.frame.X0, y, l, small())
			y += captionLead
		}
	}
	if s.frame.H() < 40 {
		p.End()
		return nil, errSmallPage
	}
	return s, nil
}

// part tells whether the sheet is narrow, such as one half of a pair: then
// only the needful is lettered.
func (s *sheet) part() bool { return s.w < 300 }

func (s *sheet) end() error {
	s.Page.End()
	return nil
}

const captionLead = 9.5

func (w Words) above() float64 {
	if w.Title == "" {
		return 0
	}
	return headSize + 10
}

func (w Words) below(width float64) float64 {
	if w.Caption == "" {
		return 0
	}
	return captionLead*float64(len(wrap(w.Caption, width-2*margin, small()))) + 6
}

// text letters a line and marks its place as taken.
func (s *sheet) text(x, y float64, words string, t ink.Type) {
	if words == "" {
		return
	}
	s.taken = append(s.taken, ink.TextBox(x, y, words, t))
	s.Page.Text(x, y, words, t)
}

// free tells whether a box lies in the bounds and on no lettering.
func (s *sheet) free(b, bounds ink.Box) bool {
	if !b.Inside(bounds) {
		return false
	}
	for _, o := range s.taken {
		if b.Meets(o) {
			return false
		}
	}
	return true
}

// try letters a line if its place is free, and tells whether it was.
func (s *sheet) try(x, y float64, words string, t ink.Type, bounds ink.Box) bool {
	if words == "" || !s.free(grown(ink.TextBox(x, y, words, t), 0.7), bounds) {
		return false
	}
	s.text(x, y, words, t)
	return true
}

func grown(b ink.Box, by float64) ink.Box {
	return ink.Box{X0: b.X0 - by, Y0: b.Y0 - by, X1: b.X1 + by, Y1: b.Y1 + by}
}

// label letters a line at or near a point: centred on it if that is free,
// else on a widening spiral with a leader line. It tells whether it found
// room.
func (s *sheet) label(x, y float64, words string, t ink.Type, bounds ink.Box) bool {
	return s.labelWhere(x, y, words, t, bounds, func(ink.Box) bool { return true })
}

// labelWhere is a label at a place that is allowed.
func (s *sheet) labelWhere(x, y float64, words string, t ink.Type, bounds ink.Box, allowed func(ink.Box) bool) bool {
	t.Anchor = ink.Centre
	drop := ink.CapHeight * t.Size / 2
	if allowed(grown(ink.TextBox(x, y+drop, words, t), 0.7)) && s.try(x, y+drop, words, t, bounds) {
		return true
	}
	half := ink.Width(words, t.Size, t.Face) / 2
	for ring := 1; ring <= 40; ring++ {
		for k := range 16 {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5*float64(ring%2)) / 16)
			d := 5.5 * float64(ring)
			px, py := x+(d+half)*cos, y+d*sin
			if b := grown(ink.TextBox(px, py+drop, words, t), 0.7); !s.free(b, bounds) || !allowed(b) {
				continue
			}
			if d > 8 {
				edge := px - half*cos
				if math.Abs(cos) < 0.5 {
					edge = px
				}
				s.Path(ink.Line(x, y, edge, py), line(hair, black))
				s.Path(ink.Circle(x, y, 0.9), area(black))
			}
			t.Halo = max(t.Halo, 1)
			s.text(px, py+drop, words, t)
			return true
		}
	}
	return false
}

// fit shortens words to a width, with an ellipsis where some are cut.
func fit(words string, width float64, t ink.Type) string {
	if ink.Width(words, t.Size, t.Face) <= width {
		return words
	}
	r := []rune(words)
	for len(r) > 0 {
		r = r[:len(r)-1]
		if short := strings.TrimRight(string(r), " ,;") + "…"; ink.Width(short, t.Size, t.Face) <= width {
			if len(r) == 0 {
				return ""
			}
			return short
		}
	}
	return ""
}

// wrap breaks words into lines of at most a width; a word longer than a line
// is shortened.
func wrap(words string, width float64, t ink.Type) []string {
	var lines []string
	now := ""
	for _, w := range strings.Fields(words) {
		w = fit(w, width, t)
		next := w
		if now != "" {
			next = now + " " + w
		}
		if ink.Width(next, t.Size, t.Face) > width {
			lines = append(lines, now)
			next = w
		}
		now = next
	}
	if now != "" {
		lines = append(lines, now)
	}
	return lines
}
