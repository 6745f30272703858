package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// studied is what of a study's results the examples' READMEs quote.
type studied struct {
	Targets []struct {
		Name    string  `json:"name"`
		Open    float64 `json:"open_kwh"`
		Now     float64 `json:"now_kwh"`
		Bare    float64 `json:"no_trees_kwh"`
		Removal []struct {
			Tree  string  `json:"tree"`
			Alone float64 `json:"gain_alone_kwh"`
			After float64 `json:"gain_after_all_others_kwh"`
			Cost  float64 `json:"cost_usd"`
		} `json:"removals"`
		Best struct {
			Trees []string `json:"trees"`
			Gain  float64  `json:"gain_kwh"`
			Cost  float64  `json:"cost_usd"`
		} `json:"best_removals_within_budget"`
		Sure struct {
			Best struct {
				Low  float64 `json:"p10_kwh"`
				High float64 `json:"p90_kwh"`
			} `json:"best_removals_gain"`
		} `json:"sureness"`
		Plans []struct {
			Name string  `json:"name"`
			Gain float64 `json:"gain_kwh"`
		} `json:"plans"`
	} `json:"targets"`
}

// The READMEs of the examples quote figures; each must be what a study says.
func TestExamplesSayWhatTheirStudiesSay(t *testing.T) {
	whole := func(v float64) string { return thousands(math.Round(v)) }
	says := map[string]func(s studied) []string{
		"alder-row": func(s studied) []string {
			windows := s.Targets[0]
			sum, lines := 0.0, []string{}
			for _, r := range windows.Removal {
				switch {
				case r.Tree == "T2":
					lines = append(lines, fmt.Sprintf("T2 alone gives %s kWh a season and looks hardly worth its $%s", whole(r.Alone), whole(r.Cost)), fmt.Sprintf("it gives %s.", whole(r.After)))
				case r.Tree == "T6":
					lines = append(lines, fmt.Sprintf("T6 (%s kWh, $%s)", whole(r.Alone), whole(r.Cost)))
				}
				if slices.Contains(windows.Best.Trees, r.Tree) {
					sum += r.Alone
				}
			}
			best := windows.Best
			return append(lines, fmt.Sprintf("best set for $%s is T2, T3, T7 and T8: +%s kWh, where the four alone add up to %s.", whole(best.Cost), whole(best.Gain), whole(sum)),
				fmt.Sprintf("%s–%s kWh in 8 of 10 trials", whole(windows.Sure.Best.Low), whole(windows.Sure.Best.High)))
		},
		"foundry-lane": func(s studied) []string {
			windows, roof := s.Targets[0], s.Targets[1]
			return []string{fmt.Sprintf("The windows (%.0f %% of an open field's sun now) and the roof (%.0f %%)", 100*windows.Now/windows.Open, 100*roof.Now/roof.Open),
				fmt.Sprintf("they would still get %.0f %%", 100*windows.Bare/windows.Open)}
		},
		"prairie-corner": func(s studied) []string {
			windows := s.Targets[0]
			lines := []string{fmt.Sprintf("felled for $%s, give %s of the %s kWh", whole(windows.Best.Cost), whole(windows.Best.Gain), whole(windows.Bare-windows.Now))}
			for _, p := range windows.Plans {
				if p.Name == "limb up the spruces" {
					lines = append(lines, fmt.Sprintf("raising their crowns gives %s.", whole(p.Gain)))
				}
			}
			return lines
		},
	}
	for name, lines := range says {
		dir := filepath.Join("..", "..", "examples", name)
		out := filepath.Join(t.TempDir(), "out")
		if _, faults, code := typed("study", filepath.Join(dir, "site.yaml"), "--no-pictures", "--out", out); code != 0 {
			t.Fatal(faults)
		}
		var s studied
		if data, err := os.ReadFile(filepath.Join(out, "results.json")); err != nil {
			t.Fatal(err)
		} else if err := json.Unmarshal(data, &s); err != nil {
			t.Fatal(err)
		}
		readme, err := os.ReadFile(filepath.Join(dir, "README.md"))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(readme)), " ")
		for _, line := range lines(s) {
			if !strings.Contains(text, line) {
				t.Errorf("%s: README does not say %q", name, line)
			}
		}
	}
}

func thousands(v float64) string {
	text := strconv.FormatFloat(v, 'f', 0, 64)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
