package mapfile

import (
	"fmt"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
)

// house is written as a building is; its first part carries the windows and
// what is to be kept clear.
func (x *exporter) house() {
	first := len(x.features)
	x.building("house", x.site.House)
	if first == len(x.features) || x.features[first].Geometry.Type != "Polygon" {
		return
	}
	props := x.features[first].Properties
	var list []map[string]any
	for _, w := range x.site.Windows {
		row := map[string]any{
			"id": w.ID, "wall": w.Wall, "left_m": metres(w.Left), "sill_m": metres(w.Sill),
			"width_m": metres(w.Width), "height_m": metres(w.Height), "reveal_m": metres(w.Reveal), "frame": w.Frame,
		}
		if w.Glazing != "" {
			row["glazing"] = w.Glazing
		}
		list = append(list, row)
	}
	if len(list) > 0 {
		props["windows"] = list
	}
	var patches []map[string]any
	for _, k := range x.site.KeepClear {
		patches = append(patches, map[string]any{
			"id": k.ID, "on": k.On, "left_m": metres(k.Left), "up_m": metres(k.Up),
			"width_m": metres(k.Width), "height_m": metres(k.Height), "room_m": metres(k.Margin),
		})
	}
	if len(patches) > 0 {
		props["keep_clear"] = patches
	}
}

// building writes each part as a feature of the building's id.
func (x *exporter) building(kind string, b model.Building) {
	for i, p := range b.Parts {
		if len(p.Footprint) < 4 {
			continue
		}
		props := map[string]any{"kind": kind, "id": b.ID, "owner": string(b.Owner), "wall_height_m": metres(p.WallHeight)}
		if len(b.Parts) > 1 || p.ID != "" {
			props["part"] = p.ID
			if p.ID == "" {
				props["part"] = fmt.Sprintf("part %d", i+1)
			}
		}
		if p.Base != 0 || x.sloping() {
			props["base_m"] = metres(p.Base)
		}
		if p.Open != (kind == "porch") {
			props["open"] = p.Open
		}
		x.roof(p.Roof, props)
		x.add("Polygon", x.polygon(p.Footprint), props)
	}
	for _, c := range b.Chimneys {
		if kind != "house" {
			x.notes = append(x.notes, fmt.Sprintf("the chimneys of %s are left out: a map holds those of the house alone", b.ID))
			break
		}
		x.add("Point", x.position(c.At), map[string]any{"kind": "chimney", "id": c.ID, "width_m": metres(c.Width), "depth_m": metres(c.Depth), "top_m": metres(c.Top)})
	}
}

func (x *exporter) roof(r model.Roof, props map[string]any) {
	if r.Overhang != 0 || r.Kind != model.Flat && r.Kind != model.Plane {
		props["overhang_m"] = metres(r.Overhang)
	}
	switch r.Kind {
	case model.Plane:
		var planes [][][3]float64
		for _, plane := range r.Planes {
			var corners [][3]float64
			for _, c := range plane {
				at := x.position(orb.Point{c.X, c.Y})
				corners = append(corners, [3]float64{at[0], at[1], metres(c.Z)})
			}
			planes = append(planes, corners)
		}
		props["roof_planes"] = planes
		return
	case model.Gable:
		props["ridge_deg"] = degreesOf(r.Ridge.Degrees())
	case model.Shed:
		props["down_deg"] = degreesOf(r.Down.Degrees())
	case model.Flat:
		if r.Pitch > 0 {
			props["down_deg"] = degreesOf(r.Down.Degrees())
		}
	}
	props["roof"] = string(r.Kind)
	if r.Pitch > 0 {
		props["pitch_deg"] = degreesOf(r.Pitch.Degrees())
	}
}
