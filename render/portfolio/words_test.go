package portfolio

import (
	"regexp"
	"testing"

	"github.com/southyard/southyard/sun/sky"
)

// Captions are read by builders and committees: no term of art that the trade
// does not use, and no name of a model.
func TestCaptionsAreInPlainWords(t *testing.T) {
	jargon := regexp.MustCompile(`(?i)isotropic|hay-?davies|hdkr|perez|azimuth|diffuse|irradi|insolation|circumsolar|transmissivity|ledger|NaN|%!`)
	for _, example := range []string{"alder-row", "foundry-lane", "prairie-corner"} {
		for _, p := range Of(ofExample(t, example).st, Moment{}) {
			f := p.Figure()
			if word := jargon.FindString(f.Title + " " + f.Alt); word != "" {
				t.Errorf("%s, %s: %q in %q", example, p.Name, word, f.Alt)
			}
		}
	}
}

func TestEverySkyHasPlainWords(t *testing.T) {
	said := map[string]bool{}
	for _, m := range sky.Models() {
		said[m.Words()] = true
	}
	if len(said) != 3 { // two brighten sun and horizon alike
		t.Errorf("%v", said)
	}
}
