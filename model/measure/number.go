package measure

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Numbers as people write them: 1,900 / 6 1/2 / 3-1/2 / 5/8 / .75
var (
	mixedPattern   = regexp.MustCompile(`^(\d{1,9})(?: |-| - )(\d{1,4}) ?/ ?(\d{1,4})`)
	ratioPattern   = regexp.MustCompile(`^(\d{1,4}) ?/ ?(\d{1,4})`)
	decimalPattern = regexp.MustCompile(`^(\d{1,3}(?:,\d{3})+|\d{1,12})(\.\d{0,15})?|^\.\d{1,15}`)
)

// number reads the number s begins with and gives back what follows it.
func number(s string) (value float64, rest string, ok bool) {
	if m := mixedPattern.FindStringSubmatch(s); m != nil {
		n, a, b := atof(m[1]), atof(m[2]), atof(m[3])
		if b == 0 || a >= b {
			return 0, s, false
		}
		return n + a/b, s[len(m[0]):], cleanEnd(s[len(m[0]):])
	}
	if m := ratioPattern.FindStringSubmatch(s); m != nil {
		a, b := atof(m[1]), atof(m[2])
		if b == 0 {
			return 0, s, false
		}
		return a / b, s[len(m[0]):], cleanEnd(s[len(m[0]):])
	}
	m := decimalPattern.FindString(s)
	if m == "" {
		return 0, s, false
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(m, ",", ""), 64)
	return v, s[len(m):], err == nil && cleanEnd(s[len(m):])
}

// cleanEnd refuses a number that runs on into more digits, as in 1,90 or
// 5.3.2: what is meant cannot be told.
func cleanEnd(rest string) bool {
	return rest == "" || !strings.ContainsRune(",./0123456789", rune(rest[0]))
}

func atof(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64) // digits only, by the patterns above
	return v
}

// sign takes a leading sign off.
func sign(s string) (float64, string) {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return -1, strings.TrimSpace(rest)
	}
	return 1, strings.TrimSpace(strings.TrimPrefix(s, "+"))
}

const numberRight = "a plain number such as 4, 0.35 or 1,900"

// ParseNumber reads a bare number with no unit: 4, 0.35, 1,900, 2 1/2, -3.
func ParseNumber(s string) (float64, error) {
	t, err := tidy(s, "a number", numberRight)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	v, rest, ok := number(t)
	if !ok || rest != "" {
		return 0, wrong(numberRight, "%q is not a number", s)
	}
	return sg * v, nil
}

// ParseCount reads a whole number from 0 to most.
func ParseCount(s string, most int) (int, error) {
	v, err := ParseNumber(s)
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) || v < 0 || v > float64(most) {
		return 0, wrong("a whole number from 0 to "+Number(float64(most), 0), "%q is out of range", s)
	}
	return int(v), nil
}

// Number is the one way numbers are written for people: the given count of
// decimals, commas between thousands, no minus before zero, and a dash where
// there is no number at all.
func Number(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	s := strconv.FormatFloat(math.Abs(x), 'f', max(0, decimals), 64)
	whole, frac, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if frac != "" {
		whole += "." + frac
	}
	if x < 0 && strings.Trim(s, "0.") != "" {
		return "-" + whole
	}
	return whole
}

// Count writes how many there are of a thing whose plural takes an s: 1 corner,
// 2 corners.
func Count(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return Number(float64(n), 0) + " " + thing
}

// Significant rounds x to n significant digits, so that a figure shows no
// more than is known: Significant(1234, 3) is 1230.
func Significant(x float64, n int) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if places > 300 || places < -300 {
		return x
	}
	v, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', max(0, n-1), 64), 64)
	if err != nil {
		return x
	}
	return v
}

// FormatSignificant writes x with n significant digits and no needless zeros
// in front of a reader: 1,230, 12.3, 0.123.
func FormatSignificant(x float64, n int) string {
	r := Significant(x, n)
	if r == 0 || math.IsNaN(r) || math.IsInf(r, 0) {
		return Number(r, 0)
	}
	return Number(r, max(0, min(12, n-1-int(math.Floor(math.Log10(math.Abs(r)))))))
}
