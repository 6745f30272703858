package study

import (
	"math"
	"testing"
	"time"

	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/testdata"
)

// The whole way from the site file to the sun on a wall, a window and a roof
// plane, against a program written apart from this one (see the file's head).
// Compared is the share of the open field's sun, so that another year's
// weather would not matter.
func TestAlderRowAgreesWithAProgramWrittenApart(t *testing.T) {
	rows, err := testdata.Read("alder_row_by_points.csv")
	if err != nil {
		t.Fatal(err)
	}
	st := decidedAlder(t)
	state := st.Account.Today()
	for _, id := range []string{"T2", "T3", "T7", "T8"} {
		state = st.Account.Without(state, id)
	}
	states := map[string][]shading.Reached{"today": st.Today, "without": st.Account.Read(state)}
	winter := map[string][2]float64{}
	for _, row := range rows {
		s, month := st.Scene.SurfaceNamed(row["surface"]), time.Month(row.Number("month"))
		for name, reached := range states {
			ours, open := reached[s].Total(month), reached[s].OpenTotal(month)
			theirs := row.Number(name) / row.Number("open") * open
			if off := ours/theirs - 1; !(math.Abs(off) <= 0.01) {
				t.Errorf("%s, %s, %s: %.2f kWh/m², by points %.2f (%+.1f %%)", row["surface"], month, name, ours, theirs, 100*off)
			}
			if month <= time.April || month >= time.October {
				sum := winter[row["surface"]+" "+name]
				winter[row["surface"]+" "+name] = [2]float64{sum[0] + ours, sum[1] + theirs}
			}
		}
	}
	for name, sum := range winter {
		if off := sum[0]/sum[1] - 1; !(math.Abs(off) <= 0.005) {
			t.Errorf("%s, October to April: %.1f kWh/m², by points %.1f (%+.2f %%)", name, sum[0], sum[1], 100*off)
		}
	}
	if len(rows) != 36 || len(winter) != 6 {
		t.Errorf("%d rows, %d winters", len(rows), len(winter))
	}
}
