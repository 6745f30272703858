package main

import (
	"testing"

	"github.com/southyard/southyard/render"
)

func TestPicturesTakeTheSizeOfTheirPaper(t *testing.T) {
	for _, c := range []struct {
		paper         string
		turned        bool
		width, height float64
	}{
		{"letter", false, 612, 792}, // ANSI A
		{"letter", true, 792, 612},
		{"a4", false, 595.276, 841.890}, // ISO 216: 210 × 297 mm
		{"A4", true, 841.890, 595.276},
		{"", false, render.PageWidth, 0},
	} {
		size, err := pictureSize(c.paper, c.turned)
		if err != nil {
			t.Fatal(err)
		}
		if f := size(render.LotPlan{}); f.Width != c.width || c.height > 0 && f.Height != c.height {
			t.Errorf("%q, turned %v: %g × %g points", c.paper, c.turned, f.Width, f.Height)
		}
	}
	for _, c := range []struct {
		paper  string
		turned bool
	}{{"legal", false}, {"", true}} {
		if _, err := pictureSize(c.paper, c.turned); err == nil {
			t.Errorf("%q, turned %v was let pass", c.paper, c.turned)
		}
	}
}
