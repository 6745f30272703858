package ink

import (
	"strings"
	"testing"
)

func TestWrappedLinesFitAndLoseNothing(t *testing.T) {
	kind := Type{Size: 8}
	for name, words := range map[string]string{
		"none":      "",
		"sentence":  "Felling is work for licensed tree workers, near wires for line-clearance crews only.",
		"long word": strings.Repeat("W", 90),
		"mixed":     "a " + strings.Repeat("north", 30) + " b",
	} {
		for _, width := range []float64{12, 60, 200} {
			lines := Wrap(words, width, kind)
			for _, l := range lines {
				if Width(l, kind.Size, kind.Face) > width {
					t.Errorf("%s: line %q is wider than %g points", name, l, width)
				}
			}
			plain := func(s string) string { return strings.ReplaceAll(s, " ", "") }
			if got := plain(strings.Join(lines, "")); got != plain(words) {
				t.Errorf("%s at %g points: words came out as %q", name, width, got)
			}
		}
	}
}

func TestWrappingEndsWhereNoLetterFits(t *testing.T) {
	if got := Wrap("oak", 0, Type{Size: 8}); strings.Join(got, "") != "oak" {
		t.Errorf("got %q", got)
	}
}

func TestPaperIsReadInAnyLetters(t *testing.T) {
	for name, want := range map[string]string{"": "letter", "letter": "letter", "a4": "A4", "A4": "A4"} {
		if s, err := ParseSheet(name); err != nil || s.Name != want {
			t.Errorf("%q: got %v, %v", name, s, err)
		}
	}
	if _, err := ParseSheet("A3"); err == nil {
		t.Error("A3 was taken")
	}
}
