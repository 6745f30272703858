package ink

import "strings"

// Wrap breaks words into lines of at most a width, in points. A word longer
// than a line is broken where the line ends, so that nothing is lost. No words
// give no lines.
func Wrap(words string, width float64, t Type) []string {
	var lines []string
	now := ""
	for _, w := range together(strings.Fields(words)) {
		next := w
		if now != "" {
			next = now + " " + w
		}
		if Width(next, t.Size, t.Face) <= width {
			now = next
			continue
		}
		if now != "" {
			lines = append(lines, now)
		}
		whole, rest := split(w, width, t)
		lines = append(lines, whole...)
		now = rest
	}
	if now != "" {
		lines = append(lines, now)
	}
	return lines
}

// together keeps a percent sign with its figure.
func together(words []string) []string {
	var out []string
	for _, w := range words {
		if n := len(out); n > 0 && strings.HasPrefix(w, "%") {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// split breaks one word into full lines and what is left; every line holds at
// least one letter.
func split(word string, width float64, t Type) (lines []string, rest string) {
	run := []rune(word)
	for {
		n := len(run)
		for n > 1 && Width(string(run[:n]), t.Size, t.Face) > width {
			n--
		}
		if n == len(run) {
			return lines, string(run)
		}
		lines = append(lines, string(run[:n]))
		run = run[n:]
	}
}

// Fit shortens words to a width, with an ellipsis where some are cut.
func Fit(words string, width float64, t Type) string {
	if Width(words, t.Size, t.Face) <= width {
		return words
	}
	run := []rune(words)
	for n := len(run) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(run[:n]), " ,;") + "…"; Width(short, t.Size, t.Face) <= width {
			return short
		}
	}
	return ""
}
