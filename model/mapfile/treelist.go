package mapfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"strconv"
	"strings"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// mostRows is what a list of trees may have at most.
const mostRows = 5000

// list reads a list of trees: a header and a row a tree, columns in any order,
// parted by commas, semicolons or tabs. A tree stands at lat and lon, or at x
// and y, measured to the east and north of the lot's south-west corner.
func (m *mapping) list(data []byte) {
	if len(data) > mostBytes {
		m.fault("", "the list has %d bytes; a list of trees never has more than %d", len(data), mostBytes)
		return
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.IndexByte(data, 0) >= 0 {
		m.fault("", "this is not plain text; save the list as CSV (UTF-8)")
		return
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.Comment, r.FieldsPerRecord = separator(data), '#', -1
	r.TrimLeadingSpace, r.LazyQuotes = true, true
	head, err := r.Read()
	if errors.Is(err, io.EOF) {
		m.fault("", "the list is empty; it begins with a line of names such as id, species, height (ft), spread (ft), lat, lon")
		return
	}
	if err != nil {
		m.fault("", "%v", err)
		return
	}
	columns, ok := m.columns(head)
	if !ok {
		return
	}
	l := treeList{mapping: m, columns: columns, byID: map[string]*treeEntry{}, lines: map[string]int{}}
	for _, t := range m.trees {
		if t.id != "" {
			l.byID[strings.ToLower(t.id)] = t
		}
	}
	for n := 1; ; n++ {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			m.fault("", "%v", err)
			return
		}
		line, _ := r.FieldPos(0)
		switch where := fmt.Sprintf("line %d", line); {
		case n > mostRows:
			m.fault(where, "the list has more than %d trees; cut it down to the block the lot is in", mostRows)
			return
		case blank(row):
		case len(row) > len(head):
			m.fault(where, "the row has %d values and the header names %d; a value with a %q in it stands in quotes", len(row), len(head), string(r.Comma))
		default:
			l.tree(where, line, l.says(row))
		}
	}
}

// treeList is a list of trees on its way into a map.
type treeList struct {
	*mapping
	columns []column
	byID    map[string]*treeEntry // the map's trees, ids in small letters
	lines   map[string]int        // id → the line of the list it stands on
}

// says is what a row says, by the plain names of its columns.
func (l *treeList) says(row []string) properties {
	says := properties{}
	for i, text := range row {
		c := l.columns[i]
		if c.plain == "" {
			continue
		}
		if text = cleaned(text); text != "" {
			says[c.plain] = said{text: text, unit: c.unit, name: c.name}
		}
	}
	return says
}

// tree takes over a row: a new tree, or more about one of the map's.
func (l *treeList) tree(where string, line int, says properties) {
	id := says.text("id", "tree id", "tag", "tree", "number")
	if id != "" {
		if before, twice := l.lines[strings.ToLower(id)]; twice {
			l.fault(where, "the id %q was given before, on line %d", short(id), before)
			return
		}
		l.lines[strings.ToLower(id)] = line
	}
	at, has, err := l.listed(says)
	if err != nil {
		l.fault(where, "%v", err)
		return
	}
	known := l.byID[strings.ToLower(id)]
	switch {
	case id != "" && known != nil:
		known.source, known.where, known.says = l.source, where, joined(known.says, says)
		if has {
			known.at = at
		}
		return
	case !has:
		l.fault(where, "the tree has no place: give it lat and lon, or x and y from the lot's south-west corner, or the id of a tree of the map")
		return
	case math.Hypot(at[0], at[1]) > farOff:
		l.note("%s, %s: the tree stands more than %d m from the lot and is left out", l.source, where, farOff)
		return
	}
	if id != "" {
		l.claim(id, l.source+" "+where)
	}
	l.trees = append(l.trees, &treeEntry{source: l.source, where: where, id: id, at: at, says: says})
}

// joined is what map and list say of a tree; where the two differ the list
// holds.
func joined(onMap, inList properties) properties {
	out := maps.Clone(onMap)
	maps.Copy(out, inList)
	out["assumed"] = stillAssumed(out["assumed"], inList)
	return out
}

// stillAssumed is a map's list of assumed values without those a row states.
func stillAssumed(was said, says properties) said {
	list, _ := was.raw.([]any)
	var still []any
	for _, item := range list {
		if key, ok := item.(string); ok {
			if _, stated := says.get(key); !stated {
				still = append(still, item)
			}
		}
	}
	return said{name: "assumed", raw: still}
}

type column struct{ plain, unit, name string }

// columns reads the header and refuses what could be read two ways.
func (m *mapping) columns(head []string) ([]column, bool) {
	var out []column
	seen := map[string]string{}
	ok := true
	known := false
	for _, name := range head {
		plain, unit := plainName(cleaned(name))
		switch plain {
		case "latitude", "y lat":
			plain = "lat"
		case "longitude", "lng", "long":
			plain = "lon"
		case "east", "easting":
			plain = "x"
		case "north", "northing":
			plain = "y"
		}
		if before, twice := seen[plain]; twice && plain != "" {
			m.fault("line 1", "the columns %q and %q mean the same; leave one out", short(before), short(name))
			ok = false
		}
		seen[plain] = name
		known = known || listWords[plain]
		out = append(out, column{plain, unit, strings.TrimSpace(cleaned(name))})
	}
	if !known {
		m.fault("line 1", "no column is known here; the list begins with a line of names such as id, species, height (ft), spread (ft), lat, lon")
		return nil, false
	}
	return out, ok
}

// listWords are names that show a line to be the header.
var listWords = map[string]bool{"id": true, "tree id": true, "tag": true, "species": true, "height": true, "spread": true, "lat": true, "lon": true, "x": true, "y": true}

// separator is the mark the header uses most: comma, semicolon or tab.
func separator(data []byte) rune {
	for len(data) > 0 && data[0] == '#' { // comments before the header
		_, rest, _ := bytes.Cut(data, []byte("\n"))
		data = rest
	}
	head, _, _ := bytes.Cut(data, []byte("\n"))
	best, most := ',', bytes.Count(head, []byte(","))
	for _, c := range []rune{';', '\t'} {
		if n := bytes.Count(head, []byte(string(c))); n > most {
			best, most = c, n
		}
	}
	return best
}

func blank(row []string) bool {
	for _, s := range row {
		if strings.TrimSpace(s) != "" {
			return false
		}
	}
	return true
}

// listed is where a row says its tree stands, on the plane.
func (m *mapping) listed(says properties) (orb.Point, bool, error) {
	lat, hasLat := says.get("lat")
	lon, hasLon := says.get("lon")
	x, hasX := says.get("x")
	y, hasY := says.get("y")
	switch {
	case hasLat && hasLon:
		φ, err := strconv.ParseFloat(lat.text, 64)
		if err != nil {
			a, err := measure.ParseLatitude(lat.text)
			if err != nil {
				return orb.Point{}, false, lat.problem("%v", err)
			}
			φ = a.Degrees()
		}
		λ, err := strconv.ParseFloat(lon.text, 64)
		if err != nil {
			a, err := measure.ParseLongitude(lon.text)
			if err != nil {
				return orb.Point{}, false, lon.problem("%v", err)
			}
			λ = a.Degrees()
		}
		if math.IsNaN(φ + λ) {
			return orb.Point{}, false, lat.problem("lat and lon are degrees")
		}
		if math.Abs(φ) > 90 && math.Abs(λ) <= 90 {
			return orb.Point{}, false, lat.problem("%s is beyond 90°: lat and lon look swapped", lat.text)
		}
		if wrong := degreesFault(λ, φ); wrong != "" {
			return orb.Point{}, false, lat.problem("%s", wrong)
		}
		return m.plane.drop(s2.LatLngFromDegrees(φ, λ)), true, nil
	case hasX && hasY:
		if m.ring == nil {
			return orb.Point{}, false, x.problem("x and y are measured from the lot's south-west corner, and the map has no lot")
		}
		east, err := x.length(-farOff, farOff)
		if err != nil {
			return orb.Point{}, false, err
		}
		north, err := y.length(-farOff, farOff)
		if err != nil {
			return orb.Point{}, false, err
		}
		corner := southWest(m.ring)
		return orb.Point{corner[0] + east, corner[1] + north}, true, nil
	case hasLat || hasLon:
		return orb.Point{}, false, errors.New("lat and lon go together, and one is missing")
	case hasX || hasY:
		return orb.Point{}, false, errors.New("x and y go together, and one is missing")
	}
	return orb.Point{}, false, nil
}

// southWest is the corner of a ring farthest to the south-west.
func southWest(r orb.Ring) orb.Point {
	best := r[0]
	for _, p := range r {
		if p[0]+p[1] < best[0]+best[1] {
			best = p
		}
	}
	return best
}
