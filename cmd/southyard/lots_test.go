package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/golang/geo/s2"
	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/lots"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
)

// typed runs the whole program as a person types it.
func typed(words ...string) (out, faults string, code int) {
	var o, e bytes.Buffer
	app := application()
	app.Writer, app.ErrWriter = &o, &e
	err := app.Run(flagsFirst(append([]string{"southyard"}, words...), commands()))
	var coded cli.ExitCoder
	switch {
	case errors.As(err, &coded):
		code = coded.ExitCode()
	case err != nil:
		code = 1
	}
	if err != nil {
		fmt.Fprintln(&e, err)
	}
	return o.String(), e.String(), code
}

// tinyLot is a small house with at most one tree; every number gives another.
func tinyLot(i int) string {
	tree := ""
	if i%3 > 0 {
		tree = fmt.Sprintf("trees: [{id: T1, species: red maple, at: [%d, %d], height: %d ft, spread: 20 ft, cost: $%d}]\n", 8+i%20, 2+i%5, 25+i%17, 300+i)
	}
	return fmt.Sprintf(`name: %d Pump Street
place: {latitude: 41.52, longitude: -82.94, time zone: America/New_York}
lot: [[0, 0], [40, 0], [40, 90], [0, 90]]
house:
  footprint: [[8, %d], [28, %d], [28, 60], [8, 60]]
  wall height: 9 ft
  roof: {kind: flat}
  windows: [{id: W1, wall: south, left: 4 ft, sill: 3 ft, width: 3 ft, height: 5 ft}]
%s`, i, 36+i%7, 36+i%7, tree)
}

func writeLots(t testing.TB, dir string, n int) {
	t.Helper()
	for i := range n {
		street := filepath.Join(dir, fmt.Sprintf("street-%d", i%3)) // the same names in every street
		if err := os.MkdirAll(street, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(street, fmt.Sprintf("lot-%d.yaml", i/3)), []byte(tinyLot(i)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// folder is every visible file below a folder with its bytes.
func folder(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(d.Name(), ".") {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		out[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func sameFiles(t testing.TB, got, want map[string]string) {
	t.Helper()
	for name, text := range want {
		if other, ok := got[name]; !ok {
			t.Errorf("%s is missing", name)
		} else if other != text {
			t.Errorf("%s differs", name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s is too many", name)
		}
	}
}

func TestBadLotIsReportedAndDoesNotStopTheRest(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "out")
	writeLots(t, in, 4)
	os.WriteFile(filepath.Join(in, "bad.yaml"), []byte("name: broken\nhose: 3\n"), 0o644)
	os.WriteFile(filepath.Join(in, "hours.yaml"), []byte(tinyLot(1)+"climate: {file: nowhere.csv}\n"), 0o644)
	os.WriteFile(filepath.Join(in, "north.yaml"), []byte(strings.Replace(tinyLot(3), "wall: south", "wall: north", 1)), 0o644)
	os.WriteFile(filepath.Join(in, "picture.yaml"), []byte("\x89PNG\r\n\x1a\n\x00\x00"), 0o644)
	os.WriteFile(filepath.Join(in, "empty.yaml"), nil, 0o644)
	os.WriteFile(filepath.Join(in, "readme.txt"), []byte("no site file"), 0o644)
	os.Symlink(filepath.Join(in, "nothing"), filepath.Join(in, "gone.yaml"))
	text, faults, code := typed("lots", in, "--for", "windows", "--out", out)
	if code != 1 || !strings.Contains(faults, "6 files of 10 could not be studied") {
		t.Errorf("code %d, %s", code, faults)
	}
	for _, want := range []string{"4 lots", "bad.yaml:", "hours.yaml: the hourly file nowhere.csv cannot be read", "north.yaml: the house has no south windows", "picture.yaml", "empty.yaml", "gone.yaml: cannot be read"} {
		if !strings.Contains(text, want) {
			t.Errorf("the table lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "readme.txt") {
		t.Error("a file that is no site file was read")
	}
	var sheet lots.Sheet
	if err := json.Unmarshal([]byte(folder(t, out)["lots.json"]), &sheet); err != nil || len(sheet.Lots) != 4 || len(sheet.Failed) != 6 {
		t.Errorf("%v: %d lots, %d failed", err, len(sheet.Lots), len(sheet.Failed))
	}
	seen := map[string]bool{}
	for _, row := range sheet.Lots {
		seen[row.File] = true
	}
	if !seen["street-0/lot-0.yaml"] || !seen["street-1/lot-0.yaml"] || !seen["street-2/lot-0.yaml"] {
		t.Errorf("files of one name were mixed up: %v", seen)
	}
}

func TestPartsJoinedGiveTheBytesOfOneRun(t *testing.T) {
	dir := t.TempDir()
	in := filepath.Join(dir, "in")
	writeLots(t, in, 7)
	os.WriteFile(filepath.Join(in, "bad.yaml"), []byte("name: broken\n"), 0o644)
	whole, shared := filepath.Join(dir, "whole"), filepath.Join(dir, "shared")
	first, _, code := typed("lots", in, "--out", whole, "--csv")
	if code != 1 {
		t.Fatalf("code %d", code)
	}
	want := folder(t, whole)
	for i := 1; i <= 3; i++ { // each on a disk of its own
		_, faults, code := typed("lots", in, "--part", fmt.Sprintf("%d/3", i), "--out", filepath.Join(dir, fmt.Sprint("disk", i)))
		if code != 0 || strings.Contains(faults, "bad.yaml") != (i == 1) { // a part is done though a lot of it is bad
			t.Errorf("part %d: code %d, %s", i, code, faults)
		}
		if i == 2 {
			if _, faults, code := typed("lots", "--merge", filepath.Join(dir, "disk1"), filepath.Join(dir, "disk2"), "--out", filepath.Join(dir, "early")); code != 1 || !strings.Contains(faults, "missing: 3") {
				t.Errorf("joined with a part missing: %d %s", code, faults)
			}
			if _, err := os.Stat(filepath.Join(dir, "early")); err == nil {
				t.Error("something was written though a part is missing")
			}
		}
	}
	joined := filepath.Join(dir, "joined")
	text, _, code := typed("lots", "--merge", filepath.Join(dir, "disk1"), filepath.Join(dir, "disk2"), filepath.Join(dir, "disk3"), "--out", joined, "--csv")
	if code != 1 || text != first {
		t.Errorf("code %d; the joined sheet is another:\n%s\n%s", code, text, first)
	}
	got := folder(t, joined)
	for _, name := range []string{"lots.csv", "lots.json", "board-01.png"} {
		if got[name] != want[name] || got[name] == "" {
			t.Errorf("%s differs from that of one run", name)
		}
	}
	for index := range 3 { // as an array job on one disk
		t.Setenv("JOB_COMPLETION_INDEX", fmt.Sprint(index))
		if text, faults, _ := typed("lots", in, "--parts", "3", "--out", shared); !strings.Contains(text, "of 3") {
			t.Fatal(text, faults)
		}
	}
	os.Unsetenv("JOB_COMPLETION_INDEX")
	typed("lots", "--merge", shared)
	got = folder(t, shared)
	for _, name := range []string{"lots.csv", "lots.json", "board-01.png"} {
		if got[name] != want[name] {
			t.Errorf("%s differs from that of one run", name)
		}
	}
	typed("lots", in, "--part", "2/3", "--budget", "100", "--out", shared)
	if _, faults, code := typed("lots", "--merge", shared); code != 1 || !strings.Contains(faults, "--budget") {
		t.Errorf("parts of different budgets were joined: %s", faults)
	}
}

func TestFinishedLotsAreNotStudiedAgainAndSpoiltOnesAre(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "out")
	writeLots(t, in, 4)
	typed("lots", in, "--out", out)
	want := folder(t, out)
	var names []string
	for name := range want {
		if strings.HasPrefix(name, recordsFolder) {
			names = append(names, name)
		}
	}
	if len(names) != 4 {
		t.Fatalf("records: %v", names)
	}
	spoil := func(name string, change func(string) string) {
		if err := os.WriteFile(filepath.Join(out, name), []byte(change(want[name])), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	// A record that is whole is believed: its name shows on the sheet.
	spoil(names[0], func(s string) string { return strings.Replace(s, "Pump Street", "Mark Street", 1) })
	if text, _, _ := typed("lots", in, "--out", out); !strings.Contains(text, "Mark Street") {
		t.Error("a finished lot was studied again")
	}
	spoil(names[0], func(s string) string { return s[:len(s)/2] })
	spoil(names[1], func(string) string { return "" })
	spoil(names[2], func(s string) string { return want[names[3]] })
	typed("lots", in, "--out", out)
	sameFiles(t, folder(t, out), want)
}

func TestLotsInOnePlaceShareTheirYearAndOthersDoNot(t *testing.T) {
	var y lotYears
	place := func(latitude float64) model.Place {
		return model.Place{LatLng: s2.LatLngFromDegrees(latitude, -82.94), Elevation: math.NaN(), Zone: "America/New_York"}
	}
	a, _, err := y.of(place(41.52), model.ClimateChoice{}, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	if b, _, _ := y.of(place(41.52), model.ClimateChoice{}, 1, nil); b != a {
		t.Error("the same place had its year made twice")
	}
	albedo := [12]float64{}
	for what, of := range map[string]func() (*sun.Year, climate.Monthly, error){
		"place": func() (*sun.Year, climate.Monthly, error) { return y.of(place(41.53), model.ClimateChoice{}, 1, nil) },
		"seed":  func() (*sun.Year, climate.Monthly, error) { return y.of(place(41.52), model.ClimateChoice{}, 2, nil) },
		"albedo": func() (*sun.Year, climate.Monthly, error) {
			return y.of(place(41.52), model.ClimateChoice{Albedo: &albedo}, 1, nil)
		},
		"station": func() (*sun.Year, climate.Monthly, error) {
			return y.of(place(41.52), model.ClimateChoice{Station: "Toledo Express"}, 1, nil)
		},
	} {
		if b, _, err := of(); err != nil || b == a {
			t.Errorf("another %s got the same year (%v)", what, err)
		}
	}
	if len(y.kept) > mostYears {
		t.Errorf("%d years are kept", len(y.kept))
	}
}

func TestLotsLeavesOtherFoldersAlone(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "photos")
	writeLots(t, in, 1)
	os.Mkdir(out, 0o755)
	os.WriteFile(filepath.Join(out, "lots.csv"), []byte("mine"), 0o644)
	if _, faults, code := typed("lots", in, "--out", out); code != 1 || !strings.Contains(faults, "holds other things") {
		t.Errorf("%d %s", code, faults)
	}
	if got := folder(t, out); len(got) != 1 || got["lots.csv"] != "mine" {
		t.Errorf("the folder was changed: %v", got)
	}
}

func TestLotsFaultsSayWhatWouldBeRight(t *testing.T) {
	dir := t.TempDir()
	writeLots(t, dir, 1)
	for _, c := range []struct {
		words []string
		fault string
	}{
		{nil, "wants a folder"},
		{[]string{dir, "--for", "porch"}, "wall, windows or roof"},
		{[]string{dir, "--by", "colour"}, "after"},
		{[]string{dir, "--budget", "lots"}, "--budget"},
		{[]string{dir, "--row", "40 ft"}, "6 in is usual"},
		{[]string{dir, "--part", "5/4", "--out", "x"}, "as in 3/16"},
		{[]string{dir, "--part", "1/4"}, "needs --out"},
		{[]string{dir, "--part", "array", "--out", "x"}, "no array job"},
		{[]string{dir, "--board", "-1"}, "can be drawn"},
		{[]string{dir, "--sky", "pink"}, "--sky"},
	} {
		_, faults, code := typed(append([]string{"lots"}, c.words...)...)
		if code != 2 || !strings.Contains(faults, c.fault) {
			t.Errorf("%v: code %d, %s; want a fault about %q", c.words, code, faults, c.fault)
		}
	}
	if _, faults, code := typed("lots", t.TempDir()); code != 1 || !strings.Contains(faults, "no site file") {
		t.Errorf("an empty folder: code %d, %s", code, faults)
	}
}

// Ten thousand lots must not need more memory than a hundred: what the heap
// holds after a run grows by the rows of the sheet and nothing else.
func TestMemoryStaysFlatOverManyLots(t *testing.T) {
	if testing.Short() {
		t.Skip("120 lots take some seconds; -short leaves them out")
	}
	dir := t.TempDir()
	writeLots(t, dir, 120)
	paths, labels, err := siteFiles([]string{dir}, "")
	if err != nil || len(paths) != 120 {
		t.Fatal(len(paths), err)
	}
	held := func(n int) (uint64, lots.Sheet) {
		run := lotsRun{ask: lotsAsk{options: lots.Options{For: lots.ForWall, Sky: "anisotropic", Seed: 1, Row: 0.6}, part: lots.Whole}, paths: paths[:n], labels: labels[:n]}
		var sheet lots.Sheet
		if _, _, err := run.all(t.Context(), &sheet, &progress{}); err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc, sheet
	}
	held(10) // tables that are made once
	few, sheet := held(10)
	if len(sheet.Lots) != 10 {
		t.Fatalf("%d lots, %v", len(sheet.Lots), sheet.Failed)
	}
	many, sheet := held(120)
	each := (float64(many) - float64(few)) / 110
	t.Logf("heap held: %d KB after 10 lots, %d KB after 120: %.0f bytes a lot", few>>10, many>>10, each)
	if len(sheet.Lots) != 120 || each > 2048 {
		t.Errorf("%.0f bytes are held for each of %d lots", each, len(sheet.Lots))
	}
	runtime.KeepAlive(sheet)
}

func BenchmarkLot(b *testing.B) {
	for _, c := range []struct {
		name  string
		place func(i int) string
	}{
		{"a place each", func(i int) string { return fmt.Sprintf("latitude: %.4f", 41.3+float64(i%4000)/10000) }},
		{"one place", func(int) string { return "latitude: 41.52" }},
	} {
		b.Run(c.name, func(b *testing.B) {
			dir := b.TempDir()
			for i := range b.N {
				text := strings.Replace(tinyLot(i), "latitude: 41.52", c.place(i), 1)
				if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%d.yaml", i)), []byte(text), 0o644); err != nil {
					b.Fatal(err)
				}
			}
			paths, labels, err := siteFiles([]string{dir}, "")
			if err != nil {
				b.Fatal(err)
			}
			run := lotsRun{ask: lotsAsk{options: lots.Options{For: lots.ForWall, Sky: "anisotropic", Seed: 1}, part: lots.Whole}, paths: paths, labels: labels}
			b.ResetTimer()
			var sheet lots.Sheet
			if _, _, err := run.all(b.Context(), &sheet, &progress{}); err != nil || len(sheet.Lots) != b.N {
				b.Fatal(err, sheet.Failed)
			}
		})
	}
}
