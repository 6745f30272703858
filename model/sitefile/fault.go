package sitefile

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// Fault is one thing wrong, or worth a second look, in a site file.
type Fault struct {
	File    string
	Line    int    // 1-based; 0 where the fault has no place in the file
	Column  int    // 1-based
	Path    string // house.windows[W2].left: ids where there are any, else counted from 1
	Wrong   string // what is wrong
	Right   string // what would be right; may be empty
	Warning bool   // the file can be used as it stands

	remark bool   // Right is a remark, not text to write
	also   string // where else the same is wrong
}

// String is the fault on one line: site.yaml:14:9: house.windows[W2].left:
// "3 fot" is not a length; write 17 ft 6 in …
func (f Fault) String() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", f.Line, f.Column)
	}
	b.WriteString(": ")
	if f.Warning {
		b.WriteString("look again: ")
	}
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	b.WriteString(f.Wrong)
	switch {
	case f.Right == "":
	case f.remark:
		b.WriteString(" (" + f.Right + ")")
	default:
		b.WriteString("; write " + f.Right)
	}
	if f.also != "" {
		b.WriteString(" (the same on " + f.also + ")")
	}
	return b.String()
}

// Wrong counts the faults that are more than warnings. A site may be used
// only where there are none.
func Wrong(faults []Fault) int {
	wrong := 0
	for _, f := range faults {
		if !f.Warning {
			wrong++
		}
	}
	return wrong
}

// mostFaults is how many faults, and how many warnings, are told.
const mostFaults = 200

func (r *reader) fault(at spot, right, format string, args ...any) {
	r.report(at, false, right, format, args...)
}

func (r *reader) warn(at spot, right, format string, args ...any) {
	r.report(at, true, right, format, args...)
}

// remark tells what is wrong with a remark about it in place of text to write.
func (r *reader) remark(at spot, warning bool, about, format string, args ...any) {
	before := len(r.faults)
	r.report(at, warning, about, format, args...)
	if len(r.faults) > before {
		r.faults[before].remark = true
	}
}

func (r *reader) report(at spot, warning bool, right, format string, args ...any) {
	wrong := fmt.Sprintf(format, args...)
	if r.toldBefore(at, warning, wrong, right) {
		return
	}
	told := r.told[warning]
	if r.told[warning]++; told > mostFaults {
		return
	}
	f := Fault{File: r.file, Line: at.line, Column: at.column, Path: at.shown, Wrong: wrong, Right: right, Warning: warning}
	if told == mostFaults {
		f = Fault{File: r.file, Wrong: "there are more like these; mend these first", Line: at.line, Column: at.column, Warning: warning}
	}
	r.faults = append(r.faults, f)
	if !warning {
		r.faulty[at.path] = true
	}
}

func (r *reader) sorted() []Fault {
	r.tellTwins()
	sort.SliceStable(r.faults, func(i, j int) bool {
		if r.faults[i].Line != r.faults[j].Line {
			return r.faults[i].Line < r.faults[j].Line
		}
		return r.faults[i].Column < r.faults[j].Column
	})
	return slices.Compact(r.faults) // said once
}
