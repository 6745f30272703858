package shading

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
)

// Patch is a piece of the sky, small enough to be cast as one direction.
type Patch struct {
	Direction r3.Vector
	Solid     float64 // solid angle, sr
	Low       bool    // in the band just above the horizon
}

const bandHeight = 6.0 // degrees; the lowest band carries the horizon light

// Dome cuts the sky into bands of 6° and each band into patches about as wide
// as high, in the manner of Tregenza (1987, Lighting Research & Technology
// 19:13) but finer: 576 patches. Solid angles are exact and add up to 2π.
func Dome() []Patch { return domeOf(bandHeight) }

// domeOf cuts the two lowest bands as Dome does, where the sky is brightest
// and most stands in the way, and those above to the given height.
func domeOf(above float64) []Patch {
	var out []Patch
	for low := 0.0; low < 90; {
		height := bandHeight
		if low >= 2*bandHeight {
			height = above
		}
		high := min(90, low+height)
		a, b := low*math.Pi/180, high*math.Pi/180
		middle := math.Asin((math.Sin(a) + math.Sin(b)) / 2)
		n := max(4, int(math.Round(360/height*math.Cos((a+b)/2))))
		for i := range n {
			azimuth := (float64(i) + 0.5) * 2 * math.Pi / float64(n)
			out = append(out, Patch{
				Direction: model.Toward(s1.Angle(middle), s1.Angle(azimuth)),
				Solid:     2 * math.Pi / float64(n) * (math.Sin(b) - math.Sin(a)),
				Low:       low == 0,
			})
		}
		low = high
	}
	return out
}

// domeWeights are the shares of an even sky's light, and of the horizon
// band's, that reach a plane with normal n from each patch when nothing
// stands there. Each adds up to 1, unless the plane sees no such sky.
func domeWeights(patches []Patch, n r3.Vector) (dome, horizon []float64) {
	dome, horizon = make([]float64, len(patches)), make([]float64, len(patches))
	var d, h float64
	for i, p := range patches {
		w := p.Solid * max(0, p.Direction.Dot(n))
		dome[i] = w
		d += w
		if p.Low {
			horizon[i] = w
			h += w
		}
	}
	for i := range patches {
		if d > 0 {
			dome[i] /= d
		}
		if h > 0 {
			horizon[i] /= h
		}
	}
	return dome, horizon
}
