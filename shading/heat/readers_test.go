package heat

import (
	"regexp"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func TestTextsAreReadForOneUnit(t *testing.T) {
	for _, c := range []struct{ text, feet, metres string }{
		{"plain", "plain", "plain"},
		{"within ‹10 ft|3 m (10 ft)› of a wire", "within 10 ft of a wire", "within 3 m (10 ft) of a wire"},
		{"‹a|b› and ‹c|d›", "a and c", "b and d"},
		{degrees(20), "68 °F (20 °C)", "20 °C (68 °F)"},
		{inches(18 * metresPerInch), "18 in", "46 cm (18 in)"},
		{rValue(13*RSI, 0), "R 13", "RSI 2.29 (R 13)"}, // 13 × 0.17611
		{fuelCO2(0.18105), "53.1 kg a million Btu of fuel", "0.181 kg a kWh of fuel (53.1 kg a million Btu)"},
		{"", "", ""},
	} {
		if got := readFor(measure.Feet, c.text); got != c.feet {
			t.Errorf("%q for feet: %q", c.text, got)
		}
		if got := readFor(measure.Metres, c.text); got != c.metres {
			t.Errorf("%q for metres: %q", c.text, got)
		}
	}
}

// American units outside parentheses, where a reader of metres would meet them
// first. A rule published in feet is quoted as published.
var (
	american  = regexp.MustCompile(`[0-9] ?(in|ft|ft²|sq ft|cu ft|gal|lb|lb/ft²|°F|mi)\b|°F|Btu|\bR[ -][0-9]|\bgal a `)
	bracketed = regexp.MustCompile(`\([^()]*\)`)
	published = strings.NewReplacer("20 ft² (1.9 m²) or more", "", "Fall protection from 6 ft (1.8 m)", "")
)

func TestReaderOfMetresMeetsMetresFirst(t *testing.T) {
	var all []Default
	add := func(list []Default) { all = append(all, list...) }
	_, _, _, house, err := FromChoice(model.HeatChoice{}, Dimensions{WallArea: 100, CeilingArea: 50, GroundArea: 50, FloorArea: 90})
	if err != nil {
		t.Fatal(err)
	}
	add(house)
	_, _, _, house, err = FromChoice(model.HeatChoice{Before: model.Envelope{Cavity: model.EmptyCavity, Attic: .1}, After: model.Envelope{Cavity: model.DensePacked, Attic: .3}}, Dimensions{WallArea: 100, CeilingArea: 50, GroundArea: 50, FloorArea: 90, Volume: 240})
	if err != nil {
		t.Fatal(err)
	}
	add(house)
	fuel, list, err := FuelFromChoice(model.HeatChoice{})
	if err != nil {
		t.Fatal(err)
	}
	add(list)
	_, list, err = WaterFuelFromChoice(model.HeatChoice{}, fuel)
	if err != nil {
		t.Fatal(err)
	}
	add(list)
	_, list, err = EconomyFromChoice(model.HeatChoice{})
	if err != nil {
		t.Fatal(err)
	}
	add(list)
	_, list, err = WaterFromChoice(model.CollectorChoice{Kind: "flat plate"}, 6, model.HeatChoice{}, false)
	if err != nil {
		t.Fatal(err)
	}
	add(list)
	_, list = CoilFromChoice(model.CoilChoice{}, 49, 20)
	add(list)
	_, list = RoofSetbacks()
	add(list)
	_, list = WallSetbacks()
	add(list)
	_, list = DefaultAirHeater("", 3, Sun{})
	add(list)
	for _, kind := range []string{"air heater", "flat plate", "evacuated tube"} {
		_, cost := TypicalCost(kind, 3)
		add([]Default{cost})
	}
	if len(all) < 50 {
		t.Fatalf("only %d defaults", len(all))
	}
	var texts []string
	for _, d := range all {
		m := d.In(measure.Metres)
		texts = append(texts, m.Name+": "+m.Value)
		if f := d.In(measure.Feet); strings.ContainsAny(f.Name+f.Value+f.Source, "‹›|") {
			t.Errorf("marks left in %+v", f)
		}
	}
	for _, topic := range CautionTopics() {
		texts = append(texts, Cautions(topic, measure.Metres)...)
		for _, line := range Cautions(topic, measure.Feet) {
			if strings.ContainsAny(line, "‹›|") {
				t.Errorf("marks left in %q", line)
			}
		}
	}
	for _, text := range texts {
		if strings.ContainsAny(text, "‹›|") {
			t.Errorf("marks left in %q", text)
		}
		if bare := bracketed.ReplaceAllString(published.Replace(text), ""); american.MatchString(bare) {
			t.Errorf("first in American units: %q", text)
		}
	}
}
