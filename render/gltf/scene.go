package gltf

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/golang/geo/r3"
	"github.com/qmuntal/gltf"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
)

// Options says what to write beside the things on the lot.
type Options struct {
	At time.Time // moment for which a sun light is set; zero: no light
}

// Write writes the scene as one binary file (.glb). The same site and moment
// give the same bytes.
func Write(w io.Writer, site *model.Site, o Options) error {
	doc, err := Document(site, o)
	if err != nil {
		return err
	}
	return gltf.NewEncoder(w).Encode(doc)
}

// Document is the scene of a site. It fails where the house or a building
// cannot stand, a window has no wall, or the sun is down at the moment asked
// for.
func Document(site *model.Site, o Options) (*gltf.Document, error) {
	s := &scene{doc: gltf.NewDocument(), materials: map[string]int{}}
	s.doc.Asset.Generator = "southyard"
	s.doc.Scenes[0].Name = site.Name
	s.doc.Scenes[0].Extras = map[string]any{
		"units": "metres", "axes": "+x east, +y up, +z south",
		"latitude": site.Place.Latitude(), "longitude": site.Place.Longitude(),
	}
	s.ground(site)
	if err := s.house(site); err != nil {
		return nil, err
	}
	for kind, list := range [][]model.Building{site.Neighbours, site.Porches} {
		for i := range list {
			if err := s.building([]string{"neighbour", "building"}[kind], &list[i]); err != nil {
				return nil, err
			}
		}
	}
	for i := range site.Trees {
		s.tree(&site.Trees[i], o.At)
	}
	for i := range site.Fences {
		f := &site.Fences[i]
		s.top(s.node("fence "+f.ID, faceMesh(f.Screens()...), "fence", map[string]any{
			"kind": "fence", "id": f.ID, "owner": string(f.Owner), "height_m": f.Height,
			"transmissivity_in_leaf": f.Transmissivity, "transmissivity_bare": f.Transmissivity,
		}))
	}
	for _, w := range site.Wires {
		var line []r3.Vector
		for _, p := range w.Line {
			line = append(line, r3.Vector{X: p[0], Y: p[1], Z: w.Height})
		}
		s.line("wire "+w.ID, line, map[string]any{"kind": "wire", "id": w.ID, "note": w.Note})
	}
	if !o.At.IsZero() {
		light, err := sunNode(s.doc, site.Place, o.At)
		if err != nil {
			return nil, err
		}
		s.doc.Nodes = append(s.doc.Nodes, light)
		s.top(len(s.doc.Nodes) - 1)
	}
	return s.doc, nil
}

type scene struct {
	doc       *gltf.Document
	materials map[string]int
}

func (s *scene) top(node int) {
	if node >= 0 {
		s.doc.Scenes[0].Nodes = append(s.doc.Scenes[0].Nodes, node)
	}
}

// node adds a mesh under a name; -1 where there is nothing to show.
func (s *scene) node(name string, m mesh, look string, extras map[string]any) int {
	if len(m.numbers) == 0 {
		return -1
	}
	return s.place(&gltf.Node{Name: name, Mesh: gltf.Index(m.add(s.doc, name, s.material(look, 1))), Extras: extras})
}

func (s *scene) place(n *gltf.Node) int {
	s.doc.Nodes = append(s.doc.Nodes, n)
	return len(s.doc.Nodes) - 1
}

// group adds a node without a mesh over others.
func (s *scene) group(name string, children []int, extras map[string]any) {
	if len(children) > 0 {
		s.top(s.place(&gltf.Node{Name: name, Children: children, Extras: extras}))
	}
}

func (s *scene) line(name string, points []r3.Vector, extras map[string]any) {
	if len(points) > 1 {
		s.top(s.place(&gltf.Node{Name: name, Mesh: gltf.Index(addLine(s.doc, name, points, s.material("line", 1))), Extras: extras}))
	}
}

func faceExtras(kind string, f model.Face, owner model.Owner) map[string]any {
	return map[string]any{
		"kind": kind, "id": f.ID, "part": f.Part, "owner": string(owner), "area_m2": f.Area,
		"tilt_deg": f.Tilt().Degrees(), "azimuth_deg": f.Azimuth().Degrees(),
		"transmissivity_in_leaf": 0, "transmissivity_bare": 0,
	}
}

// house adds walls with their windows cut out, the glass, the reveals and the
// roof planes.
func (s *scene) house(site *model.Site) error {
	faces, err := site.House.Faces()
	if err != nil {
		return fmt.Errorf("house: %w", err)
	}
	glass := map[string][]model.Face{}
	var nodes []int
	for _, w := range site.Windows {
		wall, err := model.FindWall(faces, w.Wall)
		if err != nil {
			return fmt.Errorf("window %s: %w", w.ID, err)
		}
		pane, reveal, err := model.GlassFace(w, wall)
		if err != nil {
			return fmt.Errorf("window %s: %w", w.ID, err)
		}
		glass[wall.ID] = append(glass[wall.ID], pane)
		extras := faceExtras("window", pane, site.House.Owner)
		extras["wall"], extras["glazing"], extras["frame_share"] = wall.ID, w.Glazing, w.Frame
		nodes = append(nodes, s.node("window "+w.ID, faceMesh(pane), "glass", extras))
		for _, side := range reveal {
			nodes = append(nodes, s.node("reveal "+side.ID, faceMesh(side), "wall", faceExtras("reveal", side, site.House.Owner)))
		}
	}
	for _, f := range faces {
		kind, look := string(f.Kind), "wall"
		switch f.Kind {
		case model.WallFace:
			f = model.CutWindows(f, glass[f.ID])
		case model.RoofFace:
			look = "roof"
		default:
			kind = "other"
		}
		nodes = append(nodes, s.node(kind+" "+f.ID, faceMesh(f), look, faceExtras(kind, f, site.House.Owner)))
	}
	s.group("house", present(nodes), map[string]any{"kind": "house", "id": site.House.ID})
	return nil
}

func (s *scene) building(kind string, b *model.Building) error {
	faces, err := b.Faces()
	if err != nil {
		return fmt.Errorf("%s %s: %w", kind, b.ID, err)
	}
	name := b.ID
	if !strings.HasPrefix(name, kind) {
		name = kind + " " + name
	}
	var nodes []int
	for _, f := range faces {
		nodes = append(nodes, s.node(name+": "+f.ID, faceMesh(f), kind, faceExtras(string(f.Kind), f, b.Owner)))
	}
	s.group(name, present(nodes), map[string]any{"kind": kind, "id": b.ID, "owner": string(b.Owner)})
	return nil
}

func present(nodes []int) []int {
	var out []int
	for _, n := range nodes {
		if n >= 0 {
			out = append(out, n)
		}
	}
	return out
}

func (s *scene) tree(t *model.Tree, at time.Time) {
	extras := func(kind string, inLeaf, bare float64) map[string]any {
		e := map[string]any{
			"kind": kind, "id": t.ID, "species": t.Species, "owner": string(t.Owner), "evergreen": t.Evergreen,
			"transmissivity_in_leaf": inLeaf, "transmissivity_bare": bare, "removable": t.Removable && !t.Keep,
		}
		if !at.IsZero() {
			e["transmissivity_at_the_moment"] = bare + (inLeaf-bare)*leafShare(t, at)
		}
		return e
	}
	crown := solidMesh(t.Crown())
	if n := s.node("crown "+t.ID, crown, "crown", extras("crown", t.InLeaf, t.Bare)); n >= 0 {
		// What the crown lets through shows as how far it can be seen through.
		through := t.InLeaf
		if !at.IsZero() {
			through = t.Bare + (t.InLeaf-t.Bare)*leafShare(t, at)
		}
		look := "crown"
		if t.Evergreen {
			look = "evergreen crown"
		}
		s.doc.Meshes[*s.doc.Nodes[n].Mesh].Primitives[0].Material = gltf.Index(s.material(look, 1-through))
		s.top(n)
	}
	s.top(s.node("trunk "+t.ID, solidMesh(t.TrunkSolid()), "trunk", extras("trunk", 0, 0)))
}

func leafShare(t *model.Tree, at time.Time) float64 {
	if t.Evergreen {
		return 1
	}
	return species.LeafShare(t.Leafing, min(at.YearDay(), 365))
}

// looks are the colours of things, linear red, green and blue.
var looks = map[string][3]float64{
	"wall": {0.80, 0.74, 0.62}, "roof": {0.28, 0.24, 0.23}, "glass": {0.25, 0.42, 0.55}, "neighbour": {0.55, 0.55, 0.55},
	"building": {0.62, 0.56, 0.48}, "fence": {0.42, 0.33, 0.24}, "trunk": {0.20, 0.13, 0.08}, "crown": {0.22, 0.40, 0.12},
	"evergreen crown": {0.07, 0.22, 0.12}, "ground": {0.38, 0.42, 0.26}, "line": {0.10, 0.10, 0.10},
}

// material is the number of a look with an opacity 0..1, made when first
// asked for. Faces show on both sides.
func (s *scene) material(look string, opacity float64) int {
	opacity = math.Round(max(0.08, min(1, opacity))*100) / 100 // a crown that lets all through still shows
	name := look
	if opacity < 1 {
		name = fmt.Sprintf("%s, %.0f %% see-through", look, 100*(1-opacity))
	}
	if n, ok := s.materials[name]; ok {
		return n
	}
	c := looks[look]
	m := &gltf.Material{
		Name: name, DoubleSided: true,
		PBRMetallicRoughness: &gltf.PBRMetallicRoughness{
			BaseColorFactor: &[4]float64{c[0], c[1], c[2], opacity},
			MetallicFactor:  gltf.Float(0), RoughnessFactor: gltf.Float(0.9),
		},
	}
	if opacity < 1 {
		m.AlphaMode = gltf.AlphaBlend
	}
	s.doc.Materials = append(s.doc.Materials, m)
	s.materials[name] = len(s.doc.Materials) - 1
	return s.materials[name]
}
