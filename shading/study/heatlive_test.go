package study

import (
	"math"
	"testing"

	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

func TestHeatOfAStateIsTheColumnsWorth(t *testing.T) {
	st := heat42(t)
	none := st.Account.Without(st.Account.Today(), st.treeIDs()...)
	for i, state := range map[int]shading.State{Rehab: st.Account.Today(), Rehab + 1: st.Plans[0].State, len(st.Heat.States) - 1: none} {
		want := st.Heat.States[i]
		got, err := st.HeatOf(want.Name, state)
		if err != nil {
			t.Fatal(err)
		}
		if got != want {
			t.Errorf("%s: %+v, want %+v", want.Name, got, want)
		}
	}
}

func TestWindowsPartsAddUpToTheGains(t *testing.T) {
	st := heat42(t)
	parts, err := st.HeatParts()
	if err != nil {
		t.Fatal(err)
	}
	shares := st.Account.Shares(st.Ledger, st.Account.Today())
	want := st.Heat.Columns[Rehab].HourlyGains()
	sum := 0.0
	for h := range sun.HoursAYear {
		got := 0.0
		for _, w := range parts.Windows {
			got += w.Beam[h]*shares.Beam(w.Surface, h) + w.Dome[h]*shares.Sky(w.Surface, h) + w.Band[h]*shares.Band(w.Surface, h) + w.Ground[h]
		}
		if math.Abs(got-want[h]) > 1e-9*max(1, want[h]) {
			t.Fatalf("hour %d: %g Wh, want %g", h, got, want[h])
		}
		sum += got
	}
	if sum <= 0 || len(parts.Heaters) != 2 || parts.Water == nil {
		t.Errorf("%g Wh through the windows, %d air heaters, water %v", sum, len(parts.Heaters), parts.Water)
	}
}
