package portfolio

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun/climate"
)

// studied are the examples once they are studied: no picture changes a study.
var studied = map[string]set{}

// ofExample is the study of an example, coarsely cast.
func ofExample(t *testing.T, example string) set {
	t.Helper()
	if _, ok := studied[example]; !ok {
		studied[example] = castExample(t, example, 1.2)
	}
	return studied[example]
}

// castExample studies an example with rows so many metres high.
func castExample(t *testing.T, example string, row float64) set {
	t.Helper()
	name := filepath.Join("..", "..", "examples", example, "site.yaml")
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
	st, err := study.Run(site, &year, monthly, study.Options{Row: row})
	if err != nil {
		t.Fatal(err)
	}
	return set{st}
}

func TestAllFacesOfALotShareOneScaleAndItHoldsThemAll(t *testing.T) {
	s := ofExample(t, "prairie-corner")
	var season []float64
	seen := 0
	check := func(name string, d render.FaceMap) {
		seen++
		if season == nil {
			season = d.Breaks
		}
		if !slices.Equal(d.Breaks, season) {
			t.Errorf("%s has limits %g, others %g", name, d.Breaks, season)
		}
		if lo, hi := d.Sun.Range(); lo < d.Breaks[0] || hi > d.Breaks[len(d.Breaks)-1]*1.001 {
			t.Errorf("%s: %g to %g lies outside its classes %g", name, lo, hi, d.Breaks)
		}
	}
	for _, p := range Of(s.st, Moment{}) {
		switch d := p.Picture.(type) {
		case render.FaceMap:
			if d.Unit == "kWh/m² a year" { // collectors in use all year
				continue
			}
			check(p.Name, d)
		case render.Pair:
			if left, ok := d.Left.(render.FaceMap); ok {
				check(p.Name+" before", left)
				check(p.Name+" after", d.Right.(render.FaceMap))
				if !slices.Equal(d.Breaks, season) {
					t.Errorf("the legend of %s has limits %g", p.Name, d.Breaks)
				}
			}
		}
	}
	if seen < 8 {
		t.Errorf("only %d faces were drawn", seen)
	}
}

// TestEdgesOfRoofsAreNamedAsBuildersDo reads roofs off their plans: a gable
// and a hipped L.
func TestEdgesOfRoofsAreNamedAsBuildersDo(t *testing.T) {
	lots := map[string]set{}
	for _, c := range []struct {
		example, face string
		want          []string
	}{
		{"alder-row", "roof-south", []string{"eave", "rake", "rake", "ridge"}},
		{"alder-row", "south", []string{"top of wall, under the eave"}},
		{"prairie-corner", "roof-south-1", []string{"eave", "hip", "hip", "ridge", "valley"}},
		{"prairie-corner", "roof-west-1", []string{"eave", "hip", "hip"}},
	} {
		s, ok := lots[c.example]
		if !ok {
			s = ofExample(t, c.example)
			lots[c.example] = s
		}
		i := s.st.Scene.SurfaceNamed(c.face)
		if i < 0 {
			t.Fatalf("%s has no face %s", c.example, c.face)
		}
		var got []string
		for _, e := range s.edges(s.st.Scene.Surfaces[i].Face) {
			if e.Name != "" {
				got = append(got, e.Name)
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s %s: edges %q, should be %q", c.example, c.face, got, c.want)
		}
	}
}

// TestSkyBehindAPlane compares with the plane itself: a direction lies behind
// when its product with the normal is negative.
func TestSkyBehindAPlane(t *testing.T) {
	for name, n := range map[string]r3.Vector{
		"south wall": {Y: -1}, "wall 30° east of south": {X: 0.5, Y: -math.Sqrt(0.75)},
		"9/12 roof": {Y: -0.6, Z: 0.8}, "flat roof": {Z: 1},
	} {
		line := behind(n, 180)
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			if b.Azimuth-a.Azimuth < 0.5 { // the upright edge of a wall
				continue
			}
			az, alt := (a.Azimuth+b.Azimuth)/2, (a.Altitude+b.Altitude)/2
			for _, off := range []float64{-2, 2} {
				if h := alt + off; h > 0.5 && h < 89.5 {
					d := model.Toward(deg(h), deg(az))
					if (d.Dot(n) < 0) != (off < 0 || alt > 89) {
						t.Errorf("%s: at %.0f°, %.0f° up the edge is drawn at %.1f°", name, az, h, alt)
					}
				}
			}
		}
	}
}

func deg(x float64) s1.Angle { return s1.Angle(x) * s1.Degree }
