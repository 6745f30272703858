// Package measure reads and writes the measures a builder uses: feet and
// inches, roof pitches, compass bearings, money, R-values, dates. Everything
// inside the program is SI and radians; this package is the edge where
// people's units come in and go out.
//
// Every Parse function accepts any text without panicking and returns either
// a finite value in the stated unit or an *Error that says what is wrong and
// what would be right.
package measure

import (
	"fmt"
	"strings"
)

// Unit is the length unit that a number without a unit is taken to be in,
// and the system that lengths are shown in.
type Unit int

// The two systems.
const (
	Feet Unit = iota
	Metres
)

// String names the unit.
func (u Unit) String() string {
	if u == Metres {
		return "metres"
	}
	return "feet"
}

// Exact by definition: the international foot of 1959 and what follows from it.
const (
	metresPerFoot = 0.3048
	metresPerInch = 0.0254
	metresPerYard = 0.9144
	m2PerSqFoot   = metresPerFoot * metresPerFoot
	m3PerCuFoot   = m2PerSqFoot * metresPerFoot
	m2PerAcre     = 43560 * m2PerSqFoot
	rsiPerUSR     = 0.17611 // 1 h·ft²·°F/Btu in m²·K/W (ISO 80000-5 / NIST SP 811, app. B)
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
