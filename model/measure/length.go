package measure

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

const lengthRight = `17 ft 6 in, 17'6", 32 in, 5.3 m or 530 cm`

// farthest is the greatest length anything on or about a lot can have, in
// metres. It keeps absurd numbers out of the geometry.
const farthest = 1e6

var lengthUnits = map[string]float64{
	"ft": metresPerFoot, "foot": metresPerFoot, "feet": metresPerFoot, "'": metresPerFoot, "ft.": metresPerFoot,
	"in": metresPerInch, "inch": metresPerInch, "inches": metresPerInch, `"`: metresPerInch, "in.": metresPerInch,
	"yd": metresPerYard, "yard": metresPerYard, "yards": metresPerYard,
	"m": 1, "metre": 1, "metres": 1, "meter": 1, "meters": 1,
	"cm": 0.01, "centimetre": 0.01, "centimetres": 0.01, "centimeter": 0.01, "centimeters": 0.01,
	"mm": 0.001, "millimetre": 0.001, "millimetres": 0.001, "millimeter": 0.001, "millimeters": 0.001,
}

var unitPattern = regexp.MustCompile(`^ ?(?:'|"|[a-z]+\.?)`)

// ParseLength reads a length, which may be negative (a coordinate), in
// metres. A number without a unit is in bare.
func ParseLength(s string, bare Unit) (float64, error) {
	t, err := tidy(s, "a length", lengthRight)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	total, last := 0.0, math.Inf(1)
	for first := true; t != ""; first = false {
		v, rest, ok := number(t)
		if !ok {
			return 0, lengthFault(s)
		}
		unit := unitPattern.FindString(rest)
		size, known := lengthUnits[strings.TrimSpace(unit)]
		switch {
		case known:
		case unit == "" && rest == "" && first:
			size = metresPerFoot
			if bare == Metres {
				size = 1
			}
		case unit == "" && rest == "" && last == metresPerFoot:
			size = metresPerInch // 17' 6
		case unit != "":
			return 0, wrong(lengthRight, "%q has no unit of length in %q", s, strings.TrimSpace(unit))
		default:
			return 0, lengthFault(s)
		}
		if size >= last || (!first && last == metresPerFoot && v*size >= metresPerFoot) {
			return 0, wrong(lengthRight, "%q does not add up: the smaller unit comes second, and inches stop at 12", s)
		}
		total += v * size
		last = size
		t = strings.TrimSpace(rest[len(unit):])
		if after := strings.TrimLeft(t, "-, "); t != "" && after != "" {
			t = after // 17'-6"
		}
	}
	if total > farthest {
		return 0, wrong(lengthRight, "%q is longer than anything on a lot", s)
	}
	return sg * total, nil
}

func lengthFault(s string) error {
	if regexp.MustCompile(`^\s*\d+,\d{1,2}(\D|$)`).MatchString(s) {
		return wrong("5.3 m with a point", "%q has a comma where a decimal point should be", s)
	}
	return wrong(lengthRight, "%q is not a length", s)
}

// FormatLength writes a length to the inch (17 ft 6 in, 9 in) or to the
// centimetre (5.33 m).
func FormatLength(metres float64, u Unit) string {
	if u == Metres {
		return Number(metres, 2) + " m"
	}
	return feetInches(metres, 1)
}

// FormatTape writes a length as read off a tape: to the quarter inch
// (3 ft 2 1/4 in) or to the centimetre (0.97 m).
func FormatTape(metres float64, u Unit) string {
	if u == Metres {
		return Number(metres, 2) + " m"
	}
	return feetInches(metres, 4)
}

// FormatFeet writes a length as decimal feet or metres for narrow tables and
// axes: 52 ft, 15.8 m.
func FormatFeet(metres float64, u Unit, decimals int) string {
	return Number(InUnit(metres, u), decimals) + map[Unit]string{Feet: " ft", Metres: " m"}[u]
}

// InUnit is a length in feet or metres.
func InUnit(metres float64, u Unit) float64 {
	if u == Metres {
		return metres
	}
	return metres / metresPerFoot
}

// FromUnit is a length given in feet or metres, in metres.
func FromUnit(x float64, u Unit) float64 {
	if u == Metres {
		return x
	}
	return x * metresPerFoot
}

func feetInches(metres float64, parts int64) string {
	if math.IsNaN(metres) || math.Abs(metres) > 1e12 {
		return "–"
	}
	n := int64(math.Round(math.Abs(metres) / metresPerInch * float64(parts)))
	feet, n := n/(12*parts), n%(12*parts)
	inches, n := n/parts, n%parts
	out := ""
	if feet > 0 {
		out = Number(float64(feet), 0) + " ft"
	}
	if inches > 0 || n > 0 || feet == 0 {
		in := ""
		if inches > 0 || n == 0 {
			in = strconv.FormatInt(inches, 10)
		}
		if n > 0 {
			a, b := n, parts
			for a%2 == 0 {
				a, b = a/2, b/2
			}
			in = strings.TrimSpace(in + " " + strconv.FormatInt(a, 10) + "/" + strconv.FormatInt(b, 10))
		}
		out = strings.TrimSpace(out + " " + in + " in")
	}
	if metres < 0 && out != "0 in" {
		return "-" + out
	}
	return out
}
