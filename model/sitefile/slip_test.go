package sitefile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestOneSlipIsOneFault makes one slip at a time in a whole, sound file and
// wants one fault told, on the slip's own line: what only follows from it is
// not told.
func TestOneSlipIsOneFault(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "alder-row", "site.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	whole := string(data)
	_, before := Read("site.yaml", data)
	if Wrong(before) > 0 {
		t.Fatal(before)
	}
	// What is missing, or given twice, is told where the thing begins or at the
	// second of the two.
	told := map[string]string{
		"footprint is missing": "id: main", "tree without a place": "id: T1",
		"tree id misspelt": "tree: T8, to", "plan name misspelt": "on: maples in line",
	}
	for _, c := range []struct{ name, from, to, says string }{
		{"latitude is a word", "latitude: 41.51", "latitude: north", "latitude"},
		{"latitude is missing", "  latitude: 41.51\n", "", "latitude is missing"},
		{"latitude beyond the pole", "latitude: 41.51", "latitude: 141.51", "latitude"},
		{"latitude key misspelt", "  latitude: 41.51", "  lattitude: 41.51", "write latitude"},
		{"place key misspelt", "place:\n", "plaice:\n", "write place"},
		{"unknown zone", "America/New_York", "America/NewYork", "time zone"},
		{"units in a wrong word", "units: feet", "units: fet", "write feet"},
		{"a lot corner is lost", "lot: [[0, 0], [40, 0], [40, 115], [0, 115]]", "lot: [[0, 0], [40, 0]]", "2 corners"},
		{"a lot of one corner", "lot: [[0, 0], [40, 0], [40, 115], [0, 115]]", "lot: [[0, 0]]", "lot has 1 corner; it"},
		{"a point of three numbers", "at: [6, 9]", "at: [6, 9, 3]", "a point has two numbers, not 3:"},
		{"a lot corner is no number", "[40, 115], [0, 115]]\n\npoints", "[40, x], [0, 115]]\n\npoints", "\"x\""},
		{"lot crosses itself", "[40, 115], [0, 115]]\n\npoints", "[0, 115], [40, 115]]\n\npoints", "cross"},
		{"house key misspelt", "house:\n", "huose:\n", "write house"},
		{"parts key misspelt", "  parts:\n", "  prts:\n", "write parts"},
		{"footprint key misspelt", "      footprint: [[8, 46]", "      footprnt: [[8, 46]", "write footprint"},
		{"footprint is missing", "      footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]\n", "", "footprint is missing"},
		{"footprint crosses itself", "[[8, 46], [31, 46], [31, 74], [8, 74]]", "[[8, 46], [31, 46], [8, 74], [31, 74]]", "cross"},
		{"footprint with three numbers", "[[8, 46], [31, 46]", "[[8, 46, 0], [31, 46]", "3"},
		{"wall height is no length", "wall height: 13 ft 6 in", "wall height: 13 fot", "13 fot"},
		{"wall height is absurd", "wall height: 13 ft 6 in", "wall height: 1300 ft", "cannot be right"},
		{"wall height key misspelt", "wall height: 13 ft 6 in", "wall hight: 13 ft 6 in", "write wall height"},
		{"roof kind unknown", "kind: gable, ridge: east-west, pitch: 9/12", "kind: gabel, ridge: east-west, pitch: 9/12", "write gable"},
		{"roof kind misspelt key", "kind: gable, ridge: east-west, pitch: 9/12", "knid: gable, ridge: east-west, pitch: 9/12", "write kind"},
		{"ridge is no line", "ridge: east-west, pitch: 9/12", "ridge: eest, pitch: 9/12", "eest"},
		{"pitch is a bare number", "pitch: 9/12", "pitch: 9", "9/12"},
		{"pitch is missing", ", pitch: 9/12", "", "pitch is missing"},
		{"overhang is absurd", "overhang: 14 in}", "overhang: 14}", "cannot be right"},
		{"shed roof without its fall", "kind: shed, down: north", "kind: shed, dwn: north", "write down"},
		{"window on no wall", "wall: south, left: 1 ft 6 in", "wall: sotuh, left: 1 ft 6 in", "sotuh"},
		{"window off its wall", "left: 19 ft", "left: 29 ft", "right end"},
		{"window with no width", "left: 19 ft, sill: 4 ft, width: 30 in", "left: 19 ft, sill: 4 ft", "width is missing"},
		{"window of no size", "left: 19 ft, sill: 4 ft, width: 30 in", "left: 19 ft, sill: 4 ft, width: 0", "cannot be right"},
		{"window sill is no length", "left: 19 ft, sill: 4 ft", "left: 19 ft, sill: four", "four"},
		{"windows overlap", "left: 19 ft", "left: 17 ft", "overlaps"},
		{"window id twice", "id: W4", "id: W3", "taken"},
		{"unknown glazing", "single + storm}\n    - {id: W6", "singel + storm}\n    - {id: W6", "write single + storm"},
		{"neighbour footprint too short", "[[48, 50], [70, 50], [70, 80], [48, 80]]", "[[48, 50], [70, 50]]", "2 corners"},
		{"fence without a height", "[40, 115]], height: 6 ft}", "[40, 115]]}", "height is missing"},
		{"wire with one point", "line: [[2, -6], [8, 47]]", "line: [[2, -6]]", "1 point"},
		{"species misspelt", "species: silver maple", "species: sliver maple", "write silver maple"},
		{"tree without a place", "    at: [6, 9]\n", "", "missing"},
		{"tree place of one number", "at: [6, 9]", "at: [6]", "two numbers"},
		{"tree in the house", "at: [25, 30]", "at: [25, 60]", "inside the house"},
		{"tree angle is no angle", "top angle: 37°, base angle: 4° down}\n    spread: [30", "top angle: steep, base angle: 4° down}\n    spread: [30", "steep"},
		{"tree angle past the zenith", "distance: 62 ft, top angle: 37°", "distance: 62 ft, top angle: 87°", "no height"},
		{"tree distance is missing", "distance: 62 ft, top angle: 37°", "top angle: 37°", "distance is missing"},
		{"tree height is no length", "height: 38 ft", "height: 38 fet", "38 fet"},
		{"tree height in metres", "height: 38 ft", "height: 38 m", "taller"},
		{"tree spread is negative", "spread: 25 ft", "spread: -25 ft", "cannot be right"},
		{"crown above the top", "crown base: 10 ft", "crown base: 100 ft", "above the top"},
		{"tree id twice", "  - id: T8\n", "  - id: T7\n", "taken"},
		{"tree id misspelt", "  - id: T8\n", "  - id: TT8\n", "T8"},
		{"tree from no point", "from: house south-east corner", "from: house sout-east corner", "sout-east"},
		{"tree bearing is none", "bearing: S 3° W", "bearing: S 3 Q", "S 3 Q"},
		{"owner unknown", "owner: street", "owner: town", "town"},
		{"cost is no money", "cost: $900\n", "cost: cheap\n", "cheap"},
		{"plan takes an unknown tree", "remove: [T2, T7]", "remove: [T2, T77]", "T77"},
		{"plan takes a tree twice", "remove: [T2, T7]", "remove: [T2, T2]", "T2"},
		{"plan builds on none", "on: maples in line", "on: maples in lin", "maples in lin"},
		{"plan name misspelt", "  - name: maples in line", "  - name: maples in lane", "maples in line"},
		{"plan raises above the top", "tree: T8, to: 15 ft", "tree: T8, to: 55 ft", "whole crown"},
		{"plan thins too much", "in leaf: 25 %", "in leaf: 250 %", "250 %"},
		{"plan plants an unknown kind", "species: eastern redbud", "species: eastern redbut", "eastern redbud"},
		{"target on no surface", "surfaces: roof-south}", "surfaces: roof-sowth}", "write roof-south"},
		{"target weighing no surface", "{south: 1, south windows: 1}", "{sauth: 1, south windows: 1}", "write south"},
		{"season of no month", "season: October to April", "season: Octover to April", "Octover"},
		{"budget is nothing", "budget: $4,500", "budget: $0", "a budget of $0 buys nothing; write what may be spent on trees, or leave the line out: no budget line is no limit"},
		{"budget is no money", "budget: $4,500", "budget: lots", "lots"},
		{"fuel unknown", "fuel: gas", "fuel: gass", "gass"},
		{"R-value is none", "wall: R-13", "wall: R-x", "R-x"},
		{"collector on no face", "on: roof-south", "on: roof-north-9", "roof-north-9"},
		{"collector of no kind", "kind: flat plate", "kind: flat plait", "flat plait"},
		{"top key misspelt", "trees:\n", "treess:\n", "write trees"},
		{"climate of nowhere", "climate: nearest ", "climate: {sun: [1, 2], temperature: [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]} ", "2 figures"},
	} {
		if strings.Count(whole, c.from) == 0 {
			t.Errorf("%s: the file has no %q", c.name, c.from)
			continue
		}
		at := strings.Index(whole, c.from)
		text := whole[:at] + c.to + whole[at+len(c.from):]
		_, faults := Read("site.yaml", []byte(text))
		var wrong, looks []Fault
		for _, f := range faults {
			if f.Warning {
				looks = append(looks, f)
			} else {
				wrong = append(wrong, f)
			}
		}
		line := 1 + strings.Count(text[:at+common(c.from, c.to)], "\n")
		if where := told[c.name]; where != "" {
			line = 1 + strings.Count(text[:strings.Index(text, where)], "\n")
		}
		if len(wrong) == 1 && wrong[0].Line != line {
			t.Errorf("%s: on line %d, wants %d: %v", c.name, wrong[0].Line, line, wrong[0])
		}
		if len(wrong) != 1 || len(looks) > len(before) || !strings.Contains(faults[0].String(), c.says) {
			t.Errorf("%s: wants one fault with %q, got %d", c.name, c.says, len(wrong))
			for _, f := range faults {
				t.Errorf("      %v", f)
			}
			continue
		}
	}
}

// common is how far two texts are the same.
func common(a, b string) (n int) {
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}
