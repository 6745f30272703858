package study

import (
	"encoding/json"
	"strings"
	"testing"
)

// Every number of a target's JSON says in its name what it is counted in.
func TestNumbersOfATargetCarryTheirUnitInTheName(t *testing.T) {
	st := decidedAlder(t)
	data, err := json.Marshal(st.Results().Targets)
	if err != nil {
		t.Fatal(err)
	}
	var tree any
	if err := json.Unmarshal(data, &tree); err != nil {
		t.Fatal(err)
	}
	numbers := 0
	var walk func(path, key string, v any)
	walk = func(path, key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				name := k
				if strings.Contains(key, "_kwh") { // a table by tree: its own name says it
					name = key
				}
				walk(path+"."+k, name, x)
			}
		case []any:
			for _, x := range v {
				walk(path, key, x)
			}
		case float64:
			numbers++
			for _, unit := range []string{"kwh", "_usd", "share", "chance", "_count", "_number", "_months", "narrows"} {
				if strings.Contains(key, unit) {
					return
				}
			}
			t.Errorf("%s has no unit in its name", path)
		}
	}
	walk("", "", tree)
	if numbers < 50 {
		t.Errorf("only %d numbers were looked at", numbers)
	}
}
