package lots

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
)

// How a sheet may be ordered.
const (
	ByAfter = "after" // most winter sun after the best affordable plan first
	ByNow   = "now"   // most winter sun as it stands first
)

// Row is a lot on the sheet.
type Row struct {
	Rank int    `json:"rank"` // from 1; 0 on a part, which ranks nothing
	File string `json:"file"`
	Key  string `json:"key"` // names the lot's own file of results
	Record
}

// Failure is a file that could not be studied.
type Failure struct {
	File   string   `json:"file"`
	Faults []string `json:"faults"` // the first few
	More   int      `json:"more_faults,omitempty"`
}

// mostFaults of one file are kept.
const mostFaults = 8

// Failed makes a failure, keeping the first faults.
func Failed(file string, faults ...string) Failure {
	f := Failure{File: file, Faults: faults}
	if len(faults) > mostFaults {
		f.Faults, f.More = slices.Clone(faults[:mostFaults]), len(faults)-mostFaults
	}
	return f
}

// Sheet is a list of lots, or a part of one.
type Sheet struct {
	Version int     `json:"version"`
	Program string  `json:"program"`
	Options Options `json:"options"`
	Part
	Files  int       `json:"files"`     // in the whole list
	List   string    `json:"list_hash"` // of the whole list of names
	By     string    `json:"ordered_by"`
	Lots   []Row     `json:"lots"`
	Failed []Failure `json:"could_not_be_studied"`
}

// ListHash tells one list of files from another.
func ListHash(files []string) string {
	sum := sha256.Sum256([]byte(strings.Join(files, "\x00")))
	return hex.EncodeToString(sum[:8])
}

// CheckOrder reports an order that has no meaning.
func CheckOrder(by string) error {
	if by != ByAfter && by != ByNow {
		return fmt.Errorf("--by %s: lots are ordered by %s (sun after the best affordable plan) or %s (sun as they stand)", by, ByAfter, ByNow)
	}
	return nil
}

// Order ranks the lots: by season sun a square metre, most first; of equals
// the cheaper, then by name. Failures are ordered by file.
func (s *Sheet) Order(by string) {
	s.By = by
	slices.SortFunc(s.Lots, func(a, b Row) int {
		sun := cmp.Compare(b.After, a.After)
		if by == ByNow {
			sun = cmp.Compare(b.Now, a.Now)
		}
		return cmp.Or(sun, cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Name, b.Name), cmp.Compare(a.File, b.File))
	})
	for i := range s.Lots {
		s.Lots[i].Rank = i + 1
	}
	slices.SortFunc(s.Failed, func(a, b Failure) int { return cmp.Compare(a.File, b.File) })
}

// Merge joins the parts of one list. It says which parts are missing, named
// twice with different content, or made from other options, another list or
// another program; then nothing is joined.
func Merge(parts []Sheet, names []string) (Sheet, error) {
	if len(parts) == 0 {
		return Sheet{}, fmt.Errorf("no parts to join")
	}
	first := parts[0]
	out := Sheet{Version: first.Version, Program: first.Program, Options: first.Options, Part: Whole, Files: first.Files, List: first.List}
	have := map[int]string{}
	var wrong []string
	for k, p := range parts {
		at := names[k]
		switch {
		case p.Version != Version:
			wrong = append(wrong, fmt.Sprintf("%s is of version %d, this program joins version %d", at, p.Version, Version))
		case p.Options.Differs(first.Options) != "":
			wrong = append(wrong, fmt.Sprintf("%s was made with other options than %s: %s", at, names[0], p.Options.Differs(first.Options)))
		case p.Program != first.Program:
			wrong = append(wrong, fmt.Sprintf("%s was made by another build of the program than %s (%s and %s)", at, names[0], p.Program, first.Program))
		case p.N != first.N:
			wrong = append(wrong, fmt.Sprintf("%s is one of %d parts, %s one of %d", at, p.N, names[0], first.N))
		case p.List != first.List || p.Files != first.Files:
			wrong = append(wrong, fmt.Sprintf("%s was made from another list of files than %s (%d and %d files)", at, names[0], p.Files, first.Files))
		case have[p.I] != "":
			wrong = append(wrong, fmt.Sprintf("%s and %s are both part %d of %d", have[p.I], at, p.I, p.N))
		}
		have[p.I] = at
		out.Lots = append(out.Lots, p.Lots...)
		out.Failed = append(out.Failed, p.Failed...)
	}
	if len(wrong) == 0 {
		var missing []string
		for i := 1; i <= first.N; i++ {
			if have[i] == "" {
				missing = append(missing, fmt.Sprint(i))
			}
		}
		if len(missing) > 0 {
			wrong = append(wrong, fmt.Sprintf("of %d parts these are missing: %s; run them, then join again", first.N, strings.Join(missing, ", ")))
		} else if n := len(out.Lots) + len(out.Failed); n != first.Files {
			wrong = append(wrong, fmt.Sprintf("the parts hold %d files, the list had %d", n, first.Files))
		}
	}
	if len(wrong) > 0 {
		return Sheet{}, fmt.Errorf("the parts cannot be joined:\n  %s", strings.Join(wrong, "\n  "))
	}
	return out, nil
}
