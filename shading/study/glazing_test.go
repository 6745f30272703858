package study

import (
	"testing"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading/heat"
)

// What a site file may say of a window is what the heat knows of, and no more.
func TestSiteFileAndHeatKnowTheSameWindows(t *testing.T) {
	for _, name := range sitefile.Glazings {
		if _, err := heat.GlazingNamed(name); err != nil {
			t.Error(err)
		}
	}
	if a, b := len(sitefile.Glazings), len(heat.Glazings()); a != b {
		t.Errorf("the site file knows %d kinds, the heat %d", a, b)
	}
}
