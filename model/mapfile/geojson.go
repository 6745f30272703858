package mapfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
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
	decode := func(into any) bool {
		err := json.Unmarshal(in.Geometry.Coordinates, into)
		if err != nil {
			m.fault(f.where(), "the coordinates do not fit a %s: lists of [longitude, latitude], nested as RFC 7946 says", f.kind)
		}
		return err == nil
	}
	switch f.kind {
	case "Point":
		var c []float64
		if !decode(&c) {
			return false
		}
		return m.place(f, c, func(p orb.Point) { f.points = append(f.points, p) })
	case "MultiPoint":
		var list [][]float64
		if !decode(&list) {
			return false
		}
		for _, c := range list {
			if !m.place(f, c, func(p orb.Point) { f.points = append(f.points, p) }) {
				return false
			}
		}
		return m.some(f, len(f.points))
	case "LineString", "MultiLineString":
		var lists [][][]float64
		if f.kind == "LineString" {
			lists = [][][]float64{nil}
			if !decode(&lists[0]) {
				return false
			}
		} else if !decode(&lists) {
			return false
		}
		for _, list := range lists {
			line, ok := m.row(f, list)
			if !ok {
				return false
			}
			if len(line) < 2 {
				m.fault(f.where(), "a line has two points or more")
				return false
			}
			f.lines = append(f.lines, line)
		}
		return m.some(f, len(f.lines))
	case "Polygon", "MultiPolygon":
		var lists [][][][]float64
		if f.kind == "Polygon" {
			lists = [][][][]float64{nil}
			if !decode(&lists[0]) {
				return false
			}
		} else if !decode(&lists) {
			return false
		}
		for _, rings := range lists {
			var poly orb.Polygon
			for _, list := range rings {
				row, ok := m.row(f, list)
				if !ok {
					return false
				}
				if len(row) > 0 && row[0] != row[len(row)-1] {
					m.note("%s: an outline is not closed; its last corner is joined to the first", f.where())
					row = append(row, row[0])
				}
				if len(row) < 4 {
					m.fault(f.where(), "an outline has three corners or more")
					return false
				}
				if len(row) > mostCorners {
					m.fault(f.where(), "an outline has %d corners; at most %d are read: simplify it", len(row), mostCorners)
					return false
				}
				poly = append(poly, orb.Ring(row))
			}
			if len(poly) > 0 {
				f.polygons = append(f.polygons, poly)
			}
		}
		return m.some(f, len(f.polygons))
	case "GeometryCollection":
		m.fault(f.where(), "a GeometryCollection cannot be told apart into lot, house and trees; make each of its parts a feature")
	default:
		m.fault(f.where(), "%q is no geometry of RFC 7946", short(f.kind))
	}
	return false
}

// some notes a feature that holds nothing.
func (m *mapping) some(f *feature, n int) bool {
	if n == 0 {
		m.note("%s is empty and is left out", f.where())
	}
	return n > 0
}

func (m *mapping) row(f *feature, list [][]float64) (orb.LineString, bool) {
	var out orb.LineString
	for _, c := range list {
		if !m.place(f, c, func(p orb.Point) { out = append(out, p) }) {
			return nil, false
		}
	}
	return out, true
}

// place reads one position, [longitude, latitude] or with a height, which is
// left out.
func (m *mapping) place(f *feature, c []float64, keep func(orb.Point)) bool {
	if len(c) < 2 {
		m.fault(f.where(), "a position is [longitude, latitude], and here are %d numbers", len(c))
		return false
	}
	if wrong := degreesFault(c[0], c[1]); wrong != "" {
		m.fault(f.where(), "%s", wrong)
		return false
	}
	keep(orb.Point{c[0], c[1]})
	return true
}

// degreesFault says what is wrong with a position. Where the two numbers were
// swapped, most of North America comes to lie beyond the pole or in
// Antarctica.
func degreesFault(lng, lat float64) string {
	const swapped = "longitude comes first and latitude second (RFC 7946, section 3.1.1): they look swapped"
	switch {
	case math.Abs(lng) > 360 || math.Abs(lat) > 360:
		return fmt.Sprintf("[%.6g, %.6g] is not in degrees; it looks like a survey grid in feet or metres: save the map with longitude and latitude (WGS 84)", lng, lat)
	case math.Abs(lat) > 90:
		return fmt.Sprintf("[%.6g, %.6g] has a latitude beyond 90°; %s", lng, lat, swapped)
	case math.Abs(lng) > 180:
		return fmt.Sprintf("[%.6g, %.6g] has a longitude beyond 180°", lng, lat)
	case lng == 0 && lat == 0:
		return "[0, 0] lies in the sea off Africa: the position was never set"
	case lat < -60:
		return fmt.Sprintf("[%.6g, %.6g] lies in Antarctica; %s", lng, lat, swapped)
	case lat > 80:
		return fmt.Sprintf("[%.6g, %.6g] lies in the Arctic ice; %s", lng, lat, swapped)
	}
	return ""
}
