package render

import (
	"bufio"
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

// TestScaleIsThePublishedOne holds the sixteen colours against the figures of
// Nuñez, Anderton and Renslow (2018) in testdata.
func TestScaleIsThePublishedOne(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "testdata", "colour_cividis.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n := 0
	for sc := bufio.NewScanner(f); sc.Scan(); {
		parts := strings.Split(sc.Text(), ",")
		i, err := strconv.Atoi(parts[0])
		if err != nil {
			continue // header
		}
		if i%17 != 0 {
			// between the kept ones the scale runs straight: within 1.5 levels of 255
			at := float64(i) / 17
			k := min(int(at), 14)
			for c := range 3 {
				want, _ := strconv.ParseFloat(parts[c+1], 64)
				got := cividis[k][c] + (at-float64(k))*(cividis[k+1][c]-cividis[k][c])
				if math.Abs(got-want) > 6.0/255 {
					t.Errorf("colour %d: %.4f, published %.4f", i, got, want)
				}
			}
			n++
			continue
		}
		for c := range 3 {
			if want, _ := strconv.ParseFloat(parts[c+1], 64); cividis[i/17][c] != want {
				t.Errorf("colour %d: %v, published %v", i, cividis[i/17][c], want)
			}
		}
		n++
	}
	if n < 16 {
		t.Fatalf("only %d published colours found", n)
	}
}

func TestScaleRisesEvenlyInLightness(t *testing.T) {
	const steps = 20
	lo, hi := lightness(sunColour(0)), lightness(sunColour(1))
	if hi-lo < 55 {
		t.Errorf("lightness runs from %.0f to %.0f only", lo, hi)
	}
	for i := 1; i <= steps; i++ {
		step := lightness(sunColour(float64(i)/steps)) - lightness(sunColour(float64(i-1)/steps))
		even := (hi - lo) / steps
		if step < 0.5*even || step > 1.7*even {
			t.Errorf("step %d raises lightness by %.2f, an even one would by %.2f", i, step, even)
		}
	}
}

// TestClassesStayApartInGreyAndInColourBlindness uses the simulation of G. M.
// Machado, M. M. Oliveira and L. A. F. Fernandes (IEEE TVCG 15(6), 2009), full
// severity; the matrices are from memory.
func TestClassesStayApartInGreyAndInColourBlindness(t *testing.T) {
	see := map[string][3][3]float64{
		"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
		"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
		"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
		"none":         {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	}
	breaks := Breaks(0, 80, 8)
	for name, m := range see {
		for k := 1; k < len(breaks)-1; k++ {
			a, b := lightness(seen(classColour(k-1, breaks), m)), lightness(seen(classColour(k, breaks), m))
			if b-a < 4 {
				t.Errorf("%s: class %d is only %.1f lighter than the one below", name, k, b-a)
			}
		}
	}
}

func seen(c ink.Colour, m [3][3]float64) ink.Colour {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	rgb := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
	var out [3]uint8
	for i := range out {
		x := max(0, min(1, m[i][0]*rgb[0]+m[i][1]*rgb[1]+m[i][2]*rgb[2]))
		if x <= 0.0031308 {
			x *= 12.92
		} else {
			x = 1.055*math.Pow(x, 1/2.4) - 0.055
		}
		out[i] = uint8(math.Round(255 * x))
	}
	return ink.Colour{R: out[0], G: out[1], B: out[2], A: 255}
}

// TestFiguresReadOnEveryClass measures contrast as WCAG 2.1 does (W3C 2018,
// success criterion 1.4.3, which asks 4.5 : 1 of small text), in colour and in
// grey.
func TestFiguresReadOnEveryClass(t *testing.T) {
	if r := contrast(ink.Paper, ink.RGB(0x777777)); math.Abs(r-4.48) > 0.01 {
		t.Errorf("contrast of #777777 on white is %.2f, known as 4.48 (from memory)", r)
	}
	for n := 1; n <= 16; n++ {
		for k := range n {
			for _, c := range []ink.Colour{sunColour((float64(k) + 0.5) / float64(n)), classColour(k, make([]float64, n+1))} {
				grey := uint8(math.Round(0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B))) // as copiers do, ITU-R BT.601
				for _, seen := range []ink.Colour{c, {R: grey, G: grey, B: grey, A: 255}} {
					if r := contrast(seen, onColour(c)); r < leastContrast-0.06 {
						t.Errorf("class %d of %d, %v: contrast %.2f", k, n, seen, r)
					}
				}
			}
		}
	}
}

func TestBreaksAreRoundAndCover(t *testing.T) {
	for _, c := range []struct{ lo, hi float64 }{{0, 1}, {3, 997}, {-5, 12}, {0.001, 0.0042}, {1e6, 1.2e6}, {7, 7}, {math.NaN(), 3}, {2, math.Inf(1)}, {5, -5}} {
		b := Breaks(c.lo, c.hi, 8)
		if len(b) < 2 || len(b) > 18 {
			t.Fatalf("%v: %d limits", c, len(b))
		}
		if c.hi > c.lo && !math.IsInf(c.hi, 0) && (b[0] > c.lo || b[len(b)-1] < c.hi-1e-9*math.Abs(c.hi)) {
			t.Errorf("%v: limits %v do not cover", c, b)
		}
	}
	if got := fmt.Sprint(Breaks(0, 100, 10)); got != "[0 10 20 30 40 50 60 70 80 90 100]" {
		t.Errorf("0..100 in ten: %s", got)
	}
}

func TestNumbersAreLetteredAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		x, step float64
		want    string
	}{{12400, 100, "12,400"}, {-3, 1, "−3"}, {0.25, 0.05, "0.25"}, {2.5, 2.5, "2.5"}, {-0.0001, 1, "0"}, {1234567, 1, "1,234,567"}, {999, 1, "999"}} {
		if got := figures(c.x, c.step); got != c.want {
			t.Errorf("%v by %v: %q, want %q", c.x, c.step, got, c.want)
		}
	}
}

// TestContourEnclosesItsArea holds a cone's levels against circles.
func TestContourEnclosesItsArea(t *testing.T) {
	g := sunGrid(-10, -10, 0.25, 80, 80, func(x, y float64) float64 { return 10 - math.Hypot(x, y) })
	z, cols, rows := g.padded()
	at := func(c, r float64) ink.Point {
		return ink.Point{X: g.Origin[0] + g.Cell*(c-0.5), Y: g.Origin[1] + g.Cell*(r-0.5)}
	}
	for _, level := range []float64{2, 5, 8} {
		fill, edge := above(z, cols, rows, level, at)
		sum := 0.0
		for _, r := range fill {
			sum += math.Abs(signedArea(r.Points))
		}
		if want := math.Pi * (10 - level) * (10 - level); math.Abs(sum-want) > 0.01*want {
			t.Errorf("level %g encloses %.2f, a circle %.2f", level, sum, want)
		}
		for _, r := range edge {
			for _, q := range r.Points {
				if d := math.Hypot(q.X, q.Y); math.Abs(d-(10-level)) > 0.02 {
					t.Fatalf("level %g passes %.3f from the middle", level, d)
				}
			}
		}
	}
}

// Cells are as wide and as high as the surface's rows and columns give; a level
// that runs through the middle of the values is drawn there.
func TestLowCellsAreDrawnLow(t *testing.T) {
	g := &Grid{Cell: 0.4, High: 0.3, Cols: 10, Rows: 40}
	for r := range 40 {
		for range 10 {
			g.Values = append(g.Values, 0.3*(float64(r)+0.5)) // the height itself
		}
	}
	z, cols, rows := g.padded()
	_, edge := above(z, cols, rows, 7, func(c, r float64) ink.Point {
		x, y := g.middle(c, r)
		return ink.Point{X: x, Y: y}
	})
	for _, run := range edge {
		for _, q := range run.Points {
			if math.Abs(q.Y-7) > 1e-9 {
				t.Fatalf("the level of 7 m runs at %.3f m", q.Y)
			}
		}
	}
	if b := gridBox(g, view{scale: 1}); math.Abs(b.H()-12) > 1e-9 || math.Abs(b.W()-4) > 1e-9 || len(edge) == 0 {
		t.Errorf("40 rows of 0.3 m are drawn %.2f m high, %.2f m wide", b.H(), b.W())
	}
}

// TestEastIsOnTheRight: on a south wall seen from the yard, and on a plan.
func TestEastIsOnTheRight(t *testing.T) {
	f := demoFace()
	rec := &ink.Record{W: 468, H: 400}
	if err := f.Draw(rec); err != nil {
		t.Fatal(err)
	}
	x := map[string]float64{}
	for _, l := range rec.Texts {
		x[l.S] = (l.Box.X0 + l.Box.X1) / 2
	}
	if !(x["west end"] < x["W1"] && x["W1"] < x["W2"] && x["W2"] < x["east end"]) {
		t.Errorf("west %.0f, W1 %.0f, W2 %.0f, east %.0f", x["west end"], x["W1"], x["W2"], x["east end"])
	}
	for from, want := range map[float64]float64{180: 1, 0: -1} { // who stands in the south sees east to the right
		d := EyeView{From: from, Height: 20}
		c := d.look(ink.Box{X1: 400, Y1: 300})
		if c.right.X*want < 0.99 || c.up.Z < 0.9 {
			t.Errorf("from %g: right %v, up %v", from, c.right, c.up)
		}
	}
	s := SkyView{Facing: 180}
	s.Crowns = []SkyCrown{{ID: "E", Outline: []SkyPoint{{110, 10}, {120, 10}, {115, 30}}}, {ID: "W", Outline: []SkyPoint{{240, 10}, {250, 10}, {245, 30}}}}
	rec = &ink.Record{W: 468, H: 400}
	if err := s.Draw(rec); err != nil {
		t.Fatal(err)
	}
	for _, l := range rec.Texts {
		x[l.S] = l.Box.X0
	}
	if x["E"] > x["W"] { // looking up at the southern sky, east is to the left
		t.Errorf("looking south, east stands at %.0f and west at %.0f", x["E"], x["W"])
	}
}

// TestNearHidesFar paints two walls in either order and from either side.
func TestNearHidesFar(t *testing.T) {
	wall := func(y float64) EyeFace {
		f := box3(0, y, 10, y+1, 0, 10)
		return f[0]
	}
	for _, from := range []float64{180, 0, 150, 20} {
		for _, faces := range [][]EyeFace{{wall(0), wall(30)}, {wall(30), wall(0)}} {
			d := EyeView{From: from, Height: 10, Faces: faces}
			c := d.look(ink.Box{X1: 400, Y1: 300})
			var depths []float64
			partition(d.pieces(c)).walk(c.eye, func(p piece) { depths = append(depths, c.depth(p.ring[0])) })
			if len(depths) != 2 || depths[0] < depths[1] {
				t.Errorf("from %g: depths in order of painting %v", from, depths)
			}
		}
	}
}

// TestCuttingKeepsTheArea cuts crowns and walls by planes of all directions.
func TestCuttingKeepsTheArea(t *testing.T) {
	d := demoEye(false)
	c := d.look(ink.Box{X1: 400, Y1: 300})
	before, after := 0.0, 0.0
	list := d.pieces(c)
	for _, p := range list {
		before += normal(p.ring).Norm() / 2
	}
	partition(list).walk(c.eye, func(p piece) { after += normal(p.ring).Norm() / 2 })
	if math.Abs(after-before) > 0.001*before {
		t.Errorf("%.3f m² before cutting, %.3f m² after", before, after)
	}
}

// TestPicturesLookAsTheyDid compares small drawings with kept ones; a few
// levels of grey on average are let pass. Set SOUTHYARD_GOLDEN to renew them.
func TestPicturesLookAsTheyDid(t *testing.T) {
	for _, name := range []string{"plan-sun", "face", "removals", "sky", "eye"} {
		var buf bytes.Buffer
		if err := ink.WritePNG(&buf, demoPictures()[name].Figure(), 36); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join("testdata", name+".png")
		if os.Getenv("SOUTHYARD_GOLDEN") != "" {
			if err := os.WriteFile(file, buf.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		a, errA := png.Decode(&buf)
		b, errB := png.Decode(bytes.NewReader(kept))
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if a.Bounds() != b.Bounds() {
			t.Errorf("%s is %v, was %v", name, a.Bounds(), b.Bounds())
			continue
		}
		if d := rms(a, b); d > 3 {
			t.Errorf("%s differs by %.1f levels of 255 (root mean square)", name, d)
		}
	}
}

func rms(a, b image.Image) float64 {
	sum, n := 0.0, 0.0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r, g, bl, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			for _, d := range []float64{float64(r) - float64(r2), float64(g) - float64(g2), float64(bl) - float64(b2)} {
				sum, n = sum+d*d, n+1
			}
		}
	}
	return math.Sqrt(sum/n) / 257
}

// BenchmarkSetAt300 draws the whole set as it is printed.
func BenchmarkSetAt300(b *testing.B) {
	for range b.N {
		for _, pic := range demoPictures() {
			if err := ink.WritePNG(&bytes.Buffer{}, pic.Figure(), 300); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// TestGroundOutsideATiltedLotStaysBare looks at the paper itself: the grid
// fills its whole bounding box, the lot only a lozenge of it.
func TestGroundOutsideATiltedLotStaysBare(t *testing.T) {
	d := LotPlan{Lot: orb.Ring{{0, -10}, {10, 0}, {0, 10}, {-10, 0}, {0, -10}}, NoLegend: true}
	d.Sun = sunGrid(-10, -10, 0.5, 40, 40, func(x, y float64) float64 {
		if math.Abs(x)+math.Abs(y) > 10 {
			return math.NaN()
		}
		return 300 + 20*x
	})
	f := d.Figure()
	var buf bytes.Buffer
	if err := ink.WritePNG(&buf, f, 72); err != nil {
		t.Fatal(err)
	}
	im, err := png.Decode(&buf)
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet{frame: ink.Box{X0: margin, Y0: margin, X1: f.Width - margin, Y1: f.Height - margin}}
	v := viewOf(d.bound(), ink.Box{X0: s.frame.X0, Y0: s.frame.Y0, X1: s.frame.X1 - planSideWidth, Y1: s.frame.Y1 - d.foot(s.frame.W()) - 4})
	grey := func(x, y float64) uint32 {
		q := v.at(x, y)
		_, g, _, _ := im.At(int(q.X), int(q.Y)).RGBA()
		return g >> 8
	}
	for _, c := range [4]orb.Point{{7, 7}, {-7, 7}, {-7, -7}, {7, -7}} {
		if g := grey(c[0], c[1]); g < 250 {
			t.Errorf("outside the lot at %v the paper is %d of 255", c, g)
		}
		if g := grey(0.6*c[0], 0.6*c[1]); g > 240 {
			t.Errorf("inside the lot at %g, %g there is no field", 0.6*c[0], 0.6*c[1])
		}
	}
}
