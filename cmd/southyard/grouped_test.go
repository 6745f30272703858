package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/sitefile"
)

func TestNamesThatCountUpAreWrittenFirstToLast(t *testing.T) {
	for list, want := range map[string]string{
		"tree T1|tree T2|tree T3":                                    "tree T1, T2, T3",
		"tree T1|tree T2|tree T3|tree T4|tree T8|window W1":          "tree T1 to T4, T8, window W1",
		"tree T8|tree T9|tree T10|tree T11":                          "tree T8 to T11",
		"tree T08|tree T09|tree T10|tree T11":                        "tree T08 to T11",
		"tree T2|tree T1|tree T4|tree T3":                            "tree T2, T1, T4, T3",
		"tree A1|tree B2|tree C3|tree D4":                            "tree A1, B2, C3, D4",
		"site|site|tree oak|tree the long oak 1|tree the long oak 2": "site, site, tree oak, the long oak 1, the long oak 2",
		"remove T1|raise T2|remove T3":                               "remove T1, raise T2, remove T3",
		"tree 99999999999999999999|tree x":                           "tree 99999999999999999999, x",
		"":                                                           "",
	} {
		if got := grouped(strings.Split(list, "|")); got != want {
			t.Errorf("%q is written %q, want %q", list, got, want)
		}
	}
}

func TestListsFoldAtCommasAndLoseNothing(t *testing.T) {
	var words []string
	for n := range 200 {
		words = append(words, fmt.Sprintf("oak %d", n*n))
	}
	lines := folded(strings.Join(words, ", "))
	if got := strings.Split(strings.Join(lines, " "), ", "); !slices.Equal(got, words) {
		t.Errorf("the list became %q", got)
	}
	for _, l := range lines {
		if len(l) > foldAt {
			t.Errorf("%d signs: %s", len(l), l)
		}
	}
	if lines := folded(strings.Repeat("x", 500)); len(lines) != 1 {
		t.Errorf("a name was broken: %q", lines)
	}
}

// Five hundred trees of one kind share lines that can be read.
func TestCheckOfManyTreesKeepsItsLinesShort(t *testing.T) {
	head, rest, _ := strings.Cut(string(sitefile.Starter()), "trees:\n")
	_, rest, _ = strings.Cut(rest, "# season")
	var b strings.Builder
	b.WriteString(head + "trees:\n")
	var ids, odd []string
	for n := range 500 {
		fmt.Fprintf(&b, "  - {id: T%d, species: red maple, at: [%d, %d]}\n", n+1, 8*(n%50)-200, -20-10*(n/50))
		if ids = append(ids, fmt.Sprintf("T%d", n+1)); n%3 == 0 {
			odd = append(odd, ids[n])
		}
	}
	fmt.Fprintf(&b, "plans:\n  - {name: all, remove: [%s]}\n  - {name: a third, remove: [%s]}\n# season%s", strings.Join(ids, ", "), strings.Join(odd, ", "), rest)
	site, faults := sitefile.Read("wood.yaml", []byte(b.String()))
	if n := sitefile.Wrong(faults); n > 0 {
		t.Fatal(faults)
	}
	var out bytes.Buffer
	understood{&out, site, measure.Feet}.write()
	for _, want := range []string{"remove T1 to T500", "tree T1 to T500", "T499"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not shown", want)
		}
	}
	for _, l := range strings.Split(out.String(), "\n") {
		if len(l) > 220 {
			t.Errorf("%d signs in a line: %.100s …", len(l), l)
		}
	}
}
