package mapfile

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
)

var update = flag.Bool("update", false, "write the example's site file anew")

// lot is a map about a spot, in metres from it, for the tests to write.
type lot struct {
	at       s2.LatLng
	features []string
}

func newLot() *lot { return &lot{at: s2.LatLngFromDegrees(41.5, -83)} }

func (l *lot) position(x, y float64) string {
	at := planeAt(l.at).lift(orb.Point{x, y})
	lng := at.Lng.Degrees()
	return fmt.Sprintf("[%.9f,%.9f]", lng, at.Lat.Degrees())
}

func (l *lot) polygon(properties string, xy ...float64) *lot {
	var c []string
	for i := 0; i+1 < len(xy); i += 2 {
		c = append(c, l.position(xy[i], xy[i+1]))
	}
	l.features = append(l.features, fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"Polygon","coordinates":[[%s]]}}`, properties, strings.Join(append(c, c[0]), ",")))
	return l
}

func (l *lot) box(properties string, x0, y0, x1, y1 float64) *lot {
	return l.polygon(properties, x0, y0, x1, y0, x1, y1, x0, y1)
}

func (l *lot) point(properties string, x, y float64) *lot {
	l.features = append(l.features, fmt.Sprintf(`{"type":"Feature","properties":{%s},"geometry":{"type":"Point","coordinates":%s}}`, properties, l.position(x, y)))
	return l
}

func (l *lot) text() []byte {
	return []byte("{\"type\":\"FeatureCollection\",\"features\":[\n" + strings.Join(l.features, ",\n") + "\n]}")
}

const walls = `"wall_height_m":5,"roof":"gable","pitch":"9/12","overhang":"12 in"`

// fromMap reads a map alone into a site file in feet.
func fromMap(name string, data []byte) (yaml []byte, notes []string, err error) {
	return Site(Source{name, data}, nil, Options{})
}

func (l *lot) site(t *testing.T) (*model.Site, []string) {
	t.Helper()
	yaml, notes, err := fromMap("lot.geojson", l.text())
	if err != nil {
		t.Fatalf("%v\n%s", err, l.text())
	}
	return readSite(t, "lot.yaml", yaml), notes
}

func told(notes []string, what string) bool { return strings.Contains(strings.Join(notes, "\n"), what) }

func TestHouseIsTheLargestBuildingOnTheLot(t *testing.T) {
	site, notes := newLot().
		box(`"kind":"lot"`, -10, -20, 10, 20).
		box(`"building":"yes","id":"small",`+walls, 2, 12, 7, 18).
		box(`"building":"house","id":"big",`+walls, -6, -5, 4, 6).
		box(`"building":"yes","id":"next",`+walls, 15, -10, 45, 18).site(t)
	if a := site.House.FootprintArea(); math.Abs(a-110) > 0.05 {
		t.Errorf("the house has %.2f m², not 110", a)
	}
	if len(site.Neighbours) != 1 || site.Neighbours[0].ID != "next" || len(site.Porches) != 1 || site.Porches[0].ID != "small" {
		t.Errorf("neighbours %+v, sheds %+v", site.Neighbours, site.Porches)
	}
	if !told(notes, "taken as the house") || !told(notes, "the windows") {
		t.Errorf("notes %q", notes)
	}
}

func TestHouseThatIsMarkedNeedNotBeTheLargest(t *testing.T) {
	site, _ := newLot().
		box(`"kind":"lot"`, -10, -20, 10, 20).
		box(`"kind":"building","id":"barn",`+walls, -6, -18, 6, -4).
		box(`"kind":"house",`+walls, -4, 0, 4, 7).site(t)
	if a := site.House.FootprintArea(); math.Abs(a-56) > 0.05 {
		t.Errorf("the house has %.2f m², not 56", a)
	}
}

func TestUnmarkedOutlineRoundABuildingIsTheLot(t *testing.T) {
	site, notes := newLot().box(``, -10, -20, 10, 20).box(`"building":"yes",`+walls, -4, 0, 4, 7).site(t)
	if b := site.Lot.Bound(); math.Abs(b.Max[0]-b.Min[0]-20) > 0.01 || !told(notes, "taken as the lot") {
		t.Errorf("lot %v, notes %q", site.Lot, notes)
	}
}

func TestLotOnThe180thMeridianIsNotCutInTwo(t *testing.T) {
	l := newLot()
	l.at = s2.LatLngFromDegrees(-17, 180)
	site, _ := l.box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).site(t)
	if b := site.Lot.Bound(); math.Abs(b.Max[0]-b.Min[0]-20) > 0.01 {
		t.Errorf("the lot is %.2f m wide, not 20", b.Max[0]-b.Min[0])
	}
}

func TestUnitsStandInNamesOrValues(t *testing.T) {
	for _, p := range []string{
		`"height":"52 ft"`, `"height_ft":52`, `"height_m":15.8496`, `"Height (ft)":"52"`, `"tree height":"15.8496 m"`, `"HEIGHT_FT":52.0`,
	} {
		site, _ := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
			point(`"species":"red maple",`+p, 1, -12).site(t)
		if h := site.Trees[0].Height; math.Abs(h-15.8496) > 0.001 {
			t.Errorf("%s makes a tree of %v m", p, h)
		}
	}
}

func TestWhatIsNeitherBuildingNorTreeIsLeftOutAndSaid(t *testing.T) {
	site, notes := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
		box(`"kind":"driveway"`, 5, -20, 8, 7).box(`"natural":"water"`, -40, 0, -30, 9).box(`"landuse":"grass"`, -50, -50, 50, 50).
		point(`"kind":"hydrant"`, 0, -21).point(`"type":"Deciduous","species":"red maple"`, 0, -12).site(t)
	if len(site.Trees) != 1 || len(site.Porches)+len(site.Neighbours) != 0 || !told(notes, "feature 3, line 4 is a Polygon") || !told(notes, "feature 6, line 7 is a Point") {
		t.Errorf("%d trees, %d sheds, %d neighbours, notes %q", len(site.Trees), len(site.Porches), len(site.Neighbours), notes)
	}
}

func TestTreeOffTheLotIsNeverTheLotsOwn(t *testing.T) {
	site, notes := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
		point(`"id":"A","species":"red maple"`, 1, -12).point(`"id":"B","species":"red maple"`, 11, -12).
		point(`"id":"C","species":"red maple","owner":"city"`, 1, -25).point(`"id":"D","species":"silver mapel"`, -3, -9).site(t)
	for i, want := range []struct {
		owner     model.Owner
		removable bool
	}{{model.OwnerLot, true}, {model.OwnerNeighbour, false}, {model.OwnerStreet, false}, {model.OwnerLot, true}} {
		if tr := site.Trees[i]; tr.Owner != want.owner || tr.Removable != want.removable {
			t.Errorf("tree %s: owner %s, removable %v", tr.ID, tr.Owner, tr.Removable)
		}
	}
	if !told(notes, "silver maple?") {
		t.Errorf("nothing said of the misspelt species: %q", notes)
	}
}

func TestRidgeByCompassWordFollowsTheHouse(t *testing.T) {
	turn := 11 * math.Pi / 180
	var xy []float64
	for _, p := range [][2]float64{{-4, 0}, {4, 0}, {4, 7}, {-4, 7}} {
		xy = append(xy, p[0]*math.Cos(turn)+p[1]*math.Sin(turn), -p[0]*math.Sin(turn)+p[1]*math.Cos(turn))
	}
	site, _ := newLot().box(`"kind":"lot"`, -20, -20, 20, 20).polygon(`"kind":"house","ridge":"north-south",`+walls, xy...).site(t)
	if r := site.House.Parts[0].Roof.Ridge.Degrees(); math.Abs(math.Remainder(r-11, 180)) > 0.01 {
		t.Errorf("the ridge runs along %.2f°, not 11°", r)
	}
}

func TestWhatTheMapDoesNotTellIsMarked(t *testing.T) {
	yaml, notes, err := fromMap("lot.geojson", newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house"`, -4, 0, 4, 7).point(`"kind":"tree"`, 0, -9).text())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"house: wall height", "house: the roof", "the windows", "tree T1: height, spread, crown base, trunk"} {
		if !told(notes, want) {
			t.Errorf("%q is not among the notes %q", want, notes)
		}
	}
	for _, want := range []string{"# wall height:", "# roof:", "# wall 1: south, 26 ft 3 in long", "# wall 4: west, 23 ft long", "# species:"} {
		if !strings.Contains(string(yaml), want) {
			t.Errorf("the site file lacks %q:\n%s", want, yaml)
		}
	}
	// Reading it asks for just what is missing, and takes nothing for granted.
	_, faults := sitefile.Read("lot.yaml", yaml)
	for _, f := range faults {
		if !strings.Contains(f.String(), "wall height") && !strings.Contains(f.String(), "roof") {
			t.Errorf("unlooked-for fault: %v", f)
		}
	}
	if sitefile.Wrong(faults) == 0 {
		t.Error("a house without wall height was taken")
	}
}

func TestMapsThatCannotBeTakenAreRefusedInWords(t *testing.T) {
	feature := func(geometry string) string {
		return `{"type":"FeatureCollection","features":[` + "\n" + `{"type":"Feature","properties":{"id":"A7"},"geometry":` + geometry + `}]}`
	}
	cases := []struct{ name, text, want string }{
		{"nothing", ``, "not GeoJSON"},
		{"not JSON", "{\n\"type\": oops}", "line 2, column 9"},
		{"a list", `[1,2]`, "should not be a array"},
		{"a bare geometry", `{"type":"Point","coordinates":[1,2]}`, "FeatureCollection"},
		{"no features", `{"type":"FeatureCollection","features":[]}`, "no features"},
		{"swapped, Antarctica", feature(`{"type":"Point","coordinates":[41.5,-83.1]}`), "look swapped"},
		{"swapped, beyond the pole", feature(`{"type":"Point","coordinates":[45.5,-122.6]}`), "look swapped"},
		{"a survey grid", feature(`{"type":"Point","coordinates":[1652300.2,731220.1]}`), "survey grid"},
		{"beyond 180", feature(`{"type":"Point","coordinates":[190,41]}`), "beyond 180"},
		{"null island", feature(`{"type":"Point","coordinates":[0,0]}`), "never set"},
		{"another system", `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::3734"}},"features":[{}]}`, "WGS 84"},
		{"one number", feature(`{"type":"Point","coordinates":[1]}`), "feature 1 (A7), line 2"},
		{"text for numbers", feature(`{"type":"Point","coordinates":["a","b"]}`), "do not fit a Point"},
		{"wrong nesting", feature(`{"type":"Polygon","coordinates":[[1,2],[3,4]]}`), "do not fit a Polygon"},
		{"two corners", feature(`{"type":"Polygon","coordinates":[[[-83,41],[-83.1,41],[-83,41]]]}`), "three corners"},
		{"a collection", feature(`{"type":"GeometryCollection","geometries":[]}`), "make each of its parts a feature"},
		{"an unknown geometry", feature(`{"type":"Circle","coordinates":[1,2]}`), "no geometry of RFC 7946"},
		{"a tree alone", feature(`{"type":"Point","coordinates":[-83,41]}`), "neither a lot nor a building"},
		{"a lot of two pieces", `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"kind":"lot"},"geometry":{"type":"MultiPolygon","coordinates":[[[[-83,41],[-83.0001,41],[-83,41.0001],[-83,41]]],[[[-83.001,41],[-83.0011,41],[-83.001,41.0001],[-83.001,41]]]]}}]}`, "2 pieces"},
		{"two lots", string(newLot().box(`"kind":"lot"`, 0, 0, 9, 9).box(`"kind":"lot"`, 9, 0, 18, 9).text()), "second lot"},
		{"two houses", string(newLot().box(`"kind":"house"`, 0, 0, 9, 9).box(`"kind":"house"`, 19, 0, 28, 9).text()), "second house"},
		{"height without unit", string(newLot().box(`"kind":"house",`+walls, 0, 0, 9, 9).point(`"height":52`, 3, -9).text()), "could be feet or metres"},
		{"height of a tower", string(newLot().box(`"kind":"house",`+walls, 0, 0, 9, 9).point(`"height_m":520`, 3, -9).text()), "cannot be right"},
		{"crown above the top", string(newLot().box(`"kind":"house",`+walls, 0, 0, 9, 9).point(`"height_m":9,"crown base":"40 ft"`, 3, -9).text()), "above the top"},
		{"one id twice", string(newLot().box(`"kind":"house",`+walls, 0, 0, 9, 9).point(`"id":"T1"`, 3, -9).point(`"id":"t1"`, 4, -9).text()), "was given before"},
		{"a bow-tie house", string(newLot().polygon(`"kind":"house",`+walls, 0, 0, 9, 9, 9, 0, 0, 7).text()), "crosses itself"},
	}
	for _, c := range cases {
		yaml, _, err := fromMap("lot.geojson", []byte(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "lot.geojson") || yaml != nil {
			t.Errorf("%s: %v; want %q", c.name, err, c.want)
		}
	}
	if _, _, err := fromMap("big", make([]byte, mostBytes+1)); err == nil || !strings.Contains(err.Error(), "cut it down") {
		t.Errorf("a map too long: %v", err)
	}
}

func TestFaultsNameFeatureAndLine(t *testing.T) {
	l := newLot().box(`"kind":"house",`+walls, 0, 0, 9, 9).point(`"id":"T1","height":"9 m"`, 3, -9).point(`"id":"T2","height":"9 x"`, 3, -12)
	_, _, err := fromMap("lot.geojson", l.text())
	if err == nil || !strings.Contains(err.Error(), "lot.geojson, feature 3 (T2), line 4: height:") {
		t.Error(err)
	}
}

func TestHolesManyPiecesAndEmptyFeaturesAreTold(t *testing.T) {
	l := newLot().box(`"kind":"lot"`, -30, -30, 30, 30)
	outer, inner := newLot().box("", -9, -9, 9, 9).features[0], newLot().box("", -2, -2, 2, 2).features[0]
	ring := func(f string) string {
		_, c, _ := strings.Cut(f, `"coordinates":[`)
		return strings.TrimSuffix(c, "]}}")
	}
	l.features = append(l.features,
		`{"type":"Feature","properties":{"kind":"house",`+walls+`},"geometry":{"type":"Polygon","coordinates":[`+ring(outer)+`,`+ring(inner)+`]}}`,
		`{"type":"Feature","properties":null,"geometry":null}`,
		`{"type":"Feature","properties":{},"geometry":{"type":"MultiPoint","coordinates":[]}}`,
		`{"type":"Feature","properties":{"kind":"building","id":"twins",`+walls+`},"geometry":{"type":"MultiPolygon","coordinates":[[`+ring(newLot().box("", 40, 0, 50, 8).features[0])+`],[`+ring(newLot().box("", 50, 0, 55, 5).features[0])+`]]}}`)
	site, notes := l.site(t)
	if !told(notes, "courtyard") || !told(notes, "no geometry") || !told(notes, "is empty") {
		t.Errorf("notes %q", notes)
	}
	if len(site.Neighbours) != 1 || len(site.Neighbours[0].Parts) != 2 {
		t.Errorf("neighbours %+v", site.Neighbours)
	}
}

// The example map is invented; the site file beside it is what southyard
// makes of it.
func TestExampleMapGivesTheSiteFileBesideIt(t *testing.T) {
	dir := filepath.Join("..", "..", "examples", "from-the-map")
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil && !*update {
			t.Fatal(err)
		}
		return data
	}
	got, _, err := Site(Source{"lot.geojson", read("lot.geojson")}, &Source{"trees.csv", read("trees.csv")}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(filepath.Join(dir, "site.yaml"), got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(got, read("site.yaml")) {
		t.Error("site.yaml differs; run the test with -update and look at what changed")
	}
	site := readSite(t, "site.yaml", got)
	if len(site.Trees) != 6 || len(site.Neighbours) != 2 || len(site.House.Parts[0].Footprint) != 7 {
		t.Errorf("%d trees, %d neighbours, house %v", len(site.Trees), len(site.Neighbours), site.House.Parts[0].Footprint)
	}
}
