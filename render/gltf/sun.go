package gltf

import (
	"fmt"
	"math"
	"time"

	"github.com/golang/geo/r3"
	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/lightspunctual"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun"
)

// clearSun is the light of a clear sun in lux, for show: common practice, no
// source.
const clearSun = 100_000

// sunNode adds a directional light (KHR_lights_punctual, Khronos 2018) that
// shines as the sun does at a moment, and gives its node.
func sunNode(doc *gltf.Document, place model.Place, at time.Time) (*gltf.Node, error) {
	height := place.Elevation
	if math.IsNaN(height) {
		height = 0
	}
	p := sun.At(at, place.LatLng, height)
	if p.Altitude <= 0 {
		return nil, fmt.Errorf("at %s the sun is below the horizon (altitude %.1f°): choose a moment of the day, such as 2026-12-21T12:00:00-05:00", at.Format(time.RFC3339), p.Altitude.Degrees())
	}
	intensity := float64(clearSun)
	doc.ExtensionsUsed = append(doc.ExtensionsUsed, lightspunctual.ExtensionName)
	if doc.Extensions == nil {
		doc.Extensions = gltf.Extensions{}
	}
	doc.Extensions[lightspunctual.ExtensionName] = map[string]any{
		"lights": []*lightspunctual.Light{{Type: lightspunctual.TypeDirectional, Name: "sun", Intensity: &intensity}},
	}
	toSun := p.Vector()
	return &gltf.Node{
		Name: "sun", Rotation: aiming(toSun.Mul(-1)),
		Translation: [3]float64{100 * toSun.X, 100 * toSun.Z, -100 * toSun.Y}, // for show: the direction alone counts
		Extensions:  gltf.Extensions{lightspunctual.ExtensionName: map[string]any{"light": 0}},
		Extras: map[string]any{
			"kind": "sun", "time": at.Format(time.RFC3339),
			"altitude_deg": p.Altitude.Degrees(), "azimuth_deg": p.Azimuth.Degrees(),
		},
	}, nil
}

// aiming is the rotation (x, y, z, w) that turns the way a light shines, the
// format's -z, into a direction of the site's axes: the least turn, about the
// cross product of the two.
func aiming(d r3.Vector) [4]float64 {
	to := r3.Vector{X: d.X, Y: d.Z, Z: -d.Y}.Normalize()
	from := r3.Vector{Z: -1}
	w := 1 + from.Dot(to)
	if w < 1e-12 { // straight back: half a turn about y
		return [4]float64{0, 1, 0, 0}
	}
	axis := from.Cross(to)
	norm := math.Sqrt(axis.Norm2() + w*w)
	return [4]float64{axis.X / norm, axis.Y / norm, axis.Z / norm, w / norm}
}
