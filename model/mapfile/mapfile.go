package mapfile

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// Source is a file: its name, as faults call it, and its bytes.
type Source struct {
	Name string
	Data []byte
}

// Options say how the site file is written.
type Options struct {
	Title  string // name of the site; empty: the lot's name on the map
	Metric bool   // metres in place of feet
}

// Faults are everything that is wrong with a map or a list of trees, each
// with the file, the feature or row, and the line.
type Faults []string

func (f Faults) Error() string {
	const most = 20
	if len(f) > most {
		return strings.Join(f[:most], "\n") + "\nand " + measure.Count(len(f)-most, "fault") + " more"
	}
	return strings.Join(f, "\n")
}

// Site reads a map and, where trees is not nil, a list of trees, which are
// added to the map's; a row with the id of a tree of the map adds to what the
// map says of it, and where the two differ the list holds. Notes say what was
// left out or assumed, and what is to be measured. It fails with Faults.
func Site(from Source, trees *Source, o Options) (yaml []byte, notes []string, err error) {
	m := &mapping{source: from.Name, mapName: from.Name, ids: map[string]string{}, given: map[string]int{}}
	features := m.features(from.Data)
	if len(m.faults) == 0 {
		m.sort(features)
	}
	if len(m.faults) == 0 && trees != nil {
		m.source = trees.Name
		m.list(trees.Data)
		m.source = from.Name
	}
	if len(m.faults) == 0 {
		yaml = m.write(o)
	}
	if len(m.faults) > 0 {
		return nil, m.notes, m.faults
	}
	return yaml, m.notes, nil
}

// mapping is a map on its way to a site file. Points are metres on the plane
// about the lot, x east, y north.
type mapping struct {
	source  string // the file being read, for faults
	mapName string
	faults  Faults
	notes   []string
	ids     map[string]string // id → where it was given
	given   map[string]int    // prefix → the last number given out

	plane  plane
	around float64 // longitude the others are counted about, degrees
	lot    *feature
	ring   orb.Ring // the lot line
	house  *structure
	others []*structure // in the order of the map
	lines  []lineThing
	trees  []*treeEntry
	spots  []model.Spot
}

type lineThing struct {
	role string // fence, wire
	f    *feature
	id   string
	line orb.LineString
}

// treeEntry is one tree and what map and list say of it.
type treeEntry struct {
	source string // the file it stands in, for faults
	where  string
	id     string
	at     orb.Point
	says   properties
}

func (m *mapping) fault(where, format string, args ...any) {
	m.faultIn(m.source, where, format, args...)
}

// faultIn reports a fault in a file that need not be the one being read.
func (m *mapping) faultIn(source, where, format string, args ...any) {
	text := source
	if where != "" {
		text += ", " + where
	}
	m.faults = append(m.faults, text+": "+fmt.Sprintf(format, args...))
}

func (m *mapping) note(format string, args ...any) {
	const most = 100
	switch {
	case len(m.notes) < most:
		m.notes = append(m.notes, fmt.Sprintf(format, args...))
	case len(m.notes) == most:
		m.notes = append(m.notes, "and more like this")
	}
}

// claim takes an id for a thing; ids are shared by everything in a site file.
func (m *mapping) claim(id, where string) {
	key := strings.Join(strings.Fields(strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(id))), " ")
	if before, twice := m.ids[key]; twice {
		m.fault(where, "the id %q was given before, to %s; every thing needs an id of its own", short(id), before)
		return
	}
	m.ids[key] = where
}

// freeID is the first of prefix1, prefix2 … that nothing has.
func (m *mapping) freeID(prefix string) string {
	for {
		m.given[prefix]++
		id := fmt.Sprintf("%s%d", prefix, m.given[prefix])
		key := strings.ToLower(id)
		if _, taken := m.ids[key]; !taken {
			m.ids[key] = "a thing without id"
			return id
		}
	}
}
