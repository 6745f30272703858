package study

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/sun/climate"
)

func TestPanelsHangInTheSunThatChoseTheirPlaces(t *testing.T) {
	st := heat42(t)
	best := st.BestState(0)
	for _, p := range st.Heat.Collectors {
		if len(p.Layout.Places) != p.Layout.Wanted || len(p.Words) != p.Layout.Wanted {
			t.Fatalf("%s: %d of %d placed: %s", p.ID, len(p.Layout.Places), p.Layout.Wanted, p.Layout.Note)
		}
		months := st.Heating
		if !p.Air() {
			months = nil
		}
		// The rectangles cast for themselves, against the cells of the map.
		scene, owner := st.panelScene([]Placed{p})
		ledger := scene.CastYear(st.Light, nil, shading.Casting{})
		sum := 0.0
		for k, r := range scene.NewAccount(ledger, st.Light).Read(best) {
			sum += r.Total(months...) * scene.Surfaces[k].Face.Area
			if owner[k] != 0 {
				t.Errorf("surface %d belongs to %d", k, owner[k])
			}
		}
		if !same(sum, p.Layout.Value, 0.02) {
			t.Errorf("%s: %g kWh cast, %g by the map", p.ID, sum, p.Layout.Value)
		}
		surface := &st.Scene.Surfaces[p.Surface]
		for i, q := range p.Layout.Places {
			b := q.Bound()
			if b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > surface.Face.Width() {
				t.Errorf("%s %d hangs over the edge: %v", p.ID, i+1, b)
			}
			for _, w := range st.Site.Windows {
				glass := orb.Bound{Min: orb.Point{w.Left, w.Sill}, Max: orb.Point{w.Left + w.Width, w.Sill + w.Height}}
				if p.Air() && b.Intersects(glass) {
					t.Errorf("%s %d covers window %s", p.ID, i+1, w.ID)
				}
			}
			for _, o := range p.Layout.Places[:i] {
				if q.Bound().Pad(-1e-6).Intersects(o.Bound()) {
					t.Errorf("%s: panels %v and %v overlap", p.ID, q, o)
				}
			}
		}
	}
}

func TestPlaceWordsNameTheCornerSeenFromOutside(t *testing.T) {
	st := heat42(t)
	for wall, corner := range map[string]string{"south": "south-west", "east": "south-east", "north": "north-east", "west": "north-west"} {
		s := &st.Scene.Surfaces[st.Scene.SurfaceNamed(wall)]
		words := st.placeWords(s, heat.Place{Left: 11*0.3048 + 4*0.0254, Bottom: 3*0.3048 + 2*0.0254})
		if want := "left edge 11 ft 4 in from the " + corner + " corner, bottom 3 ft 2 in above the wall's base"; words != want {
			t.Errorf("%s wall: %q, want %q", wall, words, want)
		}
	}
	roof := &st.Scene.Surfaces[st.Scene.SurfaceNamed("roof-south")]
	if words := st.placeWords(roof, heat.Place{Left: 0.3048, Bottom: 0.3048}); words != "left edge 1 ft from its west end, bottom 1 ft above the eave, up the slope" {
		t.Errorf("roof: %q", words)
	}
}

func TestUnknownFaceForACollectorIsAFaultThatNamesTheFaces(t *testing.T) {
	site := heatLot(42)
	site.Collectors[0].On = "sunroom"
	year, monthly, err := climate.ForSite(site.Place, site.Climate, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Run(site, &year, monthly, Options{Row: 1})
	if err == nil {
		t.Fatal("no fault")
	}
	for _, want := range []string{"heaters", "sunroom", "south", "roof-south"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q lacks %q", err, want)
		}
	}
}
