package sitefile

import (
	"fmt"
	"math"
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
			source := "stated slope of the lot"
			if r.hasSpots {
				source = "between the spot heights"
			}
			r.assume(subject, "ground", r.shown(t.Ground)+" against the house", source)
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
			r.fault(v.spot, like[0]+", or unknown or unknown evergreen where it is another kind", "there is no %q in the species table", short(name))
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
			r.fault(v.spot, r.sample("36 ft, or [30 ft, 36 ft] (left to right, then up and down on the sketch)"), "a spread has one width or two, not %d", len(two))
			break
		}
		t.SpreadX, _ = r.sizeOf(two[0], 0.1, 60)
		t.SpreadY, _ = r.sizeOf(two[1], 0.1, 60)
		t.Twist = r.site.Turn.Radians()
	default:
		if a, b, both := strings.Cut(strings.NewReplacer("×", "x", " by ", "x").Replace(v.node.Value), "x"); both && strings.TrimSpace(a) != "" && strings.TrimSpace(b) != "" {
			r.fault(v.spot, fmt.Sprintf("[%s, %s], left to right, then up and down on the sketch", short(strings.TrimSpace(a)), short(strings.TrimSpace(b))), "a spread of two widths stands in brackets")
			break
		}
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
