package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// outFolder makes the folder for a study's files ready. A folder that holds
// something else than an earlier study is left alone.
func outFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, os.ErrNotExist):
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return fmt.Errorf("cannot make the folder %s: %w; name another with --out", dir, reason(err))
		}
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot be used as the folder for results: %w; name a new folder with --out", dir, reason(err))
	}
	others := 0
	for _, e := range entries {
		switch name := e.Name(); {
		case name == "results.json", name == studyBegun && isStudyBegun(filepath.Join(dir, name)):
			return nil
		case strings.HasPrefix(name, ".") && strings.HasSuffix(name, ".tmp"): // of a run that was killed
		default:
			others++
		}
	}
	if others > 0 {
		return fmt.Errorf("the folder %s holds other things and no earlier study; name a new folder with --out so that nothing is overwritten", dir)
	}
	return nil
}

// roomIn tells early, before anything is computed, whether files can be written
// into a folder that is there or can be made.
func roomIn(dir string) error {
	at := filepath.Clean(dir)
	info, err := os.Stat(at)
	for err != nil && at != filepath.Dir(at) { // up to what is there
		at = filepath.Dir(at)
		info, err = os.Stat(at)
	}
	switch {
	case err != nil:
		return fmt.Errorf("cannot make the folder %s: %w; name another with --out", dir, reason(err))
	case !info.IsDir() && at == filepath.Clean(dir):
		return fmt.Errorf("%s is a file, not a folder; name a folder with --out", dir)
	case !info.IsDir():
		return fmt.Errorf("cannot make the folder %s: %s is a file; name another with --out", dir, at)
	}
	f, err := os.CreateTemp(at, ".southyard-*.tmp")
	if err != nil {
		return fmt.Errorf("cannot write into %s: %w; name another folder with --out", at, reason(err))
	}
	f.Close()
	return os.Remove(f.Name())
}

// leftThere lists the tables and pictures of a study's folder that are not
// among those written: of a plan that the site file no longer has, mostly.
func leftThere(dir string, written []string) (left []string) {
	entries, _ := os.ReadDir(dir) // what cannot be listed cannot mislead either
	for _, e := range entries {
		switch filepath.Ext(e.Name()) {
		case ".csv", ".png", ".svg":
			if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(written, e.Name()) {
				left = append(left, e.Name())
			}
		}
	}
	return left
}

// someOf names the first few of a list and counts the rest.
func someOf(names []string) string {
	const few = 3
	if len(names) <= few+1 {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
}

// studyBegun is the first file a study writes, results.json the last: a study
// that was killed, or ran out of room, may be run again into its folder.
const studyBegun = "trees.csv"

// isStudyBegun tells a study's trees.csv from somebody else's list of trees.
func isStudyBegun(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	const head = "target,season,tree,species,"
	start := make([]byte, len(head))
	_, err = io.ReadFull(f, start)
	return err == nil && string(start) == head
}

// noRoomFor says why a file could not be begun, and what to do.
func noRoomFor(path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("cannot write %s: there is no folder %s; make it first, or choose another name", path, filepath.Dir(path))
	}
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("cannot write %s: %w; choose a folder you may write to", path, reason(err))
	}
	return fmt.Errorf("cannot write %s: %w", path, reason(err))
}

// writeWhole writes a file under a temporary name and renames it, so that a
// reader never finds half a file.
func writeWhole(path string, write func(io.Writer) error) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("cannot write %s: it is a folder or a device, not a file; choose another name", path)
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*.tmp")
	if err != nil {
		return noRoomFor(path, err)
	}
	defer os.Remove(f.Name()) // fails once renamed, as it should
	if err := write(f); err != nil {
		f.Close()
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	if err := f.Chmod(0o644); err != nil {
		f.Close()
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	return nil
}
