package sitefile

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// twin is one slip in a value, wherever in a list it was copied to: windows
// with the same glazing that does not exist, trees of a kind misspelt.
type twin struct {
	path, wrong, right string
	warning            bool
}

var inBrackets = regexp.MustCompile(`\[[^\]]*\]`)

func twinOf(path, wrong, right string, warning bool) twin {
	return twin{inBrackets.ReplaceAllString(path, "[]"), wrong, right, warning}
}

// toldBefore notes a slip and tells whether another of the same list has it.
// Only what quotes the value counts: missing keys are each a thing to measure.
func (r *reader) toldBefore(at spot, warning bool, wrong, right string) bool {
	if !strings.Contains(wrong, `"`) || !strings.Contains(at.shown, "[") {
		return false
	}
	key := twinOf(at.shown, wrong, right, warning)
	r.twins[key] = append(r.twins[key], at.line)
	if len(r.twins[key]) == 1 {
		return false
	}
	if !warning {
		r.faulty[at.path] = true
	}
	return true
}

// tellTwins says of each slip on which other lines it is.
func (r *reader) tellTwins() {
	for i, f := range r.faults {
		lines := slices.Compact(slices.Sorted(slices.Values(r.twins[twinOf(f.Path, f.Wrong, f.Right, f.Warning)])))
		lines = slices.DeleteFunc(lines, func(n int) bool { return n == f.Line })
		if len(lines) > 0 {
			r.faults[i].also = linesText(lines)
		}
	}
}

// linesText names lines, the first three of many.
func linesText(lines []int) string {
	const named = 5
	var words []string
	for _, n := range lines {
		words = append(words, fmt.Sprint(n))
	}
	switch n := len(words); {
	case n == 1:
		return "line " + words[0]
	case n <= named:
		return "lines " + strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return fmt.Sprintf("%d more lines: %s …", len(words), strings.Join(words[:3], ", "))
}
