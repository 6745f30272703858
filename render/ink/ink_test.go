package ink

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"hash/crc32"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var black = RGB(0)

func sample() Figure {
	return Figure{Width: 200, Height: 100, Title: "Sample & <test>", Alt: "lines", Draw: func(p Page) error {
		p.Begin("group <1>", "a & b")
		p.Path(Rectangle(10, 10, 50, 30), Style{Fill: RGB(0xc80000), Stroke: black, Width: 1, Dash: []float64{3, 2}})
		p.Path(Hatch(Rectangle(80, 10, 40, 30), 4, 45, false), Style{Stroke: black, Width: 0.5})
		p.Path(Circle(150, 30, 15), Style{Fill: Colour{B: 200, A: 128}})
		p.End()
		p.Text(100, 70, "5 ft 3½ in, m², ≥ 20° <&>", Type{Size: 9, Colour: black, Anchor: Centre, Halo: 1})
		p.Text(20, 95, "turned", Type{Size: 8, Face: Bold, Colour: black, Turn: 90})
		return nil
	}}
}

func TestPNGRecordsItsDensity(t *testing.T) {
	var b bytes.Buffer
	if err := WritePNG(&b, sample(), 300); err != nil {
		t.Fatal(err)
	}
	im, err := png.Decode(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if s := im.Bounds().Size(); s.X != 833 || s.Y != 417 {
		t.Errorf("200 × 100 pt at 300 dpi is %v dots, want 833 × 417", s)
	}
	i := bytes.Index(b.Bytes(), []byte("pHYs"))
	if i < 0 || i > bytes.Index(b.Bytes(), []byte("IDAT")) {
		t.Fatal("no pHYs chunk before the picture data")
	}
	chunk := b.Bytes()[i : i+13]
	// 300 dots an inch are 11 811 a metre (300 / 0.0254, PNG specification 11.3.5.3).
	if x, y := binary.BigEndian.Uint32(chunk[4:]), binary.BigEndian.Uint32(chunk[8:]); x != 11811 || y != 11811 || chunk[12] != 1 {
		t.Errorf("density %d × %d, unit %d", x, y, chunk[12])
	}
	if got := binary.BigEndian.Uint32(b.Bytes()[i+13:]); got != crc32.ChecksumIEEE(chunk) {
		t.Error("the check sum of the pHYs chunk is wrong")
	}
}

func TestSVGIsWellFormedAndSearchable(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSVG(&b, sample()); err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	var words strings.Builder
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := tok.(xml.CharData); ok {
			words.Write(c)
		}
	}
	for _, want := range []string{"5 ft 3½ in, m², ≥ 20° <&>", "turned", "Sample & <test>"} {
		if !strings.Contains(words.String(), want) {
			t.Errorf("%q is not among the words of the picture", want)
		}
	}
}

func TestPDFHoldsItsWords(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed")
	}
	name := filepath.Join(t.TempDir(), "a.pdf")
	var b bytes.Buffer
	if err := WritePDF(&b, "Sample", sample(), sample()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(out), "5 ft 3½ in, m², ≥ 20° <&>"); n != 2 {
		t.Errorf("the words stand %d times in two pages:\n%s", n, out)
	}
}

func TestSameDrawingGivesSameBytes(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"png": func(w io.Writer) error { return WritePNG(w, sample(), 150) },
		"svg": func(w io.Writer) error { return WriteSVG(w, sample()) },
		"pdf": func(w io.Writer) error { return WritePDF(w, "Sample", sample()) },
	} {
		var first bytes.Buffer
		if err := write(&first); err != nil {
			t.Fatal(err)
		}
		for range 4 {
			var again bytes.Buffer
			if err := write(&again); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(first.Bytes(), again.Bytes()) {
				t.Errorf("%s: two drawings of the same differ", name)
			}
		}
	}
}

func TestHatchCoversTheAreaItFills(t *testing.T) {
	length := func(p Path) (sum float64) {
		for _, r := range p {
			sum += math.Hypot(r.Points[1].X-r.Points[0].X, r.Points[1].Y-r.Points[0].Y)
		}
		return
	}
	square := Rectangle(3, 5, 100, 80)
	hole := append(square, Rectangle(23, 25, 20, 20)...)
	twice := append(Rectangle(0, 0, 60, 80), Rectangle(40, 0, 60, 80)...)
	for _, c := range []struct {
		name    string
		p       Path
		winding bool
		area    float64
	}{
		{"rectangle", square, false, 8000},
		{"with a hole", hole, false, 7600},
		{"two pieces united", twice, true, 8000},
		{"two pieces, overlap left out", twice, false, 6400},
	} {
		for _, turn := range []float64{0, 30, 45, 90, 135} {
			if got := 0.5 * length(Hatch(c.p, 0.5, turn, c.winding)); math.Abs(got-c.area) > 0.02*c.area {
				t.Errorf("%s at %g°: lines × gap = %.0f, area %.0f", c.name, turn, got, c.area)
			}
		}
	}
}

func TestClipKeepsWhatIsInside(t *testing.T) {
	box := Box{0, 0, 10, 10}
	p := ClipArea(Rectangle(-5, 5, 10, 10), box)
	if x0, y0, x1, y1 := p.Bounds(); x0 != 0 || y0 != 5 || x1 != 5 || y1 != 10 {
		t.Errorf("area cut to %g %g %g %g", x0, y0, x1, y1)
	}
	l := ClipLines(Line(-5, 5, 20, 5), box)
	if len(l) != 1 || l[0].Points[0] != (Point{0, 5}) || l[0].Points[1] != (Point{10, 5}) {
		t.Errorf("line cut to %v", l)
	}
	if got := ClipLines(Line(-5, -1, 20, -1), box); len(got) != 0 {
		t.Errorf("a line outside leaves %v", got)
	}
	if got := ClipLines(Rectangle(2, 2, 3, 3), box); len(got) != 1 || !got[0].Closed {
		t.Errorf("a ring inside becomes %v", got)
	}
}

func TestLettersOfAllBackendsAreEquallyWide(t *testing.T) {
	var rec = &Record{W: 100, H: 100}
	rec.Text(50, 50, "Width", Type{Size: 10, Anchor: Right})
	b := rec.Texts[0].Box
	if math.Abs(b.X1-50) > 1e-9 || math.Abs(b.W()-Width("Width", 10, Regular)) > 1e-9 {
		t.Errorf("box %v", b)
	}
	x0, _, x1, _ := slices.Concat(letterPaths(0, 0, "Width", Type{Size: 10})...).Bounds()
	if x1-x0 > b.W() || x1-x0 < 0.9*b.W() {
		t.Errorf("outlines are %.2f wide, the measure says %.2f", x1-x0, b.W())
	}
}

func TestAbsurdSizesAreRefused(t *testing.T) {
	for _, f := range []Figure{{Width: 0, Height: 10}, {Width: -5, Height: 10}, {Width: 1e6, Height: 1e6}, {Width: math.NaN(), Height: 3}} {
		f.Draw = func(Page) error { return nil }
		if err := WritePNG(io.Discard, f, 300); err == nil {
			t.Errorf("%g × %g is drawn", f.Width, f.Height)
		}
	}
}
