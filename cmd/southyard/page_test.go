package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestPageNeverWritesOverAFileUnasked(t *testing.T) {
	out := filepath.Join(t.TempDir(), "page.html")
	const kept = "somebody's work"
	if err := os.WriteFile(out, []byte(kept), 0o644); err != nil {
		t.Fatal(err)
	}
	site := studyLot(t, t.TempDir())
	err := run([]string{"southyard", "page", site, "--out", out})
	if err == nil || !strings.Contains(err.Error(), "--force") {
		t.Errorf("no refusal that names --force: %v", err)
	}
	if got, _ := os.ReadFile(out); string(got) != kept {
		t.Error("the file was written over")
	}
	if err := run([]string{"southyard", "page", site, "--out", out, "--force"}); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(out)
	if err != nil || !strings.HasPrefix(string(got), "<!DOCTYPE html>") || !strings.HasSuffix(strings.TrimSpace(string(got)), "</html>") {
		t.Errorf("no whole page was written: %v, %d bytes", err, len(got))
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(out), ".*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}
