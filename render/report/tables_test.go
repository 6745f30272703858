package report

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/southyard/southyard/shading/study"
)

func TestTablesOfAccessAreTheResults(t *testing.T) {
	r := example(t)
	r.Full = true
	results := r.Study.Results()
	tables := 0
	section := r.access()
	for i, b := range section.Blocks {
		got, ok := b.(*table)
		if !ok {
			continue
		}
		tables++
		title := string(section.Blocks[i-1].(subtitle))
		var want *study.SurfaceResult
		for j := range results.Surfaces {
			if x := &results.Surfaces[j]; strings.HasPrefix(title, surfaceName(x.Kind, x.ID)+",") {
				want = x
			}
		}
		if want == nil {
			t.Fatalf("no surface for the table %q", title)
		}
		for m := range 12 {
			near(t, title+" unshaded", got.Rows[0][m+1], want.Open[m])
			near(t, title+" shaded", got.Rows[1][m+1], want.Today.ByMonth[m])
			near(t, title+" access", got.Rows[2][m+1], 100*want.Today.ByMonth[m]/want.Open[m])
		}
		near(t, title+" season", got.Rows[1][13], want.Today.Heating)
		near(t, title+" year", got.Rows[1][14], want.Today.Year)
		near(t, title+" season access", got.Rows[2][13], 100*want.Today.AccessHeating)
		near(t, title+" year access", got.Rows[2][14], 100*want.Today.AccessYear)
	}
	if tables != len(results.Surfaces) {
		t.Errorf("%d surfaces have a table, want all %d", tables, len(results.Surfaces))
	}
	for _, b := range section.Blocks {
		if n, ok := b.(note); ok && strings.Contains(string(n), "left out") {
			t.Errorf("the full report says %q", n)
		}
	}
}

func TestTablesOfPlansAndTreesAreTheResults(t *testing.T) {
	r := example(t)
	rows := r.Study.PlanTable()
	n := 0
	for _, b := range r.plans().Blocks {
		if got, ok := b.(*table); ok && strings.HasPrefix(got.Columns[0].Head, "for ") {
			for _, row := range got.Rows {
				near(t, "plan "+row[0]+" sun", row[1], rows[n].Sun)
				near(t, "plan "+row[0]+" access", row[2], 100*rows[n].Access)
				near(t, "plan "+row[0]+" gain", row[3], rows[n].Gain)
				if rows[n].Cost != nil {
					near(t, "plan "+row[0]+" cost", row[4], *rows[n].Cost)
				}
				n++
			}
		}
	}
	if n != len(rows) {
		t.Errorf("%d rows of plans, want %d", n, len(rows))
	}
	r.Full = true
	at := 0
	for _, b := range r.ranking().Blocks {
		got, ok := b.(*table)
		if !ok {
			continue
		}
		want := r.Study.Results().Targets[at].Standing
		if len(got.Rows) != len(want) {
			t.Fatalf("target %d has %d rows, want %d", at, len(got.Rows), len(want))
		}
		for i, row := range got.Rows {
			near(t, want[i].ID+" alone", row[3], want[i].Alone)
			near(t, want[i].ID+" after others", row[4], want[i].AfterAllOthers)
			if want[i].Fair != nil {
				near(t, want[i].ID+" fair", row[5], *want[i].Fair)
			}
		}
		at++
	}
	if at != len(r.Study.Targets) {
		t.Errorf("%d targets ranked, want %d", at, len(r.Study.Targets))
	}
}

// near holds a written figure to its value within what rounding may take:
// half of the last digit, and for money three digits.
func near(t *testing.T, what, text string, want float64) {
	t.Helper()
	isMoney := strings.Contains(text, "$")
	plain := strings.TrimSpace(strings.NewReplacer(",", "", "%", "", "$", "", "*", "", "+", "", "−", "-").Replace(text))
	got, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		t.Errorf("%s: %q is no figure", what, text)
		return
	}
	allowed := 0.5
	if dot := strings.IndexByte(plain, '.'); dot >= 0 {
		allowed = 0.5 * math.Pow(10, float64(dot+1-len(plain)))
	}
	if isMoney {
		allowed = max(allowed, 0.005*math.Abs(want))
	}
	if math.Abs(got-want) > allowed+0.01 {
		t.Errorf("%s: written %s, computed %g", what, text, want)
	}
}

func TestOtherAimsShowTheirOwnFairShares(t *testing.T) {
	r := example(t)
	rows := r.others()[1].(*table).Rows
	if len(rows) == 0 {
		t.Fatal("no tree")
	}
	for _, row := range rows {
		for i, target := range r.Study.Targets[1:] {
			for _, x := range target.Standing {
				if x.ID == row[0] && x.Fair != nil {
					near(t, target.Name+" "+x.ID, row[1+2*i], *x.Fair)
				}
			}
			if in := row[2+2*i] == "yes"; in != slices.Contains(target.Best.IDs, row[0]) {
				t.Errorf("%s for %s: in the best set %v", row[0], target.Name, in)
			}
		}
	}
}

func TestWindowsShareOneTableOfAccess(t *testing.T) {
	r := example(t)
	results := r.Study.Results()
	found := 0
	for _, b := range r.access().Blocks {
		got, ok := b.(*table)
		if !ok || got.Columns[0].Head != "percent of open" {
			continue
		}
		for i := 0; i < len(got.Rows); i += 2 {
			for _, x := range results.Surfaces {
				if strings.HasPrefix(got.Rows[i][0], x.ID+",") {
					found++
					near(t, x.ID+" January", got.Rows[i][1], 100*x.Today.ByMonth[0]/x.Open[0])
					near(t, x.ID+" season", got.Rows[i][13], 100*x.Today.AccessHeating)
				}
			}
		}
	}
	if found != 4 {
		t.Errorf("%d windows of the south wall in the table, want 4", found)
	}
}
