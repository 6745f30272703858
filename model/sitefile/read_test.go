package sitefile

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/southyard/southyard/model"
)

const ft = 0.3048

// sound is a small file without faults; tests put lines of their own into it.
const sound = `name: Test lot
place: {latitude: 41.5, longitude: -83, elevation: 600 ft, time zone: America/New_York}
north: up is true north
lot: [[0, 0], [40, 0], [40, 115], [0, 115]]
points: {peg: [20, 0]}
house:
  footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]
  wall height: 13 ft 6 in
  roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}
  windows:
    - {id: W1, wall: south, left: 2 ft, sill: 3 ft, width: 32 in, height: 60 in}
    - {id: W2, wall: south, left: 8 ft, sill: 3 ft, width: 32 in, height: 60 in}
trees:
  - {id: T1, species: silver maple, at: [18, 14], height: 52 ft, spread: 36 ft, crown base: 9 ft}
  - {id: T2, species: red maple, at: [28, 20]}
plans:
  - {name: both, remove: [T1, T2]}
`

func with(from, to string) string {
	if !strings.Contains(sound, from) {
		panic("the sound file has no " + from)
	}
	return strings.Replace(sound, from, to, 1)
}

func readSound(t *testing.T, text string) *model.Site {
	t.Helper()
	s, faults := Read("site.yaml", []byte(text))
	if Wrong(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

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
		"hot water panel":       {sound + "collectors: [{kind: hot water, width: 4 ft, height: 8 ft}]\n", "18:21", []string{"for hot water flat plate"}},
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
		"two documents":         {sound + "---\nname: more\n", "18:1", []string{"second document"}},
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

func TestLineEndsAndMarksOfOtherMachinesAreRead(t *testing.T) {
	plain := readSound(t, sound)
	for name, text := range map[string]string{"CRLF": strings.ReplaceAll(sound, "\n", "\r\n"), "BOM": "\xef\xbb\xbf" + sound} {
		s := readSound(t, text)
		if s.Trees[0].Height != plain.Trees[0].Height || s.Name != plain.Name {
			t.Errorf("%s: %v", name, s)
		}
	}
}

// Tangent method by hand: 20 m away, 35° up and 4.5° down is 15.578 m.
func TestHeightsFromAngles(t *testing.T) {
	for text, want := range map[string]float64{
		"{distance: 20 m, top angle: 35°, base angle: 4.5°}":         15.578,
		"{distance: 20 m, top angle: 35°, base angle: 4.5° down}":    15.578,
		"{distance: 20 m, top angle: 35°, base angle: 4.5° up}":      20*math.Tan(35*math.Pi/180) - 1.574,
		"{distance: 60 ft, top angle: 100 %, eye height: 5 ft 4 in}": (60 + 64.0/12) * ft,
		"{distance: 60 ft, top angle: 45°}":                          (60 + 64.0/12) * ft,
	} {
		tree := readSound(t, with("height: 52 ft", "height: "+text)).Trees[0]
		if math.Abs(tree.Height-want) > 0.002 {
			t.Errorf("%s: %.3f m, want %.3f", text, tree.Height, want)
		}
		if m := tree.Measured[model.QHeight]; m.Method != "clinometer" || m.SD < 0.04*want || m.SD > 0.12*want {
			t.Errorf("%s: tolerance %v", text, m)
		}
	}
}

func TestPositionsFromBearingAndDistance(t *testing.T) {
	for text, want := range map[string][2]float64{
		"bearing: north, distance: 10, from: peg":                      {20, 10},
		"bearing: S 90 E, distance: 10 ft, from: Peg":                  {30, 0},
		"bearing: south, distance: 20 ft, from: house south-east":      {31, 26},
		"bearing: west, distance: 3, from: south-west corner of lot":   {-3, 0},
		"bearing: west, distance: 3, from: NE corner of the house":     {28, 74},
		"bearing: 180, distance: 3, from: T1":                          {18, 11},
		"bearing: S 45 W, distance: 10, from: house south-west corner": {8 - 10*math.Sqrt2/2, 46 - 10*math.Sqrt2/2},
	} {
		at := readSound(t, with("at: [28, 20]", text)).Trees[1].At
		if math.Hypot(at[0]/ft-want[0], at[1]/ft-want[1]) > 1e-9 {
			t.Errorf("%s: %v ft, want %v", text, [2]float64{at[0] / ft, at[1] / ft}, want)
		}
	}
}

// A sketch whose up reads N 11° E by a compass with declination 7° W points
// 4° east of true north: a point 100 ft up the sketch lies 100 sin 4° east.
func TestTheSketchIsTurnedToTrueNorth(t *testing.T) {
	for _, text := range []string{
		"{up points: N 11° E, measured: magnetic, declination: 7° W}",
		"up is 11° east of magnetic north, declination 7° W",
		"up is 4° east of true north",
		"{up points: N 4° E}",
	} {
		s := readSound(t, with("north: up is true north", "north: "+text))
		peg := s.Points["peg"]
		if math.Abs(s.Turn.Degrees()-4) > 1e-9 || math.Abs(peg[0]/ft-20*math.Cos(4*math.Pi/180)) > 1e-9 || math.Abs(peg[1]/ft+20*math.Sin(4*math.Pi/180)) > 1e-9 {
			t.Errorf("%s: turn %v, peg %v", text, s.Turn.Degrees(), peg)
		}
		if ridge := s.House.Parts[0].Roof.Ridge.Degrees(); math.Abs(ridge-94) > 1e-9 {
			t.Errorf("%s: the ridge drawn east-west runs %v°", text, ridge)
		}
		faces, err := s.House.Faces()
		if err != nil {
			t.Fatal(err)
		}
		wall, err := model.FindWall(faces, "south")
		if err != nil || math.Abs(wall.Azimuth().Degrees()-184) > 1e-6 {
			t.Errorf("%s: the south wall looks to %v (%v)", text, wall.Azimuth().Degrees(), err)
		}
	}
}

func TestCompassReadingsFollowTheStatedNorth(t *testing.T) {
	north := "north: {up points: N 7° E, measured: magnetic, declination: 7° W}" // up is true north
	for text, want := range map[string]float64{"N 7 E": 0, "7": 0, "north true": 0, "N 0 E true": 0, "7° mag": 0, "south": 173} {
		s := readSound(t, strings.Replace(with("at: [28, 20]", "bearing: "+text+", distance: 10 ft, from: peg"), "north: up is true north", north, 1))
		at, peg := s.Trees[1].At, s.Points["peg"]
		got := math.Mod(math.Atan2(at[0]-peg[0], at[1]-peg[1])*180/math.Pi+360, 360)
		if d := math.Abs(math.Remainder(got-want, 360)); d > 1e-6 {
			t.Errorf("%s: %v° true, want %v", text, got, want)
		}
	}
}

func TestWhatIsNotMeasuredIsAssumedAndListed(t *testing.T) {
	s := readSound(t, sound)
	listed := map[string]bool{}
	for _, a := range s.Assumed {
		if a.Value == "" || a.Source == "" {
			t.Errorf("%v lacks a value or source", a)
		}
		listed[a.Subject+": "+a.Field] = true
	}
	for _, want := range []string{"tree T2: height", "tree T2: spread", "tree T2: crown base", "tree T2: crown shape", "tree T2: in leaf", "tree T2: removal cost",
		"tree T2: sun through the crown bare", "window W1: glazing", "tree T1: trunk"} {
		if !listed[want] {
			t.Errorf("%q is not listed as assumed", want)
		}
	}
	for _, not := range []string{"tree T1: height", "tree T1: spread", "tree T1: crown base", "site: time zone", "site: north", "house: roof overhang"} {
		if listed[not] {
			t.Errorf("%q is listed as assumed", not)
		}
	}
	for _, tree := range s.Trees {
		for _, q := range []model.Quantity{model.QHeight, model.QSpread, model.QCrownBase, model.QPosition, model.QTransmissivity} {
			if m, ok := tree.Measured[q]; !ok || m.Method == "" || !(m.SD > 0) {
				t.Errorf("%s: %s has tolerance %v", tree.ID, q, m)
			}
		}
	}
	if guessed := s.Trees[1].Measured[model.QHeight]; guessed.Method != "species table" {
		t.Error(guessed)
	}
}

func TestTolerancesFollowTheMethod(t *testing.T) {
	sd := func(by string) float64 {
		return readSound(t, with("height: 52 ft,", "height: 52 ft, measured by: "+by+",")).Trees[0].Measured[model.QHeight].SD
	}
	if !(sd("tape") < sd("clinometer") && sd("clinometer") < sd("pacing") && sd("pacing") < sd("guess")) {
		t.Error(sd("tape"), sd("clinometer"), sd("pacing"), sd("guess"))
	}
	own := readSound(t, with("height: 52 ft,", "height: 52 ft, measured by: {height: guess}, tolerance: {height: 3 ft, transmissivity: 0.05},")).Trees[0].Measured
	if h := own[model.QHeight]; h.Method != "guess" || math.Abs(h.SD-3*ft) > 1e-12 || own[model.QTransmissivity].SD != 0.05 {
		t.Error(own)
	}
}

func TestOwnersAndWhatMayGo(t *testing.T) {
	for text, want := range map[string]struct {
		owner           model.Owner
		removable, keep bool
	}{
		"owner: lot": {model.OwnerLot, true, false}, "keep: yes": {model.OwnerLot, false, true}, "owner: neighbor": {model.OwnerNeighbour, false, false},
		"owner: street": {model.OwnerStreet, false, false}, "owner: neighbour, keep: yes": {model.OwnerNeighbour, false, true},
	} {
		tree := readSound(t, with("crown base: 9 ft", text)).Trees[0]
		if tree.Owner != want.owner || tree.Removable != want.removable || tree.Keep != want.keep {
			t.Errorf("%s: %v removable %v keep %v", text, tree.Owner, tree.Removable, tree.Keep)
		}
	}
}

func TestPlansAreReadStepByStep(t *testing.T) {
	text := sound + `  - name: all kinds
    on: both
    raise: [{tree: T1, to: 12 ft, cost: $300}]
    reduce: [{tree: t2, height: 20 ft, spread: 15 ft}]
    thin: [{tree: T1, bare: 80 %}]
    plant: [{id: N1, species: crabapple, at: [5, 20], age: 3, cost: $150}]
    build:
      - {id: shed, footprint: [[4, 90], [14, 90], [14, 100], [4, 100]], wall height: 8 ft, roof: {kind: gable, pitch: 6/12, overhang: 0}, cost: $3000}
      - {id: screen, line: [[0, 0], [0, 30]], height: 6 ft}
    demolish: [old shed, {structure: back fence, cost: $200}]
sheds:
  - {id: old shed, footprint: [[20, 90], [30, 90], [30, 100], [20, 100]], wall height: 8 ft, roof: {kind: shed, down: north, pitch: 2/12, overhang: 6 in}}
fences:
  - {id: back fence, line: [[0, 115], [40, 115]], height: 6 ft}
`
	p := readSound(t, text).Plans[1]
	want := []model.StepKind{model.Raise, model.Reduce, model.Thin, model.Plant, model.Build, model.Build, model.Demolish, model.Demolish}
	if len(p.Steps) != len(want) || p.On != "both" {
		t.Fatal(p)
	}
	for i, k := range want {
		if p.Steps[i].Kind != k {
			t.Errorf("step %d is %s, want %s", i, p.Steps[i].Kind, k)
		}
	}
	if s := p.Steps; s[0].Cost != 300 || !s[0].CostKnown || s[1].Tree != "T2" || s[1].CostKnown || s[2].Bare != 0.8 || s[2].InLeaf != 0.17 ||
		s[3].NewTree.Age != 3 || s[3].Cost != 150 || s[4].NewBuilding.ID != "shed" || math.Abs(s[5].NewFence.Height-6*ft) > 1e-9 || s[7].Structure != "back fence" || s[7].Cost != 200 {
		t.Errorf("%+v", s)
	}
}

func TestTheRestOfTheFileIsRead(t *testing.T) {
	s := readSound(t, sound+`
climate: {sun: [1.7, 2.6, 3.6, 4.6, 5.6, 6.1, 6.0, 5.2, 4.2, 2.9, 1.8, 1.4], temperature: [25, 28, 37, 49, 60, 70, 74, 72, 65, 53, 42, 31], ground reflects: [50 %, 50 %, 0.3, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.4]}
season: Oct to Apr
budget: $4,500
terrain: {slope: 5 %, uphill: north, skyline: [{bearing: S 30 W, altitude: 4°}, {bearing: S 30 E, altitude: 6°}]}
targets: [{name: heater wall, surfaces: {south: 1, south windows: 2}, season: [Dec, Jan, Feb]}]
neighbors: [{id: next door, footprint: [[50, 46], [70, 46], [70, 74], [50, 74]], wall height: 17 ft, roof: {kind: hip, pitch: 6/12, overhang: 1 ft}}]
wires: [{line: [[0, 0], [8, 46]], height: 17 ft}]
heat: {floor area: 1000 sq ft, setpoint: 68, before: {wall: R-4, window: U-1.0}, fuel: oil, price: $3.80 per gallon, efficiency: 80 %, years: 20, discount: 4 %, persons: 2.5}
collectors: [{kind: flat plate, on: roof-south, width: 4 ft, height: 8 ft, count: 2, cost: $2600, may lie: yes}]
`)
	c := s.Climate
	switch {
	case !c.Monthly || c.Global[6] != 6.0 || math.Abs(c.Temp[0]+3.888889) > 1e-5 || c.Albedo[0] != 0.5:
		t.Error(c)
	case len(s.Season) != 7 || s.Season[0] != time.October || s.Budget != 4500:
		t.Error(s.Season, s.Budget)
	case len(s.Terrain.Skyline) != 2 || s.Terrain.Skyline[0].Azimuth > s.Terrain.Skyline[1].Azimuth || math.Abs(s.Terrain.SlopeRise-0.05) > 1e-12:
		t.Error(s.Terrain)
	case s.Trees[0].Ground > -0.5: // 46 ft down a 5 % slope
		t.Error("ground", s.Trees[0].Ground)
	case s.Targets[0].Parts["south windows"] != 2 || len(s.Targets[0].Season) != 3:
		t.Error(s.Targets)
	case s.Neighbours[0].Owner != model.OwnerNeighbour || len(s.Wires) != 1:
		t.Error(s.Neighbours)
	case s.Heat.Price != 3.8 || s.Heat.FuelUnit != "gallon" || s.Heat.Efficiency != 0.8 || math.Abs(s.Heat.Before.Window-0.17611) > 1e-9 || s.Heat.Setpoint != 20:
		t.Error(s.Heat)
	case s.Collectors[0].Count != 2 || !s.Collectors[0].Turned:
		t.Error(s.Collectors)
	}
}

func TestFeetAndMetresTellTheSameSite(t *testing.T) {
	metric := strings.Replace(with("at: [18, 14]", "at: [18 ft, 14 ft]"), "name:", "units: metres\nname:", 1)
	for _, pair := range [][2]string{{"[[0, 0], [40, 0], [40, 115], [0, 115]]", "[[0, 0], [40 ft, 0], [40 ft, 115 ft], [0, 115 ft]]"}, {"[[8, 46], [31, 46], [31, 74], [8, 74]]", "[[8 ft, 46 ft], [31 ft, 46 ft], [31 ft, 74 ft], [8 ft, 74 ft]]"}, {"[28, 20]", "[8.5344, 6.096]"}, {"peg: [20, 0]", "peg: [6.096, 0]"}} {
		metric = strings.Replace(metric, pair[0], pair[1], 1)
	}
	a, b := readSound(t, sound), readSound(t, metric)
	for i := range a.Trees {
		if math.Hypot(a.Trees[i].At[0]-b.Trees[i].At[0], a.Trees[i].At[1]-b.Trees[i].At[1]) > 1e-9 || a.Trees[i].Height != b.Trees[i].Height {
			t.Error(a.Trees[i], b.Trees[i])
		}
	}
	if !b.Metric || math.Abs(a.House.FootprintArea()-b.House.FootprintArea()) > 1e-9 {
		t.Error("the house differs")
	}
}

func TestAFileOfEndlessFaultsIsToldShort(t *testing.T) {
	var b strings.Builder
	b.WriteString(sound + "fences:\n")
	for range 3000 {
		b.WriteString("  - {line: [[0, 0], [0, x]], height: tall}\n")
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

func FuzzRead(f *testing.F) {
	f.Add(sound)
	f.Add(with("9/12", "flat"))
	f.Add(with("up is true north", "{up points: N 4 E, measured: magnetic, declination: 7 W}"))
	f.Add(with("height: 52 ft", "height: {distance: 20 m, top angle: 35°, base angle: 4.5°}"))
	f.Add(sound + "wires: [{line: [[0,0],[1,1]], height: 17 ft}]\nterrain: {slope: 5 %, uphill: north}\n")
	f.Add(sound + "heat: {before: {wall: empty cavities, ceiling: 3 in}, hot water: {fuel: electricity, price: $0.16 per kWh, tank: 80 gal, duct coil: {gives: 125 W/K}}}\nkeep clear: [{on: south, left: 1 ft, up: 0, width: 3 ft, height: 7 ft}]\n")
	f.Add(sound + "terrain: {spots: [{at: [0, 0], up: 4 ft}, {from: peg, bearing: E, distance: 20 ft, down: 18 in}, {at: [8, 46], up: 0}]}\n")
	f.Add("{}")
	f.Add("a: {$1,900}")
	f.Add(strings.Repeat(".", 5000) + ": 1")
	f.Fuzz(func(t *testing.T, text string) {
		s, faults := Read("f.yaml", []byte(text))
		for _, fault := range faults {
			if len(fault.String()) > 3000 || fault.Wrong == "" {
				t.Fatalf("fault %q", fault)
			}
		}
		if Wrong(faults) > 0 {
			return
		}
		for _, tree := range s.Trees {
			for _, x := range []float64{tree.At[0], tree.At[1], tree.Ground, tree.Height, tree.SpreadX, tree.SpreadY, tree.CrownBase, tree.Trunk, tree.InLeaf, tree.Bare, tree.Cost, tree.Leafing.Out, tree.Leafing.Fall} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%v in a tree of a sound file", x)
				}
			}
		}
		for _, p := range s.House.Parts {
			if x := p.WallHeight + p.Base + p.Roof.Overhang + p.Roof.Pitch.Radians(); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatal("part", p)
			}
		}
	})
}

func TestHotWaterHasItsOwnFuelAndCoil(t *testing.T) {
	const near = 1e-9
	s := readSound(t, sound+"heat: {fuel: oil, hot water: {fuel: electricity, price: $0.16 per kWh, efficiency: 95 %, duct coil: {gives: 240 Btu/h per °F, tank above: 110 °F, cost: $0}}}\n")
	w := s.Heat.Water
	if w.Fuel != "electricity" || w.Price != .16 || !w.PriceKnown || w.FuelUnit != "kwh" || w.Efficiency != .95 || w.Coil == nil {
		t.Fatalf("%+v", w)
	}
	// 240 × 1055.05585262 J / 3600 s / (5/9 K).
	if c := *w.Coil; math.Abs(c.Conductance-126.606702) > 1e-5 || math.Abs(c.KeepAbove-43.3333333) > 1e-6 || c.Cost != 0 || !c.CostKnown {
		t.Errorf("%+v", c)
	}
	if s := readSound(t, sound+"heat: {hot water: {duct coil: yes}}\n"); s.Heat.Water.Coil == nil || *s.Heat.Water.Coil != (model.CoilChoice{}) {
		t.Errorf("%+v", s.Heat.Water)
	}
	for _, none := range []string{"heat: {hot water: {duct coil: no}}\n", "heat: {fuel: gas}\n"} {
		if s := readSound(t, sound+none); s.Heat.Water != (model.WaterChoice{}) {
			t.Errorf("%s: %+v", none, s.Heat.Water)
		}
	}
	if s := readSound(t, sound+"heat: {hot water: {duct coil: {gives: 125 W/K}}}\n"); math.Abs(s.Heat.Water.Coil.Conductance-125) > near {
		t.Errorf("%+v", s.Heat.Water.Coil)
	}
	for wrong, say := range map[string]string{
		"gives: strong": "240 Btu/h per °F, or 125 W/K", "gives: -3": "240 Btu/h per °F", "gives: 1e9": "240 Btu/h per °F", "tank above: 300 °F": "tank above: 120 °F", "giives: 3": "gives",
	} {
		_, faults := Read("site.yaml", []byte(sound+"heat: {hot water: {duct coil: {"+wrong+"}}}\n"))
		if len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestAStatedZeroIsKnown(t *testing.T) {
	s := readSound(t, sound+"heat: {fuel: wood, price: $0 per cord, price rise: 0, discount: 0 %, persons: 0}\ncollectors: [{kind: air heater, width: 4 ft, height: 8 ft, cost: $0}]\n")
	h := s.Heat
	if !h.PriceKnown || !h.PriceRiseKnown || !h.DiscountKnown || !h.PersonsKnown || !s.Collectors[0].CostKnown || h.Price+h.PriceRise+h.Discount+h.Persons+s.Collectors[0].Cost != 0 {
		t.Errorf("%+v, %+v", h, s.Collectors)
	}
	h = readSound(t, sound+"heat: {fuel: wood}\n").Heat
	if h.PriceKnown || h.PriceRiseKnown || h.DiscountKnown || h.PersonsKnown {
		t.Errorf("%+v", h)
	}
}

func TestShedsAndGaragesAreBothReadAndFaultsNameTheirList(t *testing.T) {
	text := sound + `sheds:
  - {id: tool shed, footprint: [[2, 90], [10, 90], [10, 98], [2, 98]], wall height: 7 ft, roof: {kind: gable, pitch: 6/12}}
garages:
  - {id: garage, footprint: [[24, 90], [38, 90], [38, 110], [24, 110]], wall height: 8 ft, roof: {kind: flat}}
`
	site := readSound(t, text)
	if len(site.Porches) != 2 || site.Porches[0].ID != "tool shed" || site.Porches[1].ID != "garage" {
		t.Errorf("read %+v", site.Porches)
	}
	_, faults := Read("site.yaml", []byte(strings.Replace(text, "[38, 90], [38, 110], [24, 110]", "[38, 110], [38, 90], [24, 110]", 1)))
	if len(faults) != 1 || faults[0].Line != 21 || !strings.Contains(faults[0].Path, "garages[garage]") {
		t.Errorf("told as %v", faults)
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

func TestKeepClearIsReadAsATapeReads(t *testing.T) {
	s := readSound(t, sound+"keep clear:\n  - {id: vent, on: roof-south, left: 12 ft, up: 6 ft, width: 4 in, height: 4 in, room: 1 ft}\n  - {on: south, left: 12 ft, up: 0, width: 3 ft, height: 7 ft}\n")
	want := []model.KeepClear{{ID: "vent", On: "roof-south", Left: 12 * ft, Up: 6 * ft, Width: ft / 3, Height: ft / 3, Margin: ft},
		{ID: "clear 2", On: "south", Left: 12 * ft, Width: 3 * ft, Height: 7 * ft, Margin: 5 * ft / 12}}
	for i, k := range s.KeepClear {
		if w := want[i]; k.ID != w.ID || k.On != w.On || math.Abs(k.Left-w.Left)+math.Abs(k.Up-w.Up)+math.Abs(k.Width-w.Width)+math.Abs(k.Height-w.Height)+math.Abs(k.Margin-w.Margin) > 1e-9 {
			t.Errorf("%+v, want %+v", k, w)
		}
	}
	for wrong, say := range map[string]string{
		"{id: vent, on: roof-up, left: 1 ft, up: 1 ft, width: 4 in, height: 4 in}":     "the roof planes are roof-north, roof-south",
		"{id: vent, on: roof-south, left: 99 ft, up: 1 ft, width: 4 in, height: 4 in}": "past the right end",
		"{id: vent, on: roof-south, left: 1 ft, up: 1 ft, width: 4 in}":                "height is missing",
		"{id: vent, left: 1 ft, up: 1 ft, width: 4 in, height: 4 in}":                  "on is missing",
	} {
		if _, faults := Read("site.yaml", []byte(sound+"keep clear: ["+wrong+"]\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestWallsAndAtticsAreSaidAsABuilderSeesThem(t *testing.T) {
	h := readSound(t, sound+"heat: {before: {wall: empty cavities, ceiling: 3 in}, after: {wall: dense-packed, ceiling: R-49}}\n").Heat
	if b := h.Before; b.Cavity != model.EmptyCavity || b.Wall != 0 || b.Ceiling != 0 || math.Abs(b.Attic-.0762) > 1e-9 {
		t.Errorf("before: %+v", b)
	}
	if a := h.After; a.Cavity != model.DensePacked || a.Attic != 0 || math.Abs(a.Ceiling-49/5.678263) > 1e-4 {
		t.Errorf("after: %+v", a)
	}
	for wrong, say := range map[string]string{"wall: full": "empty cavities, or dense-packed", "ceiling: deep": "depth of loose fill such as 10 in", "ceiling: 40 ft": "depth of loose fill"} {
		if _, faults := Read("site.yaml", []byte(sound+"heat: {before: {"+wrong+"}}\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestCertificateAndTankAreTakenAsStated(t *testing.T) {
	s := readSound(t, sound+"heat: {hot water: {tank: 80 gal, delivered at: 125 °F}}\ncollectors: [{kind: flat plate, width: 4 ft, height: 8 ft, certificate: {eta0: 0.74, a1: 3.9, a2: 0.011, aperture: 91 %}}]\n")
	if w := s.Heat.Water; math.Abs(w.Tank-302.833) > .01 || math.Abs(w.Hot-51.6667) > 1e-3 {
		t.Errorf("%+v", w)
	}
	if c := s.Collectors[0].Certificate; c == nil || *c != (model.Certificate{Eta0: .74, A1: 3.9, A2: .011, Aperture: .91}) {
		t.Errorf("%+v", c)
	}
	for wrong, say := range map[string]string{
		"kind: flat plate, certificate: {eta0: 74, a1: 3.9, a2: 0.01}":   "eta0: 0.76",
		"kind: flat plate, certificate: {eta0: 0.74, a2: 0.01}":          "a1 is missing",
		"kind: air heater, certificate: {eta0: 0.74, a1: 3.9, a2: 0.01}": "stands with an air heater",
		"kind: flat plate, certificate: {eta0: 0, a1: 3.9, a2: 0.01}":    "no efficiency",
		"kind: flat plate, certificate: {eta0: 0.7, a1: hot, a2: 0.01}":  "a1: 3.6",
	} {
		if _, faults := Read("site.yaml", []byte(sound+"collectors: [{width: 4 ft, height: 8 ft, "+wrong+"}]\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
	if _, faults := Read("site.yaml", []byte(sound+"heat: {hot water: {tank: big, delivered at: 200 °F}}\n")); len(faults) != 2 {
		t.Errorf("%v", faults)
	}
}
