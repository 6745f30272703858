package gltf

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/lightspunctual"
	"github.com/qmuntal/gltf/modeler"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

var noon = time.Date(2026, 2, 10, 12, 30, 0, 0, time.FixedZone("", -5*3600))

func exampleSite(t *testing.T) *model.Site {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "alder-row", "site.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	site, faults := sitefile.Read("site.yaml", data)
	if sitefile.Wrong(faults) > 0 {
		t.Fatal(faults)
	}
	return site
}

// piece is a node read back: its triangles in the site's axes.
type piece struct {
	name      string
	extras    map[string]any
	positions [][3]float32
	numbers   []uint32
	triangles [][3]r3.Vector
}

func written(t *testing.T, site *model.Site, o Options) (*gltf.Document, []piece) {
	t.Helper()
	var file bytes.Buffer
	if err := Write(&file, site, o); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(file.Bytes(), []byte("glTF\x02\x00\x00\x00")) {
		t.Fatal("not a binary glTF 2.0 file")
	}
	doc := new(gltf.Document)
	if err := gltf.NewDecoder(bytes.NewReader(file.Bytes())).Decode(doc); err != nil {
		t.Fatal(err)
	}
	var out []piece
	for _, n := range doc.Nodes {
		p := piece{name: n.Name}
		p.extras, _ = n.Extras.(map[string]any)
		if n.Mesh == nil || doc.Meshes[*n.Mesh].Primitives[0].Indices == nil {
			out = append(out, p)
			continue
		}
		prim := doc.Meshes[*n.Mesh].Primitives[0]
		var err error
		if p.positions, err = modeler.ReadPosition(doc, doc.Accessors[prim.Attributes[gltf.POSITION]], nil); err != nil {
			t.Fatal(err)
		}
		if p.numbers, err = modeler.ReadIndices(doc, doc.Accessors[*prim.Indices], nil); err != nil {
			t.Fatal(err)
		}
		for i := 0; i+2 < len(p.numbers); i += 3 {
			var tri [3]r3.Vector
			for k := range 3 {
				c := p.positions[p.numbers[i+k]]
				tri[k] = r3.Vector{X: float64(c[0]), Y: -float64(c[2]), Z: float64(c[1])}
			}
			p.triangles = append(p.triangles, tri)
		}
		out = append(out, p)
	}
	return doc, out
}

func named(t *testing.T, pieces []piece, name string) piece {
	t.Helper()
	for _, p := range pieces {
		if p.name == name {
			return p
		}
	}
	var all []string
	for _, p := range pieces {
		all = append(all, p.name)
	}
	t.Fatalf("no node %q among %s", name, strings.Join(all, ", "))
	return piece{}
}

func TestEveryThingIsANodeOfItsOwn(t *testing.T) {
	site := exampleSite(t)
	doc, pieces := written(t, site, Options{At: noon})
	for _, name := range []string{
		"ground", "lot line", "house", "wall south", "window W1", "reveal W1-head", "roof roof-south", "crown T1", "trunk T1",
		"neighbour number 12", "neighbour number 12: east", "building side porch", "fence back fence", "wire service drop", "sun",
	} {
		named(t, pieces, name)
	}
	names := map[string]bool{}
	for _, p := range pieces {
		if names[p.name] {
			t.Errorf("two nodes are called %q", p.name)
		}
		names[p.name] = true
	}
	for i, tree := range site.Trees {
		e := named(t, pieces, "crown "+tree.ID).extras
		for key, want := range map[string]any{
			"transmissivity_in_leaf": tree.InLeaf, "transmissivity_bare": tree.Bare,
			"owner": string(tree.Owner), "species": tree.Species, "id": tree.ID,
		} {
			if e[key] != want {
				t.Errorf("tree %d: %s is %v, want %v", i, key, e[key], want)
			}
		}
	}
	// Every node hangs in the scene exactly once.
	seen := make([]int, len(doc.Nodes))
	var walk func(n int)
	walk = func(n int) {
		seen[n]++
		for _, c := range doc.Nodes[n].Children {
			walk(c)
		}
	}
	for _, n := range doc.Scenes[0].Nodes {
		walk(n)
	}
	for n, times := range seen {
		if times != 1 {
			t.Errorf("node %q hangs in the scene %d times", doc.Nodes[n].Name, times)
		}
	}
	for _, a := range doc.Accessors { // glTF 2.0, 3.6.2.4: positions must state their bounds
		if a.Type == gltf.AccessorVec3 && (len(a.Min) != 3 || len(a.Max) != 3) {
			t.Error("a position accessor has no bounds")
		}
	}
}

func TestFacesKeepTheirAreasAndLookOutward(t *testing.T) {
	site := exampleSite(t)
	_, pieces := written(t, site, Options{})
	scene, err := shading.NewScene(site)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range scene.Surfaces {
		p := named(t, pieces, string(s.Kind)+" "+s.ID)
		area := 0.0
		for _, tri := range p.triangles {
			n := tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0]))
			area += n.Norm() / 2
			if n.Norm() > 1e-4 && n.Normalize().Dot(s.Face.N) < 0.999 {
				t.Errorf("%s: a triangle looks %v, not %v", p.name, n.Normalize(), s.Face.N)
			}
		}
		if math.Abs(area-s.Face.Area) > 1e-4*s.Face.Area {
			t.Errorf("%s: %.4f m², want %.4f", p.name, area, s.Face.Area)
		}
	}
}

// watertight counts edges that are not shared by exactly two triangles running
// opposite ways, and gives the volume inside (divergence theorem).
func watertight(p piece) (open int, volume float64) {
	edges := map[[2]uint32]int{}
	for i := 0; i+2 < len(p.numbers); i += 3 {
		for k := range 3 {
			edges[[2]uint32{p.numbers[i+k], p.numbers[i+(k+1)%3]}]++
		}
	}
	for e, n := range edges {
		if n != 1 || edges[[2]uint32{e[1], e[0]}] != 1 {
			open++
		}
	}
	for _, tri := range p.triangles {
		volume += tri[0].Dot(tri[1].Cross(tri[2])) / 6
	}
	return open, volume
}

func TestCrownsOfEveryShapeAreWatertightAndHoldTheirVolume(t *testing.T) {
	for _, shape := range []model.CrownShape{model.Ellipsoid, model.HalfEllipsoid, model.Paraboloid, model.Cone, model.Cylinder} {
		tree := model.Tree{ID: "T1", At: orb.Point{12, -7}, Ground: 0.5, Height: 15, SpreadX: 9, SpreadY: 6, Twist: 0.4, CrownBase: 3, Shape: shape, Trunk: 0.4, InLeaf: 0.2, Bare: 0.6}
		site := &model.Site{House: house(), Trees: []model.Tree{tree}}
		_, pieces := written(t, site, Options{})
		for name, solid := range map[string]model.Solid{"crown T1": tree.Crown(), "trunk T1": tree.TrunkSolid()} {
			open, volume := watertight(named(t, pieces, name))
			if open > 0 {
				t.Errorf("%s, %s: %d open edges", shape, name, open)
			}
			if want := solid.Volume(); math.Abs(volume-want) > 0.006*want {
				t.Errorf("%s, %s: %.3f m³, want %.3f", shape, name, volume, want)
			}
		}
	}
}

// The volume of a half ellipsoid is 2/3·π·a·b·h, of a cone 1/3·π·a·b·h
// (Euclid XII.10): the mesh is also held against the closed form itself.
func TestMeshVolumesAgreeWithClosedForms(t *testing.T) {
	for shape, share := range map[model.CrownShape]float64{model.Ellipsoid: 2. / 3, model.HalfEllipsoid: 2. / 3, model.Cone: 1. / 3, model.Paraboloid: 1. / 2, model.Cylinder: 1} {
		m := solidMesh(model.Tree{Height: 12, CrownBase: 2, SpreadX: 8, SpreadY: 6, Shape: shape}.Crown())
		volume := 0.0
		for i := 0; i+2 < len(m.numbers); i += 3 {
			a, b, c := m.corners[m.numbers[i]], m.corners[m.numbers[i+1]], m.corners[m.numbers[i+2]]
			volume += a.Dot(b.Cross(c)) / 6
		}
		if want := share * math.Pi * 4 * 3 * 10; math.Abs(volume-want) > 0.006*want {
			t.Errorf("%s: %.3f m³, want %.3f", shape, volume, want)
		}
	}
}

func house() model.Building {
	return model.Building{ID: "house", Parts: []model.Part{{
		Footprint: orb.Ring{{0, 0}, {8, 0}, {8, 6}, {0, 6}, {0, 0}}, WallHeight: 5,
		Roof: model.Roof{Kind: model.Gable, Ridge: s1.Angle(math.Pi / 2), Pitch: s1.Angle(0.6), Overhang: 0.3},
	}}}
}

func TestSunLightShinesFromTheSun(t *testing.T) {
	site := exampleSite(t)
	for _, hour := range []int{8, 10, 12, 16} {
		at := time.Date(2026, 6, 21, hour, 0, 0, 0, time.FixedZone("", -4*3600))
		doc, _ := written(t, site, Options{At: at})
		lights, ok := doc.Extensions[lightspunctual.ExtensionName].(lightspunctual.Lights)
		if !ok || len(lights) != 1 || lights[0].Type != lightspunctual.TypeDirectional {
			t.Fatalf("lights are %v", doc.Extensions)
		}
		n := doc.Nodes[len(doc.Nodes)-1]
		if n.Name != "sun" || n.Extensions[lightspunctual.ExtensionName] != lightspunctual.LightIndex(0) {
			t.Fatalf("the last node is %v", n)
		}
		// Turn the light's -z by its quaternion: v + 2·q×(q×v + w·v).
		q, w, v := r3.Vector{X: n.Rotation[0], Y: n.Rotation[1], Z: n.Rotation[2]}, n.Rotation[3], r3.Vector{Z: -1}
		shines := v.Add(q.Cross(q.Cross(v).Add(v.Mul(w))).Mul(2))
		p := sun.At(at, site.Place.LatLng, site.Place.Elevation).Vector()
		if off := (r3.Vector{X: shines.X, Y: -shines.Z, Z: shines.Y}).Add(p).Norm(); off > 1e-9 {
			t.Errorf("%v: the light is %g off the sun", at, off)
		}
	}
	night := time.Date(2026, 6, 21, 2, 0, 0, 0, time.FixedZone("", -4*3600))
	if err := Write(&bytes.Buffer{}, site, Options{At: night}); err == nil || !strings.Contains(err.Error(), "below the horizon") {
		t.Errorf("a light at night: %v", err)
	}
}

func TestSameSiteGivesSameBytes(t *testing.T) {
	var a, b bytes.Buffer
	site := exampleSite(t)
	if err := Write(&a, site, Options{At: noon}); err != nil {
		t.Fatal(err)
	}
	if err := Write(&b, site, Options{At: noon}); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two runs wrote different files")
	}
}

// TestMeshLiesBetween proves what the check against a ray-tracing kernel in
// package shading rests on: the mesh of every shape lies within the solid with
// its half-widths 1.00144 times as large, and holds the solid made 0.997 times
// as large about its middle.
func TestMeshLiesBetween(t *testing.T) {
	const out, in = 1.00144, 0.997
	for _, shape := range []model.CrownShape{model.Ellipsoid, model.HalfEllipsoid, model.Paraboloid, model.Cone, model.Cylinder} {
		tree := model.Tree{At: orb.Point{3, -2}, Ground: 0.5, Height: 15, SpreadX: 9, SpreadY: 6, Twist: 0.4, CrownBase: 3, Shape: shape, Trunk: 0.4}
		for _, s := range []model.Solid{tree.Crown(), tree.TrunkSolid()} {
			m := solidMesh(s)
			for _, c := range m.corners {
				x, y := s.Local(c.X, c.Y)
				if math.Hypot(x, y) > out*s.Radius(c.Z)+1e-9 {
					t.Errorf("%s: corner %v lies %.5f half-widths out, the skin %.5f", shape, c, math.Hypot(x, y), s.Radius(c.Z))
				}
			}
			// The mesh is convex: what lies behind all its faces is inside.
			middle := r3.Vector{X: s.At[0], Y: s.At[1], Z: (s.Bottom + s.Top) / 2}
			skin := s.Skin()
			for i := 0; i+2 < len(m.numbers); i += 3 {
				a, b, c := m.corners[m.numbers[i]], m.corners[m.numbers[i+1]], m.corners[m.numbers[i+2]]
				n := b.Sub(a).Cross(c.Sub(a)).Normalize()
				for _, p := range skin {
					if inside := middle.Add(p.Sub(middle).Mul(in)); inside.Sub(a).Dot(n) > 1e-9 {
						t.Fatalf("%s: %v of the smaller solid lies %.4f m outside the mesh", shape, inside, inside.Sub(a).Dot(n))
					}
				}
			}
		}
	}
}
