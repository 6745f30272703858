package render

import (
	"slices"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

func TestSliversBeforeTheSkyGoUnnamed(t *testing.T) {
	d := demoSky()
	d.Near = append(d.Near, SkySolid{Name: "sliver", Outline: []SkyPoint{{190, 0}, {190, 1.5}, {240, 1}, {240, 0}}})
	said := lettered(t, d)
	if slices.Contains(said, "sliver") {
		t.Error("what is no higher than a stroke is named")
	}
	if !slices.Contains(said, "own eave") {
		t.Error("the eave lost its name")
	}
}

func TestDaysAndHoursStandApartFromOtherWords(t *testing.T) {
	d := demoSky()
	f := d.Figure()
	rec := &ink.Record{W: f.Width, H: f.Height}
	if err := d.Draw(rec); err != nil {
		t.Fatal(err)
	}
	days := map[string]bool{}
	for _, p := range d.Paths {
		days[p.Leaf], days[p.Bare] = true, true
	}
	for _, h := range d.Hours {
		days[h.Name] = true
	}
	for i, a := range rec.Texts {
		if !days[a.S] || a.S == "" {
			continue
		}
		wide := ink.Box{X0: a.Box.X0 - apartInSky, Y0: a.Box.Y0, X1: a.Box.X1 + apartInSky, Y1: a.Box.Y1}
		for j, b := range rec.Texts {
			if i != j && wide.Meets(b.Box) {
				t.Errorf("%q and %q would be read as one", a.S, b.S)
			}
		}
	}
}
