package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/southyard/southyard/render/report"
)

func TestPhotosOfAFolderComeByNameOrSayWhatIsWrong(t *testing.T) {
	var dot bytes.Buffer
	if err := png.Encode(&dot, image.NewGray(image.Rect(0, 0, 4, 3))); err != nil {
		t.Fatal(err)
	}
	folder := func(files map[string]string) string {
		dir := t.TempDir()
		for name, text := range files {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		return dir
	}
	good := dot.String()
	got, err := photosIn(folder(map[string]string{"2 roof.png": good, "1 south-wall.PNG": good, "notes.txt": "x", ".hidden.jpg": "x"}))
	if err != nil || len(got) != 2 || got[0].Caption != "1 south wall" || got[1].Caption != "2 roof" {
		t.Errorf("%v, %v", got, err)
	}
	many := map[string]string{}
	for i := range report.MostPhotos + 1 {
		many[strconv.Itoa(i)+".png"] = good
	}
	for want, dir := range map[string]string{
		"photo b.jpg: cannot be read": folder(map[string]string{"a.png": good, "b.jpg": "no"}),
		".heic files are not read":    folder(map[string]string{"IMG_1.HEIC": "x"}),
		"no .jpg or .png":             folder(nil),
		"choose the 12":               folder(many),
		"folder of photos":            filepath.Join(t.TempDir(), "nowhere"),
	} {
		if _, err := photosIn(dir); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
	if got, err := photosIn(""); got != nil || err != nil {
		t.Errorf("no folder: %v, %v", got, err)
	}
}
