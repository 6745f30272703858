package ink

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"math"
)

// maxPixels keeps a mistaken size from filling the memory: letter paper at
// 600 dots an inch.
const maxPixels = 5100 * 6600

// WritePNG draws a figure at dpi dots an inch and records that in the file.
func WritePNG(w io.Writer, f Figure, dpi float64) error {
	return new(Press).WritePNG(w, f, dpi)
}

// Press draws one PNG after another into the same memory. The zero Press is
// ready; it draws one at a time.
type Press struct {
	dots dots
	row  []byte
	file bytes.Buffer
	data bytes.Buffer
	pack *zlib.Writer
}

// WritePNG draws a figure at dpi dots an inch and records that in the file.
func (p *Press) WritePNG(w io.Writer, f Figure, dpi float64) error {
	pw, ph := math.Round(f.Width*dpi/72), math.Round(f.Height*dpi/72)
	if !(pw >= 1 && ph >= 1 && pw*ph <= maxPixels) {
		return fmt.Errorf("picture %q: %g × %g dots is not a size that can be drawn", f.Title, pw, ph)
	}
	p.dots.lay(int(pw), int(ph), f, dpi/72)
	if err := f.Draw(&p.dots); err != nil {
		return err
	}
	if err := p.encode(dpi); err != nil {
		return fmt.Errorf("picture %q: %w", f.Title, err)
	}
	_, err := w.Write(p.file.Bytes())
	return err
}

// encode writes the dots as a PNG file (PNG specification, second edition, W3C
// 2003). Rows are left unfiltered: a drawing is runs of one ink and rows like
// the row before, which the packing finds by itself, quicker and smaller than
// after any of the filters.
func (p *Press) encode(dpi float64) error {
	const eightBits, trueColour = 8, 2
	p.file.Reset()
	p.file.WriteString("\x89PNG\r\n\x1a\n")

	size := p.dots.sheet.Rect.Size()
	head := binary.BigEndian.AppendUint32(nil, uint32(size.X))
	head = binary.BigEndian.AppendUint32(head, uint32(size.Y))
	p.chunk("IHDR", append(head, eightBits, trueColour, 0, 0, 0))

	perMetre := uint32(math.Round(dpi / 0.0254))
	density := binary.BigEndian.AppendUint32(nil, perMetre)
	density = binary.BigEndian.AppendUint32(density, perMetre)
	const metre = 1
	p.chunk("pHYs", append(density, metre))

	if err := p.packRows(); err != nil {
		return err
	}
	p.chunk("IDAT", p.data.Bytes())
	p.chunk("IEND", nil)
	return nil
}

func (p *Press) packRows() error {
	p.data.Reset()
	if p.pack == nil {
		var err error
		if p.pack, err = zlib.NewWriterLevel(&p.data, zlib.BestSpeed); err != nil {
			return err
		}
	} else {
		p.pack.Reset(&p.data)
	}
	sheet := p.dots.sheet
	n := 1 + 3*sheet.Rect.Dx()
	if len(p.row) != n+1 {
		p.row = make([]byte, n+1) // the first byte stays 0: no filter
	}
	var before []byte
	for y := range sheet.Rect.Dy() {
		dots := sheet.Pix[y*sheet.Stride:][:4*sheet.Rect.Dx()]
		if !bytes.Equal(dots, before) {
			opaque(p.row[1:], dots)
		}
		before = dots
		if _, err := p.pack.Write(p.row[:n]); err != nil {
			return err
		}
	}
	return p.pack.Close()
}

// opaque copies dots of four bytes without their fourth, which is full. It
// moves four at a time, so to has room for one byte more.
func opaque(to, dots []byte) {
	for len(dots) >= 4 && len(to) >= 4 {
		*(*[4]byte)(to) = *(*[4]byte)(dots)
		dots, to = dots[4:], to[3:]
	}
}

// chunk adds a chunk: length, name, data, check sum.
func (p *Press) chunk(name string, data []byte) {
	p.file.Write(binary.BigEndian.AppendUint32(nil, uint32(len(data))))
	p.file.WriteString(name)
	p.file.Write(data)
	sum := crc32.Update(crc32.ChecksumIEEE([]byte(name)), crc32.IEEETable, data)
	p.file.Write(binary.BigEndian.AppendUint32(nil, sum))
}
