package mapfile

import (
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
)

func withList(t *testing.T, list string) (*model.Site, []string, error) {
	t.Helper()
	l := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
		point(`"id":"T1","species":"red maple","height":"40 ft"`, 1, -12)
	yaml, notes, err := Site(Source{"lot.geojson", l.text()}, &Source{"trees.csv", []byte(list)}, Options{})
	if err != nil {
		return nil, notes, err
	}
	return readSite(t, "lot.yaml", yaml), notes, nil
}

func TestListInAnyOrderWithUnitsInTheHeader(t *testing.T) {
	for name, list := range map[string]string{
		"commas, x and y":    "id,species,height (ft),spread (ft),x (ft),y (ft),crown base (ft)\nT2,silver maple,50,40,10,20,8\n",
		"semicolons, metric": "y_m;x_m;crown_base_m;spread_m;height_m;Species;Tree ID\r\n6.096;3.048;2.4384;12.192;15.24;Silver Maple;T2\r\n",
		"tabs":               "x (m)\ty (m)\theight [m]\tid\tspread (m)\tspecies\tcrown base (m)\n3.048\t6.096\t15.24\tT2\t12.192\tAcer saccharinum\t2.4384\n",
		"units in values":    "\ufeffid, species, height, spread, x, y, crown base, remarks\n# walked on a Saturday\n\nT2, silver maple, 50 ft, \"40 ft\", 10 ft, 20 ft, 8 ft, \"hollow, at the fork\"\n",
		"degrees":            "id,lat,lon,height ft,spread ft,crown base ft,species\nT2," + latLon(-10+3.048, -20+6.096) + ",50,40,8,silver maple\n",
	} {
		site, _, err := withList(t, list)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		tree := site.Trees[1]
		corner := southWest(site.Lot)
		off := math.Hypot(tree.At[0]-corner[0]-3.048, tree.At[1]-corner[1]-6.096)
		if tree.ID != "T2" || tree.Species != "silver maple" || math.Abs(tree.Height-15.24) > 0.001 || math.Abs(tree.SpreadX-12.192) > 0.001 || math.Abs(tree.CrownBase-2.4384) > 0.001 || off > 0.01 {
			t.Errorf("%s: %.3f m off, %+v", name, off, tree)
		}
	}
}

func latLon(x, y float64) string {
	parts := strings.Split(strings.Trim(newLot().position(x, y), "[]"), ",")
	return parts[1] + "," + parts[0]
}

func TestRowWithAnIDOfTheMapAddsToThatTree(t *testing.T) {
	site, _, err := withList(t, "id,spread (ft),height (ft),cost\nt1,33,44,\"$1,200\"\n")
	if err != nil {
		t.Fatal(err)
	}
	tree := site.Trees[0]
	if len(site.Trees) != 1 || tree.Species != "red maple" || math.Abs(tree.Height-44*0.3048) > 1e-3 || math.Abs(tree.SpreadX-33*0.3048) > 1e-3 || tree.Cost != 1200 || !tree.CostKnown {
		t.Errorf("%+v", site.Trees)
	}
}

func TestListsThatCannotBeTakenAreRefusedInWords(t *testing.T) {
	cases := []struct{ name, list, want string }{
		{"empty", "", "is empty"},
		{"no header", "1,2,3\n4,5,6\n", "no column is known"},
		{"bare height", "id,height,x (ft),y (ft)\nT2,50,1,2\n", "could be feet or metres"},
		{"bare x", "id,x,y\nT2,1,2\n", "could be feet or metres"},
		{"no place", "id,height (ft)\nT2,50\n", "no place"},
		{"half a place", "id,lat\nT2,41.5\n", "go together"},
		{"swapped", "id,lat,lon\nT2,-83.0,41.5\n", "swapped"},
		{"swapped west", "id,lat,lon\nT2,-122.0,41.5\n", "swapped"},
		{"twice the same id", "id,x (ft),y (ft)\nT2,1,2\nT2,3,4\n", "line 3: the id \"T2\" was given before, on line 2"},
		{"two columns alike", "id,height (ft),height_m,x (ft),y (ft)\nT2,1,2,3,4\n", "mean the same"},
		{"too many values", "id,x (ft),y (ft)\nT2,1,2,900\n", "4 values and the header names 3"},
		{"letters for a height", "id,height (ft),x (ft),y (ft)\nT2,tall,1,2\n", "line 2"},
		{"a picture", "\x89PNG\x00\x00", "not plain text"},
	}
	for _, c := range cases {
		_, _, err := withList(t, c.list)
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "trees.csv") {
			t.Errorf("%s: %v; want %q", c.name, err, c.want)
		}
	}
}

func TestTreeFarFromTheLotIsLeftOutAndSaid(t *testing.T) {
	site, notes, err := withList(t, "id,lat,lon\nT2,42.5,-83\n")
	if err != nil || len(site.Trees) != 1 || !told(notes, "left out") {
		t.Errorf("%v, %q", err, notes)
	}
}

func TestFaultOfTheMapNamesTheMapThoughAListIsGiven(t *testing.T) {
	l := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).
		point(`"id":"T1","species":"red maple","height":40`, 1, -12)
	list := []byte("id,height (ft),crown base (ft),x (ft),y (ft)\nT2,20,30,1,2\n")
	_, _, err := Site(Source{"lot.geojson", l.text()}, &Source{"trees.csv", list}, Options{})
	if err == nil || !strings.Contains(err.Error(), "lot.geojson, feature 3") || !strings.Contains(err.Error(), "trees.csv, line 2") {
		t.Errorf("want a fault in each file, got %v", err)
	}
}
