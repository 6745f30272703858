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
	if sitefile.Wrong(faults) > 0 {
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
		if sitefile.Wrong(faults) > 0 {
			t.Errorf("%s does not read: %v", file, faults)
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
	near("slope", was.Terrain.SlopeRise, is.Terrain.SlopeRise, 1e-7)
	near("uphill", math.Sin((was.Terrain.SlopeUphill-is.Terrain.SlopeUphill).Radians()/2), 0, 1e-7)
	if len(was.Terrain.Spots) != len(is.Terrain.Spots) {
		t.Fatalf("%s: %d spot heights became %d", file, len(was.Terrain.Spots), len(is.Terrain.Spots))
	}
	for i, spot := range was.Terrain.Spots {
		point("spot height", spot.At, is.Terrain.Spots[i].At)
		near("spot height", spot.Up, is.Terrain.Spots[i].Up, 0.001)
	}
	if len(was.Terrain.Skyline) != len(is.Terrain.Skyline) {
		t.Fatalf("%s: %d readings of the skyline became %d", file, len(was.Terrain.Skyline), len(is.Terrain.Skyline))
	}
	for i, p := range was.Terrain.Skyline {
		near("skyline azimuth", p.Azimuth.Degrees(), is.Terrain.Skyline[i].Azimuth.Degrees(), 1e-5)
		near("skyline altitude", p.Altitude.Degrees(), is.Terrain.Skyline[i].Altitude.Degrees(), 1e-5)
	}
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
	if len(was.KeepClear) != len(is.KeepClear) {
		t.Fatalf("%s: %d patches to keep clear became %d", file, len(was.KeepClear), len(is.KeepClear))
	}
	for i, a := range was.KeepClear {
		b := is.KeepClear[i]
		if a.ID != b.ID || a.On != b.On {
			t.Errorf("%s: keep clear %+v became %+v", file, a, b)
		}
		for _, d := range [][2]float64{{a.Left, b.Left}, {a.Up, b.Up}, {a.Width, b.Width}, {a.Height, b.Height}, {a.Margin, b.Margin}} {
			near("keep clear "+a.ID, d[0], d[1], 0.001)
		}
	}
	for i, a := range was.Fences {
		row("fence "+a.ID, a.Line, is.Fences[i].Line)
		near("fence "+a.ID, a.Height, is.Fences[i].Height, 0.001)
		near("foot of fence "+a.ID, a.Base, is.Fences[i].Base, 0.005)
		for k := range a.Feet {
			near("foot of fence "+a.ID, a.Feet[k], is.Fences[i].Feet[k], 0.005)
		}
		near("fence "+a.ID, a.Transmissivity, is.Fences[i].Transmissivity, 1e-4)
	}
	for i, a := range was.Wires {
		row("wire "+a.ID, a.Line, is.Wires[i].Line)
	}
	for i, a := range was.Trees {
		b := is.Trees[i]
		point("tree "+a.ID, a.At, b.At)
		if a.ID != b.ID || a.Owner != b.Owner || a.Shape != b.Shape || a.Keep != b.Keep || a.Evergreen != b.Evergreen || a.Removable != b.Removable || !strings.EqualFold(a.Species, b.Species) {
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

// Everything the examples happen not to have: a slope, explicit roof planes,
// a falling flat roof, a shed with posts, a see-through fence, a turned sketch in metres.
const odd = `
name: "odd: all of it"
units: metres
place: {latitude: -37.81, longitude: 144.96, elevation: 31 m, time zone: Australia/Melbourne}
north: {up points: N 23° W, measured: true}
terrain: {slope: 6 %, uphill: N 40° E, skyline: [{bearing: 10°, altitude: 3°}, {bearing: 340°, altitude: 7.5°}]}
lot: [[0, 0], [20, 0], [22, 40], [0, 40]]
house:
  parts:
    - {id: main, footprint: [[4, 10], [12, 10], [12, 20], [4, 20]], base: 0 m, wall height: 5, roof: {kind: planes, planes: [[[4, 10, 5], [12, 10, 5], [12, 15, 8], [4, 15, 8]], [[12, 20, 5], [4, 20, 5], [4, 15, 8], [12, 15, 8]]]}}
    - {footprint: [[12, 12], [16, 12], [16, 18], [12, 18]], wall height: 3, roof: {kind: flat, pitch: 3°, down: east}}
  chimneys:
    - {id: stack, at: [8, 17], width: 0.6, depth: 0.9, top: 9.5}
porches:
  - {id: car stand, footprint: [[4, 2], [8, 2], [8, 7], [4, 7]], wall height: 2.5, roof: {kind: shed, down: west, pitch: 5°, overhang: 0}}
sheds:
  - {id: hut, owner: neighbour, footprint: [[15, 30], [18, 30], [18, 33], [15, 33]], wall height: 2.2, roof: {kind: hip, pitch: 30°}}
fences:
  - {id: lattice, line: [[0, 0], [0, 40], [10, 40]], height: 1.8, lets through: 35 %, owner: neighbour}
trees:
  - {id: "1", species: silver maple, at: [18, 5], height: 14.03, spread: [7, 11], crown base: 2.5, ground: 0 m, keep: yes}
  - {id: odd one, species: unknown evergreen, at: [-3, 22], height: 9, owner: street, notes: ["a: b", "c # d"]}
  - {id: T3, at: [2, 36]}
  - {id: T4, species: zzyzx tree, evergreen: yes, at: [3, 36]}
keep clear:
  - {id: "gas meter: main", on: main/south-west, left: 1.2, up: 40 cm, width: 0.35, height: 55 cm, room: 1}
  - {on: roof-south-east, left: 3.4, up: 2.25, width: 12 cm, height: 12 cm}
  - {id: skylight, on: roof-north-east, left: 0, up: 0.5, width: 0.78, height: 1.18, room: 0}
`

// oddBank is the odd site on ground told by spot heights.
var oddBank = strings.Replace(odd, "slope: 6 %, uphill: N 40° E", "spots: [{at: [0, 0], up: 1.234}, {at: [21, 1], up: 2}, {at: [0, 39], down: 75 cm}, {at: [22.5, 38], up: 0}]", 1)

func TestOddSiteGoesThereAndBackToo(t *testing.T) {
	for _, text := range []string{odd, oddBank} {
		thereAndBack(t, readSite(t, "odd", []byte(text)))
	}
}

func thereAndBack(t *testing.T, was *model.Site) {
	t.Helper()
	geo, _, err := GeoJSON(was)
	if err != nil {
		t.Fatal(err)
	}
	for _, metric := range []bool{false, true} {
		yaml, _, err := Site(Source{"map", geo}, nil, Options{Metric: metric})
		if err != nil {
			t.Fatalf("%v\n%s", err, geo)
		}
		is := readSite(t, "again", yaml)
		compare(t, "odd", was, is)
		if is.Name != was.Name || is.Place.Zone != was.Place.Zone || math.Abs(is.Place.Elevation-31) > 0.001 {
			t.Errorf("%q, %+v", is.Name, is.Place)
		}
		a, errA := was.House.Faces()
		b, errB := is.House.Faces()
		if errA != nil || errB != nil || len(a) != len(b) {
			t.Fatal(errA, errB, len(a), len(b))
		}
		for i := range a {
			if a[i].ID != b[i].ID || math.Abs(a[i].Area-b[i].Area) > 0.01 || a[i].N.Sub(b[i].N).Norm() > 1e-3 {
				t.Errorf("face %s, %.3f m², %v became %s, %.3f m², %v", a[i].ID, a[i].Area, a[i].N, b[i].ID, b[i].Area, b[i].N)
			}
		}
		if len(is.Assumed) == 0 || len(is.Trees[2].Notes) != 0 || is.Trees[1].Notes[0] != "a: b; c # d" {
			t.Errorf("notes %q, %d assumed", is.Trees[1].Notes, len(is.Assumed))
		}
		if again, _, err := GeoJSON(was); err != nil || string(again) != string(geo) {
			t.Error("the same site gave other bytes")
		}
	}
}
