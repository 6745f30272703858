package ink

import (
	"bufio"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteSVG draws a figure as SVG 1.1. Letters are drawn as outlines, each
// written once, so that they look the same everywhere; the same words lie over
// them unseen, to be searched, copied and read aloud. Letters have the same
// names and shapes in every picture, so pictures may be set side by side in
// one page.
func WriteSVG(w io.Writer, f Figure) error {
	v := &vector{out: bufio.NewWriter(w), w: f.Width, h: f.Height, cut: map[string]bool{}}
	v.put(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" role="img" width="`, num(f.Width/72), `in" height="`, num(f.Height/72),
		`in" viewBox="0 0 `, num(f.Width), " ", num(f.Height), `">`)
	v.words(f.Title, f.Alt)
	v.put("\n", `<rect width="100%" height="100%" fill="#fff"/>`, "\n")
	if err := f.Draw(v); err != nil {
		return err
	}
	for v.depth > 0 {
		v.End()
	}
	v.put("</svg>\n")
	return v.out.Flush()
}

type vector struct {
	out   *bufio.Writer
	w, h  float64
	depth int
	cut   map[string]bool // letters already written
}

func (v *vector) Size() (w, h float64) { return v.w, v.h }

// put leaves write errors to the final Flush, which reports the first.
func (v *vector) put(parts ...string) {
	for _, p := range parts {
		v.out.WriteString(p)
	}
}

func (v *vector) words(title, desc string) {
	if title != "" {
		v.put("<title>", escape(title), "</title>")
	}
	if desc != "" {
		v.put("<desc>", escape(desc), "</desc>")
	}
}

func (v *vector) Begin(title, desc string) {
	v.depth++
	v.put("<g>")
	v.words(title, desc)
	v.put("\n")
}

func (v *vector) End() {
	if v.depth > 0 {
		v.depth--
		v.put("</g>\n")
	}
}

func (v *vector) Path(p Path, s Style) {
	if len(p) == 0 || !p.finite() {
		return
	}
	v.put(`<path d="`)
	v.data(p)
	v.put(`"`)
	v.paint("fill", s.Fill)
	if s.Fill.A > 0 && !s.Winding {
		v.put(` fill-rule="evenodd"`)
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		v.paint("stroke", s.Stroke)
		v.put(` stroke-width="`, num(s.Width), `" stroke-linejoin="round"`)
		if s.Round {
			v.put(` stroke-linecap="round"`)
		}
		if len(s.Dash) > 0 {
			d := make([]string, len(s.Dash))
			for i, x := range s.Dash {
				d[i] = num(x)
			}
			v.put(` stroke-dasharray="`, strings.Join(d, " "), `"`)
		}
	}
	v.put("/>\n")
}

func (v *vector) data(p Path) {
	for _, r := range p {
		for i, q := range r.Points {
			if i == 0 {
				v.put("M")
			} else {
				v.put("L")
			}
			v.put(num(q.X), " ", num(q.Y))
		}
		if r.Closed {
			v.put("Z")
		}
	}
}

func (v *vector) paint(what string, c Colour) {
	if c.A == 0 {
		v.put(" ", what, `="none"`)
		return
	}
	const hex = "0123456789abcdef"
	b := []byte{'#'}
	for _, x := range []uint8{c.R, c.G, c.B} {
		b = append(b, hex[x>>4], hex[x&15])
	}
	v.put(" ", what, `="`, string(b), `"`)
	if c.A < 255 {
		v.put(" ", what, `-opacity="`, num(float64(c.A)/255), `"`)
	}
}

func (v *vector) Text(x, y float64, s string, t Type) {
	if s == "" || math.IsNaN(x+y) {
		return
	}
	s = clean(s)
	width := Width(s, t.Size, t.Face)
	for _, r := range s {
		v.letter(t.Face, r)
	}
	if t.Halo > 0 {
		v.line(x, y, s, width, t, Style{Stroke: Paper, Width: 2 * t.Halo})
	}
	v.line(x, y, s, width, t, Style{Fill: t.Colour})
	v.put(`<text x="`, num(x), `" y="`, num(y), `" font-family="sans-serif" font-size="`, num(t.Size),
		`" textLength="`, num(width), `" lengthAdjust="spacingAndGlyphs" fill="none"`)
	switch t.Anchor {
	case Centre:
		v.put(` text-anchor="middle"`)
	case Right:
		v.put(` text-anchor="end"`)
	}
	if t.Turn != 0 {
		v.put(` transform="rotate(`, num(-t.Turn), " ", num(x), " ", num(y), `)"`)
	}
	v.put(">", escape(s), "</text>\n")
}

// em is the size at which letters are written.
const em = 1000

func letterName(f Face, r rune) string {
	return "ink" + strconv.Itoa(int(f)) + "-" + strconv.Itoa(int(r))
}

// letter writes the outline of a letter the first time it is used.
func (v *vector) letter(f Face, r rune) {
	name := letterName(f, r)
	rings := letter(f, r).rings
	if v.cut[name] || len(rings) == 0 {
		return
	}
	v.cut[name] = true
	v.put(`<defs><path id="`, name, `" d="`)
	for _, ring := range rings {
		for i, q := range ring {
			op := "L"
			if i == 0 {
				op = "M"
			}
			v.put(op, strconv.Itoa(int(math.Round(q.X*em))), " ", strconv.Itoa(int(math.Round(q.Y*em))))
		}
		v.put("Z")
	}
	v.put(`"/></defs>`)
}

// line sets the letters of one line of text.
func (v *vector) line(x, y float64, s string, width float64, t Type, st Style) {
	v.put(`<g aria-hidden="true" transform="translate(`, num(x), " ", num(y), ")")
	if t.Turn != 0 {
		v.put(" rotate(", num(-t.Turn), ")")
	}
	scale := t.Size / em
	v.put(" scale(", strconv.FormatFloat(scale, 'f', 6, 64), `)"`)
	v.paint("fill", st.Fill)
	if st.Stroke.A > 0 {
		v.paint("stroke", st.Stroke)
		v.put(` stroke-width="`, num(st.Width/scale), `" stroke-linejoin="round"`)
	}
	v.put(">")
	pen := -shift(width, t.Anchor) / scale
	for _, r := range s {
		g := letter(t.Face, r)
		if len(g.rings) > 0 {
			v.put(`<use xlink:href="#`, letterName(t.Face, r), `" x="`, strconv.Itoa(int(math.Round(pen))), `"/>`)
		}
		pen += g.advance * em
	}
	v.put("</g>")
}

func escape(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil { // a builder never fails
		return ""
	}
	return b.String()
}

// num writes a number to a hundredth, without needless noughts.
func num(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}
