package heat

import (
	"fmt"
	"math"
	"strings"
)

// Glazing is a kind of window: its loss and the share of sun it lets in as
// heat (solar heat gain coefficient, SHGC).
type Glazing struct {
	Name    string     `json:"name"`
	R       float64    `json:"r_m2k_per_w"`   // whole window with films
	Angles  AngleCurve `json:"beam_by_angle"` // centre of glass, beam
	Diffuse float64    `json:"diffuse"`       // centre of glass, diffuse
	Source  string     `json:"source"`
}

// AngleCurve is a property of glass at incidence 0, 40, 50, 60, 70 and 80°;
// at 90° it is 0.
type AngleCurve [6]float64

var curveAngles = [7]float64{0, 40, 50, 60, 70, 80, 90}

// At is the property for a beam whose angle to the normal has the given
// cosine: a curve through the table's points that never overshoots (monotone
// piecewise cubic, Fritsch & Butland 1984), level at 0°. 0 for cosine ≤ 0.
func (c AngleCurve) At(cosine float64) float64 {
	if cosine <= 0 {
		return 0
	}
	angle := math.Acos(min(1, cosine)) * 180 / math.Pi
	i := 1
	for i < len(curveAngles)-1 && angle > curveAngles[i] {
		i++
	}
	width := curveAngles[i] - curveAngles[i-1]
	t := (angle - curveAngles[i-1]) / width
	from, to := c.point(i-1), c.point(i)
	leave, arrive := c.slope(i-1)*width, c.slope(i)*width
	return from*(1+2*t)*(1-t)*(1-t) + leave*t*(1-t)*(1-t) + to*t*t*(3-2*t) - arrive*t*t*(1-t)
}

func (c AngleCurve) point(i int) float64 {
	if i < len(c) {
		return c[i]
	}
	return 0
}

// chord is the slope between the points i and i+1.
func (c AngleCurve) chord(i int) float64 {
	return (c.point(i+1) - c.point(i)) / (curveAngles[i+1] - curveAngles[i])
}

// slope of the curve at point i: level at 0°, the last chord at 90°, and
// between them the weighted harmonic mean of the chords on both sides.
func (c AngleCurve) slope(i int) float64 {
	last := len(curveAngles) - 1
	switch {
	case i == 0:
		return 0
	case i == last:
		return c.chord(last - 1)
	}
	before, after := c.chord(i-1), c.chord(i)
	if before*after <= 0 {
		return 0
	}
	left, right := curveAngles[i]-curveAngles[i-1], curveAngles[i+1]-curveAngles[i]
	w1, w2 := 2*right+left, right+2*left
	return (w1 + w2) / (w1/before + w2/after)
}

func (c AngleCurve) times(k float64) AngleCurve {
	for i := range c {
		c[i] *= k
	}
	return c
}

// Centre-of-glass SHGC of clear 3 mm glass by angle (ASHRAE Handbook of
// Fundamentals, fenestration chapter; from memory).
var (
	singleSHGC = AngleCurve{.86, .84, .82, .78, .67, .42}
	doubleSHGC = AngleCurve{.76, .74, .71, .64, .50, .26}
)

const (
	singleDiffuse = .78
	doubleDiffuse = .66
	ashraeMemory  = "ASHRAE Fundamentals, from memory"
	// frameDefault is the share of a wood window's opening that is sash and
	// frame; with it the centre-of-glass figures give the table's
	// whole-window ones (single .64, double .57).
	frameDefault = 0.25
)

// Glazings are the kinds of window known, plainest first. Coated glass has no
// angle table here: it follows clear double glass, scaled at normal incidence.
func Glazings() []Glazing {
	scaled := func(name string, rUS, normal float64, source string) Glazing {
		k := normal / doubleSHGC[0]
		return Glazing{name, rUS * RSI, doubleSHGC.times(k), doubleDiffuse * k, source}
	}
	return []Glazing{
		{"single", 0.9 * RSI, singleSHGC, singleDiffuse, ashraeMemory},
		{"single + storm", 2.0 * RSI, doubleSHGC, doubleDiffuse, ashraeMemory + "; R 2.0 is the careful figure, the builder's sum R 2.5"},
		{"single + low-e storm", 2.6 * RSI, doubleSHGC.times(.68 / .76), doubleDiffuse * .68 / .76, "laboratory and field reports on low-e storms, from memory; angle as clear double"},
		{"double", 2.0 * RSI, doubleSHGC, doubleDiffuse, ashraeMemory},
		scaled("double low-e, high gain", 2.9, .66, ashraeMemory+"; angle as clear double"),
		scaled("double low-e, low gain", 3.1, .37, ashraeMemory+"; angle as clear double"),
	}
}

// GlazingNamed finds a glazing by name; case and spaces do not matter.
func GlazingNamed(name string) (Glazing, error) {
	var names []string
	for _, g := range Glazings() {
		if plainName(g.Name) == plainName(name) {
			return g, nil
		}
		names = append(names, fmt.Sprintf("%q", g.Name))
	}
	return Glazing{}, fmt.Errorf("glazing %q is not known; use one of %s", name, strings.Join(names, ", "))
}

// AddedLayersR is the builder's sum for a window of n panes, m²·K/W: R 1 a
// pane and R ½ for each air space between, so pane and storm make R 2.5.
// Common practice; tables say less (R 0.9 and 2.0), so it is printed beside
// the careful figure and never used for the balance.
func AddedLayersR(panes int) float64 {
	return (float64(panes) + 0.5*float64(max(0, panes-1))) * RSI
}
