package board

import (
	"strings"

	"github.com/southyard/southyard/render/ink"
)

// fit shortens words to a width, with an ellipsis where some are cut.
func fit(words string, width float64, t ink.Type) string {
	if ink.Width(words, t.Size, t.Face) <= width {
		return words
	}
	for r := []rune(words); len(r) > 0; r = r[:len(r)-1] {
		if short := strings.TrimRight(string(r), " ,;") + "…"; ink.Width(short, t.Size, t.Face) <= width {
			return short
		}
	}
	return ""
}

// wrap breaks words into at most a number of lines; the last is shortened
// where there are more.
func wrap(words string, width float64, t ink.Type, most int) []string {
	var lines []string
	now := ""
	list := strings.Fields(words)
	for i, w := range list {
		next := strings.TrimSpace(now + " " + w)
		if now != "" && ink.Width(next, t.Size, t.Face) > width {
			if len(lines) == most-1 {
				return append(lines, fit(now+" "+strings.Join(list[i:], " "), width, t))
			}
			lines = append(lines, now)
			next = w
		}
		now = fit(next, width, t)
	}
	if now != "" {
		lines = append(lines, now)
	}
	return lines
}
