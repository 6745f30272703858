package sitefile

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"
)

// spot is a place in the file: where it is written, how the program names it
// (trees[3].height, counted from 0) and how people are told (trees[T4].height).
type spot struct {
	line, column int
	path, shown  string
}

// value is one value of the file.
type value struct {
	r    *reader
	node *yaml.Node
	spot
}

func (r *reader) value(node *yaml.Node, path, shown string) value {
	at := spot{node.Line, node.Column, path, shown}
	r.places[path] = at
	return value{r, node, at}
}

var keySpelling = strings.NewReplacer("_", " ", "-", " ", "neighbor", "neighbour", "meters", "metres")

// plainKey is a key in the one spelling the reader asks for.
func plainKey(key string) string {
	return strings.Join(strings.Fields(keySpelling.Replace(strings.ToLower(key))), " ")
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Style == 0
}

func kindName(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "keys with values"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case isNull(n):
		return "nothing"
	}
	return fmt.Sprintf("%q", short(n.Value))
}

// short keeps a quotation in a message to a readable length.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
