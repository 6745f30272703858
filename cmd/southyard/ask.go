package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/sitefile"
)

// asker asks questions and writes the answers down as a site file. Every
// answer is checked by reading the file so far, so that what is accepted here
// is what the site file accepts.
type asker struct {
	in   *bufio.Scanner
	out  io.Writer
	text strings.Builder

	metric bool // examples and usual answers are in metres
}

// either gives the wording for the interview's unit.
func (a *asker) either(feet, metres string) string {
	if a.metric {
		return metres
	}
	return feet
}

// errNoMoreAnswers ends an interview whose answers ran out.
var errNoMoreAnswers = errors.New("the answers ended before the last question")

// askSite asks for a site and gives the text of its file. Where the answers run
// out, or reading them is stopped, it gives those it has, with errNoMoreAnswers
// or errStopped: nobody walks a lot twice.
func askSite(in io.Reader, out io.Writer) ([]byte, error) {
	a := &asker{in: bufio.NewScanner(in), out: out}
	fmt.Fprintln(out, "The keys asked for are those of the site file and the field sheet. Lengths such as")
	fmt.Fprintln(out, "17 ft 6 in, 32 in or 5.3 m. An empty answer takes what is in [ ], or leaves the value out.")
	fmt.Fprintln(out, "Control-D or Control-C stops and keeps what was answered.")
	for _, part := range []func() error{a.lot, a.house, a.windows, a.keepClear, a.others, a.terrain, a.trees, a.money} {
		switch err := part(); {
		case unfinished(err) && a.text.Len() > 0:
			return []byte(a.text.String() + "# The questions ended here; what follows is to be filled in.\n"), err
		case err != nil:
			return nil, err
		}
	}
	text := []byte(a.text.String())
	if _, faults := sitefile.Read("answers", text); len(faults) > 0 {
		fmt.Fprintln(out, "\nTo look at in the file:")
		for _, f := range faults {
			fmt.Fprintln(out, "  "+f.String())
		}
	}
	return text, nil
}

// unfinished tells of an interview that ended early and whose answers count.
func unfinished(err error) bool {
	return errors.Is(err, errNoMoreAnswers) || errors.Is(err, errStopped)
}

// line reads one answer.
func (a *asker) line(question, usual string) (string, error) {
	if usual != "" {
		question += " [" + usual + "]"
	}
	fmt.Fprint(a.out, question+": ")
	if !a.in.Scan() {
		fmt.Fprintln(a.out)
		switch err := a.in.Err(); {
		case errors.Is(err, errStopped):
			return "", err
		case err != nil:
			return "", fmt.Errorf("cannot read the answer: %w", err)
		}
		return "", errNoMoreAnswers
	}
	answer := strings.TrimSpace(a.in.Text())
	if answer == "" {
		answer = usual
	}
	return answer, nil
}

// until asks until the answer passes, telling why it did not.
func (a *asker) until(question, usual string, check func(string) string) (string, error) {
	for {
		answer, err := a.line(question, usual)
		if err != nil {
			return "", err
		}
		if trouble := check(answer); trouble != "" {
			fmt.Fprintln(a.out, "  "+trouble)
			continue
		}
		return answer, nil
	}
}

// field asks for a value of the site file and writes it under its key, moved
// in by indent. It may be left out unless must is set.
func (a *asker) field(indent, key, question, usual string, must bool) (string, error) {
	answer, err := a.until(question, usual, func(answer string) string {
		if answer == "" {
			if must {
				return key + " cannot be left out"
			}
			return ""
		}
		return a.trouble(indent, key, answer)
	})
	if err == nil && answer != "" {
		a.put(indent, key, answer)
	}
	return answer, err
}

func (a *asker) put(indent, key, answer string) {
	fmt.Fprintf(&a.text, "%s%s: %s\n", indent, key, scalar(answer))
}

// structured answers begin with a bracket and are written as they are.
func structured(answer string) bool {
	return strings.HasPrefix(answer, "[") || strings.HasPrefix(answer, "{")
}

func scalar(answer string) string {
	if structured(answer) {
		return answer
	}
	quoted, err := yaml.Marshal(answer)
	if err != nil {
		return fmt.Sprintf("%q", answer)
	}
	// Numbers, money and lengths read as they stand; the library quotes only
	// what would otherwise be taken for something else.
	text := strings.TrimSpace(string(quoted))
	if strings.Trim(text, `"'`) == answer && plainNumber(answer) {
		return answer
	}
	return text
}

func plainNumber(answer string) bool {
	return answer != "" && strings.Trim(answer, "-0123456789.") == ""
}

// trouble reads the file with the answer in it and tells the first fault on
// the answer's own line; empty where there is none. Faults of earlier lines
// wait for the end: asking this question again would not mend them.
func (a *asker) trouble(indent, key, answer string) string {
	before := a.text.String()
	if strings.ContainsAny(answer, "\r\n") || len(answer) > 300 {
		return "one line of at most 300 characters, please"
	}
	if err := yaml.Unmarshal([]byte(key+": "+scalar(answer)), new(yaml.Node)); err != nil {
		return "a bracket or quote is not closed"
	}
	own := strings.Count(before, "\n") + 1
	_, faults := sitefile.Read("", []byte(before+indent+key+": "+scalar(answer)+"\n"))
	for _, f := range faults {
		if f.Line == own && !f.Warning && !strings.HasSuffix(f.Wrong, "is missing") {
			if f.Right != "" {
				return f.Wrong + "; write " + f.Right
			}
			return f.Wrong
		}
		if f.Line == 0 {
			return f.Wrong
		}
	}
	return ""
}

// yes asks a question with yes or no.
func (a *asker) yes(question string, usual bool) (bool, error) {
	word := map[bool]string{true: "yes", false: "no"}[usual]
	answer, err := a.until(question+" (yes or no)", word, func(s string) string {
		switch strings.ToLower(s) {
		case "y", "yes", "n", "no":
			return ""
		}
		return "yes or no, please"
	})
	return strings.HasPrefix(strings.ToLower(answer), "y"), err
}
