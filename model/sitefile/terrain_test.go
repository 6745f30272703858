package sitefile

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// banked is the sound lot with ground that rises toward the street: a corner
// of the house 18 in low, spots by the house's corner and by a named point.
const banked = sound + `
terrain:
  spots:
    - {at: [0, 0], up: 4 ft}
    - {at: [40, 0], up: 4 ft}
    - {from: house south-west corner, bearing: S, distance: 20 ft, up: 1 ft 6 in}
    - {from: peg, bearing: E, distance: 60 ft, up: 120 cm}
    - {at: [31, 46], down: 18 in}
    - {at: [20, 115], down: 3 ft}
sheds:
  - {id: shed, footprint: [[30, 4], [36, 4], [36, 8], [30, 8]], wall height: 7 ft, roof: {kind: flat}}
fences:
  - {id: side, line: [[0, 0], [0, 46], [8, 46]], height: 4 ft}
  - {id: level, line: [[40, 0], [40, 20]], height: 4 ft, base: 2 ft}
`

func TestSpotHeightsCarryWhatStandsOnThem(t *testing.T) {
	s := readSound(t, banked)
	spots := s.Terrain.Spots
	if len(spots) != 6 || math.Abs(spots[2].At[0]-8*ft) > 1e-9 || math.Abs(spots[2].At[1]-26*ft) > 1e-9 || math.Abs(spots[2].Up-1.5*ft) > 1e-9 ||
		math.Abs(spots[3].At[0]-80*ft) > 1e-9 || spots[3].Up != 1.2 || math.Abs(spots[4].Up+1.5*ft) > 1e-9 {
		t.Fatalf("%+v", spots)
	}
	g := s.Ground()
	for _, tree := range s.Trees {
		if z := g.At(tree.At); tree.Ground != z || z == 0 {
			t.Errorf("%s stands at %v, its ground at %v", tree.ID, tree.Ground, z)
		}
	}
	if base := s.Porches[0].Parts[0].Base; math.Abs(base-g.At(orb.Point{33 * ft, 6 * ft})) > 1e-9 || base < 2*ft {
		t.Errorf("the shed stands at %v", base)
	}
	if s.House.Parts[0].Base != 0 {
		t.Error("the house has left its own ground")
	}
	if f := s.Fences[0]; len(f.Feet) != 3 || math.Abs(f.Feet[0]-4*ft) > 1e-9 || f.Feet[2] != 0 || s.Fences[1].Feet != nil || s.Fences[1].Base != 2*ft {
		t.Errorf("%+v", s.Fences)
	}
	found := false
	for _, a := range s.Assumed {
		found = found || a.Subject == "tree T1" && a.Field == "ground" && a.Source == "between the spot heights"
	}
	if !found {
		t.Error("the tree's ground is not among what was assumed")
	}
}

// A turned sketch turns its spots.
func TestSpotHeightsTurnWithTheSketch(t *testing.T) {
	plain := sound + "terrain: {spots: [{at: [0, 0], up: 4 ft}, {at: [40, 0], up: 2 ft}, {at: [20, 115], down: 3 ft}]}\n"
	a, b := readSound(t, plain), readSound(t, strings.Replace(plain, "up is true north", "up is 20° east of true north", 1))
	for i := range a.Trees {
		if math.Abs(a.Trees[i].Ground-b.Trees[i].Ground) > 1e-9 || a.Trees[i].Ground == 0 {
			t.Error(a.Trees[i].Ground, b.Trees[i].Ground)
		}
	}
	sin, cos := math.Sincos(20 * math.Pi / 180)
	if p, q := a.Terrain.Spots[1].At, b.Terrain.Spots[1].At; math.Abs(q[0]-p[0]*cos) > 1e-9 || math.Abs(q[1]+p[0]*sin) > 1e-9 {
		t.Error(p, q)
	}
}

func TestFlatSpotsReadAsLevelGround(t *testing.T) {
	level, spots := readSound(t, sound), readSound(t, sound+"terrain: {spots: [{at: [0, 0], up: 0}, {at: [40, 0], up: 0}, {at: [20, 115], down: 0 in}]}\n")
	spots.Terrain.Spots = nil
	if a, b := len(level.Assumed), len(spots.Assumed); a != b {
		t.Errorf("%d values assumed on level ground, %d with flat spots", a, b)
	}
	for i := range level.Trees {
		if level.Trees[i].Ground != spots.Trees[i].Ground {
			t.Error(level.Trees[i], spots.Trees[i])
		}
	}
}

func TestFaultsOfSpotHeightsNameTheirPlace(t *testing.T) {
	for name, c := range map[string]struct{ terrain, want string }{
		"empty":           {"{spots: []}", ":19:18: terrain.spots: the list of spots is empty; write - {at: [20, 4], up: 2 ft 6 in}"},
		"no list":         {"{spots: 4 ft}", "spots should be a list"},
		"no height":       {"{spots: [{at: [0, 0]}]}", "terrain.spots[1]: up is missing; write up: 2 ft 6 in where it lies above"},
		"height":          {"{spots: [{at: [0, 0], height: 4 ft}]}", "a spot lies up or down; write up: 2 ft 6 in"},
		"no place":        {"{spots: [{up: 2 ft}]}", "at is missing"},
		"both":            {"{spots: [{at: [0, 0], up: 4 ft, down: 1 ft}]}", "lies both up and down; write one of the two"},
		"a sign":          {"{spots: [{at: [0, 0], up: -18 in}]}", "terrain.spots[1].up: up -18 in is the other way; write down: 18 in"},
		"no length":       {"{spots: [{at: [0, 0], up: two}]}", `"two" is not a length`},
		"a mountain":      {"{spots: [{at: [0, 0], up: 1000}]}", "cannot be right here"},
		"twice":           {"{spots: [{at: [0, 0], up: 2}, {at: [0, 0], up: 2}]}", "terrain.spots[2]: this spot was given before, as spot 1 (it once)"},
		"two heights":     {"{spots: [{at: [0, 0], up: 2}, {at: [0, 0.2], down: 1}]}", "this is the place of spot 1, which is 2 ft up and not 1 ft down"},
		"under the house": {"{spots: [{at: [20, 60], up: 2}]}", "lies under the house"},
		"slope too":       {"{slope: 5 %, uphill: north, spots: [{at: [0, 0], up: 2}]}", "told twice, as one slope and by spot heights"},
		"a slip":          {"{spot: [{at: [0, 0], up: 2}]}", `there is no key "spot" here`},
		"a slip in one":   {"{spots: [{at: [0, 0], upp: 2}]}", `"upp"`},
		"unknown point":   {"{spots: [{from: well, bearing: N, distance: 2 ft, up: 2}]}", "no such point is known"},
		"a cliff":         {"{spots: [{at: [0, 0], up: 2}, {at: [0, 3], up: 30}]}", "look again: terrain.spots[2]: between this spot and spot 1 the ground rises 28 ft over 3 ft"},
	} {
		_, faults := Read("site.yaml", []byte(sound+"terrain: "+c.terrain+"\n"))
		var all []string
		for _, f := range faults {
			all = append(all, f.String())
		}
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s: %q, wanted %q", name, all, c.want)
		}
		if len(faults) == 0 || faults[0].Line == 0 || strings.Count(strings.Join(all, "\n"), "terrain") > 1 && name != "a slip in one" {
			t.Errorf("%s: %q", name, all)
		}
	}
}
