package report

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // photographs may be PNG
	"math"
	"path/filepath"
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"golang.org/x/image/draw"
)

// Bounds of photographs.
const (
	MostPhotos    = 12
	MostPhotoFile = 20 << 20 // bytes of one file
	mostDots      = 60e6     // width × height
	photoDots     = 1200     // of the longer side in the report
)

// Photo is a photograph as it goes into the report: upright, its size bounded,
// without what the camera wrote beside it (place, owner, time).
type Photo struct {
	Caption       string
	JPEG          []byte
	Width, Height int
}

// ReadPhoto reads a JPEG or PNG file. The caption is the file's name: "south
// wall as found.jpg".
func ReadPhoto(name string, data []byte) (Photo, error) {
	base := filepath.Base(name)
	p := Photo{Caption: strings.Join(strings.Fields(strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToValidUTF8(strings.TrimSuffix(base, filepath.Ext(base)), "?"))), " ")}
	if p.Caption == "" {
		p.Caption = "photograph"
	}
	wrong := func(what string) (Photo, error) {
		return Photo{}, fmt.Errorf("photo %s: %s; save it again as JPEG or PNG, or take it out of the folder", base, what)
	}
	if len(data) > MostPhotoFile {
		return wrong(fmt.Sprintf("more than %d MB", MostPhotoFile>>20))
	}
	size, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return wrong("cannot be read as a picture (" + err.Error() + ")")
	}
	if size.Width < 1 || size.Height < 1 || float64(size.Width)*float64(size.Height) > mostDots {
		return wrong(fmt.Sprintf("%d × %d dots, want at most %.0f million", size.Width, size.Height, mostDots/1e6))
	}
	im, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return wrong("breaks off or is damaged (" + err.Error() + ")")
	}
	scale := min(1, photoDots/float64(max(size.Width, size.Height)))
	small := image.NewRGBA(image.Rect(0, 0, max(1, int(math.Round(scale*float64(size.Width)))), max(1, int(math.Round(scale*float64(size.Height))))))
	draw.Draw(small, small.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src) // under what is transparent
	draw.ApproxBiLinear.Scale(small, small.Bounds(), im, im.Bounds(), draw.Over, nil)
	if kind == "jpeg" {
		small = upright(small, orientation(data))
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: 82}); err != nil {
		return wrong(err.Error())
	}
	p.JPEG, p.Width, p.Height = out.Bytes(), small.Bounds().Dx(), small.Bounds().Dy()
	return p, nil
}

// orientation is how a JPEG says the camera was held, 1 to 8 (Exif 2.3, tag
// 0112 hex; JEITA CP-3451C); 1, upright, where it says nothing.
func orientation(data []byte) int {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xda || size < 2 || at+2+size > len(data) {
			break
		}
		body := data[at+4 : at+2+size]
		if marker == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return tiffOrientation(body[6:])
		}
		at += 2 + size
	}
	return 1
}

func tiffOrientation(tiff []byte) int {
	var order binary.ByteOrder = binary.BigEndian
	if bytes.HasPrefix(tiff, []byte("II")) {
		order = binary.LittleEndian
	}
	if len(tiff) < 8 {
		return 1
	}
	first := uint64(order.Uint32(tiff[4:]))
	if first+2 > uint64(len(tiff)) {
		return 1
	}
	entries := tiff[first+2:]
	for range order.Uint16(tiff[first:]) {
		if len(entries) < 12 {
			break
		}
		if o := int(order.Uint16(entries[8:])); order.Uint16(entries) == 0x0112 && o >= 1 && o <= 8 {
			return o
		}
		entries = entries[12:]
	}
	return 1
}

// upright turns and mirrors a picture as its orientation asks.
func upright(im *image.RGBA, o int) *image.RGBA {
	if o < 2 || o > 8 {
		return im
	}
	w, h := im.Bounds().Dx(), im.Bounds().Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if o >= 5 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			u, v := x, y
			switch o {
			case 2:
				u = w - 1 - x
			case 3:
				u, v = w-1-x, h-1-y
			case 4:
				v = h - 1 - y
			case 5:
				u, v = y, x
			case 6:
				u, v = h-1-y, x
			case 7:
				u, v = h-1-y, w-1-x
			case 8:
				u, v = y, w-1-x
			}
			out.SetRGBA(u, v, im.RGBAAt(x, y))
		}
	}
	return out
}

// photos are a section of their own.
func (r Report) photos() section {
	return section{Name: "photographs", Title: "Photographs", Blocks: []block{gallery(r.Photos)}}
}

const (
	photoGap  = 16.0
	photoHigh = 168.0 // points, with two beside each other
)

// gallery sets photographs two beside each other, each in a frame with its
// caption.
func (f *flow) gallery(list gallery) {
	wide := (f.width() - photoGap) / 2
	t := render.Letter(8, ink.Regular)
	for i := 0; i < len(list); i += 2 {
		row := list[i:min(i+2, len(list))]
		lines := 1
		for _, p := range row {
			lines = max(lines, len(ink.Wrap(p.Caption, wide, t)))
		}
		f.room(photoHigh + 4 + 10*float64(lines))
		for k, p := range row {
			x := side + float64(k)*(wide+photoGap)
			scale := min(wide/float64(p.Width), photoHigh/float64(p.Height))
			box := ink.Box{X0: x, Y0: f.y, X1: x + scale*float64(p.Width), Y1: f.y + scale*float64(p.Height)}
			f.put(func(page ink.Page) error {
				if album, ok := page.(ink.Album); ok {
					album.Photo(box, p.JPEG)
				}
				page.Path(ink.Rectangle(box.X0, box.Y0, box.X1-box.X0, box.Y1-box.Y0), render.Line(render.Hair, render.Black))
				return nil
			})
			for n, l := range ink.Wrap(p.Caption, wide, t) {
				f.letter(x, box.Y1+12+10*float64(n), l, t)
			}
		}
		f.y += photoHigh + 10*float64(lines) + 18
	}
}
