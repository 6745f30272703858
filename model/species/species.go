package species

import (
	_ "embed"
	"encoding/csv"
	"sort"
	"strconv"
	"strings"

	"github.com/southyard/southyard/model"
)

// Species is one kind of tree. Lengths are metres.
type Species struct {
	Name      string // "silver maple"
	Latin     string // "Acer saccharinum"
	Evergreen bool
	Shape     model.CrownShape
	Height    float64 // usual mature height
	Width     float64 // usual mature crown width
	CrownBase float64 // height of the lowest foliage as a share of the tree's height
	Growth    float64 // mean growth since planting of trees 10 to 30 years old, metres a year
	InLeaf    float64 // transmissivity in leaf, 0..1
	Bare      float64 // transmissivity bare, 0..1
	Source    string  // where sizes and light come from, with (mem) where from memory
	Generic   bool    // common practice for an unknown kind, no source

	leafOut, leafFall float64 // days later than a middling street tree
	height            fit     // height m = slope·ln(trunk cm) + intercept; zero where not sampled
	width             fit     // crown width m = slope·(trunk cm) + intercept; zero where not sampled
}

type fit struct{ slope, intercept float64 }

//go:embed trees.csv
var treesCSV string

var table = readTable(treesCSV)

// All is every kind in the table, in alphabetical order.
func All() []Species { return append([]Species(nil), table...) }

// GenericTree stands in for a kind the table does not have: common practice,
// no source.
func GenericTree(evergreen bool) Species {
	s := Species{
		Name: "leaf-losing tree of unknown kind", Shape: model.Ellipsoid, Height: 18, Width: 14, CrownBase: 0.17,
		Growth: 0.6, InLeaf: 0.20, Bare: 0.65, Generic: true,
		Source: "common practice, no source",
	}
	if evergreen {
		s.Name, s.Evergreen, s.Shape = "evergreen of unknown kind", true, model.Cone
		s.Height, s.Width, s.CrownBase, s.Growth, s.InLeaf, s.Bare = 15, 8, 0.05, 0.45, 0.15, 0.15
	}
	return s
}

// Trade names of kinds whose table name is another.
var otherNames = map[string]string{
	"box elder": "boxelder", "manitoba maple": "boxelder", "red oak": "northern red oak", "cottonwood": "eastern cottonwood",
	"sycamore": "American sycamore", "london plane": "London planetree", "plane tree": "London planetree", "plane": "London planetree",
	"honey locust": "honeylocust", "thornless honeylocust": "honeylocust", "locust": "black locust", "walnut": "black walnut",
	"catalpa": "northern catalpa", "tree of heaven": "tree-of-heaven", "ailanthus": "tree-of-heaven", "birch": "river birch",
	"basswood": "American linden", "linden": "littleleaf linden", "pear": "callery pear", "redbud": "eastern redbud",
	"sweet gum": "sweetgum", "tulip poplar": "tulip tree", "tuliptree": "tulip tree", "yellow poplar": "tulip tree", "zelkova": "Japanese zelkova",
	"coffeetree": "Kentucky coffeetree", "horse chestnut": "horsechestnut", "red cedar": "eastern red cedar", "juniper": "eastern red cedar",
	"colorado blue spruce": "blue spruce", "colorado spruce": "blue spruce", "spruce": "Norway spruce", "white pine": "eastern white pine",
	"scotch pine": "Scots pine", "hemlock": "eastern hemlock", "white cedar": "arborvitae", "northern white cedar": "arborvitae",
	"mulberry": "white mulberry", "hard maple": "sugar maple", "soft maple": "silver maple", "elm": "American elm", "oak": "northern red oak",
	"maple": "red maple", "ash": "green ash", "pine": "eastern white pine", "crab apple": "crabapple", "apple": "crabapple",
	"unknown": "unknown", "unknown evergreen": "unknown evergreen",
}

// Find looks a kind up by its common, trade or Latin name, whatever its
// capitals, hyphens, spaces or plural. "unknown" and "unknown evergreen" find
// the generic trees.
func Find(name string) (Species, bool) {
	key := plain(name)
	for other, named := range otherNames {
		if plain(other) == key {
			key = plain(named)
			break
		}
	}
	switch key {
	case "unknown":
		return GenericTree(false), true
	case "unknownevergreen":
		return GenericTree(true), true
	}
	for _, s := range table {
		if plain(s.Name) == key || plain(s.Latin) == key {
			return s, true
		}
	}
	return Species{}, false
}

// Like lists up to three known names that a misspelt one may have meant,
// nearest first; none where nothing is near.
func Like(name string) []string {
	key := plain(name)
	if len(key) > 60 {
		return nil
	}
	type near struct {
		name string
		far  int
	}
	var found []near
	consider := func(spelled, shown string) {
		if d := Distance(key, plain(spelled)); d <= 1+len(key)/5 {
			found = append(found, near{shown, d})
		}
	}
	for _, s := range table {
		consider(s.Name, s.Name)
		consider(s.Latin, s.Name)
	}
	for other, named := range otherNames {
		consider(other, named)
	}
	sort.Slice(found, func(i, j int) bool {
		if found[i].far != found[j].far {
			return found[i].far < found[j].far
		}
		return found[i].name < found[j].name
	})
	var out []string
	seen := map[string]bool{}
	for _, n := range found {
		if !seen[n.name] && len(out) < 3 {
			seen[n.name] = true
			out = append(out, n.name)
		}
	}
	return out
}

// plain strips a name to its letters, and a plural s.
func plain(name string) string {
	letters := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' {
			return r
		}
		return -1
	}, strings.ToLower(name))
	if strings.HasSuffix(letters, "s") && !strings.HasSuffix(letters, "us") && !strings.HasSuffix(letters, "is") {
		letters = strings.TrimSuffix(letters, "s")
	}
	return letters
}

// Distance is how many letters must be put in, taken out, changed or swapped
// with their neighbour to turn a into b (Damerau 1964, Levenshtein 1966).
func Distance(a, b string) int {
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}

// readTable reads the embedded table; a fault in it is a fault of the program.
func readTable(text string) []Species {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic("species: the embedded table: " + err.Error())
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	var out []Species
	for _, row := range rows[1:] {
		text := func(name string) string { return strings.TrimSpace(row[column[name]]) }
		value := func(name string) float64 {
			if text(name) == "" {
				return 0
			}
			v, err := strconv.ParseFloat(text(name), 64)
			if err != nil {
				panic("species: the embedded table, " + text("species") + ", " + name + ": " + err.Error())
			}
			return v
		}
		out = append(out, Species{
			Name: text("species"), Latin: text("latin_name"), Evergreen: text("evergreen") == "yes",
			Shape:  model.CrownShape(text("crown_shape")),
			Height: value("mature_height_m"), Width: value("width_m"), CrownBase: value("crown_base_fraction"),
			Growth: value("growth_m_per_yr"), InLeaf: value("transmissivity_in_leaf"), Bare: value("transmissivity_bare"),
			Source:  text("source"),
			leafOut: classShift[text("leaf_out_class")], leafFall: classShift[text("leaf_fall_class")],
			height: fit{value("ht_ln_dbh_slope"), value("ht_ln_dbh_intercept")},
			width:  fit{value("crown_width_dbh_slope_m_per_cm"), value("crown_width_dbh_intercept_m")},
		})
	}
	sort.Slice(out, func(i, j int) bool { return strings.ToLower(out[i].Name) < strings.ToLower(out[j].Name) })
	return out
}
