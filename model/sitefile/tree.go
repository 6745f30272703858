package sitefile

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/species"
)

func azimuthOf(east, north float64) s1.Angle { return measure.Turn(s1.Angle(math.Atan2(east, north))) }

var crownShapes = map[string]model.CrownShape{
	"ellipsoid": model.Ellipsoid, "round": model.Ellipsoid, "oval": model.Ellipsoid,
	"half ellipsoid": model.HalfEllipsoid, "upper half ellipsoid": model.HalfEllipsoid, "dome": model.HalfEllipsoid,
	"paraboloid": model.Paraboloid, "cone": model.Cone, "pyramid": model.Cone, "cylinder": model.Cylinder, "column": model.Cylinder,
}

const treeExample = "- {id: T1, species: silver maple, at: [18, 14], height: 52 ft, spread: 36 ft, crown base: 9 ft, owner: lot}"

func (r *reader) trees(top *object) {
	top.each(treeExample, func(i int, o *object) {
		t := model.Tree{ID: fmt.Sprintf("T%d", i+1), Owner: model.OwnerLot}
		if o != nil {
			t = r.tree(o, t.ID, false)
		}
		r.site.Trees = append(r.site.Trees, t)
	}, "trees")
}

// tree reads one tree. A planted one takes its height from its age where none
// is given.
func (r *reader) tree(o *object, fallback string, planted bool) model.Tree {
	t := model.Tree{Owner: model.OwnerLot, Measured: map[model.Quantity]model.Tolerance{}, Ground: 0}
	t.ID = r.id(o, fallback)
	subject := "tree " + t.ID
	kind := r.species(o, subject)
	t.Species, t.Evergreen = kind.Name, kind.Evergreen
	methods := r.methods(o)
	source := "species table: " + kind.Name
	if kind.Generic {
		source = "common practice, no source: " + kind.Name
	}

	at, okAt := r.position(o)
	t.At = at.at
	if okAt {
		t.Measured[model.QPosition] = methods.position(at)
	}
	if g, ok := o.size(-100, 100, "ground"); ok {
		t.Ground = g
	} else if okAt {
		if t.Ground = r.groundAt(t.At); t.Ground != 0 {
			r.assume(subject, "ground", r.shown(t.Ground)+" against the house", "stated slope of the lot")
		}
	}

	if age, ok := field(o, func(s string) (float64, error) { return bounded(s, 0, 500, "years") }, "age"); ok {
		t.Age = age
	}
	r.height(o, &t, kind, methods, source, planted)
	r.spread(o, &t, kind, methods, source)
	r.crown(o, &t, kind, methods, source)
	r.leaf(o, &t, kind, source)

	if trunk, ok := o.size(0.01, 4, "trunk"); ok {
		t.Trunk = trunk
	} else if t.Trunk = kind.Trunk(t.Height); !o.has("trunk") && t.Height > 0 {
		r.assume(subject, "trunk", measure.FormatLength(t.Trunk, r.unit)+" thick", source)
	}
	r.standing(o, &t, planted)
	for q, sd := range r.tolerances(o) {
		was := t.Measured[q]
		t.Measured[q] = model.Tolerance{Method: was.Method, SD: sd}
	}
	return t
}

// species reads the kind of a tree; an unknown kind is replaced by a generic
// one and said so.
func (r *reader) species(o *object, subject string) species.Species {
	evergreen := o.flag(false, "evergreen")
	statesEvergreen := o.has("evergreen")
	v, ok := o.get("species", "kind")
	if !ok {
		kind := species.GenericTree(evergreen)
		r.assume(subject, "species", kind.Name, "common practice, no source")
		return kind
	}
	name, ok := read(v, func(s string) (string, error) { return s, nil })
	kind, found := species.Find(name)
	if !ok || !found {
		if like := species.Like(name); ok && len(like) > 0 {
			r.fault(v.spot, like[0], "there is no %q in the species table", short(name))
		} else if ok {
			kind = species.GenericTree(evergreen)
			r.warn(v.spot, "unknown or unknown evergreen to say so yourself", "there is no %q in the species table, so the values of a %s are taken", short(name), kind.Name)
			kind.Name = name
			return kind
		}
		return species.GenericTree(evergreen)
	}
	if statesEvergreen && evergreen != kind.Evergreen {
		r.fault(o.at("evergreen"), "no evergreen: key, or another species", "a %s is %s", kind.Name, map[bool]string{true: "an evergreen", false: "not an evergreen"}[kind.Evergreen])
	}
	return kind
}

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

func (r *reader) spread(o *object, t *model.Tree, kind species.Species, methods methods, source string) {
	v, ok := o.get("spread", "width")
	if !ok {
		t.SpreadX = kind.WidthAt(t.Height)
		t.SpreadY = t.SpreadX
		t.Measured[model.QSpread] = model.Tolerance{Method: "species table", SD: 0.2 * t.SpreadX}
		if t.Height > 0 {
			r.assume("tree "+t.ID, "spread", r.shown(t.SpreadX)+" for its height", source)
		}
		return
	}
	switch v.node.Kind {
	case yaml.SequenceNode:
		two, _ := v.list("spread", "[30 ft, 36 ft]")
		if len(two) != 2 {
			r.fault(v.spot, "36 ft, or [30 ft, 36 ft] (left to right, then up and down on the sketch)", "a spread has one width or two, not %d", len(two))
			break
		}
		t.SpreadX, _ = r.sizeOf(two[0], 0.1, 60)
		t.SpreadY, _ = r.sizeOf(two[1], 0.1, 60)
		t.Twist = r.site.Turn.Radians()
	default:
		t.SpreadX, _ = r.sizeOf(v, 0.1, 60)
		t.SpreadY = t.SpreadX
	}
	t.Measured[model.QSpread] = methods.spread((t.SpreadX + t.SpreadY) / 2)
}

func (r *reader) crown(o *object, t *model.Tree, kind species.Species, methods methods, source string) {
	subject := "tree " + t.ID
	if base, ok := o.size(0, 60, "crown base"); ok {
		t.CrownBase = base
		t.Measured[model.QCrownBase] = methods.crownBase(base)
		if t.Height > 0 && base >= t.Height {
			r.fault(o.at("crown base"), "the height of the lowest foliage above the tree's ground", "the crown begins at %s, above the top of the tree (%s)", r.shown(base), r.shown(t.Height))
		}
	} else {
		t.CrownBase = kind.CrownBase * t.Height
		t.Measured[model.QCrownBase] = model.Tolerance{Method: "species table", SD: 0.06 * t.Height}
		if !o.has("crown base") && t.Height > 0 {
			r.assume(subject, "crown base", r.shown(t.CrownBase), source)
		}
	}
	if shape, ok := choice(o, crownShapes, "crown shape", "shape"); ok {
		t.Shape = shape
	} else {
		t.Shape = kind.Shape
		if !o.has("crown shape") {
			r.assume(subject, "crown shape", string(t.Shape), source)
		}
	}
}

func (r *reader) leaf(o *object, t *model.Tree, kind species.Species, source string) {
	subject := "tree " + t.ID
	t.InLeaf, t.Bare = kind.InLeaf, kind.Bare
	inLeaf, okLeaf := field(o, measure.ParseShare, "in leaf")
	bare, okBare := field(o, measure.ParseShare, "bare")
	if okLeaf {
		t.InLeaf = inLeaf
	} else if !o.has("in leaf") {
		r.assume(subject, "sun through the crown in leaf", measure.FormatPercent(t.InLeaf, 0), source)
	}
	switch {
	case okBare:
		t.Bare = bare
	case kind.Evergreen && okLeaf:
		t.Bare = inLeaf
	case !o.has("bare") && !kind.Evergreen:
		r.assume(subject, "sun through the crown bare", measure.FormatPercent(t.Bare, 0), source)
	}
	sd := 0.15 // one tree's share, bare; in leaf 0.10: trees differ by as much (published values side by side)
	if kind.Evergreen {
		sd = 0.10
	}
	method := "species table"
	if okLeaf && (okBare || kind.Evergreen) {
		method = "stated"
	}
	t.Measured[model.QTransmissivity] = model.Tolerance{Method: method, SD: sd}

	t.Leafing = kind.Leafing(r.site.Place.Latitude(), r.site.Place.Elevation)
	out, okOut := field(o, measure.ParseDate, "leaf out")
	fall, okFall := field(o, measure.ParseDate, "leaf fall")
	if kind.Evergreen {
		if okOut || okFall {
			r.fault(o.at(first(o, "leaf out", "leaf fall")), "", "a %s keeps its leaf, so it has no leaf dates", kind.Name)
		}
		return
	}
	if okOut {
		t.Leafing.Out = float64(out)
	}
	if okFall {
		t.Leafing.Fall = float64(fall)
	}
	if !okOut || !okFall {
		r.assume(subject, "in leaf", fmt.Sprintf("from %s to %s (half out, half down)", measure.FormatDate(int(t.Leafing.Out)), measure.FormatDate(int(t.Leafing.Fall))), "Hopkins' law (1918) for the latitude and elevation, and the kind's class")
	}
}

// nearWork is how near to the house or a wire a crown makes felling dearer,
// metres: 10 ft, the distance within which work near wires is for qualified
// people (ANSI Z133; 29 CFR 1910.269).
const nearWork = 10 * 0.3048

// standing reads whose the tree is, whether it may go, and what that costs.
func (r *reader) standing(o *object, t *model.Tree, planted bool) {
	if owner, ok := choice(o, owners, "owner"); ok {
		t.Owner = owner
	}
	t.Keep = o.flag(false, "keep")
	t.Removable = o.flag(!t.Keep && t.Owner == model.OwnerLot, "removable")
	if t.Keep && t.Removable {
		r.fault(o.at("removable"), "one of the two", "the tree is marked both to keep and removable")
	}
	names := []string{"cost", "remove cost", "removal cost"}
	if cost, ok := field(o, measure.ParseMoney, names...); ok {
		t.Cost, t.CostKnown = cost, true
	} else if !planted && t.Height > 0 {
		tight := r.tight(*t)
		t.Cost = species.RemovalCost(t.Trunk, tight)
		why := "by trunk size"
		if tight {
			why += ", near the house or wires"
		}
		r.assume("tree "+t.ID, "removal cost", measure.FormatMoneyExact(t.Cost)+" "+why, "common practice, no source")
	}
	if v, ok := o.get("notes", "note"); ok {
		list := []value{v}
		if v.node.Kind == yaml.SequenceNode {
			list, _ = v.list("notes", "[service drop within 10 ft]")
		}
		for _, n := range list {
			if text, ok := read(n, func(s string) (string, error) { return s, nil }); ok {
				t.Notes = append(t.Notes, short500(text))
			}
		}
	}
}

func short500(s string) string {
	if r := []rune(s); len(r) > 500 {
		return string(r[:500]) + "…"
	}
	return s
}

// tight tells whether a tree's crown comes near the house or a wire.
func (r *reader) tight(t model.Tree) bool {
	reach := max(t.SpreadX, t.SpreadY)/2 + nearWork
	for _, p := range r.site.House.Parts {
		if len(p.Footprint) > 3 && planar.DistanceFrom(orb.LineString(p.Footprint), t.At) < reach {
			return true
		}
	}
	for _, w := range r.site.Wires {
		if len(w.Line) > 1 && planar.DistanceFrom(w.Line, t.At) < reach {
			return true
		}
	}
	return false
}
