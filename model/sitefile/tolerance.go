package sitefile

import (
	"math"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// Errors of measuring, as standard deviations. An angle is read to a degree;
// the rest of a sighted height is that the top seen is not straight above the
// trunk: well-placed tops agree within about 2 %, broad crowns are worse
// (Bragg 2007, USDA Forest Service GTR SRS-101; read in the abstract), so 4 %.
// All others are common practice, no source.
const (
	readingError = math.Pi / 180
	topError     = 0.04
	compassError = 2 * math.Pi / 180
)

// methods says by what means each quantity of a tree was measured.
type methods struct{ all, heightBy, spreadBy, baseBy, positionBy string }

var methodWords = map[string]string{
	"tape": "tape", "pacing": "pacing", "paces": "pacing", "clinometer": "clinometer", "stick": "stick", "guess": "guess", "eye": "guess", "stated": "stated", "compass": "compass", "laser": "laser",
}

// methods reads measured by: one word for the whole tree, or a word for each
// quantity.
func (r *reader) methods(o *object) methods {
	m := methods{all: "stated"}
	v, ok := o.get("measured by")
	if !ok {
		return m
	}
	if v.node.Kind == yaml.MappingNode {
		each, _ := v.object("measured by", "measured by: {height: clinometer, spread: pacing}")
		for key, into := range map[string]*string{"height": &m.heightBy, "spread": &m.spreadBy, "crown base": &m.baseBy, "position": &m.positionBy} {
			*into, _ = choice(each, methodWords, key)
		}
		each.finish()
		return m
	}
	if word, ok := choice(o, methodWords, "measured by"); ok {
		m.all = word
	}
	return m
}

func (m methods) of(own string) string {
	if own != "" {
		return own
	}
	return m.all
}

// share is a table of relative errors with a floor in metres.
type share struct{ part, least float64 }

func (m methods) tolerance(method string, x float64, table map[string]share) model.Tolerance {
	s, ok := table[method]
	if !ok {
		s = table["stated"]
	}
	return model.Tolerance{Method: method, SD: max(s.least, s.part*math.Abs(x))}
}

func (m methods) height(h float64) model.Tolerance {
	return m.tolerance(m.of(m.heightBy), h, map[string]share{
		"tape": {0.01, 0.1}, "laser": {0.03, 0.2}, "clinometer": {0.05, 0.3}, "stick": {0.08, 0.5}, "pacing": {0.10, 0.5}, "guess": {0.15, 1}, "stated": {0.06, 0.3},
	})
}

func (m methods) spread(w float64) model.Tolerance {
	return m.tolerance(m.of(m.spreadBy), w, map[string]share{
		"tape": {0.04, 0.2}, "laser": {0.05, 0.3}, "pacing": {0.08, 0.5}, "guess": {0.20, 1}, "stated": {0.06, 0.3},
	})
}

func (m methods) crownBase(b float64) model.Tolerance {
	return m.tolerance(m.of(m.baseBy), b, map[string]share{
		"tape": {0.05, 0.15}, "clinometer": {0.08, 0.3}, "guess": {0.25, 0.6}, "stated": {0.08, 0.3},
	})
}

func (m methods) distanceError() float64 {
	switch m.of(m.heightBy) {
	case "pacing":
		return 0.05
	case "guess":
		return 0.15
	}
	return 0.01
}

// position is the error of a tree's place, metres, in each direction.
func (m methods) position(p position) model.Tolerance {
	method := m.of(m.positionBy)
	table := map[string]share{"tape": {0.01, 0.15}, "laser": {0.01, 0.15}, "pacing": {0.05, 0.5}, "guess": {0.15, 1.5}, "stated": {0.02, 0.3}}
	t := m.tolerance(method, p.far, table)
	if p.from != "" {
		t.SD = math.Hypot(t.SD, p.far*compassError)
		if method == "stated" {
			t.Method = "compass and tape"
		}
	}
	return t
}

func tableHeight(h float64) model.Tolerance {
	return model.Tolerance{Method: "species table", SD: 0.2 * h}
}

func quadrature(parts ...float64) float64 {
	sum := 0.0
	for _, p := range parts {
		sum += p * p
	}
	return math.Sqrt(sum)
}

// tolerances reads tolerance: own standard deviations by quantity.
func (r *reader) tolerances(o *object) map[model.Quantity]float64 {
	out := map[model.Quantity]float64{}
	o.child("tolerance: {height: 3 ft, spread: 2 ft}", func(t *object) {
		for _, q := range []model.Quantity{model.QHeight, model.QSpread, model.QCrownBase, model.QPosition} {
			if sd, ok := t.size(0, 30, string(q)); ok {
				out[q] = sd
			}
		}
		if sd, ok := field(t, measure.ParseShare, "transmissivity"); ok {
			out[model.QTransmissivity] = sd
		}
	}, "tolerance")
	return out
}
