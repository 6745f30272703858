package render

import (
	"os"
	"path/filepath"
	"sort"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

// TestContactSheet draws every picture into one PNG in colour and one in
// grey, and each alone. Set SOUTHYARD_SHEET to a folder to keep them.
func TestContactSheet(t *testing.T) {
	dir := os.Getenv("SOUTHYARD_SHEET")
	dpi := 100.0
	if dir == "" {
		dir, dpi = t.TempDir(), 40
	}
	all := demoPictures()
	var names []string
	for n := range all {
		names = append(names, n)
	}
	sort.Strings(names)
	const cols, gap = 3, 16.0
	var heights [cols]float64
	at := map[string]ink.Box{}
	for _, n := range names {
		f := all[n].Figure()
		c := 0
		for k, h := range heights {
			if h < heights[c] {
				c = k
			}
		}
		x := float64(c) * (PageWidth + gap)
		at[n] = ink.Box{X0: x, Y0: heights[c], X1: x + f.Width, Y1: heights[c] + f.Height}
		heights[c] += f.Height + gap
		if os.Getenv("SOUTHYARD_SHEET") != "" {
			save(t, filepath.Join(dir, n+".png"), func(o *os.File) error { return ink.WritePNG(o, f, 110) })
			save(t, filepath.Join(dir, n+".svg"), func(o *os.File) error { return ink.WriteSVG(o, f) })
			save(t, filepath.Join(dir, n+".pdf"), func(o *os.File) error { return ink.WritePDF(o, f.Title, f) })
		}
	}
	sheet := ink.Figure{Width: cols*(PageWidth+gap) - gap, Height: max(heights[0], heights[1], heights[2]), Title: "contact sheet"}
	sheet.Draw = func(p ink.Page) error {
		for _, n := range names {
			if err := all[n].Figure().Draw(ink.Inset(p, at[n])); err != nil {
				t.Errorf("%s: %v", n, err)
			}
		}
		return nil
	}
	save(t, filepath.Join(dir, "sheet-colour.png"), func(o *os.File) error { return ink.WritePNG(o, sheet, dpi*0.8) })
	sheet.Draw = grey(sheet.Draw)
	save(t, filepath.Join(dir, "sheet-grey.png"), func(o *os.File) error { return ink.WritePNG(o, sheet, dpi*0.8) })
}

func save(t *testing.T, name string, write func(*os.File) error) {
	t.Helper()
	o, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := write(o); err != nil {
		t.Errorf("%s: %v", filepath.Base(name), err)
	}
	if err := o.Close(); err != nil {
		t.Fatal(err)
	}
}

// grey draws with every ink replaced by the grey of its lightness.
func grey(draw func(ink.Page) error) func(ink.Page) error {
	return func(p ink.Page) error { return draw(greyPage{p}) }
}

type greyPage struct{ ink.Page }

func toGrey(c ink.Colour) ink.Colour {
	y := uint8(0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B))
	return ink.Colour{R: y, G: y, B: y, A: c.A}
}

func (g greyPage) Path(p ink.Path, s ink.Style) {
	s.Fill, s.Stroke = toGrey(s.Fill), toGrey(s.Stroke)
	g.Page.Path(p, s)
}

func (g greyPage) Text(x, y float64, s string, t ink.Type) {
	t.Colour = toGrey(t.Colour)
	g.Page.Text(x, y, s, t)
}
