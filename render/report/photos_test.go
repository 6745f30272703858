package report

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

// shot is a JPEG or PNG of a size whose upper left quarter is dark; a JPEG may
// say how the camera was held.
func shot(t testing.TB, kind string, w, h, held int) []byte {
	t.Helper()
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{230, 230, 230, 255}
			if x < w/2 && y < h/2 {
				c = color.RGBA{20, 20, 20, 255}
			}
			im.Set(x, y, c)
		}
	}
	var b bytes.Buffer
	var err error
	if kind == "png" {
		err = png.Encode(&b, im)
	} else {
		err = jpeg.Encode(&b, im, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	if held == 0 {
		return b.Bytes()
	}
	exif := []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00")
	exif = append(exif, byte(held), 0, 0, 0, 0, 0, 0, 0)
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(exif)+2))...)
	return append(append(head, exif...), b.Bytes()[2:]...)
}

// The corner in which the dark quarter of the stored rows comes to lie, by the
// figure of the Exif standard (0th row and column for each value of 0112).
func TestPhotosStandUpright(t *testing.T) {
	for held, want := range map[int]string{0: "left top", 1: "left top", 2: "right top", 3: "right bottom", 4: "left bottom",
		5: "left top", 6: "right top", 7: "right bottom", 8: "left bottom"} {
		p, err := ReadPhoto("south_wall-as found.jpg", shot(t, "jpeg", 80, 40, held))
		if err != nil {
			t.Fatal(err)
		}
		if p.Caption != "south wall as found" {
			t.Errorf("caption %q", p.Caption)
		}
		if turned := held >= 5; turned != (p.Height > p.Width) {
			t.Errorf("held %d: %d × %d", held, p.Width, p.Height)
		}
		im, err := jpeg.Decode(bytes.NewReader(p.JPEG))
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for name, at := range map[string]image.Point{"left top": {p.Width / 4, p.Height / 4}, "right top": {p.Width * 3 / 4, p.Height / 4},
			"left bottom": {p.Width / 4, p.Height * 3 / 4}, "right bottom": {p.Width * 3 / 4, p.Height * 3 / 4}} {
			if r, _, _, _ := im.At(at.X, at.Y).RGBA(); r < 0x8000 {
				got += name
			}
		}
		if got != want {
			t.Errorf("held %d: dark at %s, want %s", held, got, want)
		}
	}
}

func TestBadPhotosAreNamedAndBounded(t *testing.T) {
	good := shot(t, "jpeg", 3000, 900, 0)
	if p, err := ReadPhoto("wide.jpg", good); err != nil || p.Width != photoDots || p.Height != photoDots*900/3000 {
		t.Errorf("%d × %d, %v", p.Width, p.Height, err)
	}
	huge := shot(t, "png", 4, 4, 0)
	binary.BigEndian.PutUint32(huge[16:], 1<<20) // width in the header
	binary.BigEndian.PutUint32(huge[20:], 1<<20)
	for name, data := range map[string][]byte{"empty.jpg": nil, "words.png": []byte("no picture"), "half.jpg": good[:len(good)/2], "huge.png": huge,
		"heavy.jpg": make([]byte, MostPhotoFile+1)} {
		_, err := ReadPhoto("folder/"+name, data)
		if err == nil || !strings.Contains(err.Error(), "photo "+name) || !strings.Contains(err.Error(), "save it again") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestPhotosStandInBothReports(t *testing.T) {
	r := example(t)
	r.Pictures = nil
	var plain, with bytes.Buffer
	paper := ink.Sheets()[0]
	if err := r.PDF(&plain, paper); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"south wall as found.jpg", "kitchen <ell>.png", "a very long name of a photograph of everything that stands in the way of the sun.jpg"} {
		kind := "jpeg"
		if strings.HasSuffix(name, "png") {
			kind = "png"
		}
		p, err := ReadPhoto(name, shot(t, kind, 400, 300, 0))
		if err != nil {
			t.Fatal(err)
		}
		r.Photos = append(r.Photos, p)
	}
	if err := r.PDF(&with, paper); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(with.Bytes(), []byte("/Subtype /Image")) - bytes.Count(plain.Bytes(), []byte("/Subtype /Image")); n < 1 {
		t.Error("no photograph in the PDF")
	}
	var page bytes.Buffer
	if err := r.HTML(&page, paper); err != nil {
		t.Fatal(err)
	}
	checkHTML(t, "with photographs", page.Bytes())
	if strings.Count(page.String(), "data:image/jpeg") != 3 || !strings.Contains(page.String(), "kitchen &lt;ell&gt;") {
		t.Error("the web page lacks a photograph or its caption")
	}
	for n, sheet := range r.sheets(paper) {
		rec := &ink.Record{W: paper.Width, H: paper.Height}
		if err := sheet.Draw(rec); err != nil {
			t.Fatal(err)
		}
		checkPage(t, "with photographs", n+1, rec)
	}
}

func FuzzReadPhoto(f *testing.F) {
	f.Add(shot(f, "jpeg", 8, 6, 6))
	f.Add(shot(f, "png", 8, 6, 0))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if o := orientation(data); o < 1 || o > 8 {
			t.Errorf("orientation %d", o)
		}
		if size, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && size.Width*size.Height > 1e6 {
			t.Skip("a picture of more than a million dots takes too long to fuzz with")
		}
		if p, err := ReadPhoto("x.jpg", data); err == nil && (p.Width < 1 || p.Height < 1 || p.Width > photoDots || p.Height > photoDots) {
			t.Errorf("%d × %d", p.Width, p.Height)
		}
	})
}
