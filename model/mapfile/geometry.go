package mapfile

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// geometry reads the coordinates of a feature by its kind (RFC 7946, section
// 3.1); false where they are unusable, which is then told.
func (m *mapping) geometry(f *feature, coordinates json.RawMessage) bool {
	switch f.kind {
	case "Point", "MultiPoint":
		list, ok := nested[[]float64](m, f, coordinates)
		return ok && m.pointList(f, list)
	case "LineString", "MultiLineString":
		list, ok := nested[[][]float64](m, f, coordinates)
		return ok && m.lineStrings(f, list)
	case "Polygon", "MultiPolygon":
		list, ok := nested[[][][]float64](m, f, coordinates)
		return ok && m.polygons(f, list)
	case "GeometryCollection":
		m.fault(f.where(), "a GeometryCollection cannot be told apart into lot, house and trees; make each of its parts a feature")
	default:
		m.fault(f.where(), "%q is no geometry of RFC 7946", short(f.kind))
	}
	return false
}

// nested reads coordinates as a list: of one for Point, LineString and
// Polygon, of any number for their Multi forms.
func nested[T any](m *mapping, f *feature, coordinates json.RawMessage) ([]T, bool) {
	list := make([]T, 1)
	var err error
	if strings.HasPrefix(f.kind, "Multi") {
		err = json.Unmarshal(coordinates, &list)
	} else {
		err = json.Unmarshal(coordinates, &list[0])
	}
	if err != nil {
		m.fault(f.where(), "the coordinates do not fit a %s: lists of [longitude, latitude], nested as RFC 7946 says", f.kind)
	}
	return list, err == nil
}

func (m *mapping) pointList(f *feature, list [][]float64) bool {
	row, ok := m.row(f, list)
	f.points = row
	return ok && m.some(f, len(f.points))
}

func (m *mapping) lineStrings(f *feature, lists [][][]float64) bool {
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
}

func (m *mapping) polygons(f *feature, lists [][][][]float64) bool {
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
}

// some notes a feature that holds nothing.
func (m *mapping) some(f *feature, n int) bool {
	if n == 0 {
		m.note("%s is empty and is left out", f.where())
	}
	return n > 0
}

// row reads positions, each [longitude, latitude] or with a height, which is
// left out.
func (m *mapping) row(f *feature, list [][]float64) (orb.LineString, bool) {
	var out orb.LineString
	for _, c := range list {
		if len(c) < 2 {
			m.fault(f.where(), "a position is [longitude, latitude], not %s", measure.Count(len(c), "number"))
			return nil, false
		}
		if wrong := degreesFault(c[0], c[1]); wrong != "" {
			m.fault(f.where(), "%s", wrong)
			return nil, false
		}
		out = append(out, orb.Point{c[0], c[1]})
	}
	return out, true
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
