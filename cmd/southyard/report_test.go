package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestSheetNeverOverwritesUnlessForced(t *testing.T) {
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	err := run([]string{"southyard", "sheet", "--out", name})
	if err == nil || !strings.Contains(err.Error(), "--force") {
		t.Errorf("got %v", err)
	}
	if text, _ := os.ReadFile(name); string(text) != "mine" {
		t.Errorf("the file now holds %q", text)
	}
	if err := run([]string{"southyard", "sheet", "--out", name, "--force", "--paper", "a4"}); err != nil {
		t.Fatal(err)
	}
	if text, _ := os.ReadFile(name); !bytes.HasPrefix(text, []byte("%PDF-")) {
		t.Error("no PDF was written")
	}
}

func TestReportAsksForAFolderAndAKnownPaper(t *testing.T) {
	lot := filepath.Join("..", "..", "examples", "alder-row", "site.yaml")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{lot}, "--out"},
		{[]string{lot, "--out", t.TempDir(), "--paper", "foolscap"}, "letter or a4"},
		{[]string{"-", "--out", t.TempDir()}, "a name"},
	} {
		err := run(append([]string{"southyard", "report"}, c.args...))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: got %v", c.args, err)
		}
	}
}

func TestReportWritesThreeWholeDocuments(t *testing.T) {
	if testing.Short() {
		t.Skip("a whole study takes some seconds; -short leaves it out")
	}
	dir := filepath.Join(t.TempDir(), "lot-report")
	if err := run([]string{"southyard", "report", filepath.Join("..", "..", "examples", "alder-row", "site.yaml"), "--out", dir, "--draws", "9"}); err != nil {
		t.Fatal(err)
	}
	for name, begins := range map[string]string{"report.html": "<!DOCTYPE html>", "report.pdf": "%PDF-", "committee.pdf": "%PDF-"} {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !bytes.HasPrefix(text, []byte(begins)) {
			t.Errorf("%s: %v, %d bytes", name, err, len(text))
		}
	}
	if files, _ := os.ReadDir(dir); len(files) != 3 {
		t.Errorf("%d files in the folder, want 3", len(files))
	}
}

func TestReportRefusesAFileForAFolderInPlainWords(t *testing.T) {
	file := filepath.Join(t.TempDir(), "taken")
	if err := os.WriteFile(file, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	lot := filepath.Join("..", "..", "examples", "alder-row", "site.yaml")
	for out, says := range map[string]string{file: "is a file, not a folder", filepath.Join(file, "below"): "cannot make the folder"} {
		err := application().Run([]string{"southyard", "report", "--draws", "0", "--out", out, lot})
		if err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "mkdir") {
			t.Errorf("%v, want %q and no name of a system call", err, says)
		}
	}
}
