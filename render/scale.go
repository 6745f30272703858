package render

import (
	"math"
	"strconv"

	"github.com/southyard/southyard/render/ink"
)

// cividis is the colour scale of J. R. Nuñez, C. R. Anderton and R. S.
// Renslow, "Optimizing colormaps with consideration for color vision
// deficiency to enable accurate interpretation of scientific data", PLoS ONE
// 13(7), 2018: even in lightness, and nearly the same picture to people with
// red-green colour blindness. Every 17th of its 256 published colours, from
// dark blue (least) to light yellow (most), as red, green, blue in 0..1.
var cividis = [16][3]float64{
	{0.000000, 0.135112, 0.304751},
	{0.000000, 0.181610, 0.421859},
	{0.117612, 0.225935, 0.434308},
	{0.208926, 0.272546, 0.424809},
	{0.279411, 0.318677, 0.423031},
	{0.342246, 0.364939, 0.428559},
	{0.401418, 0.411790, 0.440708},
	{0.458366, 0.459552, 0.460457},
	{0.517920, 0.508454, 0.472707},
	{0.582087, 0.558670, 0.468118},
	{0.648222, 0.610553, 0.454801},
	{0.716177, 0.664384, 0.432386},
	{0.785965, 0.720438, 0.399613},
	{0.857809, 0.778969, 0.353259},
	{0.932180, 0.840159, 0.285880},
	{0.995737, 0.909344, 0.217772},
}

// sunColour is the scale's colour at t: 0 least sun, 1 most. The darkest part
// of the published scale is left out, so that black lines stay readable.
func sunColour(t float64) ink.Colour {
	const darkest = 0.22
	t = darkest + (1-darkest)*max(0, min(1, t))
	at := t * float64(len(cividis)-1)
	i := min(int(at), len(cividis)-2)
	f := at - float64(i)
	var c [3]uint8
	for k := range c {
		c[k] = uint8(math.Round(255 * (cividis[i][k]*(1-f) + cividis[i+1][k]*f)))
	}
	return ink.Colour{R: c[0], G: c[1], B: c[2], A: 255}
}

// leastContrast is what small text needs to be read, WCAG 2.1 (W3C 2018),
// success criterion 1.4.3.
const leastContrast = 4.5

// onColour is the ink that reads on a colour: paper where its contrast is
// enough, else the usual black, and on the middle greys full black, which has
// 4.58 : 1 where paper has no more.
func onColour(c ink.Colour) ink.Colour {
	switch {
	case contrast(ink.Paper, c) >= leastContrast:
		return ink.Paper
	case contrast(black, c) >= leastContrast:
		return black
	}
	return ink.RGB(0)
}

// contrast of two colours, 1..21, as WCAG 2.1 defines contrast ratio.
func contrast(a, b ink.Colour) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// luminance is the share of white's light, 0..1, of an sRGB colour (IEC
// 61966-2-1).
func luminance(c ink.Colour) float64 {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

// lightness is L* of CIE 1976 for an sRGB colour (IEC 61966-2-1), 0..100.
func lightness(c ink.Colour) float64 {
	y := luminance(c)
	if y > 216.0/24389 {
		return 116*math.Cbrt(y) - 16
	}
	return y * 24389 / 27
}

// Breaks are round limits of classes that cover lo..hi in at most n steps:
// 1, 2, 2.5 or 5 times a power of ten apart. Pictures that are to be compared
// share one set.
func Breaks(lo, hi float64, n int) []float64 { return breaksBy(lo, hi, n, 1, 2, 2.5, 5, 10) }

// plainBreaks leave out 2.5, so that ticks need no more digits than the step.
func plainBreaks(lo, hi float64, n int) []float64 { return breaksBy(lo, hi, n, 1, 2, 5, 10) }

func breaksBy(lo, hi float64, n int, multiples ...float64) []float64 {
	if !(hi > lo) || math.IsInf(hi-lo, 0) {
		if math.IsNaN(lo) || math.IsInf(lo, 0) {
			lo = 0
		}
		hi = lo + max(1, math.Abs(lo)*0.1)
	}
	n = max(n, 1)
	power := math.Pow(10, math.Floor(math.Log10((hi-lo)/float64(n))))
	step := 10 * power
	for _, m := range multiples {
		step = m * power
		if math.Ceil(hi/step-1e-9)-math.Floor(lo/step+1e-9) <= float64(n) {
			break
		}
	}
	first, last := math.Floor(lo/step+1e-9), math.Ceil(hi/step-1e-9)
	var out []float64
	for k := first; k <= last && len(out) <= 2*n+2; k++ {
		out = append(out, k*step)
	}
	return out
}

// figures writes a number with as many decimals as the step between
// neighbours needs.
func figures(x, step float64) string {
	decimals := 0
	for s := math.Abs(step); decimals < 4 && s > 0 && math.Abs(s-math.Round(s)) > 1e-6*max(1, s); s *= 10 {
		decimals++
	}
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if n, _ := strconv.ParseFloat(s, 64); n == 0 {
		s = strconv.FormatFloat(0, 'f', decimals, 64)
	}
	return thousands(s)
}

// thousands sets commas: 12400 becomes 12,400.
func thousands(s string) string {
	sign, whole, rest := "", s, ""
	if s != "" && s[0] == '-' {
		sign, whole = "−", s[1:]
	}
	for i := range whole {
		if whole[i] == '.' {
			whole, rest = whole[:i], whole[i:]
			break
		}
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return sign + whole + rest
}
