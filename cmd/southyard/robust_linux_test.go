package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// disk is a small disk in memory. Only root may make one.
func disk(t *testing.T, flags uintptr, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", flags, "size="+size); err != nil {
		t.Skip("a small disk cannot be mounted here:", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	})
	return dir
}

func TestFullDiskLeavesWholeLotsAndTheRunGoesOnWhereThereIsRoom(t *testing.T) {
	in, whole := t.TempDir(), filepath.Join(t.TempDir(), "whole")
	writeLots(t, in, 12)
	if _, faults, code := typed("lots", in, "--out", whole); code != 0 {
		t.Fatal(faults)
	}
	want := folder(t, whole)
	small := disk(t, 0, "32k") // pages of 4 KB: a few records fit
	out := filepath.Join(small, "out")
	_, faults, code := typed("lots", in, "--out", out)
	if code != 1 || !strings.Contains(faults, "no space left") || !strings.Contains(faults, "same command again") {
		t.Errorf("code %d: %s", code, faults)
	}
	got := folder(t, out)
	if len(got) == 0 || len(got) >= 12 {
		t.Errorf("%d files fitted", len(got))
	}
	for name, text := range got {
		if want[name] != text {
			t.Errorf("a full disk left a broken %s", name)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(out, recordsFolder, ".*")); len(left) > 0 {
		t.Errorf("a full disk left %v", left)
	}
	if err := syscall.Mount("tmpfs", small, "tmpfs", syscall.MS_REMOUNT, "size=16m"); err != nil {
		t.Skip("the disk cannot be made larger:", err)
	}
	if _, faults, code := typed("lots", in, "--out", out); code != 0 {
		t.Fatal(faults)
	}
	sameFiles(t, folder(t, out), want)
}

func TestFullDiskLeavesNoBrokenStudy(t *testing.T) {
	dir := t.TempDir()
	lot := studyLot(t, dir)
	whole := filepath.Join(dir, "whole")
	if _, faults, code := typed("study", lot, "--out", whole, "--hours", "--no-pictures", "--draws", "9"); code != 0 {
		t.Fatal(faults)
	}
	want := folder(t, whole)
	for _, size := range []string{"4k", "512k"} {
		out := filepath.Join(disk(t, 0, size), "out")
		_, faults, code := typed("study", lot, "--out", out, "--hours", "--no-pictures", "--draws", "9")
		if code != 1 || !strings.Contains(faults, "no space left") {
			t.Errorf("%s: code %d: %s", size, code, faults)
		}
		for name, text := range folder(t, out) {
			if want[name] != text {
				t.Errorf("%s: a full disk left a broken %s", size, name)
			}
		}
		if _, err := os.Stat(filepath.Join(out, "results.json")); err == nil {
			t.Errorf("%s: a study that is not whole has its results", size)
		}
	}
}

func TestReadOnlyFolderIsRefusedInPlainWords(t *testing.T) {
	in := t.TempDir()
	writeLots(t, in, 2)
	locked := disk(t, syscall.MS_RDONLY, "64k")
	for _, words := range [][]string{
		{"lots", in, "--out", filepath.Join(locked, "out")},
		{"lots", in, "--out", locked},
		{"lots", in, "--part", "1/2", "--out", filepath.Join(locked, "out")},
		{"study", studyLot(t, t.TempDir()), "--no-pictures", "--draws", "9", "--out", filepath.Join(locked, "out")},
		{"study", studyLot(t, t.TempDir()), "--no-pictures", "--draws", "9", "--out", locked},
	} {
		out, faults, code := typed(words...)
		if code != 1 || !strings.Contains(faults, "read-only") || !strings.Contains(faults, locked) {
			t.Errorf("%v: code %d: %s %s", words, code, out, faults)
		}
	}
}
