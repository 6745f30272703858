package ink

// Record is a page that draws nothing and remembers every line of text and
// the bounds of every path, for checks of layout.
type Record struct {
	W, H  float64
	Texts []Lettered
	Inked []Box // bounds of each path
}

// Lettered is a line of text as it was placed.
type Lettered struct {
	X, Y float64
	S    string
	T    Type
	Box  Box
}

// Size of the paper.
func (r *Record) Size() (w, h float64) { return r.W, r.H }

// Path remembers the bounds.
func (r *Record) Path(p Path, _ Style) {
	if len(p) == 0 {
		return
	}
	x0, y0, x1, y1 := p.Bounds()
	r.Inked = append(r.Inked, Box{x0, y0, x1, y1})
}

// Text remembers the line.
func (r *Record) Text(x, y float64, s string, t Type) {
	if s != "" {
		r.Texts = append(r.Texts, Lettered{x, y, s, t, TextBox(x, y, s, t)})
	}
}

// Begin does nothing.
func (r *Record) Begin(string, string) {}

// End does nothing.
func (r *Record) End() {}
