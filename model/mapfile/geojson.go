package mapfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"github.com/paulmach/orb"
)

// What a map may be at most. A lot with its whole block stays far below.
const (
	mostBytes    = 16 << 20
	mostFeatures = 20_000
	mostCorners  = 500
)

// feature is one thing of the map, in degrees, with the line its text begins
// on.
type feature struct {
	number     int // counted from 1, as people do
	line       int
	id         string
	kind       string // geometry type of RFC 7946
	points     []orb.Point
	lines      []orb.LineString
	polygons   []orb.Polygon
	properties properties
}

// where names a feature for people.
func (f *feature) where() string {
	s := fmt.Sprintf("feature %d", f.number)
	if id := f.properties.text("id", "name"); id != "" {
		s += fmt.Sprintf(" (%s)", short(id))
	} else if f.id != "" {
		s += fmt.Sprintf(" (%s)", short(f.id))
	}
	return fmt.Sprintf("%s, line %d", s, f.line)
}

func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

type rawGeometry struct {
	Type        string          `json:"type"`
	Coordinates json.RawMessage `json:"coordinates"`
}

type rawFeature struct {
	Type       string          `json:"type"`
	ID         json.RawMessage `json:"id"`
	Geometry   *rawGeometry    `json:"geometry"`
	Properties map[string]any  `json:"properties"`
}

type rawCollection struct {
	Type     string            `json:"type"`
	Features []json.RawMessage `json:"features"`
	CRS      json.RawMessage   `json:"crs"`
}

// features reads a FeatureCollection (RFC 7946, section 3.3), or a single
// Feature. Every fault is told with its feature and line.
func (m *mapping) features(data []byte) []*feature {
	if len(data) > mostBytes {
		m.fault("", "the map has %d bytes; a map of one lot never has more than %d: cut it down to the block the lot is in", len(data), mostBytes)
		return nil
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	var all rawCollection
	if err := json.Unmarshal(data, &all); err != nil {
		m.fault("", "%s", jsonFault(data, err))
		return nil
	}
	switch all.Type {
	case "FeatureCollection":
	case "Feature":
		all.Features = []json.RawMessage{bytes.TrimSpace(data)}
	case "Topology":
		m.fault("", "this is TopoJSON; save the map as GeoJSON (RFC 7946)")
		return nil
	default:
		m.fault("", `a map begins with {"type": "FeatureCollection", "features": [...]}, and here type is %q; save the map as GeoJSON (RFC 7946)`, short(all.Type))
		return nil
	}
	if name := crsName(all.CRS); name != "" {
		m.fault("", "the map states the coordinates %q; save it with longitude and latitude in degrees (WGS 84, EPSG:4326)", short(name))
		return nil
	}
	if len(all.Features) == 0 {
		m.fault("", "the map has no features; draw at least the house as a polygon, better the lot and the trees (points) too, and save it again")
		return nil
	}
	if len(all.Features) > mostFeatures {
		m.fault("", "the map has %d features; a map of one lot never has more than %d: cut it down to the block the lot is in", len(all.Features), mostFeatures)
		return nil
	}
	var out []*feature
	from := max(0, bytes.Index(data, []byte(`"features"`)))
	if all.Type == "Feature" {
		from = 0
	}
	line := 1 + bytes.Count(data[:from], []byte("\n"))
	for i, raw := range all.Features {
		f := &feature{number: i + 1, line: line}
		if at := bytes.Index(data[from:], raw); at >= 0 {
			f.line = line + bytes.Count(data[from:from+at], []byte("\n"))
			line = f.line + bytes.Count(raw, []byte("\n"))
			from += at + len(raw)
		}
		if m.feature(f, raw) {
			out = append(out, f)
		}
	}
	return out
}

// jsonFault says where JSON breaks off.
func jsonFault(data []byte, err error) string {
	const right = "save the map as GeoJSON (RFC 7946)"
	if len(bytes.TrimSpace(data)) == 0 {
		return "the file is empty, so not GeoJSON; " + right
	}
	if first := bytes.TrimSpace(data)[0]; first != '{' && first != '[' {
		return "this is not GeoJSON, which begins with {; " + right
	}
	line, column := 0, 0
	place := func(offset int64) {
		before := data[:max(0, min(int(offset), len(data)))]
		line = 1 + bytes.Count(before, []byte("\n"))
		column = len(before) - bytes.LastIndexByte(before, '\n') - 1
	}
	switch e := err.(type) {
	case *json.SyntaxError:
		place(e.Offset)
		return fmt.Sprintf("line %d, column %d: this is not GeoJSON: %s; %s", line, column, e.Error(), right)
	case *json.UnmarshalTypeError:
		place(e.Offset)
		return fmt.Sprintf("line %d, column %d: %s should not be a %s here; %s", line, column, strings.TrimSpace("this "+e.Field), e.Value, right)
	}
	return "this is not GeoJSON: " + err.Error() + "; " + right
}

// crsName is the coordinate system an old file (before RFC 7946) names, ""
// where it is the right one or none is named.
func crsName(raw json.RawMessage) string {
	if len(raw) == 0 || string(raw) == "null" {
		return ""
	}
	var c struct {
		Properties struct {
			Name string `json:"name"`
		} `json:"properties"`
	}
	if json.Unmarshal(raw, &c) != nil || c.Properties.Name == "" {
		return "without a name"
	}
	for _, good := range []string{"CRS84", "EPSG::4326", "EPSG:4326", "EPSG::4979"} {
		if strings.HasSuffix(c.Properties.Name, good) {
			return ""
		}
	}
	return c.Properties.Name
}

func (m *mapping) feature(f *feature, raw json.RawMessage) bool {
	var in rawFeature
	if err := json.Unmarshal(raw, &in); err != nil {
		m.fault(f.where(), "%s", strings.TrimPrefix(err.Error(), "json: "))
		return false
	}
	var id any
	if json.Unmarshal(in.ID, &id) == nil && id != nil {
		f.id = plainValue(id)
	}
	f.properties = newProperties(in.Properties)
	switch {
	case in.Type != "Feature":
		m.fault(f.where(), "type is %q; every feature of a map has the type Feature", short(in.Type))
		return false
	case in.Geometry == nil || in.Geometry.Type == "":
		m.note("%s has no geometry and is left out", f.where())
		return false
	}
	f.kind = in.Geometry.Type
	return m.geometry(f, in.Geometry.Coordinates)
}
