package sitefile

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

// read parses a plain value; what cannot be read is reported and ok is false.
func read[T any](v value, parse func(string) (T, error)) (T, bool) {
	var zero T
	if v.node.Kind != yaml.ScalarNode {
		_, err := parse("?")
		right := rightOf(err)
		if right == "" {
			right = "one text, in quotes if it has a colon in it"
		}
		v.r.fault(v.spot, right, "one value is wanted here, not %s", kindName(v.node))
		return zero, false
	}
	v.r.reading = v.spot
	x, err := parse(v.node.Value)
	if err != nil {
		v.r.fault(v.spot, rightOf(err), "%s", wrongOf(err))
		return zero, false
	}
	return x, true
}

func rightOf(err error) string {
	var m *measure.Error
	if errors.As(err, &m) {
		return m.Right
	}
	return ""
}

func wrongOf(err error) string {
	var m *measure.Error
	if errors.As(err, &m) {
		return m.Wrong
	}
	return err.Error()
}

// field reads a key's value where it is given.
func field[T any](o *object, parse func(string) (T, error), names ...string) (T, bool) {
	v, ok := o.get(names...)
	if !ok {
		var zero T
		return zero, false
	}
	return read(v, parse)
}

func (o *object) text(names ...string) string {
	s, _ := field(o, func(s string) (string, error) {
		if len(s) > 500 {
			return "", &measure.Error{Wrong: "this text is too long", Right: "at most 500 characters"}
		}
		return strings.TrimSpace(s), nil
	}, names...)
	return s
}

func (o *object) flag(usual bool, names ...string) bool {
	yes, ok := field(o, func(s string) (bool, error) {
		switch strings.ToLower(strings.TrimSpace(s)) {
		case "yes", "true", "y", "on":
			return true, nil
		case "no", "false", "n", "off":
			return false, nil
		}
		return false, &measure.Error{Wrong: fmt.Sprintf("%q is neither yes nor no", short(s)), Right: "yes or no"}
	}, names...)
	if !ok {
		return usual
	}
	return yes
}

// choice reads one of a few words.
func choice[T ~string](o *object, words map[string]T, names ...string) (T, bool) {
	return field(o, func(s string) (T, error) {
		if w, ok := words[plainKey(s)]; ok {
			return w, nil
		}
		var list []string
		for w := range words {
			list = append(list, w)
		}
		sort.Strings(list)
		right := nearest(plainKey(s), list)
		if right == "" {
			right = "one of " + strings.Join(list, ", ")
		}
		return "", &measure.Error{Wrong: fmt.Sprintf("%q is not known here", short(s)), Right: right}
	}, names...)
}

// list gives the values of a list, naming each by its id where it has one.
func (v value) list(what, example string) ([]value, bool) {
	if v.node.Kind != yaml.SequenceNode {
		v.r.fault(v.spot, v.r.sample(example), "%s should be a list, not %s", what, kindName(v.node))
		return nil, false
	}
	out := make([]value, 0, len(v.node.Content))
	for i, n := range v.node.Content {
		name := fmt.Sprint(i + 1)
		if n.Kind == yaml.MappingNode {
			for k := 0; k+1 < len(n.Content); k += 2 {
				if key := plainKey(n.Content[k].Value); (key == "id" || key == "name") && n.Content[k+1].Kind == yaml.ScalarNode && n.Content[k+1].Value != "" {
					name = short(n.Content[k+1].Value)
					break
				}
			}
		}
		out = append(out, v.r.value(n, fmt.Sprintf("%s[%d]", v.path, i), fmt.Sprintf("%s[%s]", v.shown, name)))
	}
	return out, true
}
