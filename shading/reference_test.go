package shading

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/testdata"
)

var update = flag.Bool("update", false, "write the reference lots anew")

const foot = 0.3048

var referenceTrees = []int{6, 24, 96, 384}

// referenceLot is a two-storey house of 28 × 30 ft under a hip roof, its
// long walls facing east and west, with ten windows: 18 receivers (4 walls,
// 10 windows, 4 roof planes). Its trees stand on a spiral around the house, the
// next one always a golden angle further, so that 6 trees stand close by, 24
// fill the lot, 96 the block and 384 are a wood. The benchmarks read it from the
// site files in testdata, which are written from here by -update.
func referenceLot(trees int) *model.Site {
	const width, depth = 28 * foot, 30 * foot
	site := &model.Site{House: model.Building{ID: "house", Parts: []model.Part{{
		ID:         "main",
		Footprint:  orb.Ring{{0, 0}, {width, 0}, {width, depth}, {0, depth}, {0, 0}},
		WallHeight: 18 * foot,
		Roof:       model.Roof{Kind: model.Hip, Pitch: s1.Angle(math.Atan2(7, 12)), Overhang: 1 * foot},
	}}}}
	window := func(wall string, left, sill, width, height float64) {
		site.Windows = append(site.Windows, model.Window{
			ID: fmt.Sprintf("W%d", len(site.Windows)+1), Wall: wall, Left: left * foot, Sill: sill * foot,
			Width: width * foot, Height: height * foot, Reveal: 0.25 * foot,
		})
	}
	for _, sill := range []float64{2.5, 11} {
		window("south", 4, sill, 3, 5)
		window("south", 20, sill, 3, 5)
		window("east", 6, sill, 2.5, 4.5)
		window("west", 20, sill, 2.5, 4.5)
		window("north", 12, sill, 2.5, 4)
	}
	shapes := []model.CrownShape{model.Ellipsoid, model.Paraboloid, model.Cone, model.HalfEllipsoid, model.Cylinder}
	for i := range trees {
		turn, away := 2.399963*float64(i), 7.5+2.7*math.Sqrt(float64(i)+0.5)
		height := 6 + math.Mod(7.3*float64(i), 16)
		site.Trees = append(site.Trees, model.Tree{
			ID: fmt.Sprintf("T%d", i+1), At: orb.Point{width/2 + away*math.Sin(turn), depth/2 + away*math.Cos(turn)},
			Height: height, SpreadX: 0.6 * height, SpreadY: (0.5 + 0.05*float64(i%5)) * height,
			CrownBase: height * (0.1 + 0.06*float64(i%4)), Shape: shapes[i%len(shapes)], Trunk: 0.02 * height,
			Evergreen: i%5 == 2, InLeaf: 0.15, Bare: 0.6,
		})
		if t := &site.Trees[i]; !t.Evergreen {
			t.Leafing = model.Leafing{Out: 110 + 8*float64(i%3), Fall: 300 - 6*float64(i%3), Ramp: 21}
		}
	}
	return site
}

func referenceName(trees int) string { return fmt.Sprintf("reference-%03d.yaml", trees) }

// readReference reads the reference lot as anyone would.
func readReference(t testing.TB, trees int) *model.Site {
	t.Helper()
	data, err := testdata.Sites.ReadFile(referenceName(trees))
	if err != nil {
		t.Fatal(err)
	}
	site, faults := sitefile.Read(referenceName(trees), data)
	for _, f := range faults {
		t.Error(f)
	}
	return site
}

// referenceFile is the reference lot as a site file.
func referenceFile(trees int) []byte {
	site := referenceLot(trees)
	m := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'g', -1, 64) } // to a thousandth of a millimetre
	date := func(day float64) string {
		return time.Date(2025, time.January, int(day), 0, 0, 0, 0, time.UTC).Format("2 Jan")
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, `# The reference lot of the benchmarks with %d trees, made by
# "go test ./shading -run ReferenceFiles -update". Lengths are metres. An invented lot.

name: Reference lot, %d trees
units: metres
place: {latitude: 41.65, longitude: -83.05, elevation: 180, time zone: America/New_York}
north: up is true north
lot: [[-18, -18], [27, -18], [27, 28], [-18, 28]]

house:
`, trees, trees)
	own := orb.Bound{Min: orb.Point{-18, -18}, Max: orb.Point{27, 28}}
	part := site.House.Parts[0]
	fmt.Fprintf(&b, "  footprint: [[0, 0], [%[1]s, 0], [%[1]s, %[2]s], [0, %[2]s]]\n", m(part.Footprint[2][0]), m(part.Footprint[2][1]))
	fmt.Fprintf(&b, "  wall height: %s\n  roof: {kind: hip, pitch: 7/12, overhang: %s}\n  windows:\n", m(part.WallHeight), m(part.Roof.Overhang))
	for _, w := range site.Windows {
		fmt.Fprintf(&b, "    - {id: %s, wall: %s, left: %s, sill: %s, width: %s, height: %s, reveal: %s, frame: 25 %%, glazing: double}\n",
			w.ID, w.Wall, m(w.Left), m(w.Sill), m(w.Width), m(w.Height), m(w.Reveal))
	}
	b.WriteString("\ntrees:\n")
	for _, t := range site.Trees {
		kind, leaf, owner := "unknown", fmt.Sprintf("leaf out: %s, leaf fall: %s, ", date(t.Leafing.Out), date(t.Leafing.Fall)), "neighbour"
		if t.Evergreen {
			kind, leaf = "unknown evergreen", ""
		}
		if own.Contains(t.At) {
			owner = "lot"
		}
		fmt.Fprintf(&b, "  - {id: %s, species: %s, at: [%s, %s], height: %s, spread: [%s, %s], crown base: %s, crown shape: %s, trunk: %s, in leaf: %s, bare: %s, %sowner: %s, cost: $1200}\n",
			t.ID, kind, m(t.At[0]), m(t.At[1]), m(t.Height), m(t.SpreadX), m(t.SpreadY), m(t.CrownBase), t.Shape, m(t.Trunk),
			m(t.InLeaf), m(t.Bare), leaf, owner)
	}
	b.WriteString("\nseason: October to April\nbudget: $9000\n")
	return b.Bytes()
}

func TestReferenceFilesHoldTheReferenceLot(t *testing.T) {
	for _, trees := range referenceTrees {
		if *update {
			if err := os.WriteFile(filepath.Join("..", "testdata", referenceName(trees)), referenceFile(trees), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		read, want := readReference(t, trees), referenceLot(trees)
		sc, err := NewScene(read)
		if err != nil {
			t.Fatal(err)
		}
		other, err := NewScene(want)
		if err != nil {
			t.Fatal(err)
		}
		if len(sc.Surfaces) != 18 || len(sc.Blockers) != len(other.Blockers) {
			t.Fatalf("%d trees: %d receivers and %d blockers, not 18 and %d", trees, len(sc.Surfaces), len(sc.Blockers), len(other.Blockers))
		}
		for i := range sc.Surfaces {
			a, b := &sc.Surfaces[i], &other.Surfaces[i]
			if a.ID != b.ID || math.Abs(a.Face.Area-b.Face.Area) > 1e-5 || a.Face.Origin.Sub(b.Face.Origin).Norm() > 1e-5 {
				t.Errorf("%d trees: receiver %s of %.4f m² at %v, not %s of %.4f m² at %v", trees, a.ID, a.Face.Area, a.Face.Origin, b.ID, b.Face.Area, b.Face.Origin)
			}
		}
		if len(read.Trees) != trees {
			t.Fatalf("%d trees, not %d", len(read.Trees), trees)
		}
		for i, a := range read.Trees {
			b := want.Trees[i]
			if a.ID != b.ID || a.Shape != b.Shape || a.Evergreen != b.Evergreen {
				t.Errorf("tree %s is %s, evergreen %t; want %s, %s, %t", a.ID, a.Shape, a.Evergreen, b.ID, b.Shape, b.Evergreen)
			}
			for _, v := range [][2]float64{
				{a.At[0], b.At[0]}, {a.At[1], b.At[1]}, {a.Height, b.Height}, {a.SpreadX, b.SpreadX}, {a.SpreadY, b.SpreadY}, {a.CrownBase, b.CrownBase},
				{a.Trunk, b.Trunk}, {a.InLeaf, b.InLeaf}, {a.Bare, b.Bare}, {a.Leafing.Out, b.Leafing.Out}, {a.Leafing.Fall, b.Leafing.Fall}, {a.Leafing.Ramp, b.Leafing.Ramp},
			} {
				if math.Abs(v[0]-v[1]) > 1e-5 {
					t.Errorf("%d trees: tree %s has a value of %g, not %g", trees, a.ID, v[0], v[1])
				}
			}
		}
	}
}
