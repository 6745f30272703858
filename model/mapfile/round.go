package mapfile

import "math"

// round9 rounds degrees to nine decimals, a tenth of a millimetre.
func round9(degrees float64) float64 { return math.Round(degrees*1e9) / 1e9 }
