package sitefile

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
)

func TestHotWaterHasItsOwnFuelAndCoil(t *testing.T) {
	const near = 1e-9
	s := readSound(t, sound+"heat: {fuel: oil, hot water: {fuel: electricity, price: $0.16 per kWh, efficiency: 95 %, duct coil: {gives: 240 Btu/h per °F, tank above: 110 °F, cost: $0}}}\n")
	w := s.Heat.Water
	if w.Fuel != "electricity" || w.Price != .16 || !w.PriceKnown || w.FuelUnit != "kwh" || w.Efficiency != .95 || w.Coil == nil {
		t.Fatalf("%+v", w)
	}
	// 240 × 1055.05585262 J / 3600 s / (5/9 K).
	if c := *w.Coil; math.Abs(c.Conductance-126.606702) > 1e-5 || math.Abs(c.KeepAbove-43.3333333) > 1e-6 || c.Cost != 0 || !c.CostKnown {
		t.Errorf("%+v", c)
	}
	if s := readSound(t, sound+"heat: {hot water: {duct coil: yes}}\n"); s.Heat.Water.Coil == nil || *s.Heat.Water.Coil != (model.CoilChoice{}) {
		t.Errorf("%+v", s.Heat.Water)
	}
	for _, none := range []string{"heat: {hot water: {duct coil: no}}\n", "heat: {fuel: gas}\n"} {
		if s := readSound(t, sound+none); s.Heat.Water != (model.WaterChoice{}) {
			t.Errorf("%s: %+v", none, s.Heat.Water)
		}
	}
	if s := readSound(t, sound+"heat: {hot water: {duct coil: {gives: 125 W/K}}}\n"); math.Abs(s.Heat.Water.Coil.Conductance-125) > near {
		t.Errorf("%+v", s.Heat.Water.Coil)
	}
	for wrong, say := range map[string]string{
		"gives: strong": "240 Btu/h per °F, or 125 W/K", "gives: -3": "240 Btu/h per °F", "gives: 1e9": "240 Btu/h per °F", "tank above: 300 °F": "tank above: 120 °F", "giives: 3": "gives",
	} {
		_, faults := Read("site.yaml", []byte(sound+"heat: {hot water: {duct coil: {"+wrong+"}}}\n"))
		if len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestAStatedZeroIsKnown(t *testing.T) {
	s := readSound(t, sound+"heat: {fuel: wood, price: $0 per cord, price rise: 0, discount: 0 %, persons: 0}\ncollectors: [{kind: air heater, width: 4 ft, height: 8 ft, cost: $0}]\n")
	h := s.Heat
	if !h.PriceKnown || !h.PriceRiseKnown || !h.DiscountKnown || !h.PersonsKnown || !s.Collectors[0].CostKnown || h.Price+h.PriceRise+h.Discount+h.Persons+s.Collectors[0].Cost != 0 {
		t.Errorf("%+v, %+v", h, s.Collectors)
	}
	h = readSound(t, sound+"heat: {fuel: wood}\n").Heat
	if h.PriceKnown || h.PriceRiseKnown || h.DiscountKnown || h.PersonsKnown {
		t.Errorf("%+v", h)
	}
}

func TestKeepClearIsReadAsATapeReads(t *testing.T) {
	s := readSound(t, sound+"keep clear:\n  - {id: vent, on: roof-south, left: 12 ft, up: 6 ft, width: 4 in, height: 4 in, room: 1 ft}\n  - {on: south, left: 12 ft, up: 0, width: 3 ft, height: 7 ft}\n")
	want := []model.KeepClear{{ID: "vent", On: "roof-south", Left: 12 * ft, Up: 6 * ft, Width: ft / 3, Height: ft / 3, Margin: ft},
		{ID: "clear 2", On: "south", Left: 12 * ft, Width: 3 * ft, Height: 7 * ft, Margin: 5 * ft / 12}}
	for i, k := range s.KeepClear {
		if w := want[i]; k.ID != w.ID || k.On != w.On || math.Abs(k.Left-w.Left)+math.Abs(k.Up-w.Up)+math.Abs(k.Width-w.Width)+math.Abs(k.Height-w.Height)+math.Abs(k.Margin-w.Margin) > 1e-9 {
			t.Errorf("%+v, want %+v", k, w)
		}
	}
	for wrong, say := range map[string]string{
		"{id: vent, on: roof-up, left: 1 ft, up: 1 ft, width: 4 in, height: 4 in}":     "the roof planes are roof-north, roof-south",
		"{id: vent, on: roof-south, left: 99 ft, up: 1 ft, width: 4 in, height: 4 in}": "past the right end",
		"{id: vent, on: roof-south, left: 1 ft, up: 1 ft, width: 4 in}":                "height is missing",
		"{id: vent, left: 1 ft, up: 1 ft, width: 4 in, height: 4 in}":                  "on is missing",
	} {
		if _, faults := Read("site.yaml", []byte(sound+"keep clear: ["+wrong+"]\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestWallsAndAtticsAreSaidAsABuilderSeesThem(t *testing.T) {
	h := readSound(t, sound+"heat: {before: {wall: empty cavities, ceiling: 3 in}, after: {wall: dense-packed, ceiling: R-49}}\n").Heat
	if b := h.Before; b.Cavity != model.EmptyCavity || b.Wall != 0 || b.Ceiling != 0 || math.Abs(b.Attic-.0762) > 1e-9 {
		t.Errorf("before: %+v", b)
	}
	if a := h.After; a.Cavity != model.DensePacked || a.Attic != 0 || math.Abs(a.Ceiling-49/5.678263) > 1e-4 {
		t.Errorf("after: %+v", a)
	}
	for wrong, say := range map[string]string{"wall: full": "empty cavities, or dense-packed", "ceiling: deep": "depth of loose fill such as 10 in", "ceiling: 40 ft": "depth of loose fill"} {
		if _, faults := Read("site.yaml", []byte(sound+"heat: {before: {"+wrong+"}}\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
}

func TestCertificateAndTankAreTakenAsStated(t *testing.T) {
	s := readSound(t, sound+"heat: {hot water: {tank: 80 gal, delivered at: 125 °F}}\ncollectors: [{kind: flat plate, width: 4 ft, height: 8 ft, certificate: {eta0: 0.74, a1: 3.9, a2: 0.011, aperture: 91 %}}]\n")
	if w := s.Heat.Water; math.Abs(w.Tank-302.833) > .01 || math.Abs(w.Hot-51.6667) > 1e-3 {
		t.Errorf("%+v", w)
	}
	if c := s.Collectors[0].Certificate; c == nil || *c != (model.Certificate{Eta0: .74, A1: 3.9, A2: .011, Aperture: .91}) {
		t.Errorf("%+v", c)
	}
	for wrong, say := range map[string]string{
		"kind: flat plate, certificate: {eta0: 74, a1: 3.9, a2: 0.01}":   "eta0: 0.76",
		"kind: flat plate, certificate: {eta0: 0.74, a2: 0.01}":          "a1 is missing",
		"kind: air heater, certificate: {eta0: 0.74, a1: 3.9, a2: 0.01}": "stands with an air heater",
		"kind: flat plate, certificate: {eta0: 0, a1: 3.9, a2: 0.01}":    "no efficiency",
		"kind: flat plate, certificate: {eta0: 0.7, a1: hot, a2: 0.01}":  "a1: 3.6",
	} {
		if _, faults := Read("site.yaml", []byte(sound+"collectors: [{width: 4 ft, height: 8 ft, "+wrong+"}]\n")); len(faults) != 1 || !strings.Contains(fmt.Sprint(faults[0]), say) {
			t.Errorf("%s: %v", wrong, faults)
		}
	}
	if _, faults := Read("site.yaml", []byte(sound+"heat: {hot water: {tank: big, delivered at: 200 °F}}\n")); len(faults) != 2 {
		t.Errorf("%v", faults)
	}
}
