package ink

import "image/color"

// Page is a sheet of paper. What a backend cannot show (titles of groups in a
// PNG) it leaves out.
type Page interface {
	// Size of the paper in points.
	Size() (width, height float64)
	// Path fills and strokes lines and areas.
	Path(p Path, s Style)
	// Text letters one line with its baseline's anchor at x, y.
	Text(x, y float64, s string, t Type)
	// Begin opens a group with a title and a description for readers who
	// cannot see it; End closes it.
	Begin(title, description string)
	End()
}

// Colour is an ink; the zero value is no ink at all.
type Colour = color.NRGBA

// RGB is an ink by its red, green and blue, 0xRRGGBB.
func RGB(hex uint32) Colour {
	return Colour{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// Style says how a path is inked.
type Style struct {
	Fill    Colour
	Winding bool // fill by the non-zero rule, which unites overlapping pieces of one turning; else even-odd, which leaves holes
	Stroke  Colour
	Width   float64   // of the stroke, points
	Dash    []float64 // lengths on, off, ... in points; nil for a whole line
	Round   bool      // round line ends; else cut square at the end
}

// Face is a cut of the one lettering used.
type Face int

// The faces.
const (
	Regular Face = iota
	Bold
	Italic
)

// Anchor says which point of a line of text its position names.
type Anchor int

// The anchors, all on the baseline.
const (
	Left Anchor = iota
	Centre
	Right
)

// Type says how a line is lettered.
type Type struct {
	Size   float64 // points
	Face   Face
	Colour Colour
	Anchor Anchor
	Turn   float64 // degrees, counter-clockwise
	Halo   float64 // width of a paper-coloured edge around the letters, points; 0 for none
}

// Paper is the colour of the sheet.
var Paper = RGB(0xffffff)

// Figure is one drawing with its size and the words for readers who cannot
// see it.
type Figure struct {
	Width, Height float64 // points
	Title         string
	Alt           string // what the picture shows, in a sentence or two
	Draw          func(Page) error
}

// Paper sizes in points, portrait: ANSI A ("letter") and ISO 216 A4.
const (
	LetterWidth  = 612.0
	LetterHeight = 792.0
	A4Width      = 595.276
	A4Height     = 841.890
)
