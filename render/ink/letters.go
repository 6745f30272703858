package ink

import (
	"math"
	"sync"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/math/fixed"
)

// The Go fonts (Bigelow and Holmes 2016, BSD licence) are one family with the
// fractions, primes, degree and arrows a building drawing needs.
var ttf = [...][]byte{Regular: goregular.TTF, Bold: gobold.TTF, Italic: goitalic.TTF}

// CapHeight and Descent of the lettering as shares of its size.
const (
	CapHeight = 0.72
	Ascent    = 0.78 // to the top of the tallest figure or letter
	Descent   = 0.22
)

// glyph is the outline of a letter in units of its size, y down, curves
// broken into short lines.
type glyph struct {
	advance float64
	rings   [][]Point
}

const tableEnd = 0x2600 // Latin, Greek, punctuation, arrows, signs

// alphabet is read once and never changed.
var alphabet = sync.OnceValue(func() [3]map[rune]glyph {
	var out [3]map[rune]glyph
	for f, data := range ttf {
		parsed, err := truetype.Parse(data)
		if err != nil { // the font is part of the program
			panic("ink: the built-in font cannot be read: " + err.Error())
		}
		out[f] = outlines(parsed)
	}
	return out
})

func outlines(f *truetype.Font) map[rune]glyph {
	out := map[rune]glyph{}
	unit := fixed.Int26_6(f.FUnitsPerEm())
	scale := 1 / float64(unit)
	var buf truetype.GlyphBuf
	for r := rune(0x20); r < tableEnd; r++ {
		i := f.Index(r)
		if i == 0 || buf.Load(f, unit, i, font.HintingNone) != nil {
			continue
		}
		g := glyph{advance: float64(buf.AdvanceWidth) * scale}
		start := 0
		for _, end := range buf.Ends {
			g.rings = append(g.rings, flatten(buf.Points[start:end], scale))
			start = end
		}
		out[r] = g
	}
	return out
}

// flatten breaks a TrueType contour, quadratic splines with implied points
// midway between two control points, into short lines.
func flatten(contour []truetype.Point, scale float64) []Point {
	const on, pieces = 1, 4
	at := func(p truetype.Point) Point { return Point{float64(p.X) * scale, -float64(p.Y) * scale} }
	n := len(contour)
	if n < 2 {
		return nil
	}
	var full []Point // with the implied points put in
	var isOn []bool
	for i, p := range contour {
		q := contour[(i+1)%n]
		full, isOn = append(full, at(p)), append(isOn, p.Flags&on != 0)
		if p.Flags&on == 0 && q.Flags&on == 0 {
			a, b := at(p), at(q)
			full, isOn = append(full, Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}), append(isOn, true)
		}
	}
	m := len(full)
	var ring []Point
	for i := range full {
		if isOn[i] {
			ring = append(ring, full[i])
			continue
		}
		a, c, e := full[(i+m-1)%m], full[i], full[(i+1)%m]
		for k := 1; k < pieces; k++ {
			t := float64(k) / pieces
			u := 1 - t
			ring = append(ring, Point{u*u*a.X + 2*u*t*c.X + t*t*e.X, u*u*a.Y + 2*u*t*c.Y + t*t*e.Y})
		}
	}
	return ring
}

// letter gives a glyph; what the fonts lack is shown as a question mark.
func letter(f Face, r rune) glyph {
	a := alphabet()[f]
	if g, ok := a[r]; ok {
		return g
	}
	return a['?']
}

// Width of a line of text in points, the same for every backend.
func Width(s string, size float64, f Face) float64 {
	w := 0.0
	for _, r := range s {
		w += letter(f, r).advance
	}
	return w * size
}

// TextBox is the upright box around a line of text, turned or not.
func TextBox(x, y float64, s string, t Type) Box {
	w := Width(s, t.Size, t.Face)
	x0 := -shift(w, t.Anchor)
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	for _, q := range []Point{{x0, -Ascent * t.Size}, {x0 + w, -Ascent * t.Size}, {x0, Descent * t.Size}, {x0 + w, Descent * t.Size}} {
		px, py := x+q.X*cos+q.Y*sin, y-q.X*sin+q.Y*cos
		b = Box{min(b.X0, px), min(b.Y0, py), max(b.X1, px), max(b.Y1, py)}
	}
	return b
}

func shift(width float64, a Anchor) float64 {
	switch a {
	case Centre:
		return width / 2
	case Right:
		return width
	}
	return 0
}

// letterPaths are the letters of a text as areas to fill by the non-zero rule,
// one path a letter.
func letterPaths(x, y float64, s string, t Type) []Path {
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	pen := -shift(Width(s, t.Size, t.Face), t.Anchor)
	var out []Path
	for _, r := range s {
		g := letter(t.Face, r)
		var p Path
		for _, ring := range g.rings {
			pts := make([]Point, len(ring))
			for i, q := range ring {
				u, v := pen+q.X*t.Size, q.Y*t.Size
				pts[i] = Point{x + u*cos + v*sin, y - u*sin + v*cos}
			}
			p = append(p, Run{pts, true})
		}
		out = append(out, p)
		pen += g.advance * t.Size
	}
	return out
}

// clean replaces what the fonts lack, so that every backend shows the same.
func clean(s string) string {
	a := alphabet()[Regular]
	out := []rune(s)
	for i, r := range out {
		if _, ok := a[r]; !ok {
			out[i] = '?'
		}
	}
	return string(out)
}
