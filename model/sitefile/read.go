package sitefile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/golang/geo/s1"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// What a site file may be at most. A lot with a thousand trees stays far
// below; anything above is another kind of file.
const (
	mostBytes = 4 << 20
	mostNodes = 300_000
	mostDepth = 24
)

// reader carries what the parts of a file need from each other.
type reader struct {
	file    string
	unit    measure.Unit
	site    *model.Site
	faults  []Fault
	told    map[bool]int      // how many faults (false) and warnings (true) there were
	twins   map[twin][]int    // the lines on which one value was wrong in one way
	places  map[string]spot   // by path
	faulty  map[string]bool   // paths with a fault
	ids     map[string]spot   // every id, for those written twice
	porchAt []string          // where each of the site's porches, sheds and garages is written
	treeOf  map[string]string // the tree a step of a plan works on, by the step's path

	spots    value        // the list of spot heights, read once house and points are known
	hasSpots bool         // it is there
	ground   model.Ground // level until then

	unitSaid bool // the file says whether bare numbers are feet or metres
	reading  spot // the value being read
	bare     spot // the first number taken as feet for want of a unit

	north       measure.North // what bearings without a word of their own were measured from
	declination s1.Angle
}

// Read reads a site file; name is how faults call it. The site is always
// there, but may only be used where Wrong(faults) is 0. Faults come in the
// order of the file.
func Read(name string, data []byte) (*model.Site, []Fault) {
	r := &reader{file: name, site: &model.Site{}, places: map[string]spot{}, faulty: map[string]bool{}, told: map[bool]int{}, twins: map[twin][]int{}, ids: map[string]spot{}, treeOf: map[string]string{}}
	root, ok := r.parse(data)
	if !ok {
		return r.site, r.sorted()
	}
	top, ok := r.value(root, "", "").object("a site file", "name: Alder Row 14")
	if !ok {
		return r.site, r.sorted()
	}
	if r.stranger(top) {
		return r.site, r.sorted()
	}
	r.everything(top)
	top.finish()
	r.geometry()
	r.unitAssumed()
	r.unitsSwapped()
	return r.site, r.sorted()
}

// topKeys are those of the file's first level.
var topKeys = []string{"name", "units", "place", "north", "climate", "terrain", "lot", "house", "points", "neighbours", "porches", "sheds", "garages",
	"fences", "wires", "trees", "plans", "targets", "season", "budget", "heat", "collectors", "keep clear"}

// stranger tells of a file of keys and values that is no site file at all.
func (r *reader) stranger(top *object) bool {
	var keys []string
	for key, as := range top.spelt {
		if slices.Contains(topKeys, key) || nearest(key, topKeys) != "" || hints[key] != "" || strings.Contains(as, ":") {
			return false
		}
		keys = append(keys, as)
	}
	if len(keys) == 0 {
		return false
	}
	slices.Sort(keys)
	r.fault(top.spot, rightFile, "none of its keys belongs to a site file (%s)", listed(keys))
	return true
}

// everything reads the file in the order in which its parts need each other.
func (r *reader) everything(top *object) {
	for _, key := range topKeys {
		if top.misspelt(key, topKeys...) {
			r.faulty[key] = true // what refers to it is not told as well
		}
	}
	r.site.Name = top.text("name")
	r.units(top)
	r.place(top)
	r.northOf(top)
	r.climate(top)
	r.terrain(top)
	r.lot(top)
	r.house(top)
	r.points(top)
	r.lie()
	r.otherBuildings(top)
	r.fences(top)
	r.wires(top)
	r.trees(top)
	r.plans(top)
	r.targets(top)
	if v, ok := top.get("season"); ok {
		r.site.Season = r.months(v)
	}
	r.budget(top)
	r.heat(top)
	r.collectors(top)
	r.keepClear(top)
}

// budget of nothing would be taken for no limit at all, so it is not let pass.
func (r *reader) budget(top *object) {
	v, ok := top.get("budget")
	if !ok {
		return
	}
	b, ok := read(v, measure.ParseMoney)
	if ok && b == 0 {
		r.fault(v.spot, "what may be spent on trees, or leave the line out: no budget line is no limit", "a budget of $0 buys nothing")
	}
	r.site.Budget = b
}

func (r *reader) units(top *object) {
	u, said := choice(top, map[string]string{"feet": "ft", "ft": "ft", "foot": "ft", "metres": "m", "m": "m", "metre": "m"}, "units")
	r.unitSaid = said
	if u == "m" {
		r.unit, r.site.Metric = measure.Metres, true
	}
}

// assume lists a value nobody measured.
func (r *reader) assume(subject, field, shown, source string) {
	r.site.Assumed = append(r.site.Assumed, model.Assumption{Subject: subject, Field: field, Value: shown, Source: source})
}

func (r *reader) shown(metres float64) string { return measure.FormatLength(metres, r.unit) }

const rightFile = "a site file in plain text; the command new writes one to start from"

// parse turns the text into nodes, or says what kind of file it is instead.
func (r *reader) parse(data []byte) (root *yaml.Node, ok bool) {
	start := spot{line: 1, column: 1}
	const right = rightFile
	if len(data) > mostBytes {
		r.fault(spot{}, right, "the file has %s bytes; a site file never has more than %s", measure.Number(float64(len(data)), 0), measure.Number(mostBytes, 0))
		return nil, false
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if kind := otherKind(data); kind != "" {
		mend := right
		if kind == aMap {
			mend = "a site file from it: southyard new --from MAP lot.yaml"
		}
		r.fault(start, mend, "this is %s and not a site file", kind)
		return nil, false
	}
	if r.tabs(data) {
		return nil, false
	}
	docs := yaml.NewDecoder(bytes.NewReader(data))
	var doc yaml.Node
	err := decode(docs, &doc)
	if errors.Is(err, io.EOF) || err == nil && (len(doc.Content) == 0 || isNull(doc.Content[0])) {
		r.fault(start, right, "the file is empty")
		return nil, false
	}
	if err != nil {
		r.syntax(data, err)
		return nil, false
	}
	root = doc.Content[0]
	if root.Kind != yaml.MappingNode {
		r.fault(spot{line: root.Line, column: root.Column}, right, "a site file is made of keys and values, such as name: Alder Row 14, but this begins with %s", kindName(root))
		return nil, false
	}
	var more yaml.Node
	if err := decode(docs, &more); err == nil {
		r.fault(spot{line: more.Line, column: more.Column}, "one site a file", "a second document begins here")
		return nil, false
	}
	count := 0
	return root, r.plainNodes(root, 0, &count)
}

// decode keeps a fault of the YAML library from ending the program.
func decode(d *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("yaml: %v", p)
		}
	}()
	return d.Decode(into)
}

const aMap = "a map (GeoJSON)"

// otherKind names the kind of a file that cannot be a site file.
func otherKind(data []byte) string {
	signatures := []struct{ begins, kind string }{
		{"\x89PNG", "a picture (PNG)"}, {"\xff\xd8\xff", "a picture (JPEG)"}, {"GIF8", "a picture (GIF)"}, {"%PDF", "a PDF"},
		{"PK\x03\x04", "a ZIP archive or an office document"}, {"\x1f\x8b", "a compressed file"}, {"glTF", "a 3D model"},
		{"\xff\xfe", "text saved as UTF-16 (save it as UTF-8)"}, {"\xfe\xff", "text saved as UTF-16 (save it as UTF-8)"},
		{"<", "a web page or XML"}, {"#!", "a script"}, {"SQLite format", "a database"},
	}
	head := bytes.TrimLeft(data, " \r\n\t")
	for _, s := range signatures {
		if bytes.HasPrefix(head, []byte(s.begins)) {
			return s.kind
		}
	}
	if bytes.HasPrefix(head, []byte("{")) && bytes.Contains(head[:min(len(head), 4096)], []byte(`"FeatureCollection"`)) {
		return aMap
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return "not text at all"
	}
	if !utf8.Valid(data) {
		return "text in an old encoding (save it as UTF-8)"
	}
	return ""
}

// tabs reports lines that begin with a tab, which YAML forbids and editors
// hide: the first of them, and how many more there are.
func (r *reader) tabs(data []byte) bool {
	var first spot
	var more []int
	for i, line := range strings.Split(string(data), "\n") {
		body := strings.TrimLeft(line, " \t")
		tab := strings.IndexByte(line[:len(line)-len(body)], '\t')
		switch {
		case tab < 0 || strings.TrimSpace(body) == "" || body[0] == '#':
		case first.line == 0:
			first = spot{line: i + 1, column: tab + 1}
		default:
			more = append(more, i+1)
		}
	}
	if first.line == 0 {
		return false
	}
	r.fault(first, "two spaces for each step to the right", "this line is moved in with a tab")
	if len(more) > 0 {
		r.faults[0].also = linesText(more)
	}
	return true
}

// plainNodes refuses what a site file never needs: endless nesting, more
// values than any lot has, anchors, aliases and merges.
func (r *reader) plainNodes(n *yaml.Node, depth int, count *int) bool {
	at := spot{line: n.Line, column: n.Column}
	*count++
	switch {
	case *count > mostNodes:
		r.fault(at, "", "there are more than %s values; no lot has as many", measure.Number(mostNodes, 0))
		return false
	case depth > mostDepth:
		r.fault(at, "", "values are nested more than %d deep", mostDepth)
		return false
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		r.fault(at, "the value out, or the text in quotes if it begins with & or *", "anchors and aliases (& and *) are not used in a site file")
		return false
	}
	for _, c := range n.Content {
		if !r.plainNodes(c, depth+1, count) {
			return false
		}
	}
	return true
}
