package render

import "github.com/southyard/southyard/render/ink"

// Class is the look of one class of sun: its colour and the ink that reads on
// it.
type Class struct{ Fill, Lettering ink.Colour }

// ClassColours are the looks of n classes of sun, least first, for pictures
// that are drawn elsewhere than in this package.
func ClassColours(n int) []Class {
	out := make([]Class, max(0, n))
	for i := range out {
		c := sunColour((float64(i) + 0.5) / float64(n))
		out[i] = Class{c, onColour(c)}
	}
	return out
}
