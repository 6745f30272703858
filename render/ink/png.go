package ink

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"

	"github.com/fogleman/gg"
)

// maxPixels keeps a mistaken size from filling the memory: letter paper at
// 600 dots an inch.
const maxPixels = 5100 * 6600

// WritePNG draws a figure at dpi dots an inch and records that in the file.
func WritePNG(w io.Writer, f Figure, dpi float64) error {
	pw, ph := int(math.Round(f.Width*dpi/72)), int(math.Round(f.Height*dpi/72))
	if pw < 1 || ph < 1 || pw*ph > maxPixels {
		return fmt.Errorf("picture %q: %d × %d dots is not a size that can be drawn", f.Title, pw, ph)
	}
	dc := gg.NewContext(pw, ph)
	dc.SetColor(Paper)
	dc.Clear()
	if err := f.Draw(&raster{dc, dpi / 72, f.Width, f.Height}); err != nil {
		return err
	}
	var buf bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&buf, shrink(dc.Image().(*image.RGBA))); err != nil {
		return fmt.Errorf("picture %q: %w", f.Title, err)
	}
	_, err := w.Write(withDensity(buf.Bytes(), dpi))
	return err
}

type raster struct {
	dc    *gg.Context
	scale float64
	w, h  float64
}

func (r *raster) Size() (w, h float64) { return r.w, r.h }
func (r *raster) Begin(string, string) {}
func (r *raster) End()                 {}

func (r *raster) trace(p Path) {
	r.dc.ClearPath()
	for _, run := range p {
		for i, q := range run.Points {
			if i == 0 {
				r.dc.MoveTo(q.X*r.scale, q.Y*r.scale)
			} else {
				r.dc.LineTo(q.X*r.scale, q.Y*r.scale)
			}
		}
		if run.Closed && len(run.Points) > 0 {
			r.dc.ClosePath()
		}
	}
}

func (r *raster) Path(p Path, s Style) {
	if len(p) == 0 || !p.finite() {
		return
	}
	dc := r.dc
	if s.Fill.A > 0 {
		dc.SetFillRule(gg.FillRuleEvenOdd)
		if s.Winding {
			dc.SetFillRule(gg.FillRuleWinding)
		}
		r.trace(p)
		dc.SetColor(s.Fill)
		dc.Fill()
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		r.trace(p)
		dc.SetColor(s.Stroke)
		dc.SetLineWidth(s.Width * r.scale)
		dc.SetLineJoinRound()
		dc.SetLineCapButt()
		if s.Round {
			dc.SetLineCapRound()
		}
		dash := make([]float64, len(s.Dash))
		for i, d := range s.Dash {
			dash[i] = d * r.scale
		}
		dc.SetDash(dash...)
		dc.Stroke()
	}
}

func (r *raster) Text(x, y float64, s string, t Type) {
	p := letterPath(x, y, s, t)
	if t.Halo > 0 {
		r.Path(p, Style{Stroke: Paper, Width: 2 * t.Halo})
	}
	r.Path(p, Style{Fill: t.Colour, Winding: true})
}

// withDensity adds the pHYs chunk (PNG specification, W3C 2003, 11.3.5.3)
// after the header chunk.
func withDensity(file []byte, dpi float64) []byte {
	const afterHeader = 8 + 4 + 4 + 13 + 4 // signature; length, name, data, check of IHDR
	perMetre := uint32(math.Round(dpi / 0.0254))
	chunk := []byte("pHYs")
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	out := append([]byte{}, file[:afterHeader]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, file[afterHeader:]...)
}
