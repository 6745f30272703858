package checks

import "math"

// Check is one figure of somebody else beside ours.
type Check struct {
	Group  string // position, sunrise and sunset, extraterrestrial …
	What   string // the case, in words
	Source string // who published it
	// Status is how the figure came to us: "read" in the source or a text
	// quoting it, "computed" by another program or by plain arithmetic, or
	// "from memory" of the source.
	Status                 string
	Expected, Ours, Within float64
	Unit                   string // "" for a plain number
}

// Status words.
const (
	read       = "read"
	computed   = "computed"
	fromMemory = "from memory"
)

// Difference of ours from the expected.
func (c Check) Difference() float64 { return c.Ours - c.Expected }

// Passes if the difference is no larger than Within.
func (c Check) Passes() bool { return math.Abs(c.Difference()) <= c.Within }

// All checks, computed now. It fails only if a reference file cannot be read.
//
// A new group is a file of its own with one function, listed here.
func All() ([]Check, error) {
	all := []Check{}
	for _, group := range []func() ([]Check, error){
		positions, events, extraterrestrial, clearSky, split, tiltedPlane, standardDays, Synthesis,
	} {
		checks, err := group()
		if err != nil {
			return nil, err
		}
		all = append(all, checks...)
	}
	return all, nil
}

// list of checks of one group, each from the source named last.
type list struct {
	checks                []Check
	group, source, status string
}

func (l *list) from(source, status string) { l.source, l.status = source, status }

func (l *list) add(what string, expected, ours, within float64, unit string) {
	l.checks = append(l.checks, Check{l.group, what, l.source, l.status, expected, ours, within, unit})
}
