package measure

import (
	"fmt"
	"strings"
)

// Longest is the greatest number of bytes a measure may have; anything longer
// is refused before it is looked at.
const Longest = 80

// Error says what is wrong with a measure and what would be right.
type Error struct {
	Wrong string // `"17 fot" is not a length`
	Right string // `17 ft 6 in, 17'6", 32 in, 5.3 m or 530 cm`
}

func (e *Error) Error() string {
	if e.Right == "" {
		return e.Wrong
	}
	return e.Wrong + "; write " + e.Right
}

func wrong(right, format string, args ...any) *Error {
	return &Error{Wrong: fmt.Sprintf(format, args...), Right: right}
}

var tidyMarks = strings.NewReplacer(
	"′", "'", "’", "'", "‘", "'", "`", "'", "´", "'",
	"″", `"`, "”", `"`, "“", `"`, "''", `"`,
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⁄", "/", "−", "-", "–", "-", "\u2011", "-",
	"º", "°", "˚", "°", "²", "2", "³", "3", "·", ".",
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
)

// tidy brings a measure to one plain spelling, or refuses it for its size.
func tidy(s, what, right string) (string, error) {
	if len(s) > Longest {
		return "", wrong(right, "%d characters are too many for %s", len(s), what)
	}
	s = tidyMarks.Replace(tidyMarks.Replace(s))
	s = strings.ToLower(strings.Join(strings.Fields(s), " "))
	if s == "" {
		return "", wrong(right, "nothing is written where %s should be", what)
	}
	return s, nil
}
