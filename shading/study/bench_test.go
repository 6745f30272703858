package study

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
	"github.com/southyard/southyard/testdata"
)

// benchLot reads an example, or the reference lot with so many trees.
func benchLot(b *testing.B, name string, trees int) *model.Site {
	b.Helper()
	var data []byte
	var err error
	if trees > 0 {
		data, err = testdata.Sites.ReadFile(fmt.Sprintf("reference-%03d.yaml", trees))
	} else {
		data, err = os.ReadFile(filepath.Join("..", "..", "examples", name, "site.yaml"))
	}
	if err != nil {
		b.Fatal(err)
	}
	site, faults := sitefile.Read(name, data)
	for _, f := range faults {
		if !f.Warning {
			b.Fatal(f)
		}
	}
	return site
}

// BenchmarkTolerance200 measures a lot anew 200 times: each draw casts the lot,
// makes every target's game and finds its best set.
func BenchmarkTolerance200(b *testing.B) {
	for _, lot := range []struct {
		name  string
		trees int
	}{{"alder-row", 0}, {"reference", 6}, {"reference", 24}} {
		b.Run(fmt.Sprintf("%s/trees=%d", lot.name, lot.trees), func(b *testing.B) {
			site := benchLot(b, lot.name, lot.trees)
			year, monthly, err := climate.ForSite(site.Place, site.Climate, os.ReadFile, 1)
			if err != nil {
				b.Fatal(err)
			}
			st, err := Run(site, &year, monthly, Options{Sky: sky.Anisotropic})
			if err != nil {
				b.Fatal(err)
			}
			demands, err := st.demands()
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if err := st.makeSure(200, 1, demands); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
