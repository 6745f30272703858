package ink

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"github.com/go-pdf/fpdf"
)

// epoch stands in the file where a clock would: the same input gives the same
// bytes.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// WritePDF writes one page a figure, each of its own size, with the lettering
// embedded so that words can be searched.
func WritePDF(w io.Writer, title string, pages ...Figure) error {
	if len(pages) == 0 {
		return fmt.Errorf("the document %q has no pages", title)
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: pages[0].Width, Ht: pages[0].Height}})
	doc.SetCatalogSort(true)
	doc.SetCreationDate(epoch)
	doc.SetModificationDate(epoch)
	doc.SetTitle(title, true)
	doc.SetLang("en-US")
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	for f, style := range [...]string{Regular: "", Bold: "B", Italic: "I"} {
		doc.AddUTF8FontFromBytes("ink", style, append([]byte(nil), ttf[f]...)) // fpdf writes into what it is given
	}
	doc.SetLineJoinStyle("round")
	for _, f := range pages {
		if !(f.Width > 0 && f.Height > 0) {
			return fmt.Errorf("page %q: %g × %g points is not a size that can be drawn", f.Title, f.Width, f.Height)
		}
		doc.AddPageFormat("P", fpdf.SizeType{Wd: f.Width, Ht: f.Height})
		doc.SetLineJoinStyle("round")
		if err := f.Draw(&document{doc, f.Width, f.Height}); err != nil {
			return err
		}
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("document %q: %w", title, err)
	}
	return nil
}

type document struct {
	pdf  *fpdf.Fpdf
	w, h float64
}

// Album is a page that also takes photographs; PDF pages do.
type Album interface {
	// Photo sets a JPEG file into a box.
	Photo(at Box, jpeg []byte)
}

// Photo sets a JPEG file into a box. A damaged one is a fault of the document.
func (d *document) Photo(at Box, jpeg []byte) {
	sum := sha256.Sum256(jpeg)
	name, how := hex.EncodeToString(sum[:]), fpdf.ImageOptions{ImageType: "JPG"}
	d.pdf.RegisterImageOptionsReader(name, how, bytes.NewReader(jpeg))
	d.pdf.ImageOptions(name, at.X0, at.Y0, at.X1-at.X0, at.Y1-at.Y0, false, how, 0, "")
}

func (d *document) Size() (w, h float64) { return d.w, d.h }
func (d *document) Begin(string, string) {}
func (d *document) End()                 {}

func (d *document) trace(p Path) {
	for _, r := range p {
		for i, q := range r.Points {
			if i == 0 {
				d.pdf.MoveTo(q.X, q.Y)
			} else {
				d.pdf.LineTo(q.X, q.Y)
			}
		}
		if r.Closed && len(r.Points) > 0 {
			d.pdf.ClosePath()
		}
	}
}

func (d *document) Path(p Path, s Style) {
	if len(p) == 0 || !p.finite() {
		return
	}
	if s.Fill.A > 0 {
		d.pdf.SetFillColor(int(s.Fill.R), int(s.Fill.G), int(s.Fill.B))
		d.thin(s.Fill)
		d.trace(p)
		if s.Winding {
			d.pdf.DrawPath("F")
		} else {
			d.pdf.DrawPath("F*")
		}
		d.thick(s.Fill)
	}
	if s.Stroke.A > 0 && s.Width > 0 {
		d.pdf.SetDrawColor(int(s.Stroke.R), int(s.Stroke.G), int(s.Stroke.B))
		d.pdf.SetLineWidth(s.Width)
		d.pdf.SetDashPattern(s.Dash, 0)
		if s.Round {
			d.pdf.SetLineCapStyle("round")
		} else {
			d.pdf.SetLineCapStyle("butt")
		}
		d.thin(s.Stroke)
		d.trace(p)
		d.pdf.DrawPath("D")
		d.thick(s.Stroke)
	}
}

func (d *document) thin(c Colour) {
	if c.A < 255 {
		d.pdf.SetAlpha(float64(c.A)/255, "Normal")
	}
}

func (d *document) thick(c Colour) {
	if c.A < 255 {
		d.pdf.SetAlpha(1, "Normal")
	}
}

func (d *document) Text(x, y float64, s string, t Type) {
	if s == "" || math.IsNaN(x+y) {
		return
	}
	s = clean(s)
	d.pdf.SetFont("ink", [...]string{Regular: "", Bold: "B", Italic: "I"}[t.Face], t.Size)
	if t.Turn != 0 {
		d.pdf.TransformBegin()
		d.pdf.TransformRotate(t.Turn, x, y)
	}
	left := x - shift(Width(s, t.Size, t.Face), t.Anchor)
	if t.Halo > 0 {
		d.Path(slices.Concat(letterPaths(left, y, s, Type{Size: t.Size, Face: t.Face})...), Style{Stroke: Paper, Width: 2 * t.Halo})
	}
	d.pdf.SetTextColor(int(t.Colour.R), int(t.Colour.G), int(t.Colour.B))
	d.pdf.Text(left, y, s)
	if t.Turn != 0 {
		d.pdf.TransformEnd()
	}
}
