package sitefile

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/species"
)

// object is a mapping of the file. Keys are asked for by name; finish reports
// those nobody asked for.
type object struct {
	r *reader
	spot
	values map[string]value
	spelt  map[string]string    // key as written
	places map[string]spot      // where the key itself stands
	cutOff map[string][2]string // words that stand alone after a comma, and the key and value before it
	asked  map[string]bool
	known  []string
	lacks  []need
}

// need is a key that must be there and is not.
type need struct {
	at         spot
	key, right string
}

// object opens a mapping; ok is false (and reported) where the value is none.
func (v value) object(what, example string) (*object, bool) {
	if v.node.Kind != yaml.MappingNode {
		v.r.fault(v.spot, v.r.sample(example), "%s should be a list of keys and values, not %s", what, kindName(v.node))
		return nil, false
	}
	o := &object{v.r, v.spot, map[string]value{}, map[string]string{}, map[string]spot{}, map[string][2]string{}, map[string]bool{}, nil, nil}
	flow := v.node.Style&yaml.FlowStyle != 0
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		k, val := v.node.Content[i], v.node.Content[i+1]
		at := spot{k.Line, k.Column, v.path, v.shown}
		if k.Kind != yaml.ScalarNode {
			v.r.fault(at, "a word, a colon and a value, such as "+v.r.sample(example), "a key should be a plain word")
			continue
		}
		if flow && i > 0 && isNull(val) && splitAtComma(v.node.Content[i-1], k) {
			before := v.node.Content[i-1]
			whole := short(before.Value) + "," + short(k.Value)
			name := plainKey(v.node.Content[i-2].Value)
			joint := "" // 1,900 is 1900, and 17 ft, 6 in is 17 ft 6 in
			if feetEnd.MatchString(before.Value) {
				joint = " "
			}
			v.r.fault(spot{before.Line, before.Column, join(v.path, name), join(v.shown, short(name))},
				fmt.Sprintf("%s without the comma, or %q in quotes", short(before.Value)+joint+short(k.Value), whole),
				"between { and } a comma ends a value, so %s was cut in two", whole)
			continue
		}
		key := plainKey(k.Value)
		if first, twice := o.places[key]; twice {
			v.r.fault(spot{k.Line, k.Column, join(v.path, key), join(v.shown, short(key))}, "it once", "%s is written twice here; the first is on line %d", short(k.Value), first.line)
			continue
		}
		if flow && i > 0 && isNull(val) && v.node.Content[i-1].Kind == yaml.ScalarNode && !isNull(v.node.Content[i-1]) {
			o.cutOff[key] = [2]string{v.node.Content[i-2].Value, v.node.Content[i-1].Value}
		}
		o.values[key] = v.r.value(val, join(v.path, key), join(v.shown, short(key)))
		o.spelt[key] = k.Value
		o.places[key] = at
	}
	return o, true
}

var digitStart = regexp.MustCompile(`^\d`)

var threeDigits = regexp.MustCompile(`^\d{3}(\D|$)`)

var digitEnd = regexp.MustCompile(`(^|\D)\d{1,3}$`)

var feetEnd = regexp.MustCompile(`(?i)(ft|feet|foot|')\.?$`)

// splitAtComma tells whether a flow mapping has cut a number like $1,900 or
// 17 ft, 6 in at its comma into a value and a key without a value.
func splitAtComma(before, key *yaml.Node) bool {
	return before.Kind == yaml.ScalarNode &&
		(threeDigits.MatchString(key.Value) && digitEnd.MatchString(before.Value) ||
			digitStart.MatchString(key.Value) && feetEnd.MatchString(before.Value))
}

// get gives the value of a key under any of its names. A key with nothing
// after it counts as absent.
func (o *object) get(names ...string) (value, bool) {
	o.known = append(o.known, names[0])
	var found value
	ok := false
	for _, name := range names {
		o.asked[name] = true
		v, has := o.values[name]
		if !has || ok {
			continue
		}
		if isNull(v.node) {
			o.r.warn(v.spot, "", "nothing is written after %s:, so it counts as not given", o.spelt[name])
			continue
		}
		found, ok = v, true
	}
	return found, ok
}

func (o *object) has(name string) bool {
	v, ok := o.values[name]
	return ok && !isNull(v.node)
}

// at is where a key's value stands, or the object where the key is missing.
func (o *object) at(key string) spot {
	if v, ok := o.values[key]; ok {
		return v.spot
	}
	return spot{o.line, o.column, join(o.path, key), join(o.shown, short(key))}
}

// missing notes that a key must be there. It is told by finish, unless the
// key is there under a misspelt name.
func (o *object) missing(key, right string) {
	if v, ok := o.values[key]; ok && o.r.faulty[v.path] {
		return
	}
	at := spot{o.line, o.column, join(o.path, key), join(o.shown, short(key))}
	o.r.faulty[at.path] = true
	o.lacks = append(o.lacks, need{at, key, right})
}

// misspelt tells whether a key that is not there is written with a slip, as
// one that nobody asks for.
func (o *object) misspelt(key string, known ...string) bool {
	if _, ok := o.values[key]; ok {
		return false
	}
	known = append(append(known, o.known...), key)
	for other := range o.values {
		if !o.asked[other] && !slices.Contains(known, other) && nearest(other, known) == key {
			return true
		}
	}
	return false
}

// finish reports the keys that are missing, and those nobody asked for, with
// the nearest known one.
func (o *object) finish() {
	for _, n := range o.lacks {
		if !o.misspelt(n.key) {
			n.at.shown = o.shown
			o.r.fault(n.at, o.r.sample(n.right), "%s is missing", n.key)
		}
	}
	o.lacks = nil
	var unknown []string
	for key := range o.values {
		if !o.asked[key] {
			unknown = append(unknown, key)
		}
	}
	sort.Strings(unknown)
	for _, key := range unknown {
		at := o.places[key]
		at.path, at.shown = join(o.path, key), join(o.shown, short(key))
		if hint, ok := hints[key]; ok {
			o.r.fault(at, o.r.sample(hint), "%s does not belong here", o.spelt[key])
			continue
		}
		if name, rest, cut := strings.Cut(o.spelt[key], ":"); cut && o.asked[plainKey(name)] {
			if rest = strings.TrimSpace(rest); rest == "" {
				o.r.fault(at, "the value after a colon and a space, or leave the key out", "%s has no value", short(name))
			} else {
				o.r.fault(at, name+": "+short(rest), "there is no space after the colon of %q", short(o.spelt[key]))
			}
			continue
		}
		if before, cut := o.cutOff[key]; cut {
			o.r.fault(at, fmt.Sprintf("a list in brackets, %s: [%s, %s], or a remark in quotes", before[0], short(before[1]), short(o.spelt[key])),
				"between { and } a comma ends a value, so nothing is said of %q", short(o.spelt[key]))
			continue
		}
		if near := nearest(key, o.known); near != "" {
			o.r.fault(at, near, "there is no key %q here", short(o.spelt[key]))
			continue
		}
		known := append([]string(nil), o.known...)
		sort.Strings(known)
		o.r.fault(at, "one of "+strings.Join(known, ", "), "there is no key %q here", short(o.spelt[key]))
	}
}

// hints answer keys that people try and that have another home.
var hints = map[string]string{
	"top angle":  "height: {distance: 60 ft, top angle: 38°, base angle: 4° down}",
	"base angle": "height: {distance: 60 ft, top angle: 38°, base angle: 4° down}",
	"eye height": "height: {distance: 60 ft, top angle: 38°, eye height: 5 ft 4 in}",
	"eye":        "height: {distance: 60 ft, top angle: 38°, eye height: 5 ft 4 in}",
}

func nearest(word string, known []string) string {
	best, far := "", 2+len(word)/4
	if len(word) > 60 {
		return ""
	}
	for _, k := range known {
		if d := species.Distance(word, k); d < far {
			best, far = k, d
		}
	}
	return best
}

// each opens every mapping of a list under a key, in order.
func (o *object) each(example string, do func(i int, item *object), names ...string) {
	v, ok := o.get(names...)
	if !ok {
		return
	}
	items, ok := v.list(names[0], "a list, such as "+example)
	if !ok {
		return
	}
	for i, item := range items {
		if child, ok := item.object("each of "+names[0], example); ok {
			do(i, child)
			child.finish()
		} else {
			do(i, nil)
		}
	}
}

// child opens the mapping under a key.
func (o *object) child(example string, do func(item *object), names ...string) bool {
	v, ok := o.get(names...)
	if !ok {
		return false
	}
	item, ok := v.object(names[0], example)
	if !ok {
		return false
	}
	do(item)
	item.finish()
	return true
}
