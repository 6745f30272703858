package measure

import (
	"math"
	"strings"
)

const (
	moneyRight = "$1,900 or 1900"
	shareRight = "35 % or 0.35"
	rateRight  = "3 % or 0.03"
)

// ParseMoney reads dollars, 0 to a thousand million: $1,900, 1900, 1.9k.
func ParseMoney(s string) (float64, error) {
	t, err := tidy(s, "an amount of money", moneyRight)
	if err != nil {
		return 0, err
	}
	t = strings.TrimPrefix(strings.TrimPrefix(t, "usd"), "us")
	t = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(t), "$"))
	v, rest, ok := number(t)
	scale, known := map[string]float64{"": 1, "$": 1, "dollars": 1, "dollar": 1, "usd": 1, "k": 1000}[strings.TrimSpace(rest)]
	if !ok || !known {
		return 0, wrong(moneyRight, "%q is not an amount of money", s)
	}
	if v *= scale; v > 1e9 {
		return 0, wrong(moneyRight, "%q is too much money", s)
	}
	return v, nil
}

// ParseShare reads a share of a whole, 0..1: 35 %, 0.35.
func ParseShare(s string) (float64, error) {
	v, err := percent(s, "a share", shareRight)
	if err != nil {
		return 0, err
	}
	if v < 0 || v > 1 {
		n := strings.TrimSpace(s)
		return 0, wrong("a share from 0 to 1, or from 0 % to 100 %", "%q is not between nothing and all of it", n)
	}
	return v, nil
}

// ParseRate reads a yearly rate, -0.5..1: 3 %, 0.03, -1 %.
func ParseRate(s string) (float64, error) {
	v, err := percent(s, "a yearly rate", rateRight)
	if err != nil {
		return 0, err
	}
	if v < -0.5 || v > 1 {
		return 0, wrong(rateRight, "%q is out of range for a yearly rate", s)
	}
	return v, nil
}

func percent(s, what, right string) (float64, error) {
	t, err := tidy(s, what, right)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	v, rest, ok := number(t)
	if !ok {
		return 0, wrong(right, "%q is not %s", s, what)
	}
	switch strings.TrimSpace(rest) {
	case "":
	case "%", "percent", "per cent":
		v /= 100
	default:
		return 0, wrong(right, "%q is not %s", s, what)
	}
	return sg * v, nil
}

// FormatMoney writes dollars to the dollar, and small sums with three
// significant digits: a quote and a budget are read as they were stated, and
// sums agree with their parts. What is estimated is rounded where it is made.
func FormatMoney(dollars float64) string {
	if math.Abs(dollars) < 1000 {
		dollars = Significant(dollars, 3)
	}
	return FormatMoneyExact(dollars)
}

// FormatMoneyExact writes dollars in full, for prices somebody quoted: cents
// only where there are any.
func FormatMoneyExact(dollars float64) string {
	decimals := 0
	if r := math.Abs(dollars); math.Abs(r-math.Round(r)) > 0.004 && r < 1000 {
		decimals = 2
	}
	n := Number(dollars, decimals)
	if rest, minus := strings.CutPrefix(n, "-"); minus {
		return "-$" + rest
	}
	if n == "–" {
		return n
	}
	return "$" + n
}

// FormatPercent writes a share as a percent with the given decimals: 35 %.
func FormatPercent(share float64, decimals int) string { return Number(share*100, decimals) + " %" }
