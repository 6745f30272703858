package sitefile

import (
	"fmt"
	"strings"
	"testing"
)

func TestEachFaultIsToldWithItsPlaceAndTheCure(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		at   string // line:column
		says []string
	}{
		"length":                {with("left: 2 ft,", "left: 2 fot,"), "11:35", []string{"house.windows[W1].left", `"2 fot"`, "17 ft 6 in"}},
		"money cut at comma":    {with("crown base: 9 ft}", "crown base: 9 ft, cost: $1,900}"), "14:105", []string{"trees[T1].cost", "$1,900 was cut in two", "write $1900 without the comma"}},
		"feet cut at comma":     {with("height: 52 ft,", "height: 52 ft, 6 in,"), "14:59", []string{"trees[T1].height", "52 ft,6 in was cut in two"}},
		"unknown key":           {with("spread: 36 ft", "spred: 36 ft"), "14:66", []string{`no key "spred"`, "write spread"}},
		"unknown top key":       {with("trees:", "treees:"), "13:1", []string{`no key "treees"`, "write trees"}},
		"key twice":             {with("north: up is", "name: again\nnorth: up is"), "3:1", []string{"name is written twice", "line 1"}},
		"id twice":              {with("id: T2", "id: T1"), "15:10", []string{`"T1" is taken on line 14`}},
		"id twice by case":      {with("id: T2", "id: t1"), "15:10", []string{"taken on line 14"}},
		"unknown species":       {with("silver maple", "sliver maple"), "14:23", []string{"sliver maple", "write silver maple"}},
		"unknown tree":          {with("[T1, T2]", "[T1, T9]"), "17:31", []string{`there is no tree "T9"`}},
		"unknown wall":          {with("wall: south, left: 2 ft", "wall: sout, left: 2 ft"), "11:22", []string{"sout", "south"}},
		"window off its wall":   {with("left: 8 ft", "left: 21 ft"), "12:35", []string{"house.windows[W2].left", "past the right end"}},
		"windows overlap":       {with("left: 8 ft", "left: 3 ft"), "12:7", []string{"overlaps window W1"}},
		"window line copied":    {with("trees:", "    - {id: W3, wall: south, left: 8 ft, sill: 3 ft, width: 32 in, height: 60 in}\ntrees:"), "13:7", []string{"house.windows[W3]", "in the place of window W2", "its own left edge"}},
		"tree in the house":     {with("at: [28, 20]", "at: [20, 60]"), "15:38", []string{"inside the house"}},
		"lot crosses itself":    {with("[40, 115], [0, 115]]", "[0, 115], [40, 115]]"), "4:6", []string{"crosses"}},
		"40 m in a feet file":   {with("height: 52 ft", "height: 40 m"), "14:59", []string{"far taller than a silver maple", "40 ft if feet are meant"}},
		"negative size":         {with("spread: 36 ft", "spread: -36 ft"), "14:74", []string{"cannot be right"}},
		"wall in metres":        {with("wall height: 13 ft 6 in", "wall height: 2.6"), "8:16", []string{"2.6 m if that is what is meant"}},
		"bare pitch":            {with("9/12", "9"), "9:48", []string{"9/12 or 9°"}},
		"list for a value":      {with("9/12", "[9, 12]"), "9:48", []string{"not a list"}},
		"value for a list":      {with("[[0, 0], [40, 0], [40, 115], [0, 115]]", "40 x 115"), "4:6", []string{"should be a list", `"40 x 115"`}},
		"comma in a point":      {with("at: [28, 20]", "at: [1,900, 20]"), "15:38", []string{"leave out commas inside numbers"}},
		"no colon space":        {with("spread: 36 ft", "spread:36 ft"), "14:66", []string{"no space after the colon", "spread: 36 ft"}},
		"no value":              {with("height: 52 ft", "height:"), "14:51", []string{"height has no value"}},
		"list without brackets": {with("remove: [T1, T2]", "remove: T1, T2"), "17:30", []string{"a comma ends a value", "remove: [T1, T2]"}},
		"needle east or west":   {with("up is true north", "{up points: N 4 E, measured: magnetic, declination: 7}"), "3:60", []string{"could be west or east", "7° W or 7° E"}},
		"needle the other way":  {with("up is true north", "{up points: N 4 E, measured: magnetic, declination: 7° E}"), "3:60", []string{"look again", "points west", "declination: 7° W"}},
		"trunk in inches":       {with("spread: 36 ft", "spread: 36 ft, trunk: 24"), "14:88", []string{"write 24 in"}},
		"eye on a mast":         {with("height: 52 ft", "height: {distance: 60 ft, top angle: 38, eye height: 54}"), "14:104", []string{"look again", "an eye 54 ft above"}},
		"hot water panel":       {sound + "collectors: [{kind: hot water, width: 4 ft, height: 8 ft}]\n", "19:21", []string{"for hot water flat plate"}},
		"place missing":         {with("place: {latitude: 41.5, longitude: -83, elevation: 600 ft, time zone: America/New_York}", ""), "1:1", []string{"place is missing"}},
		"asia":                  {with("longitude: -83", "longitude: 83"), "2:36", []string{"look again", "longitude: -83"}},
		"zone":                  {with("America/New_York", "EST5"), "2:71", []string{"not a time zone"}},
		"north unknown":         {with("up is true north", "magnetic 4° E of the sketch's up"), "3:8", []string{"where up on the sketch points"}},
		"magnetic, no needle":   {with("up is true north", "{up points: N 4 E, measured: magnetic}"), "3:8", []string{"declination is missing"}},
		"angle keys astray":     {with("height: 52 ft", "top angle: 38°"), "14:51", []string{"height: {distance: 60 ft, top angle: 38°"}},
		"base angle sign":       {with("height: 52 ft", "height: {distance: 60 ft, top angle: 38, base angle: -4}"), "14:104", []string{"could mean down or up", "4° down"}},
		"bearing without":       {with("at: [28, 20]", "bearing: S 20 W, distance: 41 ft"), "15:5", []string{"from is missing"}},
		"from nowhere":          {with("at: [28, 20]", "bearing: S 20 W, distance: 41 ft, from: pegg"), "15:74", []string{"write peg"}},
		"crown above top":       {with("crown base: 9 ft", "crown base: 60 ft"), "14:93", []string{"above the top"}},
		"plan on unknown":       {with("name: both,", "name: both, on: front,"), "17:22", []string{`no plan "front" above`}},
		"raise above top":       {with("remove: [T1, T2]", "raise: [{tree: T1, to: 60 ft}]"), "17:41", []string{"takes the whole crown"}},
		"empty plan":            {with(", remove: [T1, T2]", ""), "17:5", []string{"changes nothing"}},
		"anchor":                {with("name: Test lot", "name: &a Test lot"), "1:7", []string{"anchors"}},
		"tab":                   {with("  footprint", "\tfootprint"), "7:1", []string{"tab"}},
		"colon in a note":       {with("crown base: 9 ft}", "notes: [wires: keep off]}"), "14:89", []string{"in quotes"}},
		"deep":                  {with("name: Test lot", "name: "+strings.Repeat("[", 40)+strings.Repeat("]", 40)), "1:31", []string{"nested"}},
		"open quote":            {with("name: Test lot", `name: "Test lot`), "", []string{"never closed"}},
		"open brace":            {with("overhang: 14 in}", "overhang: 14 in"), "", []string{"not closed"}},
		"PNG":                   {"\x89PNG\r\n\x1a\n", "1:1", []string{"a picture (PNG)"}},
		"XML":                   {"<?xml version='1.0'?><a/>", "1:1", []string{"XML"}},
		"GeoJSON":               {`{"type": "FeatureCollection", "features": []}`, "1:1", []string{"GeoJSON", "--from"}},
		"UTF-16":                {"\xff\xfen\x00", "1:1", []string{"UTF-16"}},
		"Latin-1":               {"name: caf\xe9", "1:1", []string{"UTF-8"}},
		"empty":                 {"# nothing\n", "1:1", []string{"empty"}},
		"JSON of others":        {`{"width": 3}`, "1:1", []string{"none of its keys", "width", "site file in plain text"}},
		"a list":                {"- 1\n- 2\n", "1:1", []string{"keys and values"}},
		"two documents":         {sound + "---\nname: more\n", "19:1", []string{"second document"}},
		"too long a value":      {with("left: 2 ft,", "left: "+strings.Repeat("2", 300)+","), "11:35", []string{"too many"}},
	} {
		_, faults := Read("site.yaml", []byte(c.text))
		found := false
		for _, f := range faults {
			all := strings.HasPrefix(f.String(), "site.yaml:"+c.at)
			for _, s := range c.says {
				all = all && strings.Contains(f.String(), s)
			}
			found = found || all
		}
		if !found {
			t.Errorf("%s: want %s %q, got", name, c.at, c.says)
			for _, f := range faults {
				t.Errorf("      %v", f)
			}
		} else if len(faults) > 3 {
			t.Errorf("%s: one slip makes %d faults: %v", name, len(faults), faults)
		}
	}
}

func TestAllFaultsComeAtOnceInTheOrderOfTheFile(t *testing.T) {
	text := strings.NewReplacer("left: 2 ft,", "left: 2 fot,", "silver maple", "sliver maple", "9/12", "steep", "[T1, T2]", "[T1, T7]").Replace(sound)
	_, faults := Read("site.yaml", []byte(text))
	if len(faults) != 4 {
		t.Fatalf("%d faults: %v", len(faults), faults)
	}
	for i := 1; i < len(faults); i++ {
		if faults[i].Line < faults[i-1].Line {
			t.Error("out of order:", faults)
		}
	}
}

func TestAFileOfEndlessFaultsIsToldShort(t *testing.T) {
	var b strings.Builder
	b.WriteString(sound + "fences:\n")
	for i := range 3000 {
		fmt.Fprintf(&b, "  - {line: [[0, 0], [0, x%d]], height: tall%d}\n", i, i)
	}
	_, faults := Read("site.yaml", []byte(b.String()))
	if len(faults) > mostFaults+1 || Wrong(faults) == 0 {
		t.Error(len(faults))
	}
}

func TestManyWarningsHideNoFaultAndMakeNone(t *testing.T) {
	above, below, _ := strings.Cut(sound, "plans:")
	var b strings.Builder
	b.WriteString(above)
	for range 300 {
		b.WriteString("  - {species: red maple, at: [-50, -50]}\n") // outside the lot: a warning each
	}
	if _, faults := Read("site.yaml", []byte(b.String()+"plans:"+below)); Wrong(faults) > 0 || len(faults) < mostFaults {
		t.Errorf("%d, the last %v", len(faults), faults[len(faults)-1])
	}
	if _, faults := Read("site.yaml", []byte(b.String()+"plans:"+strings.Replace(below, "T2", "T999", 1))); Wrong(faults) == 0 {
		t.Error("the fault is lost among the warnings")
	}
}

// A slip in any key of the first level is told once, whatever refers to it.
func TestEveryTopKeyWithASlipIsOneFault(t *testing.T) {
	for _, key := range topKeys {
		_, faults := Read("site.yaml", []byte(sound+key+"x: 1\n"))
		for _, f := range faults {
			if !f.Warning && !strings.Contains(f.String(), "write "+key) {
				t.Errorf("%sx: %v", key, f)
			}
		}
		if len(faults) == 0 {
			t.Errorf("%sx is taken in silence", key)
		}
	}
}
