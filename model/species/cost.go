package species

import "math"

// RemovalCost is a planning figure in dollars for felling a tree with a trunk
// of this diameter at breast height (metres) and grinding its stump, to the
// next ten dollars: middle of the usual ranges, $37 an inch below 12 in, $60
// to 24 in, $90 above, half as much again where it stands near a house or
// wires, and $4 an inch for the stump. Common practice, no source: a quote
// always replaces it.
func RemovalCost(trunk float64, tight bool) float64 {
	inches := trunk / 0.0254
	each := 90.0
	switch {
	case inches < 12:
		each = 37
	case inches < 24:
		each = 60
	}
	cost := inches * each
	if tight {
		cost *= 1.5
	}
	return math.Ceil((cost+4*inches)/10) * 10
}
