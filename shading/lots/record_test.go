package lots

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
)

func site(t *testing.T, text string) (*model.Site, *sun.Year, climate.Monthly) {
	t.Helper()
	s, faults := sitefile.Read("lot.yaml", []byte(text))
	for _, f := range faults {
		if !f.Warning {
			t.Fatal(f)
		}
	}
	year, monthly, err := climate.ForSite(s.Place, s.Climate, os.ReadFile, 1)
	if err != nil {
		t.Fatal(err)
	}
	return s, &year, monthly
}

const bare = `
name: bare lot
place: {latitude: 41.52, longitude: -82.94, time zone: America/New_York}
lot: [[0, 0], [40, 0], [40, 115], [0, 115]]
house:
  footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]
  wall height: 13 ft
  roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 0 ft}
  windows: [{id: W1, wall: south, left: 4 ft, sill: 3 ft, width: 3 ft, height: 5 ft, reveal: 0 in}]
`

// A wall with nothing before it gets all of an open field's sun, and no plan
// can add any.
func TestLotWithNothingOnItStandsClear(t *testing.T) {
	s, year, monthly := site(t, bare)
	for _, what := range []string{ForWall, ForWindows, ForRoof} {
		lot, err := Study(s, year, monthly, Options{For: what})
		if err != nil {
			t.Fatal(err)
		}
		if lot.ShareNow < 0.999 || lot.ShareAfter != lot.ShareNow || lot.ShareFree != lot.ShareNow || lot.Plan != "" || lot.Cost != 0 || lot.Gain != 0 || lot.Verdict != "good" {
			t.Errorf("%s: %+v", what, lot.Record)
		}
	}
}

func example(t *testing.T) string {
	text, err := os.ReadFile(filepath.Join("..", "..", "examples", "alder-row", "site.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestRecordAgreesWithTheStudyOfTheSameLot(t *testing.T) {
	s, year, monthly := site(t, example(t))
	lot, err := Study(s, year, monthly, Options{For: ForWindows})
	if err != nil {
		t.Fatal(err)
	}
	st, err := study.Run(s, year, monthly, study.Options{}) // its first target is the south windows
	if err != nil {
		t.Fatal(err)
	}
	target := st.Targets[0]
	if target.Name != "south windows" {
		t.Fatalf("the example's first target is now %s", target.Name)
	}
	near := func(what string, got, want, within float64) {
		if math.Abs(got-want) > within {
			t.Errorf("%s: %g, the study has %g", what, got, want)
		}
	}
	near("now", lot.ShareNow, target.Now/target.Open, 1e-4)
	near("no trees", lot.ShareFree, target.NoTrees/target.Open, 1e-4)
	near("season sun", lot.Now*lot.Area, target.Now, 0.06*lot.Area+0.01*lot.Now)
	near("gain", lot.Gain, target.Best.Gain, 0.06)
	near("cost", lot.Cost, target.Best.Cost, 1e-9)
	if lot.Plan != "remove "+strings.Join(target.Best.IDs, ", ") {
		t.Errorf("plan %q, the study's best set is %v", lot.Plan, target.Best.IDs)
	}
	if len(s.Targets) != 3 {
		t.Error("the site was changed")
	}
	gone := 0
	for _, c := range lot.Drawing.Trees {
		if c.Removed {
			gone++
		}
	}
	if gone != len(target.Best.IDs) || len(lot.Drawing.Trees) != len(s.Trees) {
		t.Errorf("the drawing has %d of %d trees taken out", gone, len(lot.Drawing.Trees))
	}
}

func TestMoreMoneyNeverMeansLessSun(t *testing.T) {
	s, year, monthly := site(t, example(t))
	last := Record{After: -1}
	for _, money := range []float64{900, 4500, 0} { // 0: no limit
		lot, err := Study(s, year, monthly, Options{For: ForWall, Budget: &money})
		if err != nil {
			t.Fatal(err)
		}
		if lot.After < last.After || money > 0 && lot.Cost > money || lot.After > lot.NoTrees+0.2 || lot.After < lot.Now {
			t.Errorf("for $%.0f: %+v after %+v", money, lot.Record, last)
		}
		last = lot.Record
	}
	if last.After < last.Now+50 {
		t.Errorf("no limit brings only %g after %g", last.After, last.Now)
	}
}

// A plan of the file that does what no removal may do is taken where it
// brings more: here the only tree is marked to keep, and the plan thins it.
func TestPlanOfTheFileIsTakenWhereItBringsMore(t *testing.T) {
	text := bare + `
trees: [{id: T1, species: Norway spruce, at: [19, 30], height: 40 ft, spread: 24 ft, keep: yes}]
plans: [{name: thin it, thin: [{tree: T1, in leaf: 80 %, bare: 80 %, cost: $300}]}]
`
	s, year, monthly := site(t, text)
	lot, err := Study(s, year, monthly, Options{For: ForWall})
	if err != nil {
		t.Fatal(err)
	}
	if lot.Plan != "plan thin it" || lot.Cost != 300 || lot.After <= lot.Now {
		t.Errorf("%+v", lot.Record)
	}
	little := 200.0
	lot, err = Study(s, year, monthly, Options{For: ForWall, Budget: &little})
	if err != nil {
		t.Fatal(err)
	}
	if lot.Plan != "" || lot.After != lot.Now {
		t.Errorf("for $200: %+v", lot.Record)
	}
}

func TestHouseWithoutSouthWindowsIsNotRankedForThem(t *testing.T) {
	s, year, monthly := site(t, strings.Replace(bare, "wall: south", "wall: north", 1))
	if _, err := Study(s, year, monthly, Options{For: ForWindows}); err == nil || !strings.Contains(err.Error(), "south windows") {
		t.Errorf("%v", err)
	}
}

func TestRecordIsSmallAndReadsBack(t *testing.T) {
	s, year, monthly := site(t, example(t))
	lot, err := Study(s, year, monthly, Options{For: ForWall})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(lot)
	if err != nil || len(text) > 8000 {
		t.Errorf("%d bytes, %v", len(text), err)
	}
	var back Lot
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	again, _ := json.Marshal(back)
	if string(again) != string(text) {
		t.Error("a record changes when it is read and written")
	}
}
