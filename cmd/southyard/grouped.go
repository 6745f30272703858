package main

import (
	"fmt"
	"strconv"
	"strings"
)

// grouped joins subjects that share their first word, and names that count up:
// tree T1 to T5, T8, window W1.
func grouped(subjects []string) string {
	var out []string
	for i := 0; i < len(subjects); {
		kind, name, cut := strings.Cut(subjects[i], " ")
		names := []string{name}
		i++
		for ; cut && i < len(subjects); i++ {
			next, more, cut := strings.Cut(subjects[i], " ")
			if !cut || next != kind {
				break
			}
			names = append(names, more)
		}
		if !cut {
			out = append(out, kind)
			continue
		}
		out = append(out, kind+" "+strings.Join(runs(names), ", "))
	}
	return strings.Join(out, ", ")
}

// runs writes four names or more that count up as the first to the last.
func runs(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		n := 1
		for i+n < len(names) && names[i+n] == after(names[i+n-1]) {
			n++
		}
		if n >= 4 {
			out = append(out, names[i]+" to "+names[i+n-1])
		} else {
			out = append(out, names[i:i+n]...)
		}
		i += n
	}
	return out
}

// after is the name that counts on from one: T10 after T9, T08 after T07;
// nothing where a name does not end in a number.
func after(name string) string {
	digits := name[len(strings.TrimRight(name, "0123456789")):]
	n, err := strconv.Atoi(digits)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%s%0*d", strings.TrimSuffix(name, digits), len(digits), n+1)
}

// foldAt is the width of a list in a table.
const foldAt = 70

// folded breaks a list at its commas into lines of a table.
func folded(list string) []string {
	lines := []string{""}
	for i, part := range strings.SplitAfter(list, ", ") {
		last := &lines[len(lines)-1]
		if i > 0 && len(*last)+len(strings.TrimSpace(part)) > foldAt {
			lines = append(lines, "")
			last = &lines[len(lines)-1]
		}
		*last += part
	}
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return lines
}

// first is a cell of the first line alone.
func first(line int, cell string) string {
	if line > 0 {
		return ""
	}
	return cell
}
