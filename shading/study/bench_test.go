package study

import (
	"fmt"
	"math/rand/v2"
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

// wood is Alder Row with trees in rows before its south wall, so many in all.
func wood(b *testing.B, trees, rows int) *model.Site {
	site := benchLot(b, "alder-row", 0)
	like := site.Trees[0]
	r := rand.New(rand.NewPCG(1, uint64(trees)))
	more := trees - len(site.Trees)
	for i := range more {
		t, row, place := like, i%rows, float64(i/rows)+0.5
		t.ID, t.Notes = fmt.Sprintf("X%d", i+1), nil
		t.At[0] = like.At[0] - 14 + 36*place*float64(rows)/float64(more) + r.Float64()
		t.At[1] = like.At[1] - 6 + 13*float64(row)/float64(rows) + r.Float64()
		t.Height = 8 + 10*r.Float64()
		t.SpreadX = 5 + 5*r.Float64()
		t.SpreadY = t.SpreadX
		t.CrownBase = 1 + 3*r.Float64()
		t.Cost = float64(500 + r.IntN(2000))
		site.Trees = append(site.Trees, t)
	}
	return site
}

// BenchmarkWood is the worst we know: many trees in line, of which any may go.
func BenchmarkWood(b *testing.B) {
	for _, draws := range []int{0, 60} {
		b.Run(fmt.Sprintf("trees=40/draws=%d", draws), func(b *testing.B) {
			site := wood(b, 40, 5)
			year, monthly, err := climate.ForSite(site.Place, site.Climate, os.ReadFile, 1)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := Run(site, &year, monthly, Options{Draws: draws, Seed: 1, Decide: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
