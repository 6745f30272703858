package mapfile

import (
	"strings"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
)

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
	if strings.Contains(string(yaml), "NaN") || strings.Contains(string(yaml), "Inf ") {
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
	f.Add([]byte(`{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[1,1],[1.0001,1],[1.0001,1.0001],[1,1.0001]]]},"properties":{"height":"1e3"}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		yaml, _, err := SiteFromGeoJSON("lot.geojson", data)
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
