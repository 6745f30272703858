package measure

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

const (
	dateRight  = "20 Apr, April 20 or 04-20"
	monthRight = "October to April, or a list such as [Oct, Nov, Dec]"
)

var (
	dayMonthPattern = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?\.? ?(?:of )?([a-z]+)\.?$`)
	monthDayPattern = regexp.MustCompile(`^([a-z]+)\.? ?(\d{1,2})(?:st|nd|rd|th)?$`)
	numericPattern  = regexp.MustCompile(`^(?:--)?(\d{1,2})-(\d{1,2})$`)
)

// ParseDate reads a day of the year without a year as 1..365 (29 February is
// taken as the 28th): 20 Apr, April 20, 04-20 (month first).
func ParseDate(s string) (int, error) {
	t, err := tidy(s, "a date", dateRight)
	if err != nil {
		return 0, err
	}
	var month time.Month
	var day int
	if m := dayMonthPattern.FindStringSubmatch(t); m != nil {
		month, day = monthNamed(m[2]), int(atof(m[1]))
	} else if m := monthDayPattern.FindStringSubmatch(t); m != nil {
		month, day = monthNamed(m[1]), int(atof(m[2]))
	} else if m := numericPattern.FindStringSubmatch(t); m != nil {
		month, day = time.Month(atof(m[1])), int(atof(m[2]))
	}
	if month < 1 || month > 12 {
		return 0, wrong(dateRight, "%q is not a date", s)
	}
	last := time.Date(2023, month+1, 0, 0, 0, 0, 0, time.UTC).Day()
	if month == time.February && day == 29 {
		day = 28
	}
	if day < 1 || day > last {
		return 0, wrong(dateRight, "%s has %d days, so %q is no day of it", month, last, s)
	}
	return dayOfYear(month, day), nil
}

// dayOfYear is the day of a 365-day year, 1..365.
func dayOfYear(month time.Month, day int) int {
	return time.Date(2023, month, day, 0, 0, 0, 0, time.UTC).YearDay()
}

// FormatDate writes a day of the year as people say it: 20 Apr.
func FormatDate(day int) string {
	return time.Date(2023, 1, day, 0, 0, 0, 0, time.UTC).Format("2 Jan")
}

func monthNamed(s string) time.Month {
	if len(s) < 3 {
		return 0
	}
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		if strings.HasPrefix(name, s) || (s == "sept" && m == time.September) {
			return m
		}
	}
	return 0
}

// ParseMonths reads one month or a span of months, which may run over the new
// year: October, Oct to Apr, Oct-Apr, 10-4.
func ParseMonths(s string) ([]time.Month, error) {
	t, err := tidy(s, "months", monthRight)
	if err != nil {
		return nil, err
	}
	t = strings.NewReplacer(" through ", "-", " until ", "-", " to ", "-", ".", "", " ", "").Replace(t)
	from, to, span := strings.Cut(t, "-")
	a := monthOf(from)
	b := a
	if span {
		b = monthOf(to)
	}
	if a == 0 || b == 0 {
		return nil, wrong(monthRight, "%q does not name months", s)
	}
	out := []time.Month{a}
	for m := a; m != b; {
		m = m%12 + 1
		out = append(out, m)
	}
	return out, nil
}

func monthOf(s string) time.Month {
	if n, err := strconv.Atoi(s); err == nil && n >= 1 && n <= 12 {
		return time.Month(n)
	}
	return monthNamed(s)
}
