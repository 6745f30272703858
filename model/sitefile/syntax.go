package sitefile

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

var errorLine = regexp.MustCompile(`line (\d+): (.*)`)

// syntaxHelp says in plain words what the YAML library means.
var syntaxHelp = []struct{ says, wrong, right string }{
	{"mapping values are not allowed", "a colon stands where none can be", `the value in quotes if it has a colon in it, as in note: "gate: keep clear", and every key of one level straight below the other`},
	{"did not find expected ',' or '}'", "a { is not closed, or a comma is missing between two values", "{width: 32 in, height: 60 in}"},
	{"did not find expected ',' or ']'", "a [ is not closed, or a comma is missing between two values", "[[0, 0], [40, 0], [40, 115]]"},
	{"did not find expected key", "this line does not fit what stands above it: a key of the same level must begin in the same column, and a quote must be closed", "every key of one level straight below the other"},
	{"did not find expected '-' indicator", "this line does not fit the list it stands in: every - of one list begins in the same column, with a space after it", "every - straight below the other"},
	{"could not find expected ':'", "a key has no colon, or no space after it", "height: 52 ft"},
	{"found character that cannot start any token", "a value begins with a character that has another meaning here (@, `, % or a tab)", `it in quotes, as in "@ the gate"`},
	{"found unexpected end of stream", "a quote or bracket that was opened is never closed", "the closing quote or bracket"},
	{"unknown anchor", "a value begins with *", "it in quotes, or written out"},
}

func (r *reader) syntax(data []byte, err error) {
	text, line := strings.TrimPrefix(err.Error(), "yaml: "), 0
	if m := errorLine.FindStringSubmatch(text); m != nil {
		line, _ = strconv.Atoi(m[1])
		text = m[2]
	}
	if n := firstBadLine(data); n > 0 { // the library tells where the thing begins that it could not end
		line = n
	}
	at := spot{line: max(1, line), column: 1}
	for _, h := range syntaxHelp {
		if strings.Contains(text, h.says) {
			r.fault(at, h.right, "near this line, %s", h.wrong)
			return
		}
	}
	r.fault(at, "", "near this line the file cannot be read: %s", short(text))
}

// firstBadLine is the line, from 1, with which a file stops to read: the lines
// before it read, and however many more are taken they do not. 0 where it
// cannot be told, or the file is too long to try.
func firstBadLine(data []byte) int {
	const (
		longest = 1 << 18 // bytes
		opened  = 12      // lines a value in brackets may stay open
	)
	if len(data) > longest {
		return 0
	}
	lines := bytes.SplitAfter(data, []byte("\n"))
	readsSoon := func(n int) bool { // a bracket that is open at line n may close a few lines on
		for last := min(len(lines), n+opened); n <= last; n++ {
			if err := decode(yaml.NewDecoder(bytes.NewReader(bytes.Join(lines[:n], nil))), new(yaml.Node)); err == nil || errors.Is(err, io.EOF) {
				return true
			}
		}
		return false
	}
	bad := 1 + sort.Search(len(lines), func(n int) bool { return !readsSoon(n + 1) })
	if bad > len(lines) {
		return 0
	}
	for bad < len(lines) {
		body := bytes.TrimSpace(lines[bad-1])
		if len(body) > 0 && body[0] != '#' {
			break
		}
		bad++
	}
	return bad
}
