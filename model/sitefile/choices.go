package sitefile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func (r *reader) targets(top *object) {
	const example = "- {name: heater wall, surfaces: {south: 1, south windows: 2}}"
	top.each(example, func(i int, o *object) {
		t := model.Target{Parts: map[string]float64{}}
		if o != nil {
			if t.Name = o.text("name"); t.Name == "" {
				o.missing("name", "name: heater wall")
			}
			v, ok := o.get("surfaces", "parts", "of")
			if ok {
				r.surfaces(v, t.Parts)
			} else {
				o.missing("surfaces", "surfaces: south windows, or {south windows: 2, roof: 1}")
			}
			if s, ok := o.get("season"); ok {
				t.Season = r.months(s)
			}
		}
		r.site.Targets = append(r.site.Targets, t)
	}, "targets")
}

// surfaces reads one surface, a list of them, or weights by surface.
func (r *reader) surfaces(v value, into map[string]float64) {
	plain := func(v value) {
		if s, ok := read(v, func(s string) (string, error) { return strings.TrimSpace(s), nil }); ok && s != "" {
			into[s] = 1
		}
	}
	switch v.node.Kind {
	case yaml.SequenceNode:
		items, _ := v.list("surfaces", "[south windows, roof]")
		for _, item := range items {
			plain(item)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(v.node.Content); i += 2 {
			name := v.node.Content[i].Value
			item := r.value(v.node.Content[i+1], join(v.path, name), join(v.shown, short(name)))
			w, ok := read(item, func(s string) (float64, error) { return bounded(s, 0, 1000, "(a weight)") })
			if ok && w > 0 {
				into[name] = w
			}
		}
	default:
		plain(v)
	}
	if len(into) == 0 && !r.faultyUnder(v.path) {
		r.fault(v.spot, "surfaces: south windows", "no surface has any weight")
	}
}

var collectorKinds = map[string]string{
	"air heater": "air heater", "wall air heater": "air heater", "flat plate": "flat plate", "evacuated tube": "evacuated tube", "evacuated tubes": "evacuated tube",
}

func collectorKind(s string) (string, error) {
	word := plainKey(s)
	if kind, ok := collectorKinds[word]; ok {
		return kind, nil
	}
	right := nearest(word, []string{"air heater", "flat plate", "evacuated tube"})
	if right == "" {
		right = "air heater, or for hot water flat plate or evacuated tube"
	}
	return "", &measure.Error{Wrong: fmt.Sprintf("%q is no kind of collector", short(s)), Right: right}
}

func (r *reader) collectors(top *object) {
	top.each("- {id: C1, kind: air heater, on: south, width: 4 ft, height: 8 ft, count: 2, cost: $900}", func(i int, o *object) {
		c := model.CollectorChoice{ID: "C" + measure.Number(float64(i+1), 0), Count: 1}
		if o != nil {
			c.ID = r.id(o, c.ID)
			if c.Kind, _ = field(o, collectorKind, "kind"); c.Kind == "" && !o.has("kind") {
				o.missing("kind", "kind: air heater, flat plate or evacuated tube")
			}
			c.On = o.text("on")
			for key, into := range map[string]*float64{"width": &c.Width, "height": &c.Height} {
				if *into, _ = o.size(0.2, 12, key); !o.has(key) {
					o.missing(key, key+": "+map[string]string{"width": "4 ft", "height": "8 ft"}[key])
				}
			}
			if n, ok := field(o, func(s string) (int, error) { return measure.ParseCount(s, 200) }, "count"); ok {
				c.Count = n
			}
			c.Cost, c.CostKnown = field(o, measure.ParseMoney, "cost")
			c.Turned = o.flag(false, "may lie", "turned")
			o.child("certificate: {eta0: 0.76, a1: 3.6, a2: 0.014, aperture: 93 %}", func(own *object) { c.Certificate = r.certificate(own) }, "certificate")
			if c.Certificate != nil && c.Kind == "air heater" {
				r.fault(o.at("certificate"), "it with flat plates or evacuated tubes", "the certificate of a hot-water panel stands with an air heater")
			}
		}
		r.site.Collectors = append(r.site.Collectors, c)
	}, "collectors")
}

// certificate reads what a hot-water panel's test certificate says, on
// aperture area.
func (r *reader) certificate(o *object) *model.Certificate {
	var c model.Certificate
	number := func(most float64, right string) func(string) (float64, error) {
		return func(s string) (float64, error) {
			x, err := measure.ParseNumber(s)
			if err != nil || !(x >= 0) || x > most {
				return 0, &measure.Error{Wrong: "\"" + short(s) + "\" is no figure of a certificate", Right: right}
			}
			return x, nil
		}
	}
	for key, at := range map[string]struct {
		into  *float64
		most  float64
		right string
	}{"eta0": {&c.Eta0, 1, "eta0: 0.76 (on aperture)"}, "a1": {&c.A1, 40, "a1: 3.6 (W/m²·K)"}, "a2": {&c.A2, 0.9, "a2: 0.014 (W/m²·K²)"}} {
		if *at.into, _ = field(o, number(at.most, at.right), key); !o.has(key) {
			o.missing(key, at.right)
		}
	}
	c.Aperture, _ = field(o, measure.ParseShare, "aperture")
	if o.has("eta0") && c.Eta0 <= 0 && !r.faulty[join(o.path, "eta0")] {
		r.fault(o.at("eta0"), "eta0: 0.76 (on aperture)", "a panel of no efficiency heats no water")
	}
	return &c
}
