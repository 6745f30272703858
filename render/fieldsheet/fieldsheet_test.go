package fieldsheet

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

func TestWordsNeitherOverlapNorLeaveThePage(t *testing.T) {
	for _, paper := range ink.Sheets() {
		for n, page := range Pages(paper) {
			rec := &ink.Record{W: paper.Width, H: paper.Height}
			if err := page.Draw(rec); err != nil {
				t.Fatal(err)
			}
			bounds := ink.Box{X0: 28, Y0: 28, X1: rec.W - 28, Y1: rec.H - 28}
			for i, a := range rec.Texts {
				if a.T.Size < render.SmallSize {
					t.Errorf("page %d: %q is lettered at %.1f points", n+1, a.S, a.T.Size)
				}
				if !a.Box.Inside(bounds) {
					t.Errorf("%s page %d: %q leaves the page", paper.Name, n+1, a.S)
				}
				if strings.Contains(a.S, "…") {
					t.Errorf("%s page %d: %q is cut", paper.Name, n+1, a.S)
				}
				for _, b := range rec.Texts[i+1:] {
					if a.Box.Meets(b.Box) {
						t.Errorf("%s page %d: %q and %q overlap", paper.Name, n+1, a.S, b.S)
					}
				}
			}
			for _, b := range rec.Inked {
				for _, a := range rec.Texts { // a table that is too long runs into the foot
					if across := b.X1-b.X0 > 300 && b.Y1-b.Y0 < 3; across && a.Box.Meets(b) {
						t.Errorf("%s page %d: a line runs through %q", paper.Name, n+1, a.S)
					}
				}
				if !b.Inside(ink.Box{X0: 20, Y0: 20, X1: rec.W - 20, Y1: rec.H - 20}) {
					t.Errorf("%s page %d: a line leaves the page at %.0f", paper.Name, n+1, b)
				}
			}
		}
	}
}

// Values to try each key of the form with.
var filled = map[string]string{
	"species": "silver maple", "at": "[10, 9]", "bearing": "S 3° W", "distance": "35 ft", "from": "house south-east corner",
	"owner": "lot", "trunk": "24 in", "cost": "$900", "notes": "near the wire", "keep": "no", "spread": "30 ft", "crown base": "8 ft",
	"measured by": "tape", "height": "40 ft", "top angle": "37°", "base angle": "4° down", "eye height": "5 ft 4 in",
	"wall": "south", "left": "2 ft", "sill": "3 ft", "width": "30 in", "glazing": "single", "frame": "25 %", "reveal": "3 in",
	"wall height": "13 ft", "roof kind": "gable", "ridge": "east-west", "down": "south", "pitch": "9/12", "overhang": "14 in",
	"on": "roof-south", "up": "6 ft",
	"base": "6 in", "lets through": "20 %",
}

// The heads of the form are keys the site file takes.
func TestHeadsAreKeysOfTheSiteFile(t *testing.T) {
	const lot = `name: Trial
units: feet
place: {latitude: 41.5, longitude: -83, elevation: 600 ft}
north: {up points: N 4° E, measured: magnetic, declination: 7° W}
climate: nearest
lot: [[0, 0], [40, 0], [40, 115], [0, 115]]
house:
  footprint: [[8, 46], [31, 46], [31, 74], [8, 74]]
`
	value := func(key string) string {
		v, ok := filled[key]
		if !ok {
			t.Fatalf("no value to try the head %q with", key)
		}
		return v
	}
	roof := map[string]bool{"ridge": true, "pitch": true, "overhang": true, "down": true}
	read := func(name, text string) {
		t.Helper()
		_, faults := sitefile.Read("lot.yaml", []byte(text))
		for _, f := range faults {
			if !f.Warning {
				t.Errorf("%s: %v\n%s", name, f, text)
			}
		}
	}
	for _, h := range buildingHeads {
		house := "  wall height: 13 ft\n"
		switch {
		case h.Key == "id" || h.Key == "remarks" || h.Key == "wall height":
			continue
		case h.Key == "roof kind":
			house += "  roof: {kind: gable, pitch: 9/12}\n"
		case h.Key == "down":
			house += "  roof: {kind: shed, pitch: 3/12, down: south}\n"
		case roof[h.Key]:
			house += "  roof: {kind: gable, pitch: 9/12"
			if h.Key != "pitch" {
				house += ", " + h.Key + ": " + value(h.Key)
			}
			house += "}\n"
		}
		read("building "+h.Key, lot+house)
	}
	const house = "  wall height: 13 ft\n  roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}\n"
	window := "  windows:\n    - {id: W1"
	for _, h := range windowHeads {
		switch h.Key {
		case "id", "remarks":
		case "height":
			window += ", height: 60 in"
		default:
			window += ", " + h.Key + ": " + value(h.Key)
		}
	}
	read("window", lot+house+window+"}\n")

	patch := "keep clear:\n  - {id: vent"
	for _, h := range clearHeads[:6] {
		switch h.Key {
		case "id":
		case "height":
			patch += ", height: 4 in"
		default:
			patch += ", " + h.Key + ": " + value(h.Key)
		}
	}
	read("keep clear", lot+house+patch+"}\n")

	for _, h := range fenceHeads {
		switch h.Key {
		case "id", "remarks", "fence or wire", "line":
			continue
		case "height":
		case "base", "lets through", "owner":
			read("fence "+h.Key, lot+house+"fences:\n  - {id: back fence, line: [[0, 115], [40, 115]], height: 6 ft, "+h.Key+": "+value(h.Key)+"}\n")
		default:
			t.Errorf("no trial of the head %q", h.Key)
		}
	}
	read("wire", lot+house+"wires:\n  - {id: drop, line: [[2, -6], [8, 47]], height: 17 ft}\n")
	ground := map[string]string{"bearing": "", "altitude": "", "at": "", "": "", "up": "spots: [{at: [0, 0], up: 3 ft}]", "down": "spots: [{at: [0, 0], down: 18 in}]"}
	read("skyline", lot+house+"terrain: {skyline: [{bearing: S 30° E, altitude: 4°}]}\n")
	for _, h := range groundHeads {
		text, ok := ground[h.Key]
		if !ok {
			t.Errorf("no trial of the head %q", h.Key)
		}
		if text != "" {
			read("ground "+h.Key, lot+house+"terrain: {"+text+"}\n")
		}
	}

	sighting := map[string]bool{"top angle": true, "base angle": true, "eye height": true}
	for _, h := range append(append([]head{}, treeFirst...), treeSecond...) {
		tree := "trees:\n  - {id: T1, species: silver maple"
		switch {
		case h.Key == "species":
			tree += ", at: [10, 9]"
		case h.Key == "distance" || h.Key == "bearing" || h.Key == "from":
			tree += ", bearing: S 3° W, distance: 35 ft, from: house south-east corner"
		case sighting[h.Key]:
			tree += ", at: [10, 9], height: {distance: 62 ft, top angle: 37°"
			if h.Key != "top angle" {
				tree += ", " + h.Key + ": " + value(h.Key)
			}
			tree += "}"
		case h.Key == "at":
			tree += ", at: [10, 9]"
		default:
			tree += ", at: [10, 9], " + h.Key + ": " + value(h.Key)
		}
		read("tree "+h.Key, lot+house+tree+"}\n")
	}
}

func TestFormIsTwoPagesThatOpen(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed")
	}
	dir := t.TempDir()
	if keep := os.Getenv("SOUTHYARD_REPORT"); keep != "" {
		dir = keep
	}
	for _, paper := range ink.Sheets() {
		var a, b bytes.Buffer
		if err := ink.WritePDF(&a, Title, Pages(paper)...); err != nil {
			t.Fatal(err)
		}
		if err := ink.WritePDF(&b, Title, Pages(paper)...); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Error("two writings differ")
		}
		path := filepath.Join(dir, paper.Name+"-fieldsheet.pdf")
		if err := os.WriteFile(path, a.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(t.TempDir(), "page")
		if text, err := exec.Command(tool, "-r", "10", "-png", path, out).CombinedOutput(); err != nil || len(text) > 0 {
			t.Errorf("%s: %v %s", paper.Name, err, text)
		}
		if drawn, _ := filepath.Glob(out + "*.png"); len(drawn) != 2 {
			t.Errorf("%s: %d pages, want 2", paper.Name, len(drawn))
		}
	}
}
