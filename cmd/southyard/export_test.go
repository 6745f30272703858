package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/qmuntal/gltf"
)

// told runs the program and gives what it says.
func told(t *testing.T, args ...string) (string, error) {
	t.Helper()
	app := application()
	var out bytes.Buffer
	app.Writer, app.ErrWriter = &out, &out
	err := app.Run(flagsFirst(append([]string{"southyard"}, args...), commands()))
	return out.String(), err
}

var alderRow = filepath.Join("..", "..", "examples", "alder-row", "site.yaml")

func TestExportToAMapAndBackIsASiteWithoutFaults(t *testing.T) {
	dir := t.TempDir()
	geo, yaml := filepath.Join(dir, "lot.geojson"), filepath.Join(dir, "again.yaml")
	if out, err := told(t, "export", alderRow, "--to", "geojson", "--out", geo); err != nil || !strings.Contains(out, "does not hold the plans") {
		t.Fatalf("%v\n%s", err, out)
	}
	if out, err := told(t, "new", yaml, "--from", geo); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var faults bytes.Buffer
	site, err := readSite(yaml, &faults)
	if err != nil || len(site.Trees) != 10 || len(site.Windows) != 6 {
		t.Errorf("%v\n%s", err, faults.String())
	}
}

func TestExportToASceneWithASun(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lot.glb")
	if out, err := told(t, "export", alderRow, "--to", "gltf", "--at", "2026-12-21T12:00:00-05:00", "--out", path); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	doc, err := gltf.Open(path)
	if err != nil || doc.Nodes[len(doc.Nodes)-1].Name != "sun" {
		t.Errorf("%v: the last node is not the sun", err)
	}
}

func TestExportLeavesAFileAloneUnlessForced(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "lot.glb")
	if err := os.WriteFile(path, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := told(t, "export", alderRow, "--to", "gltf", "--out", path); err == nil || !strings.Contains(err.Error(), "left as it is") {
		t.Errorf("written over: %v", err)
	}
	if text, _ := os.ReadFile(path); string(text) != "mine" {
		t.Error("the file has changed")
	}
	if _, err := told(t, "export", alderRow, "--to", "gltf", "--out", path, "--force"); err != nil {
		t.Error(err)
	}
	if text, _ := os.ReadFile(path); !bytes.HasPrefix(text, []byte("glTF")) {
		t.Error("--force did not write")
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

func TestExportAndNewFromRefuseInWords(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "x")
	broken := filepath.Join(dir, "broken.geojson")
	if err := os.WriteFile(broken, []byte("{"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"export", "--to", "gltf", "--out", out}, "one site file"},
		{[]string{"export", alderRow, "--to", "gltf"}, "--out"},
		{[]string{"export", alderRow, "--out", out}, "--to"},
		{[]string{"export", alderRow, "--to", "stone", "--out", out}, "geojson and gltf"},
		{[]string{"export", alderRow, "--to", "gltf", "--at", "noon", "--out", out}, "2026-12-21T12:00:00-05:00"},
		{[]string{"export", alderRow, "--to", "gltf", "--at", "2026-12-21T23:00:00-05:00", "--out", out}, "below the horizon"},
		{[]string{"export", alderRow, "--to", "geojson", "--at", "2026-12-21T12:00:00-05:00", "--out", out}, "only --to gltf"},
		{[]string{"export", alderRow, "--to", "geojson", "--out", filepath.Join(dir, "no", "x")}, "cannot write"},
		{[]string{"new", "--from", filepath.Join(dir, "none"), out}, "cannot read"},
		{[]string{"new", "--from", broken, out}, "not GeoJSON"},
		{[]string{"new", "--trees", broken, out}, "go with --from"},
		{[]string{"new", "--from", broken, "--ask", out}, "choose one"},
	} {
		if _, err := told(t, c.args...); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v; want %q", c.args, err, c.want)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

func TestNewFromMapAndListCountsWhatIsToBeMeasured(t *testing.T) {
	yaml := filepath.Join(t.TempDir(), "lot.yaml")
	from := filepath.Join("..", "..", "examples", "from-the-map")
	out, err := told(t, "new", "--from", filepath.Join(from, "lot.geojson"), "--trees", filepath.Join(from, "trees.csv"), yaml)
	if err != nil || !strings.Contains(out, "to be measured: the windows") || !strings.Contains(out, "Next: southyard check") {
		t.Fatalf("%v\n%s", err, out)
	}
	want, err := os.ReadFile(filepath.Join(from, "site.yaml"))
	got, _ := os.ReadFile(yaml)
	if err != nil || !bytes.Equal(got, want) {
		t.Error("the file differs from the example's")
	}
}

// The lots of the benchmarks can be run through any ray tracer.
func TestReferenceLotsExportToScenes(t *testing.T) {
	lots, err := filepath.Glob(filepath.Join("..", "..", "testdata", "reference-*.yaml"))
	if err != nil || len(lots) != 4 {
		t.Fatalf("%d lots, %v", len(lots), err)
	}
	for _, lot := range lots {
		path := filepath.Join(t.TempDir(), "lot.glb")
		if out, err := told(t, "export", lot, "--to", "gltf", "--at", "2026-12-21T12:00:00-05:00", "--out", path); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		doc, err := gltf.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		names := map[string]bool{}
		for _, n := range doc.Nodes {
			names[n.Name] = true
		}
		crowns := 0
		for name := range names {
			if strings.Contains(name, "crown") {
				crowns++
			}
		}
		text, err := os.ReadFile(lot)
		if err != nil {
			t.Fatal(err)
		}
		if want := strings.Count(string(text), "{id: T"); crowns != want || !names["sun"] {
			t.Errorf("%s: %d crowns of %d, sun %t", lot, crowns, want, names["sun"])
		}
	}
}
