package ink

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"
)

// swept is what a coverage says of every dot, 0..1.
func swept(c *coverage, winding bool) []float64 {
	out := make([]float64, c.w*c.h)
	c.sweep(winding, func(y, x0, x1 int, share uint32) {
		for x := x0; x < x1; x++ {
			out[y*c.w+x] += float64(share) / full
		}
	})
	return out
}

func ring(add raster.Adder, pts ...fixed.Point26_6) {
	add.Start(pts[0])
	for _, q := range pts[1:] {
		add.Add1(q)
	}
	add.Add1(pts[0])
}

// alongCurve goes along a Bézier curve in n lines (de Casteljau's way).
func alongCurve(add raster.Adder, n int, control ...fixed.Point26_6) {
	for k := 1; k <= n; k++ {
		t := float64(k) / float64(n)
		var x, y []float64
		for _, q := range control {
			x, y = append(x, float64(q.X)), append(y, float64(q.Y))
		}
		for m := len(x) - 1; m > 0; m-- {
			for i := range m {
				x[i], y[i] = x[i]+t*(x[i+1]-x[i]), y[i]+t*(y[i+1]-y[i])
			}
		}
		add.Add1(fixed.Point26_6{X: fixed.Int26_6(math.Round(x[0])), Y: fixed.Int26_6(math.Round(y[0]))})
	}
}

// TestCoverageIsThatOfTheFreeTypeRasterizer draws random rings, curves and
// strokes, also off the sheet, and compares every dot with golang/freetype's
// raster package.
func TestCoverageIsThatOfTheFreeTypeRasterizer(t *testing.T) {
	const w, h = 130, 70
	r := rand.New(rand.NewPCG(7, 7))
	point := func() fixed.Point26_6 {
		return fixed.Point26_6{X: fixed.Int26_6((r.Float64()*1.4 - 0.2) * w * sub), Y: fixed.Int26_6((r.Float64()*1.4 - 0.2) * h * sub)}
	}
	var c coverage
	worst, sum, dots := 0.0, 0.0, 0
	for trial := range 400 {
		winding := trial%2 == 0
		c.fit(w, h)
		other := raster.NewRasterizer(w, h)
		other.UseNonZeroWinding = winding
		for range 1 + trial%3 {
			switch kind := trial / 2 % 4; kind {
			case 0, 1:
				pts := []fixed.Point26_6{point(), point(), point(), point(), point()}[:3+2*kind]
				ring(&c, pts...)
				ring(other, pts...)
			case 2:
				a, b, d, e := point(), point(), point(), point()
				c.Start(a)
				c.Add2(b, d)
				c.Add3(e, b, a)
				other.Start(a) // which breaks curves coarsely: many short lines in their place
				alongCurve(other, 300, a, b, d)
				alongCurve(other, 300, d, e, b, a)
			case 3:
				var line raster.Path
				line.Start(point())
				line.Add1(point())
				line.Add1(point())
				wide := fixed.Int26_6(20 + r.IntN(300))
				raster.Stroke(&c, line, wide, raster.RoundCapper, raster.RoundJoiner)
				raster.Stroke(other, line, wide, raster.RoundCapper, raster.RoundJoiner)
			}
		}
		want := make([]float64, w*h)
		other.Rasterize(raster.PainterFunc(func(spans []raster.Span, _ bool) {
			for _, s := range spans {
				for x := s.X0; x < s.X1; x++ {
					want[s.Y*w+x] = float64(s.Alpha) / 0xffff
				}
			}
		}))
		for i, got := range swept(&c, winding) {
			if i%w == 0 || i < w {
				continue // raster takes what lies just off the sheet for these dots'
			}
			d := math.Abs(got - want[i])
			worst, sum, dots = max(worst, d), sum+d, dots+1
			if d > 0.16 {
				t.Fatalf("trial %d: dot %d, %d covered to %.3f, there to %.3f", trial, i%w, i/w, got, want[i])
			}
		}
	}
	t.Logf("worst dot %.3f, on average %.5f", worst, sum/float64(dots))
	if sum/float64(dots) > 0.001 {
		t.Errorf("on average %.5f of a dot apart", sum/float64(dots))
	}
}

func TestCoverageAddsUpToTheArea(t *testing.T) {
	at := func(x, y float64) fixed.Point26_6 {
		return fixed.Point26_6{X: fixed.Int26_6(x * sub), Y: fixed.Int26_6(y * sub)}
	}
	square := []fixed.Point26_6{at(10.5, 10.25), at(30.5, 10.25), at(30.5, 30.25), at(10.5, 30.25)}
	inner := []fixed.Point26_6{at(15, 15), at(25, 15), at(25, 25), at(15, 25)}
	for _, test := range []struct {
		name    string
		rings   [][]fixed.Point26_6
		winding bool
		area    float64
	}{
		{"square", [][]fixed.Point26_6{square}, false, 400},
		{"square with a hole", [][]fixed.Point26_6{square, inner}, false, 300},
		{"two squares united", [][]fixed.Point26_6{square, inner}, true, 400},
		{"triangle", [][]fixed.Point26_6{{at(5, 5), at(65, 5), at(5, 45)}}, false, 1200},
		{"sliver", [][]fixed.Point26_6{{at(0, 0), at(70, 49), at(70, 50)}}, false, 35},
		{"half off each side", [][]fixed.Point26_6{{at(-100, 20), at(200, 20), at(200, 30), at(-100, 30)}}, false, 700},
		{"wholly off the sheet", [][]fixed.Point26_6{{at(-100, -20), at(-50, 20), at(-80, 90)}, {at(100, -20), at(150, 20), at(180, 90)}}, true, 0},
	} {
		var c coverage
		c.fit(70, 50)
		for _, pts := range test.rings {
			ring(&c, pts...)
		}
		got := 0.0
		for _, s := range swept(&c, test.winding) {
			got += s
		}
		if math.Abs(got-test.area) > 0.002*test.area+0.01 {
			t.Errorf("%s: %.2f dots covered, area %.2f", test.name, got, test.area)
		}
		for i, d := range c.enter {
			if d != 0 {
				t.Fatalf("%s: something is left at dot %d for the next path", test.name, i)
			}
		}
	}
}

func TestStrokesHaveTheirLengthTimesWidth(t *testing.T) {
	same := func(q Point) fixed.Point26_6 {
		return fixed.Point26_6{X: fixed.Int26_6(q.X * sub), Y: fixed.Int26_6(q.Y * sub)}
	}
	for _, test := range []struct {
		name string
		p    Path
		s    Style
		area float64
	}{
		{"line", Line(10, 20, 60, 20), Style{Width: 3}, 150},
		{"line with round ends", Line(10, 20, 60, 20), Style{Width: 6, Round: true}, 300 + 9*math.Pi},
		{"rectangle, all four corners rounded alike", Rectangle(10, 10, 40, 20), Style{Width: 4}, 4*120 - 4*4 + 4*math.Pi},
		{"dashes", Line(10, 20, 60, 20), Style{Width: 2, Dash: []float64{5, 5}}, 50},
		{"dashes of no length at all", Line(10, 20, 60, 20), Style{Width: 2, Dash: []float64{0, 0}}, 100},
		{"dashes round a ring", Rectangle(10, 10, 40, 20), Style{Width: 2, Dash: []float64{10, 10}}, 120},
		{"one point", Polyline(Point{5, 5}), Style{Width: 2}, 0},
		{"a ring without points", Path{{Closed: true}}, Style{Width: 2}, 0},
	} {
		var c coverage
		c.fit(80, 60)
		stroke(&c, test.p, test.s, 1, same)
		got := 0.0
		for _, s := range swept(&c, true) {
			got += s
		}
		if math.Abs(got-test.area) > 0.01*test.area+1e-9 {
			t.Errorf("%s: %.1f dots covered, want %.1f", test.name, got, test.area)
		}
	}
}

func TestAUsedPressGivesTheSameBytesAsANewOne(t *testing.T) {
	large, small := sample(), sample()
	small.Width, small.Height = 110, 60
	var used Press
	for _, f := range []Figure{large, small, large, small} {
		var a, b bytes.Buffer
		if err := used.WritePNG(&a, f, 200); err != nil {
			t.Fatal(err)
		}
		if err := WritePNG(&b, f, 200); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%g × %g pt: a used press gives other bytes", f.Width, f.Height)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	f := sample()
	f.Width, f.Height = 468, 400
	var p Press
	for b.Loop() {
		if err := p.WritePNG(&bytes.Buffer{}, f, 300); err != nil {
			b.Fatal(err)
		}
	}
}
