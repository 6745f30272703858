package portfolio

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun/climate"
)

func TestHeatPicturesLetterThePlacesTheTableGives(t *testing.T) {
	name := filepath.Join("..", "..", "examples", "alder-row", "site.yaml")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	site, _ := sitefile.Read(name, data)
	if site == nil {
		t.Fatal("the example cannot be read")
	}
	year, monthly, err := climate.ForSite(site.Place, site.Climate, os.ReadFile, 1)
	if err != nil {
		t.Fatal(err)
	}
	st, err := study.Run(site, &year, monthly, study.Options{Row: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	pictures := set{st}.heat()
	names := map[string]bool{}
	for _, p := range pictures {
		names[p.Name] = true
		if err := ink.WritePNG(io.Discard, p.Figure(), 40); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
		d, ok := p.Picture.(render.FaceMap)
		if !ok {
			continue
		}
		var words []string
		for _, c := range st.Heat.Collectors {
			if "collectors-"+c.Face == p.Name {
				words = append(words, c.Words...)
			}
		}
		if len(d.Collectors) == 0 || len(d.Collectors) != len(words) {
			t.Fatalf("%s: %d collectors drawn, %d placed", p.Name, len(d.Collectors), len(words))
		}
		for i, c := range d.Collectors {
			if !strings.Contains(words[i], "left edge "+c.FromLeft+" from") || !strings.Contains(words[i], "bottom "+c.Up+" above") {
				t.Errorf("%s %s: drawn at %s and %s, the table says %q", p.Name, c.ID, c.FromLeft, c.Up, words[i])
			}
		}
	}
	for _, want := range []string{"collectors-south", "collectors-roof-south", "heat-by-month", "saving-doubts"} {
		if !names[want] {
			t.Errorf("no picture %s among %v", want, names)
		}
	}
}
