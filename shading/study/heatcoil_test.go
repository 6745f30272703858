package study

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/heat"
)

// coilLot is heatLot with panels enough to have heat to spare, and a coil.
func coilLot(c *model.CoilChoice) *model.Site {
	site := heatLot(42)
	site.Collectors[1].Count = 5
	site.Heat.Water.Coil = c
	return site
}

// jsonOf is the heat of a lot as its file holds it.
func jsonOf(t *testing.T, st *Study) string {
	t.Helper()
	data, err := json.Marshal(st.Heat.Result())
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestCoilCountsOnlyHeatTheHouseStillWants(t *testing.T) {
	plain := heatOf(t, coilLot(nil))
	if s := jsonOf(t, plain); plain.Heat.Coil != nil || strings.Contains(s, "surplus") || strings.Contains(s, "duct coil") {
		t.Error("a lot without a coil speaks of one")
	}
	st := heatOf(t, coilLot(&model.CoilChoice{Conductance: 200, KeepAbove: 35}))
	h := st.Heat
	if h.Coil == nil || !(h.Coil.Useful > 0) {
		t.Fatalf("coil %+v", h.Coil)
	}
	t.Logf("%+v", *h.Coil)
	for m, b := range h.Columns[h.Best].Months {
		left := max(0, b.Need-h.AirHeat.UsefulBy[m])
		if x := h.Coil.UsefulBy[m]; x < 0 || x > left+1e-9 || h.stillToBuy(m) < 0 {
			t.Errorf("month %d: coil %g kWh of the %g left by windows and air heaters", m+1, x, left)
		}
	}
	// All but the coil is as without it.
	for i, c := range h.Columns {
		p, s := plain.Heat.States[i], h.States[i]
		if c.Need != plain.Heat.Columns[i].Need || s.Windows != p.Windows || s.Air != p.Air || s.Water > p.Water || !(s.Coil >= 0) {
			t.Errorf("%s: %+v, without coil %+v", c.Name, s, p)
		}
	}
	n := len(h.Returns)
	row := h.Returns[n-2]
	e := h.Economy
	want := h.Coil.Useful*e.Fuel.PerKWh() - h.Coil.WaterLess*e.WaterFuel.PerKWh() - (h.Coil.Blower+h.Coil.Pump)*e.PowerPrice
	if row.Name != "surplus to the house" || !same(row.Saving, want, 1e-9) || !row.Guess {
		t.Errorf("%+v, want to save %g and a cost marked assumed", row, want)
	}
	if all := h.Together(); !same(all.Saving-row.Saving, plain.Heat.Together().Saving, 1e-9) || all.Cost-row.Cost != plain.Heat.Together().Cost {
		t.Errorf("together %+v, without the coil %+v", all.Measure, plain.Heat.Together().Measure)
	}
	var text bytes.Buffer
	st.HeatText(&text)
	for _, say := range []string{"surplus to the house", "house has still to buy", "Duct coil:", "! A coil narrows the duct", "* blower while the coil", "$900*"} {
		if !strings.Contains(text.String(), say) {
			t.Errorf("no %q in\n%s", say, text.String())
		}
	}
	if s := jsonOf(t, st); !strings.Contains(s, `"surplus_to_house_after_best_set"`) || !strings.Contains(s, `"duct coil"`) {
		t.Error("the file does not tell of the coil")
	}
}

func TestCoilWithoutPanelsOrSurplusAddsNothing(t *testing.T) {
	hot := heatOf(t, coilLot(&model.CoilChoice{KeepAbove: 90, CostKnown: true}))
	if c := hot.Heat.Coil; c == nil || *c != (heat.CoilHeat{}) {
		t.Errorf("a coil above the hottest tank gives %+v", c)
	}
	site := coilLot(&model.CoilChoice{})
	site.Collectors = site.Collectors[:1]
	none := heatOf(t, site)
	if none.Heat.Coil != nil {
		t.Errorf("no panels, and a coil of %+v", none.Heat.Coil)
	}
	var text bytes.Buffer
	none.HeatText(&text)
	if !strings.Contains(text.String(), "The duct coil has no tank") {
		t.Error("a coil without a tank is passed over in silence")
	}
}

func TestUnstatedCostsOfCollectorsAreMarkedAndNeverNothing(t *testing.T) {
	site := heatLot(42)
	site.Collectors[0].Cost = 0
	site.Collectors[1].Cost, site.Collectors[1].CostKnown = 0, true // given
	st := heatOf(t, site)
	for _, r := range st.Heat.Returns {
		switch r.Name {
		case "air heaters":
			if each, _ := heat.TypicalCost("air heater", 1.2*1.9); r.Cost != 2*each || !(r.Cost > 500) || !r.Guess {
				t.Errorf("%+v", r.Measure)
			}
		case "hot water":
			if r.Cost != 0 || r.Guess {
				t.Errorf("stated as 0: %+v", r.Measure)
			}
		case "all together":
			if !r.Guess {
				t.Error("the sum hides that a part is assumed")
			}
		}
	}
	var text bytes.Buffer
	st.HeatText(&text)
	for _, say := range []string{"* The cost of heaters is not stated", "* cost of air heaters, built on the site: $28 a ft², installed (common practice, no source"} {
		if !strings.Contains(strings.Join(strings.Fields(text.String()), " "), say) {
			t.Errorf("no %q in\n%s", say, text.String())
		}
	}
}

func TestTornadoIsOfAllTogether(t *testing.T) {
	for name, site := range map[string]*model.Site{"plain": heatLot(42), "coil": coilLot(&model.CoilChoice{Conductance: 200, KeepAbove: 35})} {
		st := heatOf(t, site)
		found := map[string]bool{}
		for _, b := range st.Heat.Tornado {
			found[b.Name] = true
			if b.Name != "cost of the work" {
				continue
			}
			if all := st.Heat.Together(); !same(b.AtLow, all.Saving, 1e-9) || !same(b.BackLow.Years, .8*all.Simple.Years, 1e-9) {
				t.Errorf("%s: the tornado's middle is %g, all together saves %g", name, b.AtLow, all.Saving)
			}
		}
		for _, want := range []string{"cost of the work", "fuel price", "persons", "mains temperature", "sun that trees leave"} {
			if !found[want] {
				t.Errorf("%s: nothing of the %s in %v", name, want, found)
			}
		}
	}
}
