package portfolio

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

func TestHeatPicturesLetterThePlacesTheTableGives(t *testing.T) {
	s := castExample(t, "alder-row", 0.5)
	pictures := s.heat()
	names := map[string]bool{}
	for _, p := range pictures {
		names[p.Name] = true
		if err := ink.WritePNG(io.Discard, p.Figure(), 40); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
		if p.Name == "heat-by-month" { // two lists: neither holds the other
			alt := p.Figure().Alt
			for _, want := range []string{
				fmt.Sprintf(" %d values assumed, not measured", len(s.st.Site.Assumed)),
				fmt.Sprintf(" Of the house and its heating %d more are assumed.", len(s.st.Heat.Assumed)),
			} {
				if !strings.Contains(alt, want) {
					t.Errorf("%q is not in %q", want, alt)
				}
			}
		}
		d, ok := p.Picture.(render.FaceMap)
		if !ok {
			continue
		}
		var words []string
		for _, c := range s.st.Heat.Collectors {
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
