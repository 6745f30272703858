package main

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/southyard/southyard/sun/sky"
)

// Files that are no site file: each command that reads one says which file,
// what is wrong and what would be right, and ends with 1.
func TestEveryCommandRefusesOtherFilesInPlainWords(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	files := map[string]struct{ path, says string }{
		"missing": {filepath.Join(dir, "none.yaml"), "no such file"},
		"folder":  {dir, "is a folder"},
		"picture": {write("pic.yaml", "\x89PNG\r\n\x1a\n0000"), "a picture"},
		"JSON":    {write("other.json", `{"width": 3, "rows": []}`), "none of its keys"},
		"weather": {write("year.csv", "Station,Long Shoal\nHour,Sun on level ground\n1,0\n"), "keys and values"},
		"empty":   {write("empty.yaml", ""), "the file is empty"},
		"noise":   {write("noise.yaml", "\x00\x01\x02\x9c"), "not a site file"},
	}
	out := filepath.Join(dir, "out")
	commands := map[string][]string{
		"study": {"--draws", "0", "--out", out}, "trees": {"--draws", "0"}, "plans": {"--draws", "0"}, "crew": nil, "heat": nil, "check": nil,
		"page": {"--out", out}, "report": {"--out", out}, "export": {"--to", "geojson", "--out", out},
	}
	for name, more := range commands {
		for kind, f := range files {
			said, faults, code := typed(append([]string{name, f.path}, more...)...)
			if all := said + faults; code != 1 || !strings.Contains(all, f.says) || !strings.Contains(all, filepath.Base(f.path)) {
				t.Errorf("%s of a %s file: code %d, %s", name, kind, code, all)
			}
		}
		if _, faults, code := typed(append([]string{name}, more...)...); code != 2 || !strings.Contains(faults, "southyard "+name) {
			t.Errorf("%s of nothing: code %d, %s", name, code, faults)
		}
	}
	if _, err := os.Lstat(out); !errors.Is(err, os.ErrNotExist) {
		t.Error("something was written")
	}
}

func TestWrongFlagsAreSaidInPlainWords(t *testing.T) {
	for _, c := range []struct {
		words []string
		says  string
	}{
		{[]string{"study", "lot.yaml", "--pictures"}, "there is no flag --pictures; southyard study --help"},
		{[]string{"study", "lot.yaml", "--draws", "many"}, `--draws cannot be "many"`},
		{[]string{"sun", "--latitude", "north"}, `--latitude cannot be "north"`},
		{[]string{"study", "lot.yaml", "--out"}, "--out wants a value"},
		{[]string{"--latitude"}, "there is no flag --latitude; southyard --help"},
		{[]string{"studdy"}, `no command "studdy"`},
		{[]string{"trees", "lot.yaml", "--csv", "--json"}, "exclude each other"},
		{[]string{"study", "lot.yaml", "--sky", "blue"}, "--sky"},
	} {
		if _, faults, code := typed(c.words...); code != 2 || !strings.Contains(faults, c.says) {
			t.Errorf("%v: code %d, %s", c.words, code, faults)
		}
	}
}

// Every flag a command's help shows is described, and the help of a sky names
// every model its fault names.
func TestHelpSaysWhatEveryFlagIs(t *testing.T) {
	_, err := sky.ParseModel("no such")
	models := regexp.MustCompile(`(isotropic|anisotropic|hay-davies|hdkr)`).FindAllString(err.Error(), -1)
	if len(models) < 4 {
		t.Fatalf("the fault names %v", models)
	}
	for _, c := range application().Commands {
		said, _, code := typed(c.Name, "--help")
		if code != 0 || !strings.Contains(said, c.Usage) {
			t.Errorf("%s --help: code %d", c.Name, code)
		}
		for _, f := range c.Flags {
			if usage := f.String(); !strings.Contains(usage, "\t") || strings.HasSuffix(strings.TrimSpace(usage), "\t") {
				t.Errorf("%s: %s says nothing", c.Name, f.Names()[0])
			}
		}
		if strings.Contains(said, "--seed") && !strings.Contains(said, "drawn by lot: the days' order in a year made from stations or monthly figures") {
			t.Errorf("%s --help does not name all that the seed draws", c.Name)
		}
		if c.Name == "lots" && !strings.Contains(said, "0 takes every limit away") {
			t.Error("lots --help does not say what a budget of 0 means")
		}
		if strings.Contains(said, "--sky") {
			for _, m := range models {
				if !strings.Contains(said, m) {
					t.Errorf("%s --help does not name the sky %s", c.Name, m)
				}
			}
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// Print that cannot be written is a fault, whatever the command.
func TestPrintOnAFullDiskIsAFault(t *testing.T) {
	place := []string{"--latitude", "41.65", "--longitude", "-83.54"}
	for _, words := range [][]string{
		{"climate", "41.65,-83.54"}, {"climate", "41.65,-83.54", "--json"}, append([]string{"sun", "--on", "2026-12-21"}, place...),
		append([]string{"sun", "--at", "2026-12-21T12:00:00-05:00"}, place...), {"new", filepath.Join(t.TempDir(), "x.yaml")}, {"--help"}, {"study", "--help"},
		{"check", alderRow},
	} {
		if err := runTo(fullDisk{}, append([]string{"southyard"}, words...)); err == nil || err.Error() != "cannot print: no space left on device" {
			t.Errorf("%v: %v", words, err)
		}
	}
}

// Only ordinary files are written over: a device or a folder is left alone.
func TestADeviceIsNeverReplacedByAFile(t *testing.T) {
	if err := writeWhole(os.DevNull, nil); err == nil || !strings.Contains(err.Error(), "device") {
		t.Errorf("%v", err)
	}
	if info, err := os.Stat(os.DevNull); err != nil || info.Mode().IsRegular() {
		t.Errorf("the device is now a file: %v", err)
	}
}

// RESULTS.md names every key of results.json, of a target and of the heat.
func TestResultsFileIsDescribedKeyByKey(t *testing.T) {
	page, err := os.ReadFile("RESULTS.md")
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "out")
	if _, faults, code := typed("study", studyLot(t, t.TempDir()), "--draws", "9", "--no-pictures", "--out", out); code != 0 {
		t.Fatal(faults)
	}
	text, err := os.ReadFile(filepath.Join(out, "results.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]json.RawMessage
	var targets []map[string]json.RawMessage
	var heat map[string]json.RawMessage
	if err := errors.Join(json.Unmarshal(text, &all), json.Unmarshal(all["targets"], &targets), json.Unmarshal(all["heat"], &heat)); err != nil {
		t.Fatal(err)
	}
	if string(all["version"]) != "2" {
		t.Errorf("the page is about version 2, the file is %s", all["version"])
	}
	for _, level := range []map[string]json.RawMessage{all, targets[0], heat} {
		for key := range level {
			if !strings.Contains(string(page), "`"+key+"`") {
				t.Errorf("RESULTS.md says nothing of %s", key)
			}
		}
	}
}
