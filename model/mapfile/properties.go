package mapfile

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/model/measure"
)

// properties are what a map or a row of a list says of a thing, by name in
// one plain spelling: small letters and blanks, without the unit.
type properties map[string]said

// said is one value: its text and the unit its name carried.
type said struct {
	text string
	unit string // "", or as written in the name: ft, m, in, deg …
	name string // as written
	raw  any
}

var unitOfName = regexp.MustCompile(`^(.*?)[ (\[,:]+(m|metres?|meters?|ft|feet|foot|in|inch|inches|cm|mm|deg|degrees|usd|dollars|pct|percent)[)\]]?$`)

// plainName splits a name into its plain spelling and the unit it carries:
// "Height (ft)" and height_ft are both height in ft.
func plainName(name string) (plain, unit string) {
	s := strings.Map(func(r rune) rune {
		switch {
		case r == '_' || r == '-' || r == ':' || r == '.' || r == '/' || unicode.IsSpace(r):
			return ' '
		}
		return unicode.ToLower(r)
	}, strings.TrimSpace(name))
	s = strings.Join(strings.Fields(s), " ")
	if m := unitOfName.FindStringSubmatch(s); m != nil && m[1] != "" {
		s, unit = strings.TrimSpace(m[1]), m[2]
	}
	s = strings.NewReplacer("neighbor", "neighbour", "%", "").Replace(s)
	return strings.TrimSpace(s), unit
}

func newProperties(in map[string]any) properties {
	out := properties{}
	for name, v := range in {
		if v == nil {
			continue
		}
		plain, unit := plainName(name)
		if before, twice := out[plain]; twice && before.name < name {
			continue // two spellings of one name: the first in the alphabet, so that the same map gives the same file
		}
		out[plain] = said{text: plainValue(v), unit: unit, name: name, raw: v}
	}
	return out
}

// plainValue is a JSON value as text.
func plainValue(v any) string {
	switch v := v.(type) {
	case string:
		return cleaned(v)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case bool:
		if v {
			return "yes"
		}
		return "no"
	}
	return ""
}

// cleaned takes out what no name or note needs: control characters and
// anything past 300 characters.
func cleaned(s string) string {
	s = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) || r == '\ufeff' || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 300 {
		s = string(r[:300])
	}
	for len(s) > 480 { // what a note of a site file may have at most is 500 bytes
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
	}
	return s
}

// get gives a value under any of its names; empty texts count as not there.
func (p properties) get(names ...string) (said, bool) {
	for _, n := range names {
		if s, ok := p[n]; ok && s.text != "" {
			return s, true
		}
	}
	return said{}, false
}

func (p properties) text(names ...string) string {
	s, _ := p.get(names...)
	return s.text
}

// problem is what is wrong with a value.
func (s said) problem(format string, args ...any) error {
	return fmt.Errorf("%s: %s", short(s.name), fmt.Sprintf(format, args...))
}

// length reads a length in metres. A bare number whose name has no unit is
// refused: it could be feet or metres.
func (s said) length(least, most float64) (float64, error) {
	text := s.text
	if _, err := measure.ParseNumber(text); err == nil {
		if s.unit == "" {
			return 0, s.problem("%s could be feet or metres; write the unit into the name (%s_ft, %s_m) or the value (%q)", text, short(s.name), short(s.name), text+" ft")
		}
		text += " " + s.unit
	} else if v, err := strconv.ParseFloat(text, 64); err == nil && s.unit != "" {
		text = strconv.FormatFloat(v, 'f', 6, 64) + " " + s.unit
	}
	x, err := measure.ParseLength(text, measure.Feet)
	if err != nil {
		return 0, s.problem("%v", err)
	}
	if math.IsNaN(x) || x < least || x > most {
		return 0, s.problem("%s cannot be right here: it should lie between %s and %s", short(s.text), measure.FormatFeet(least, measure.Feet, 0), measure.FormatFeet(most, measure.Feet, 0))
	}
	return x, nil
}

// bearing reads an azimuth from true north.
func (s said) bearing() (s1.Angle, error) {
	text := s.text
	switch strings.ToLower(strings.NewReplacer(" ", "-", "_", "-").Replace(text)) {
	case "east-west", "west-east", "e-w", "w-e":
		text = "east"
	case "north-south", "south-north", "n-s", "s-n":
		text = "north"
	}
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		if math.IsNaN(v) || math.Abs(v) > 360 {
			return 0, s.problem("%s is not a direction in degrees from true north", short(s.text))
		}
		return measure.Turn(s1.Angle(v) * s1.Degree), nil
	}
	b, err := measure.ParseBearing(text)
	if err != nil {
		return 0, s.problem("%v", err)
	}
	if b.From == measure.Magnetic {
		return 0, s.problem("a map gives directions from true north, not from the compass needle")
	}
	return measure.Turn(b.Angle), nil
}

// pitch reads a roof's slope: 9/12, 36.9° or, with deg in the name, a number.
func (s said) pitch() (s1.Angle, error) {
	text := s.text
	if v, err := strconv.ParseFloat(text, 64); err == nil && strings.HasPrefix(s.unit, "deg") {
		text = strconv.FormatFloat(v, 'f', 9, 64) + "°"
	}
	a, err := measure.ParsePitch(text)
	if err != nil {
		return 0, s.problem("%v", err)
	}
	return a, nil
}

// yes reads a yes or no.
func (s said) yes() (bool, error) {
	switch strings.ToLower(s.text) {
	case "yes", "true", "y", "1", "on":
		return true, nil
	case "no", "false", "n", "0", "off":
		return false, nil
	}
	return false, s.problem("%q is neither yes nor no", short(s.text))
}

// share reads a share of a whole.
func (s said) share() (float64, error) {
	text := s.text
	if s.unit == "pct" || s.unit == "percent" {
		text += " %"
	}
	v, err := measure.ParseShare(text)
	if err != nil {
		return 0, s.problem("%v", err)
	}
	return v, nil
}

// money reads dollars.
func (s said) money() (float64, error) {
	v, err := measure.ParseMoney(s.text)
	if err != nil {
		return 0, s.problem("%v", err)
	}
	return v, nil
}
