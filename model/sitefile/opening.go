package sitefile

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func (r *reader) chimney(o *object, fallback string) model.Chimney {
	var c model.Chimney
	if o == nil {
		return c
	}
	c.ID = r.id(o, fallback)
	if v, ok := o.get("at"); ok {
		c.At, _ = r.point(v)
	} else {
		o.missing("at", "at: "+pointExample)
	}
	c.Width = o.needed("width", "width: 24 in (left to right on the sketch)", 0.1, 6)
	c.Depth = o.needed("depth", "depth: 24 in (up and down on the sketch)", 0.1, 6)
	c.Twist = r.site.Turn.Radians()
	c.Top = o.needed("top", "top: 27 ft (above the ground at the house)", 0.5, 80)
	return c
}

// Glazings are the kinds of window that can be written, plainest first.
var Glazings = []string{"single", "single + storm", "single + low-e storm", "double", "double low-e, high gain", "double low-e, low gain"}

// parseGlazing reads a kind of window; blanks, hyphens and case do not matter.
func parseGlazing(s string) (string, error) {
	plain := strings.NewReplacer(" ", "", "-", "", ",", "")
	word := strings.ToLower(plain.Replace(s))
	var words []string
	for _, g := range Glazings {
		if words = append(words, plain.Replace(g)); words[len(words)-1] == word {
			return g, nil
		}
	}
	right := "one of single, single + storm, single + low-e storm, double, or \"double low-e, high gain\" or \"double low-e, low gain\" in quotes"
	if i := slices.Index(words, nearest(word, words)); i >= 0 {
		right = Glazings[i]
	}
	return "", &measure.Error{Wrong: fmt.Sprintf("%q is no kind of window", short(s)), Right: right}
}

// Window values nobody measured: common practice, no source.
const (
	usualReveal = 3 * 0.0254
	usualFrame  = 0.25
)

func (r *reader) window(o *object, n int) model.Window {
	w := model.Window{ID: fmt.Sprintf("W%d", n+1), Reveal: usualReveal, Frame: usualFrame}
	if o == nil {
		return w
	}
	w.ID = r.id(o, w.ID)
	subject := "window " + w.ID
	if w.Wall = o.text("wall"); w.Wall == "" {
		o.missing("wall", "wall: south")
	}
	w.Left = o.needed("left", "left: 3 ft (from the wall's left end, seen from outside, to the opening)", 0, 300)
	w.Sill = o.needed("sill", "sill: 2 ft 6 in (from the foot of the wall to the opening)", 0, 60)
	w.Width = o.needed("width", "width: 32 in", 0.1, 15)
	w.Height = o.needed("height", "height: 60 in", 0.1, 15)
	if reveal, ok := o.size(0, 1, "reveal"); ok {
		w.Reveal = reveal
	} else if !o.has("reveal") {
		r.assume(subject, "reveal", measure.FormatLength(usualReveal, r.unit), "common practice, no source")
	}
	if w.Glazing, _ = field(o, parseGlazing, "glazing"); w.Glazing == "" && !o.has("glazing") {
		r.assume(subject, "glazing", "single", "common practice for an old house, no source")
	}
	if f, ok := field(o, measure.ParseShare, "frame"); ok {
		w.Frame = f
		if f > 0.8 {
			r.fault(o.at("frame"), "frame: 25 %", "a window that is %s frame gives no light", measure.FormatPercent(f, 0))
		}
	} else if !o.has("frame") {
		r.assume(subject, "frame", measure.FormatPercent(usualFrame, 0)+" of the opening", "common practice, no source")
	}
	return w
}
