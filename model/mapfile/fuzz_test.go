package mapfile

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
)

var noNumber = regexp.MustCompile(`(: |\[|, )[-+]?(NaN|Inf)`)

// Whatever a map or a list holds, what comes out is either a fault in words
// or a site file that can be read: nothing but measures may be missing in it.
func usable(t *testing.T, yaml []byte, err error) {
	t.Helper()
	if err != nil {
		if err.Error() == "" || yaml != nil {
			t.Fatal("a fault without words, or half a file")
		}
		return
	}
	if noNumber.Match(yaml) {
		t.Fatalf("no numbers:\n%s", yaml)
	}
	_, faults := sitefile.Read("lot.yaml", yaml)
	for _, f := range faults {
		s := f.String()
		for _, broken := range []string{"cannot be read", "near this line", "there is no key", "is written twice", "should be"} {
			if strings.Contains(s, broken) {
				t.Fatalf("%s\n%s", s, yaml)
			}
		}
	}
}

func FuzzMap(f *testing.F) {
	f.Add(newLot().box(`"kind":"lot","name":"a: b # c"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).point(`"id":"- x","species":"red maple","height":"9 m","notes":"\u0007\u2028yes"`, 1, 2).text())
	f.Add([]byte(`{"type":"FeatureCollection","features":[{"type":"Feature","id":5,"geometry":{"type":"MultiPolygon","coordinates":[[[[179.9999,1],[-179.9999,1],[180,1.0001],[179.9999,1]]]]},"properties":{"kind":"house","storeys":2,"roof":"flat"}}]}`))
	f.Add(newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).point(`"kind":"spot height","height_ft":-3.5`, 8, -12).text())
	f.Add([]byte(`{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[1,1],[1.0001,1],[1.0001,1.0001],[1,1.0001]]]},"properties":{"height":"1e3"}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		yaml, _, err := fromMap("lot.geojson", data)
		usable(t, yaml, err)
	})
}

func FuzzTreeList(f *testing.F) {
	lot := newLot().box(`"kind":"lot"`, -10, -20, 10, 20).box(`"kind":"house",`+walls, -4, 0, 4, 7).point(`"id":"T1"`, 1, -12).text()
	f.Add([]byte("id,species,height (ft),spread (ft),x (ft),y (ft),notes\nT2,silver maple,50,40,10,20,\"a: b\"\n"))
	f.Add([]byte("x_m;y_m;height_m;keep;removable\n1;2;3;yes;yes\n"))
	f.Add([]byte("lat\tlon\tid\tin leaf\tcost\n41.5\t-83\tT1\t20 %\t$5\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		yaml, _, err := Site(Source{"lot.geojson", lot}, &Source{"trees.csv", data}, Options{})
		usable(t, yaml, err)
	})
}

func FuzzPlainName(f *testing.F) {
	f.Add("Height (ft)")
	f.Add("crown_base_m")
	f.Fuzz(func(t *testing.T, name string) {
		plain, _ := plainName(name)
		again, _ := plainName(plain)
		if len(plain) > 0 && len(again) > len(plain) {
			t.Errorf("%q became %q and then %q", name, plain, again)
		}
	})
}

// Odd values under every known name: each map is a fault in words or usable.
func TestOddPropertiesNeverBreakTheSiteFile(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	names := []string{
		"kind", "id", "name", "species", "height", "height_m", "spread (ft)", "spread_x_m", "spread_y_m", "crown_base_m", "dbh_in", "ground_m",
		"crown shape", "in leaf", "bare", "evergreen", "keep", "removable", "owner", "cost", "notes", "measured by", "assumed", "part", "roof",
		"pitch", "pitch_deg", "ridge", "ridge_deg", "down_deg", "overhang_m", "base_m", "open", "wall_height_m", "storeys", "windows", "roof_planes",
		"sketch_up_deg", "elevation_m", "time zone", "building", "lets through", "width_m", "depth_m", "top_m", "slope_percent", "uphill_deg", "skyline", "up_ft",
	}
	values := []string{
		`"yes"`, `"no"`, `true`, `0`, `1`, `-1`, `1e300`, `0.1`, `12`, `45`, `"9/12"`, `"52 ft"`, `"NaN"`, `"Inf"`, `"1e5"`, `"- a: b"`, `"#x"`, `"\u0000\n\t\""`,
		`"\u2028"`, `"'"`, `"{"`, `"*a"`, `"&a"`, `"!t"`, `"gable"`, `"hip"`, `"shed"`, `"flat"`, `"south"`, `"N 4° E"`, `"red maple"`, `null`, `[]`, `{}`,
		`[1,2]`, `[{"id":"W1","wall":"south","left_m":1,"sill_m":1,"width_m":1,"height_m":1}]`, `[[[-83,41.5,4],[-83.0001,41.5,4],[-83,41.5001,6]]]`,
		`"chimney"`, `"fence"`, `"house"`, `"shed"`, `"porch"`, `"neighbour"`, `"street"`, `"cone"`, `"America/New_York"`, `"a/b/c"`, `["height","spread"]`, `"ñ 木"`, `[[0,3],[180,5]]`, `[[1,2,3]]`, `"\ud800"`,
	}
	made := 0
	for n := range 1500 {
		l := newLot()
		props := func(kind string, most int) string {
			out := []string{`"kind":"` + kind + `"`, fmt.Sprintf(`"id":"%s%d"`, kind, n%7+len(l.features))}
			for range rng.IntN(most) {
				out = append(out, fmt.Sprintf("%q:%s", names[rng.IntN(len(names))], values[rng.IntN(len(values))]))
			}
			return strings.Join(out, ",")
		}
		l.box(props("lot", 2), -10, -20, 10, 20).box(props("house", 4)+",\"wall_height_m\":4", -4, 0, 4, 7).box(props("building", 3), 20, 0, 29, 7).
			point(props("tree", 4), 1, -12).point(props("chimney", 3), 1, 3).point(props("tree", 3), 30, 2)
		if n%3 == 0 {
			l.point(`"height_ft":-2,`+props("spot height", 3), 6, -15)
		}
		yaml, _, err := fromMap("lot.geojson", l.text())
		usable(t, yaml, err)
		if err == nil {
			made++
		}
	}
	if made < 150 {
		t.Errorf("only %d of 1,500 maps were taken: the test tests refusals alone", made)
	}
}
