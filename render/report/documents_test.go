package report

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

func TestSameStudyGivesTheSameBytes(t *testing.T) {
	r := example(t)
	r.Pictures = r.Pictures[:6]
	paper := ink.Sheets()[0]
	for name, write := range writers(r) {
		var a, b bytes.Buffer
		if err := write(&a, paper); err != nil {
			t.Fatal(err)
		}
		if err := write(&b, paper); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s differs from one writing to the next", name)
		}
	}
}

func writers(r Report) map[string]func(*bytes.Buffer, ink.Sheet) error {
	return map[string]func(*bytes.Buffer, ink.Sheet) error{
		"report.html":   func(b *bytes.Buffer, p ink.Sheet) error { return r.HTML(b, p) },
		"report.pdf":    func(b *bytes.Buffer, p ink.Sheet) error { return r.PDF(b, p) },
		"committee.pdf": func(b *bytes.Buffer, p ink.Sheet) error { return r.Committee(b, p) },
	}
}

var pageMark = regexp.MustCompile(`/Type /Page\b[^s]`)

func TestPDFOpensWithAllItsPages(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed")
	}
	r := example(t)
	r.Pictures = r.Pictures[:6]
	for _, paper := range ink.Sheets() {
		for name, pages := range map[string]int{"report.pdf": len(r.sheets(paper)), "committee.pdf": 1} {
			var b bytes.Buffer
			if err := writers(r)[name](&b, paper); err != nil {
				t.Fatal(err)
			}
			if n := len(pageMark.FindAll(b.Bytes(), -1)); n != pages {
				t.Errorf("%s on %s: the file says %d pages, want %d", name, paper.Name, n, pages)
			}
			path := filepath.Join(t.TempDir(), name)
			if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			out := filepath.Join(t.TempDir(), "page")
			if text, err := exec.Command(tool, "-r", "5", "-png", path, out).CombinedOutput(); err != nil || len(text) > 0 {
				t.Errorf("%s on %s: %v %s", name, paper.Name, err, text)
			}
			if drawn, _ := filepath.Glob(out + "*.png"); len(drawn) != pages {
				t.Errorf("%s on %s: %d pages drawn, want %d", name, paper.Name, len(drawn), pages)
			}
		}
	}
}

// Writes the documents to look at.
func TestDocumentsToLookAt(t *testing.T) {
	dir := os.Getenv("SOUTHYARD_REPORT")
	if dir == "" {
		t.Skip("SOUTHYARD_REPORT names no folder to write into")
	}
	for name, r := range everyReport(t) {
		for _, paper := range ink.Sheets() {
			for file, write := range writers(r) {
				var b bytes.Buffer
				if err := write(&b, paper); err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				whole := paper.Name + "-" + file
				if name != "alder row" {
					whole = strings.ReplaceAll(strings.ReplaceAll(name, " ", "-"), ",", "") + "-" + whole
				}
				if err := os.WriteFile(filepath.Join(dir, whole), b.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
