package mapfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
)

// round9 rounds degrees to nine decimals, a tenth of a millimetre.
func round9(degrees float64) float64 { return math.Round(degrees*1e9) / 1e9 }

type outGeometry struct {
	Type        string `json:"type"`
	Coordinates any    `json:"coordinates"`
}

type outFeature struct {
	Type       string         `json:"type"`
	Geometry   outGeometry    `json:"geometry"`
	Properties map[string]any `json:"properties"`
}

// GeoJSON writes what stands on a site as a map (RFC 7946): lot, house and
// other buildings part by part, chimneys, fences, wires and trees, with their
// sizes as properties in metres and degrees. Site reads it back to within a
// centimetre. The site's origin is put at the site's latitude and longitude,
// so the map lies as true as these were stated. Notes say what a map does not
// hold. Features stand one on a line; the same site gives the same bytes.
func GeoJSON(site *model.Site) (data []byte, notes []string, err error) {
	x := &exporter{plane: planeAt(site.Place.LatLng), site: site}
	if len(site.Lot) > 3 {
		lot := map[string]any{"kind": "lot", "name": site.Name}
		if site.Turn != 0 {
			lot["sketch_up_deg"] = degreesOf(site.Turn.Degrees())
		}
		if !math.IsNaN(site.Place.Elevation) {
			lot["elevation_m"] = metres(site.Place.Elevation)
		}
		if site.Place.Zone != "" {
			if _, err := time.LoadLocation(site.Place.Zone); err == nil {
				lot["time_zone"] = site.Place.Zone
			}
		}
		if t := site.Terrain; t.SlopeRise != 0 {
			lot["slope_percent"], lot["uphill_deg"] = degreesOf(100*t.SlopeRise), degreesOf(t.SlopeUphill.Degrees())
		}
		var skyline [][2]float64
		for _, p := range site.Terrain.Skyline {
			skyline = append(skyline, [2]float64{degreesOf(p.Azimuth.Degrees()), degreesOf(p.Altitude.Degrees())})
		}
		if len(skyline) > 0 {
			lot["skyline"] = skyline
		}
		x.add("Polygon", x.polygon(site.Lot), lot)
	}
	x.building("house", site.House, site.Windows)
	for _, b := range site.Neighbours {
		x.building("neighbour", b, nil)
	}
	for _, b := range site.Porches {
		kind := "shed"
		for _, p := range b.Parts {
			if p.Open {
				kind = "porch"
			}
		}
		x.building(kind, b, nil)
	}
	for _, f := range site.Fences {
		p := map[string]any{"kind": "fence", "id": f.ID, "height_m": metres(f.Height), "owner": string(f.Owner)}
		if len(f.Feet) == 0 && (f.Base != 0 || x.sloping()) {
			p["base_m"] = metres(f.Base)
		}
		if f.Transmissivity != 0 {
			p["lets_through"] = f.Transmissivity
		}
		x.add("LineString", x.positions(f.Line), p)
	}
	for _, w := range site.Wires {
		p := map[string]any{"kind": "wire", "id": w.ID}
		if w.Height > 0 {
			p["height_m"] = metres(w.Height)
		}
		if w.Note != "" {
			p["note"] = w.Note
		}
		x.add("LineString", x.positions(w.Line), p)
	}
	for _, s := range site.Terrain.Spots {
		x.add("Point", x.position(s.At), map[string]any{"kind": "spot height", "height_m": metres(s.Up)})
	}
	for i := range site.Trees {
		x.tree(&site.Trees[i])
	}
	x.left()
	var out bytes.Buffer
	out.WriteString("{\"type\": \"FeatureCollection\", \"features\": [\n")
	for i, f := range x.features {
		text, err := json.Marshal(f)
		if err != nil {
			return nil, nil, fmt.Errorf("feature %d cannot be written: %w", i+1, err)
		}
		out.Write(text)
		if i < len(x.features)-1 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
	}
	out.WriteString("]}\n")
	return out.Bytes(), x.notes, nil
}

type exporter struct {
	plane    plane
	site     *model.Site
	features []outFeature
	notes    []string
}

// sloping tells whether heights of zero must be stated, since a site file
// otherwise takes them from the lie of the land.
func (x *exporter) sloping() bool {
	return x.site.Terrain.SlopeRise != 0 || len(x.site.Terrain.Spots) > 0
}

// metres rounds to a tenth of a millimetre, degreesOf to a millionth.
func metres(x float64) float64    { return math.Round(x*1e4) / 1e4 }
func degreesOf(x float64) float64 { return math.Round(x*1e6) / 1e6 }

func (x *exporter) add(kind string, coordinates any, p map[string]any) {
	x.features = append(x.features, outFeature{"Feature", outGeometry{kind, coordinates}, p})
}

func (x *exporter) position(p orb.Point) [2]float64 {
	at := x.plane.lift(p)
	return [2]float64{round9(at.Lng.Degrees()), round9(at.Lat.Degrees())}
}

func (x *exporter) positions(line []orb.Point) [][2]float64 {
	out := make([][2]float64, 0, len(line))
	for _, p := range line {
		out = append(out, x.position(p))
	}
	return out
}

func (x *exporter) polygon(r orb.Ring) [][][2]float64 { return [][][2]float64{x.positions(r)} }

// building writes each part as a feature of the building's id.
func (x *exporter) building(kind string, b model.Building, windows []model.Window) {
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
		if i == 0 && len(windows) > 0 {
			var list []map[string]any
			for _, w := range windows {
				row := map[string]any{
					"id": w.ID, "wall": w.Wall, "left_m": metres(w.Left), "sill_m": metres(w.Sill),
					"width_m": metres(w.Width), "height_m": metres(w.Height), "reveal_m": metres(w.Reveal), "frame": w.Frame,
				}
				if w.Glazing != "" {
					row["glazing"] = w.Glazing
				}
				list = append(list, row)
			}
			props["windows"] = list
		}
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

func (x *exporter) tree(t *model.Tree) {
	p := map[string]any{
		"kind": "tree", "id": t.ID, "species": speciesOf(t), "height_m": metres(t.Height), "crown_base_m": metres(t.CrownBase),
		"crown_shape": string(t.Shape), "trunk_m": metres(t.Trunk), "in_leaf": t.InLeaf, "bare": t.Bare,
		"owner": string(t.Owner), "removable": t.Removable, "cost_usd": math.Round(t.Cost*100) / 100,
	}
	if t.SpreadX == t.SpreadY {
		p["spread_m"] = metres(t.SpreadX)
	} else {
		p["spread_x_m"], p["spread_y_m"] = metres(t.SpreadX), metres(t.SpreadY)
	}
	if _, known := species.Find(speciesOf(t)); !known && t.Evergreen {
		p["evergreen"] = true
	}
	if t.Keep {
		p["keep"] = true
	}
	if t.Ground != 0 || x.sloping() {
		p["ground_m"] = metres(t.Ground)
	}
	if len(t.Notes) > 0 {
		p["note"] = t.Notes[0]
		for _, n := range t.Notes[1:] {
			p["note"] = p["note"].(string) + "; " + n
		}
	}
	if assumed := x.assumed("tree " + t.ID); len(assumed) > 0 {
		p["assumed"] = assumed
	}
	if m := t.Measured[model.QHeight].Method; methodWords[m] {
		p["measured_by"] = m
	}
	x.add("Point", x.position(t.At), p)
}

// speciesOf is a tree's kind by a name that the species table finds again.
func speciesOf(t *model.Tree) string {
	if t.Species != species.GenericTree(t.Evergreen).Name {
		return t.Species
	}
	if t.Evergreen {
		return "unknown evergreen"
	}
	return "unknown"
}

// assumed lists the properties of a thing that nobody measured. Site leaves
// them out again, so that they stay assumed and never pass for measured.
func (x *exporter) assumed(subject string) []string {
	var out []string
	for _, a := range x.site.Assumed {
		if key := assumedKeys[a.Field]; key != "" && a.Subject == subject {
			out = append(out, key)
		}
	}
	return out
}

// assumedKeys are the site file's words for assumed values of a tree, and the
// keys they belong to.
var assumedKeys = map[string]string{
	"height": "height", "spread": "spread", "crown base": "crown base", "crown shape": "crown shape", "trunk": "trunk",
	"removal cost": "cost", "sun through the crown in leaf": "in leaf", "sun through the crown bare": "bare",
}

// coarse tells whether degrees have three decimals at most.
func coarse(degrees float64) bool {
	return math.Abs(degrees*1000-math.Round(degrees*1000)) < 1e-7
}

// left notes what a map does not hold.
func (x *exporter) left() {
	s := x.site
	var lost []string
	if coarse(s.Place.Latitude()) && coarse(s.Place.Longitude()) {
		x.notes = append(x.notes, "latitude and longitude are stated to three decimals or fewer, so the whole map may lie a hundred metres or more off its true place")
	}
	building := 0
	for _, a := range s.Assumed {
		if !strings.HasPrefix(a.Subject, "tree ") && a.Subject != "site" {
			building++
		}
	}
	if building > 0 {
		x.notes = append(x.notes, fmt.Sprintf("%d values of buildings and windows that nobody measured stand on the map like measured ones; southyard check lists them", building))
	}
	for _, c := range []struct {
		has  bool
		what string
	}{
		{len(s.Plans) > 0, "the plans"}, {len(s.Targets) > 0, "the targets"}, {len(s.Collectors) > 0, "the collectors"},
		{s.Heat != model.HeatChoice{}, "what is said of the house's heat"}, {s.Budget > 0, "the budget"}, {len(s.Season) > 0, "the season"},
		{s.Climate.Station != "" || s.Climate.File != "" || s.Climate.Monthly, "the climate"},
		{len(s.Points) > 0, "the named points"},
	} {
		if c.has {
			lost = append(lost, c.what)
		}
	}
	if len(lost) > 0 {
		x.notes = append(x.notes, "a map does not hold "+strings.Join(lost, ", "))
	}
}
