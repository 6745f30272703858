package gltf

import (
	"github.com/golang/geo/r3"
	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"

	"github.com/southyard/southyard/model"
)

// mesh is a set of triangles, counter-clockwise seen from outside, in the
// site's coordinates.
type mesh struct {
	corners []r3.Vector
	numbers []uint32
}

func (m *mesh) corner(p r3.Vector) int {
	m.corners = append(m.corners, p)
	return len(m.corners) - 1
}

func (m *mesh) triangle(a, b, c int) {
	m.numbers = append(m.numbers, uint32(a), uint32(b), uint32(c))
}

// faceMesh is a flat face, each corner once.
func faceMesh(faces ...model.Face) mesh {
	var m mesh
	for _, f := range faces {
		seen := map[r3.Vector]int{}
		for _, t := range f.Triangles() {
			var n [3]int
			for i, p := range t {
				k, ok := seen[p]
				if !ok {
					k = m.corner(p)
					seen[p] = k
				}
				n[i] = k
			}
			m.triangle(n[0], n[1], n[2])
		}
	}
	return m
}

// yUp turns the site's axes (z up, y north) into the format's (y up, z south).
func yUp(p r3.Vector) [3]float32 {
	return [3]float32{float32(p.X), float32(p.Z), float32(-p.Y)}
}

// add puts a mesh into the document and gives its number.
func (m mesh) add(doc *gltf.Document, name string, material int) int {
	positions := make([][3]float32, len(m.corners))
	for i, p := range m.corners {
		positions[i] = yUp(p)
	}
	doc.Meshes = append(doc.Meshes, &gltf.Mesh{Name: name, Primitives: []*gltf.Primitive{{
		Attributes: gltf.PrimitiveAttributes{gltf.POSITION: modeler.WritePosition(doc, positions)},
		Indices:    gltf.Index(modeler.WriteIndices(doc, m.numbers)),
		Material:   gltf.Index(material),
	}}})
	return len(doc.Meshes) - 1
}

// addLine puts a line through points into the document.
func addLine(doc *gltf.Document, name string, points []r3.Vector, material int) int {
	positions := make([][3]float32, len(points))
	for i, p := range points {
		positions[i] = yUp(p)
	}
	doc.Meshes = append(doc.Meshes, &gltf.Mesh{Name: name, Primitives: []*gltf.Primitive{{
		Attributes: gltf.PrimitiveAttributes{gltf.POSITION: modeler.WritePosition(doc, positions)},
		Material:   gltf.Index(material),
		Mode:       gltf.PrimitiveLineStrip,
	}}})
	return len(doc.Meshes) - 1
}
