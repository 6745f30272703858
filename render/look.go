package render

import "github.com/southyard/southyard/render/ink"

// Picture is anything this package draws.
type Picture interface {
	Draw(p ink.Page) error
	Figure() ink.Figure
}

// Words go with every picture. Empty ones take no room.
type Words struct {
	Title   string // what is shown, above
	Caption string // season, climate source, what is assumed, below
	Alt     string // for readers who cannot see it; empty: title and caption
}

// figure is the usual wrapping of a picture.
func (w Words) figure(width, height float64, p Picture) ink.Figure {
	alt := w.Alt
	if alt == "" {
		alt = w.Caption
	}
	height += w.above() + w.below(width)
	return ink.Figure{Width: width, Height: height, Title: w.Title, Alt: alt, Draw: p.Draw}
}

// PageWidth is the usual width of a picture: letter or A4 paper less margins.
const PageWidth = 6.5 * 72

// Sizes of lettering, points at print size. Nothing is smaller than small.
const (
	headSize  = 10.5
	bodySize  = 8.0
	smallSize = 7.0
)

// Weights of line, points: what is cut or decides, what stands, what helps,
// what only guides the eye.
const (
	heavy  = 1.3
	medium = 0.8
	light  = 0.5
	hair   = 0.25
)

// The inks. Pictures are drawn in near-black like a builder's drawing; one
// red pencil for what goes and one green for what is planted. Red pencil and
// green are the vermilion and bluish green of Okabe and Ito, "Color Universal
// Design" (2008), told apart in every common colour blindness; neither is
// ever the only sign.
var (
	black  = ink.RGB(0x1c1e21)
	pencil = ink.RGB(0x6a6e73)
	faint  = ink.RGB(0xb9bcc0)
	wash   = ink.RGB(0xe9eaec)
	veil   = ink.RGB(0xdadde2)
	shade  = ink.RGB(0xc4c8d0)
	red    = ink.RGB(0xd55e00)
	green  = ink.RGB(0x009e73)
)

// Dash patterns, points.
var (
	dashGone = []float64{4, 2.2}          // what is taken away
	dashLot  = []float64{11, 2.5, 2, 2.5} // a lot line: long, short
	dashWire = []float64{1, 2.2}
	dashHint = []float64{2, 2}
)

func head() ink.Type  { return ink.Type{Size: headSize, Face: ink.Bold, Colour: black} }
func body() ink.Type  { return ink.Type{Size: bodySize, Colour: black} }
func small() ink.Type { return ink.Type{Size: smallSize, Colour: black} }

func centred(t ink.Type) ink.Type { t.Anchor = ink.Centre; return t }
func right(t ink.Type) ink.Type   { t.Anchor = ink.Right; return t }
func bold(t ink.Type) ink.Type    { t.Face = ink.Bold; return t }
func italic(t ink.Type) ink.Type  { t.Face = ink.Italic; return t }
func haloed(t ink.Type) ink.Type  { t.Halo = 1.1; return t }
func in(t ink.Type, c ink.Colour) ink.Type {
	t.Colour = c
	return t
}

func line(width float64, c ink.Colour) ink.Style { return ink.Style{Stroke: c, Width: width} }
func dashed(width float64, c ink.Colour, dash []float64) ink.Style {
	return ink.Style{Stroke: c, Width: width, Dash: dash}
}
func area(fill ink.Colour) ink.Style { return ink.Style{Fill: fill} }
func edged(fill ink.Colour, width float64, c ink.Colour) ink.Style {
	return ink.Style{Fill: fill, Stroke: c, Width: width}
}
