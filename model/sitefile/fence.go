package sitefile

import (
	"fmt"
	"slices"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func (r *reader) fence(o *object, fallback string) model.Fence {
	f := model.Fence{Owner: model.OwnerLot}
	f.ID = r.id(o, fallback)
	if v, ok := o.get("line"); ok {
		f.Line, _ = r.line(v, "the fence's line")
	} else {
		o.missing("line", "line: [[0, 0], [0, 60]]")
	}
	h, _ := o.size(0.2, 15, "height")
	if !o.has("height") {
		o.missing("height", "height: 6 ft")
	}
	f.Height = h
	if base, ok := o.size(-30, 60, "base"); ok {
		f.Base = base
	} else if len(f.Line) > 0 {
		f.Base = r.groundAt(f.Line[0])
		for _, p := range f.Line {
			f.Feet = append(f.Feet, r.groundAt(p))
		}
		if !slices.ContainsFunc(f.Feet, func(z float64) bool { return z != f.Base }) {
			f.Feet = nil
		}
	}
	f.Transmissivity, _ = field(o, measure.ParseShare, "lets through")
	if owner, ok := choice(o, owners, "owner"); ok {
		f.Owner = owner
	}
	return f
}

func (r *reader) fences(top *object) {
	top.each("- {line: [[0, 0], [0, 60]], height: 6 ft}", func(i int, o *object) {
		f := model.Fence{Owner: model.OwnerLot}
		if o != nil {
			f = r.fence(o, fmt.Sprintf("fence %d", i+1))
		}
		r.site.Fences = append(r.site.Fences, f)
	}, "fences")
}

func (r *reader) wires(top *object) {
	top.each("- {line: [[40, 10], [30, 40]], height: 18 ft, note: service drop}", func(i int, o *object) {
		var w model.Wire
		if o != nil {
			w.ID = r.id(o, fmt.Sprintf("wire %d", i+1))
			if v, ok := o.get("line"); ok {
				w.Line, _ = r.line(v, "the wire's line")
			} else {
				o.missing("line", "line: [[40, 10], [30, 40]]")
			}
			w.Height, _ = o.size(1, 80, "height")
			w.Note = o.text("note")
		}
		r.site.Wires = append(r.site.Wires, w)
	}, "wires")
}
