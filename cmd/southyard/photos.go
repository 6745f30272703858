package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/southyard/southyard/render/report"
)

// photosIn reads the photographs of a folder in the order of their names; no
// folder, no photographs. What is no picture is passed over, save for kinds that
// somebody would miss.
func photosIn(dir string) ([]report.Photo, error) {
	if dir == "" {
		return nil, nil
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot read the folder of photos %s: %w; name the folder they are in with --photos", dir, reason(err))
	}
	var names []string
	for _, e := range entries {
		ending := strings.ToLower(filepath.Ext(e.Name()))
		switch {
		case e.IsDir() || strings.HasPrefix(e.Name(), "."):
		case slices.Contains([]string{".jpg", ".jpeg", ".png"}, ending):
			names = append(names, e.Name())
		case slices.Contains([]string{".heic", ".heif", ".webp", ".tif", ".tiff", ".gif", ".bmp"}, ending):
			return nil, fmt.Errorf("photo %s: %s files are not read; save it as JPEG or PNG, or take it out of the folder", e.Name(), ending)
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("no .jpg or .png file is in the folder %s", dir)
	}
	if len(names) > report.MostPhotos {
		return nil, fmt.Errorf("%d photos are in the folder %s; choose the %d that say most", len(names), dir, report.MostPhotos)
	}
	var out []report.Photo
	for _, name := range names {
		data, err := firstBytes(filepath.Join(dir, name), report.MostPhotoFile+1)
		if err != nil {
			return nil, fmt.Errorf("cannot read the photo: %w", err)
		}
		p, err := report.ReadPhoto(name, data)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// firstBytes reads at most so much of a file.
func firstBytes(name string, most int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}
