package sitefile

import (
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
units: feet
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

func TestLineEndsAndMarksOfOtherMachinesAreRead(t *testing.T) {
	plain := readSound(t, sound)
	for name, text := range map[string]string{"CRLF": strings.ReplaceAll(sound, "\n", "\r\n"), "BOM": "\xef\xbb\xbf" + sound} {
		s := readSound(t, text)
		if s.Trees[0].Height != plain.Trees[0].Height || s.Name != plain.Name {
			t.Errorf("%s: %v", name, s)
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
	text := strings.TrimSuffix(sound, "units: feet\n") + `  - name: all kinds
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
	metric := strings.Replace(with("at: [18, 14]", "at: [18 ft, 14 ft]"), "units: feet", "units: metres", 1)
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
	if len(faults) != 1 || faults[0].Line != 22 || !strings.Contains(faults[0].Path, "garages[garage]") {
		t.Errorf("told as %v", faults)
	}
}
