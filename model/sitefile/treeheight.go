package sitefile

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"github.com/golang/geo/s1"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/species"
)

// eyeHeight is where a grown person's eye is, metres: 5 ft 4 in, common
// practice, no source.
const eyeHeight = 64 * 0.0254

func (r *reader) height(o *object, t *model.Tree, kind species.Species, methods methods, source string, planted bool) {
	subject := "tree " + t.ID
	v, ok := o.get("height")
	switch {
	case ok && v.node.Kind == yaml.MappingNode:
		h, tolerance, ok := r.sighted(v, subject, methods)
		if ok && (h < 0.3 || h > 90) {
			r.fault(v.spot, "the distance to the trunk and the angles again", "these angles make a tree of %s", r.shown(h))
		}
		t.Height, t.Measured[model.QHeight] = h, tolerance
	case ok:
		h, good := r.sizeOf(v, 0.3, 90)
		t.Height = h
		if good {
			r.tooTall(v, h, kind)
		}
		t.Measured[model.QHeight] = methods.height(h)
	case planted:
		t.Height = max(1, kind.HeightAt(t.Age))
		t.Measured[model.QHeight] = tableHeight(t.Height)
		r.assume(subject, "height", fmt.Sprintf("%s at %s years", r.shown(t.Height), measure.Number(t.Age, 0)), source+", growth curve")
	default:
		t.Height = kind.Height
		t.Measured[model.QHeight] = tableHeight(t.Height)
		r.assume(subject, "height", r.shown(t.Height)+" (mature)", source)
	}
}

// tooTall looks again at a tree far above what its kind reaches: mostly a
// mix-up of feet and metres.
func (r *reader) tooTall(v value, h float64, kind species.Species) {
	if h <= 1.6*kind.Height {
		return
	}
	text := strings.TrimSpace(v.node.Value)
	bare := barePattern.MatchString(text)
	written := strings.TrimRight(text, " metrsMETRS")
	if h > 35 && (bare && r.unit == measure.Metres || metresPattern.MatchString(text) && r.unit == measure.Feet) {
		other := map[measure.Unit]string{measure.Feet: measure.FormatFeet(h, measure.Feet, 0), measure.Metres: written + " m"}[r.unit]
		r.fault(v.spot, fmt.Sprintf("%s ft if feet are meant, or %s if it is right", written, other), "%s is far taller than a %s grows (about %s)", r.shown(h), kind.Name, r.shown(kind.Height))
		return
	}
	r.warn(v.spot, "", "%s is far taller than a %s grows (about %s)", r.shown(h), kind.Name, r.shown(kind.Height))
}

var (
	barePattern   = regexp.MustCompile(`^[\d.,]+$`)
	metresPattern = regexp.MustCompile(`(?i)^[\d.,]+ ?m(et(re|er)s?)?$`)
)

// sighted works a height out from a distance and angles: height = D (tan a +
// tan b), a up to the top and b down to the base; without b, the eye's height
// above the tree's ground stands for the second term (tangent method; Bragg
// 2007, USDA Forest Service GTR SRS-101).
func (r *reader) sighted(v value, subject string, methods methods) (float64, model.Tolerance, bool) {
	const example = "height: {distance: 60 ft, top angle: 38°, base angle: 4° down}, or with eye height: 5 ft 4 in in place of the base angle on level ground"
	o, ok := v.object("height", example)
	if !ok {
		return 0, model.Tolerance{}, false
	}
	defer o.finish()
	far, okFar := o.size(0.5, 300, "distance")
	top, okTop := field(o, measure.ParseAngle, "top angle", "top")
	down, hasBase := field(o, parseBaseAngle, "base angle", "base")
	eye, hasEye := o.size(0, 30, "eye height", "eye")
	if hasEye && eye > 3 && !hasBase {
		r.warn(o.at("eye height"), r.sample("eye height: 5 ft 4 in on level ground, or the base angle where you stand higher or lower"), "an eye %s above the tree's ground is unusual", r.shown(eye))
	}
	for _, need := range []string{"distance", "top angle"} {
		if !o.has(need) && !(need == "top angle" && o.has("top")) {
			o.missing(need, example)
		}
	}
	if !okFar || !okTop {
		return 0, model.Tolerance{}, false
	}
	if top.Degrees() > 80 || top.Degrees() <= 0 {
		r.fault(o.at("top angle"), "an angle from 1° to 80°, better about 40°: stand as far off as the tree is tall", "%s to the top gives no height", measure.FormatAngle(top, 0))
		return 0, model.Tolerance{}, false
	}
	tanTop := math.Tan(top.Radians())
	h := far * tanTop
	spread := []float64{far / math.Pow(math.Cos(top.Radians()), 2) * readingError, far * tanTop * methods.distanceError()}
	switch {
	case hasBase:
		h += far * math.Tan(down.Radians())
		spread = append(spread, far/math.Pow(math.Cos(down.Radians()), 2)*readingError)
	default:
		if !hasEye {
			eye = eyeHeight
			if !o.has("eye height") && !o.has("base angle") {
				r.assume(subject, "eye height", r.shown(eye)+" on level ground", "common practice, no source")
			}
		}
		h += eye
	}
	spread = append(spread, topError*h)
	return h, model.Tolerance{Method: "clinometer", SD: quadrature(spread...)}, true
}

// parseBaseAngle reads the angle to a tree's base, positive downward. A minus
// alone could mean down (as the instrument shows it) or the opposite.
func parseBaseAngle(s string) (s1.Angle, error) {
	const right = "4° down (the base is below the eye) or 4° up"
	text := plainKey(s)
	turn := s1.Angle(1)
	for word, way := range map[string]s1.Angle{" down": 1, " below": 1, " up": -1, " above": -1} {
		if n := len(text) - len(word); n > 0 && text[n:] == word {
			a, err := measure.ParseAngle(s[:len(s)-len(word)])
			if err != nil {
				return 0, &measure.Error{Wrong: wrongOf(err), Right: right}
			}
			text, turn = "", way*a
			break
		}
	}
	if text != "" {
		a, err := measure.ParseAngle(s)
		if err != nil {
			return 0, &measure.Error{Wrong: wrongOf(err), Right: right}
		}
		if a < 0 {
			return 0, &measure.Error{Wrong: fmt.Sprintf("%q could mean down or up", short(s)), Right: right}
		}
		turn = a
	}
	if turn.Abs() > 80*s1.Degree {
		return 0, &measure.Error{Wrong: fmt.Sprintf("%q gives no height", short(s)), Right: right}
	}
	return turn, nil
}
