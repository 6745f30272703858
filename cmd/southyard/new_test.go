package main

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
	"go.yaml.in/yaml/v3"
)

func TestNewNeverOverwrites(t *testing.T) {
	name := filepath.Join(t.TempDir(), "lot.yaml")
	if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	for way, write := range map[string]func(string, []byte) error{"link": writeNew, "exclusive": writeExclusive} {
		if err := write(name, []byte("theirs")); err == nil || !strings.Contains(err.Error(), "left as it is") {
			t.Errorf("%s: %v", way, err)
		}
	}
	if text, _ := os.ReadFile(name); string(text) != "mine" {
		t.Errorf("the file now holds %q", text)
	}
}

func TestOfManyWhoWriteAtOnceOneWinsWhole(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "lot.yaml")
	var all sync.WaitGroup
	won := make(chan byte, 20)
	for i := range 20 {
		all.Go(func() {
			letter := byte('a' + i)
			if writeNew(name, bytes.Repeat([]byte{letter}, 50_000)) == nil {
				won <- letter
			}
		})
	}
	all.Wait()
	if len(won) != 1 {
		t.Fatalf("%d writers think they wrote the file", len(won))
	}
	text, err := os.ReadFile(name)
	if err != nil || len(text) != 50_000 || strings.Trim(string(text), string(<-won)) != "" {
		t.Errorf("the file is not the winner's: %d bytes, %v", len(text), err)
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

// answers to every question, some of them wrong at first.
const answers = `Test: the lot
feet
91
41.5
-83

America/New_York
maybe
yes
7 W
N 11 E
[[0, 0], [40, 0], [40, 115], [0, 115]
[[0, 0], [40, 0], [40, 115], [0, 115]]
[[8, 46], [31, 46], [31, 74], [8, 74]]
13 fot
13' 6"
gabel
gable
east-west
9
9/12

yes

sowth
south
2 ft
3
32 in
60 in


3 in
no
yes
plumbing vent
roof-nort-south
roof-south
12 fot
12 ft
6 ft
4 in
4 in

no
no
yes

[[2, 95], [10, 95], [10, 103], [2, 103]]
8 ft
flat

no
no
no
yes

[[0, 115], [40, 115]]
6 ft



no
yes

[[2, -6], [8, 47]]
17 ft
electric service
no
yes
S 30 E
4
yes
S 50 E
0
yes
south
0
no
yes
[0, 0]
3 ft
yes
[40, 115]

18 in
no
yes

sliver maple
silver maple
[18, 14]

yes
60 ft
38
4 down
36 ft
9 ft

clinometer

$1,900

wires: keep off
no
$4,500
Oct to Apr
`

func TestAnswersBecomeASoundSiteFile(t *testing.T) {
	var said bytes.Buffer
	text, err := askSite(strings.NewReader(answers), &said)
	if err != nil {
		t.Fatal(err)
	}
	site, faults := sitefile.Read("asked", text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	tree := site.Trees[0]
	if site.Name != "Test: the lot" || len(site.Windows) != 1 || tree.Species != "silver maple" || tree.Cost != 1900 || site.Budget != 4500 || len(site.Season) != 7 || tree.Notes[0] != "wires: keep off" {
		t.Errorf("%s", text)
	}
	if len(site.KeepClear) != 1 || site.KeepClear[0].On != "roof-south" || math.Abs(site.KeepClear[0].Left-12*0.3048) > 1e-9 {
		t.Errorf("kept clear: %+v", site.KeepClear)
	}
	if len(site.Porches) != 1 || len(site.Fences) != 1 || len(site.Wires) != 1 || len(site.Terrain.Skyline) != 3 || len(site.Terrain.Spots) != 2 {
		t.Errorf("shed, fence, wire, skyline or spots are missing: %+v\n%s", site.Terrain, text)
	}
	for _, told := range []string{"beyond 90 degrees", "yes or no, please", "bracket", `"13 fot"`, "write gable", "9/12 or 9°", "write silver maple", "there is no wall", "there is no roof plane", `"12 fot"`} {
		if !strings.Contains(said.String(), told) {
			t.Errorf("the reason %q is not told", told)
		}
	}
}

func TestInterviewInMetresSpeaksOfMetres(t *testing.T) {
	var said bytes.Buffer
	head := "Metres\nmetres\n41.5\n-83\n180\nAmerica/New_York\nno\nN 0 E\n[[0, 0], [12, 0], [12, 35], [0, 35]]\n[[2, 14], [9, 14], [9, 22], [2, 22]]\n4.1\ngable\neast-west\n37°\n"
	text, err := askSite(strings.NewReader(head+"\nno\nyes\nvent\nroof-south\n3\n2\n0.1\n0.1\n\nno\nno\nno\nno\nno\nno\nno\nno\nno\nyes\nT1\nsilver maple\n\nhouse south-east corner\nS 3 E\n9\n\nyes\n18\n38\n\n\n10\n3\n"), &said)
	if !errors.Is(err, errNoMoreAnswers) {
		t.Fatal(err)
	}
	site, faults := sitefile.Read("asked", text)
	if sitefile.Wrong(faults) > 0 || !site.Metric || site.House.Parts[0].Roof.Overhang != 0.3 {
		t.Errorf("%v\n%s", faults, text)
	}
	_, asked, _ := strings.Cut(said.String(), "metres [feet]") // before it nobody knows
	for _, word := range []string{" in]", " ft", "40, 115", "6 in"} {
		if strings.Contains(asked, word) {
			t.Errorf("%q is asked for in\n%s", word, asked)
		}
	}
	for _, want := range []string{"[30 cm]", "[1.63 m]", "15 cm on a roof", "1.4 m"} {
		if !strings.Contains(asked, want) {
			t.Errorf("%q is not in\n%s", want, asked)
		}
	}
}

func TestAnswersThatRunOutAreKept(t *testing.T) {
	whole, err := askSite(strings.NewReader(answers), &bytes.Buffer{})
	if err != nil {
		t.Fatal(err)
	}
	for n := range strings.Count(answers, "\n") - 1 {
		cut := strings.Join(strings.SplitAfter(answers, "\n")[:n], "")
		text, err := askSite(strings.NewReader(cut), &bytes.Buffer{})
		if !errors.Is(err, errNoMoreAnswers) {
			t.Fatalf("after %d answers: %v", n, err)
		}
		given, _, _ := strings.Cut(string(text), "# The questions ended here")
		if !bytes.HasPrefix(whole, []byte(given)) || n > 3 && given == "" {
			t.Fatalf("after %d answers: %s", n, text)
		}
		var tree yaml.Node
		if err := yaml.Unmarshal(text, &tree); err != nil {
			t.Fatalf("after %d answers the file does not read: %v\n%s", n, err, text)
		}
	}
	dir := t.TempDir()
	name := filepath.Join(dir, "lot.yaml")
	app := application()
	app.Reader, app.Writer = strings.NewReader("Short lot\nfeet\n"), &bytes.Buffer{}
	if err := app.Run([]string{"southyard", "new", "--ask", name}); err == nil || !strings.Contains(err.Error(), "lot.yaml holds the answers given") {
		t.Errorf("%v", err)
	}
	if text, err := os.ReadFile(name); err != nil || !strings.Contains(string(text), "name: Short lot") {
		t.Errorf("%s, %v", text, err)
	}
}
