package study

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/southyard/southyard/model"
)

// On a lot without trees and plans every list of results.json is an empty
// list; null stands only for a figure or an answer that there is not.
func TestListsOfABareLotAreEmptyNotNull(t *testing.T) {
	_, year, monthly := alder(t)
	site := windowLot()
	site.Place = model.Place{LatLng: alderPlace(t)}
	site.Season = []time.Month{time.January}
	st, err := Run(site, year, monthly, Options{})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(st.Results())
	if err != nil {
		t.Fatal(err)
	}
	for _, figure := range regexp.MustCompile(`\d+\.\d+`).FindAllString(string(text), -1) {
		if digits := strings.TrimLeft(strings.Replace(figure, ".", "", 1), "0"); len(digits) > 7 {
			t.Errorf("%s has digits nobody measured", figure)
		}
	}
	var all any
	if err := json.NewDecoder(bytes.NewReader(text)).Decode(&all); err != nil {
		t.Fatal(err)
	}
	maybe := []string{"sureness", "crown_work", "heat", "cost_usd", "cost_usd_per_kwh", "gain_p10_kwh", "gain_p90_kwh", "years_until_below", "fair_share_kwh", "surplus_to_house_after_best_set",
		"air_heaters_after_best_set", "hot_water_system", "hot_water_after_best_set"}
	var walk func(name string, v any)
	walk = func(name string, v any) {
		switch v := v.(type) {
		case nil:
			if !slices.Contains(maybe, name) {
				t.Errorf("%s is null", name)
			}
		case []any:
			for _, x := range v {
				walk(name, x)
			}
		case map[string]any:
			for key, x := range v {
				walk(key, x)
			}
		}
	}
	walk("results", all)
}
