package board

import (
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// atMost breaks words into at most a number of lines; the last is shortened
// where there are more.
func atMost(words string, width float64, t ink.Type, most int) []string {
	lines := ink.Wrap(words, width, t)
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], ink.Fit(strings.Join(lines[most-1:], " "), width, t))
	}
	return lines
}

// fitTail shortens words to a width by their beginning: of a path the end tells
// the lots apart.
func fitTail(words string, width float64, t ink.Type) string {
	run := []rune(words)
	for n := 0; n < len(run); n++ {
		short := string(run[n:])
		if n > 0 {
			short = "…" + short
		}
		if ink.Width(short, t.Size, t.Face) <= width {
			return short
		}
	}
	return ""
}
