package study

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// The hours of hours.csv add up to the months of the study, for every surface,
// today and under each plan.
func TestHoursAddUpToTheStudy(t *testing.T) {
	st := decidedAlder(t)
	var file bytes.Buffer
	if err := st.HoursCSV(&file); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	sum := map[string]map[string]float64{}
	for _, row := range rows[1:] {
		if sum[row[0]] == nil {
			sum[row[0]] = map[string]float64{}
		}
		for name, i := range column {
			if x, err := strconv.ParseFloat(row[i], 64); err == nil {
				sum[row[0]][name] += x / 1000
			}
		}
	}
	for s, surface := range st.Scene.Surfaces {
		got := sum[surface.ID]
		want := map[string]float64{"open_wh_m2": st.Today[s].OpenTotal(), "reached_wh_m2_today": st.Today[s].Total()}
		for _, p := range st.Plans {
			want["reached_wh_m2 "+p.Name] = p.Reached[s].Total()
		}
		for name, x := range want {
			if math.Abs(got[name]-x) > 0.05 { // a tenth of a Wh in 4,400 hours
				t.Errorf("%s, %s: the hours add up to %.2f kWh/m², the study says %.2f", surface.ID, name, got[name], x)
			}
		}
	}
}

// In the polar night there is no sun to have a share of: access is blank, not 0.
func TestAccessOfAMonthWithoutSunIsBlank(t *testing.T) {
	year := sun.NewYear(78, 0, 0, 0, 2025)
	for i := range year.Hours {
		h := &year.Hours[i]
		h.Beam, h.Diffuse, h.Global = 300*h.Up, 50*h.Up, 100*h.Up
	}
	st := bareStudy(t, nil, &year)
	light := shading.NewLight(&year, st.Sky)
	st.Account = st.Scene.NewAccount(st.Scene.CastYear(light, nil, shading.Casting{Row: 0.5}), light)
	st.Today = st.Account.Read(st.Account.Today())
	st.NoTrees = st.Today
	var file bytes.Buffer
	if err := st.AccessCSV(&file); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	nights := 0
	for _, row := range rows[1:] {
		month, open, access := row[4], row[5], row[7]
		if dark := open == "0.000"; dark != (access == "") {
			t.Errorf("%s in %s: open %s, access %q", row[0], month, open, access)
		} else if dark {
			nights++
		}
	}
	if nights == 0 || len(rows) < 20 {
		t.Errorf("%d lines without sun of %d", nights, len(rows))
	}
}
