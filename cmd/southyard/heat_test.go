package main

import (
	"bytes"
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

// heatWords runs the heat command on the first example.
func heatWords(t *testing.T, more ...string) string {
	t.Helper()
	var out, faults bytes.Buffer
	app := &cli.App{Name: "southyard", Commands: []*cli.Command{heatCommand()}, Writer: &out, ErrWriter: &faults, ExitErrHandler: func(*cli.Context, error) {}}
	words := append([]string{"southyard", "heat"}, append(more, filepath.Join("..", "..", "examples", "alder-row", "site.yaml"))...)
	if err := app.Run(words); err != nil {
		t.Fatalf("%v\n%s", err, faults.String())
	}
	return out.String()
}

func TestHeatCommandShowsColumnsPlacesMoneyAndCautions(t *testing.T) {
	out := heatWords(t)
	for _, want := range []string{"as found", "after the rehab", "and the best set", "left edge", "from the south-west corner, bottom", "air heaters", "hot water",
		"paid back in", "What would change the answer", "Measure first", "! Fall protection", "! Scald", "811", "Assumed, not stated"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!"} {
		if strings.Contains(out, bad) {
			t.Errorf("%s in the text", bad)
		}
	}
}

func TestHeatJSONHoldsTheSameBalance(t *testing.T) {
	var r struct {
		Columns []struct {
			Name  string  `json:"name"`
			Need  float64 `json:"need_kwh"`
			Month []struct {
				Need float64 `json:"need_kwh"`
			} `json:"months"`
		} `json:"columns"`
		Cautions map[string][]string `json:"cautions"`
	}
	if err := json.Unmarshal([]byte(heatWords(t, "--json")), &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Columns) < 4 || r.Columns[0].Name != "as found" || len(r.Cautions["roof"]) == 0 {
		t.Fatalf("%d columns, cautions %v", len(r.Columns), r.Cautions)
	}
	for _, c := range r.Columns {
		sum := 0.0
		for _, m := range c.Month {
			sum += m.Need
		}
		if len(c.Month) != 12 || math.Abs(sum-c.Need) > 1e-3*c.Need {
			t.Errorf("%s: %d months add up to %g of %g kWh", c.Name, len(c.Month), sum, c.Need)
		}
	}
}
