package ink

import (
	"fmt"
	"strings"
)

// Sheet is a size of paper, portrait.
type Sheet struct {
	Name          string // as a style sheet writes it: "letter", "A4"
	Width, Height float64
}

// Sheets in the order they are offered.
func Sheets() []Sheet {
	return []Sheet{{"letter", LetterWidth, LetterHeight}, {"A4", A4Width, A4Height}}
}

// ParseSheet reads a paper's name; an empty name is letter.
func ParseSheet(name string) (Sheet, error) {
	for _, s := range Sheets() {
		if name == "" || strings.EqualFold(strings.TrimSpace(name), s.Name) {
			return s, nil
		}
	}
	return Sheet{}, fmt.Errorf("paper %q is not known: letter or a4", name)
}
