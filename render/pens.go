package render

import "github.com/southyard/southyard/render/ink"

// The look for sheets that set pictures among words and tables: the same inks
// and weights of line as in the pictures.
var (
	Black  = black
	Pencil = pencil
	Faint  = faint
	Wash   = wash
)

// Weights of line, points.
const (
	Heavy  = heavy
	Medium = medium
	Light  = light
	Hair   = hair
)

// SmallSize is the least size of lettering, points at print size.
const SmallSize = smallSize

// Margin is the bare paper a picture leaves round its edge, points.
const Margin = margin

// Letter is lettering of a size in near-black.
func Letter(size float64, face ink.Face) ink.Type {
	return ink.Type{Size: size, Face: face, Colour: black}
}

// Line is a line of a weight and an ink.
func Line(width float64, c ink.Colour) ink.Style { return line(width, c) }
