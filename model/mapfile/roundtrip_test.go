package mapfile

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
)

func readSite(t *testing.T, name string, data []byte) *model.Site {
	t.Helper()
	site, faults := sitefile.Read(name, data)
	if sitefile.Bad(faults) {
		t.Fatalf("%v\n%s", faults, data)
	}
	return site
}

// There and back, every corner, height and angle of the example lot keeps its
// place to a centimetre; the origin alone moves to the lot's middle.
func TestExportAndImportAgreeToACentimetre(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*", "site.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatal("no example lots")
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		was, faults := sitefile.Read(file, data)
		if sitefile.Bad(faults) {
			t.Logf("%s does not read: %v", file, faults)
			continue
		}
		for _, metric := range []bool{false, true} {
			geo, _, err := GeoJSON(was)
			if err != nil {
				t.Fatal(err)
			}
			yaml, _, err := Site(Source{"map", geo}, nil, Options{Metric: metric})
			if err != nil {
				t.Fatalf("%s: %v", file, err)
			}
			compare(t, file, was, readSite(t, "again", yaml))
		}
	}
}

func compare(t *testing.T, file string, was, is *model.Site) {
	t.Helper()
	shift := orb.Point{is.Lot[0][0] - was.Lot[0][0], is.Lot[0][1] - was.Lot[0][1]}
	near := func(what string, a, b, tolerance float64) {
		t.Helper()
		if !(math.Abs(a-b) <= tolerance) {
			t.Errorf("%s, %s: %v became %v", file, what, a, b)
		}
	}
	point := func(what string, a, b orb.Point) {
		t.Helper()
		if d := math.Hypot(a[0]+shift[0]-b[0], a[1]+shift[1]-b[1]); !(d < 0.01) {
			t.Errorf("%s, %s moved by %.4f m", file, what, d)
		}
	}
	row := func(what string, a, b []orb.Point) {
		t.Helper()
		if len(a) != len(b) {
			t.Fatalf("%s, %s: %d corners became %d", file, what, len(a), len(b))
		}
		for i := range a {
			point(what, a[i], b[i])
		}
	}
	buildings := func(what string, a, b []model.Building) {
		t.Helper()
		if len(a) != len(b) {
			t.Fatalf("%s, %s: %d became %d", file, what, len(a), len(b))
		}
		for i := range a {
			if a[i].ID != b[i].ID || a[i].Owner != b[i].Owner || len(a[i].Parts) != len(b[i].Parts) || len(a[i].Chimneys) != len(b[i].Chimneys) {
				t.Fatalf("%s, %s: %+v became %+v", file, what, a[i], b[i])
			}
			for k, p := range a[i].Parts {
				q, name := b[i].Parts[k], what+" "+a[i].ID+" "+p.ID
				row(name, p.Footprint, q.Footprint)
				near(name+" base", p.Base, q.Base, 0.001)
				near(name+" wall height", p.WallHeight, q.WallHeight, 0.001)
				near(name+" pitch", p.Roof.Pitch.Degrees(), q.Roof.Pitch.Degrees(), 1e-4)
				near(name+" overhang", p.Roof.Overhang, q.Roof.Overhang, 0.001)
				near(name+" ridge", math.Abs(math.Sin((p.Roof.Ridge - q.Roof.Ridge).Radians())), 0, 1e-5)
				near(name+" down", math.Sin((p.Roof.Down-q.Roof.Down).Radians()/2), 0, 1e-5)
				if p.Roof.Kind != q.Roof.Kind || p.Open != q.Open {
					t.Errorf("%s, %s: roof %v, open %v became %v, %v", file, name, p.Roof.Kind, p.Open, q.Roof.Kind, q.Open)
				}
			}
			for k, c := range a[i].Chimneys {
				d := b[i].Chimneys[k]
				point("chimney "+c.ID, c.At, d.At)
				near("chimney width", c.Width, d.Width, 0.001)
				near("chimney top", c.Top, d.Top, 0.001)
				near("chimney twist", math.Sin(2*(c.Twist-d.Twist)), 0, 1e-5)
			}
		}
	}
	row("lot", was.Lot, is.Lot)
	buildings("house", []model.Building{was.House}, []model.Building{is.House})
	buildings("neighbours", was.Neighbours, is.Neighbours)
	buildings("porches", was.Porches, is.Porches)
	if len(was.Windows) != len(is.Windows) || len(was.Trees) != len(is.Trees) || len(was.Fences) != len(is.Fences) || len(was.Wires) != len(is.Wires) {
		t.Fatalf("%s: counts of windows, trees, fences or wires differ", file)
	}
	for i, a := range was.Windows {
		b := is.Windows[i]
		if a.ID != b.ID || a.Wall != b.Wall || a.Glazing != b.Glazing {
			t.Errorf("%s: window %+v became %+v", file, a, b)
		}
		for _, d := range [][2]float64{{a.Left, b.Left}, {a.Sill, b.Sill}, {a.Width, b.Width}, {a.Height, b.Height}, {a.Reveal, b.Reveal}, {a.Frame, b.Frame}} {
			near("window "+a.ID, d[0], d[1], 0.001)
		}
	}
	for i, a := range was.Fences {
		row("fence "+a.ID, a.Line, is.Fences[i].Line)
		near("fence "+a.ID, a.Height, is.Fences[i].Height, 0.001)
		near("fence "+a.ID, a.Transmissivity, is.Fences[i].Transmissivity, 1e-4)
	}
	for i, a := range was.Wires {
		row("wire "+a.ID, a.Line, is.Wires[i].Line)
	}
	for i, a := range was.Trees {
		b := is.Trees[i]
		point("tree "+a.ID, a.At, b.At)
		if a.ID != b.ID || a.Owner != b.Owner || a.Shape != b.Shape || a.Keep != b.Keep || a.Removable != b.Removable || !strings.EqualFold(a.Species, b.Species) {
			t.Errorf("%s: tree %+v became %+v", file, a, b)
		}
		for what, d := range map[string][2]float64{
			"height": {a.Height, b.Height}, "crown base": {a.CrownBase, b.CrownBase}, "spread x": {a.SpreadX, b.SpreadX},
			"spread y": {a.SpreadY, b.SpreadY}, "trunk": {a.Trunk, b.Trunk}, "in leaf": {a.InLeaf, b.InLeaf}, "bare": {a.Bare, b.Bare},
			"ground": {a.Ground, b.Ground}, "cost": {a.Cost, b.Cost},
		} {
			near("tree "+a.ID+" "+what, d[0], d[1], 0.001)
		}
		if a.SpreadX != a.SpreadY {
			near("tree "+a.ID+" twist", math.Sin(a.Twist-b.Twist), 0, 1e-5)
		}
	}
}
