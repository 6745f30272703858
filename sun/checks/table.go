package checks

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Markdown is the table of checks as a page.
func Markdown(all []Check) string {
	var b strings.Builder
	passed := 0
	for _, c := range all {
		if c.Passes() {
			passed++
		}
	}
	fmt.Fprintf(&b, `# Sun and sky beside the figures of others

Made by `+"`go test ./sun/checks -update`"+`; `+"`go test`"+` fails if a check fails or this page is out of date.
%d checks, %d within their bound.

How a figure came to us: **read** in the source or in a text that quotes it; **computed** by another program or
by plain arithmetic from the published formula; **from memory** of the source, so likely and not proven.
The bound is set by what the figure is worth: its printed digits, or the known spread of its kind.
`, len(all), passed)
	group := ""
	for _, c := range all {
		if c.Group != group {
			group = c.Group
			fmt.Fprintf(&b, "\n## %s\n\n| check | source | how | expected | ours | difference | bound |\n|---|---|---|--:|--:|--:|--:|\n", group)
		}
		mark := ""
		if !c.Passes() {
			mark = " **outside**"
		}
		unit := ""
		if c.Unit != "" {
			unit = " " + c.Unit
			if c.Unit == "°" {
				unit = c.Unit
			}
		}
		places := places(c.Within)
		fmt.Fprintf(&b, "| %s | %s | %s | %s%s | %s | %s%s | %s |\n", c.What, c.Source, c.Status,
			trimmed(number(c.Expected, places)), unit, number(c.Ours, places),
			number(c.Difference(), places), mark, strconv.FormatFloat(c.Within, 'g', 3, 64))
	}
	return b.String()
}

// places after the point that show a tenth of the bound.
func places(within float64) int {
	if within <= 0 {
		return 3
	}
	return max(0, int(math.Ceil(-math.Log10(within)))+1)
}

// trimmed of zeros the source did not print.
func trimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

func number(v float64, places int) string {
	text := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" { // no "-0.00"
		text = strings.TrimPrefix(text, "-")
	}
	return text
}
