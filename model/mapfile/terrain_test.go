package mapfile

import (
	"math"
	"strings"
	"testing"
)

func TestSpotHeightsComeInFromTheMap(t *testing.T) {
	site, _ := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
		point(`"kind":"spot height","height_ft":-3`, 8, -12).point(`"kind":"spot","height":"1.2 m"`, -8, -12).
		point(`"kind":"tree","species":"red maple","height_m":9,"spread_m":5,"crown_base_m":2`, 8, -12).site(t)
	spots := site.Terrain.Spots
	if len(spots) != 2 || len(site.Trees) != 1 || math.Abs(spots[0].Up+3*0.3048) > 1e-9 || math.Abs(spots[1].Up-1.2) > 1e-3 {
		t.Fatalf("%+v, %d trees", spots, len(site.Trees))
	}
	if d := math.Hypot(spots[0].At[0]-8, spots[0].At[1]+12); d > 0.01 {
		t.Errorf("a spot moved by %v m", d)
	}
	if z := site.Trees[0].Ground; math.Abs(z-spots[0].Up) > 0.001 {
		t.Errorf("the tree on the spot stands at %v", z)
	}
}

func TestSpotHeightsThatCannotBeMeantAreRefused(t *testing.T) {
	for says, want := range map[string]string{
		`"kind":"spot height"`:                                "a spot has no height; write height_ft or height_m",
		`"kind":"spot height","elevation_m":180`:              "elevation_m: a spot height counts from the ground at the house",
		`"kind":"spot height","height":4`:                     "could be feet or metres",
		`"kind":"spot height","height_m":400`:                 "cannot be right here",
		`"kind":"spot height","height_m":1,"id":"bank, west"`: "told twice, by slope_percent and by spot heights",
	} {
		lot := `"kind":"lot"`
		if strings.Contains(says, "west") {
			lot += `,"slope_percent":5,"uphill_deg":20`
		}
		_, _, err := fromMap("lot.geojson", newLot().box(lot, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).point(says, 8, -12).text())
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, wanted %q", says, err, want)
		}
	}
}
