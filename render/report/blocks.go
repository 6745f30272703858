package report

import "github.com/southyard/southyard/render/ink"

// section is a chapter of the report.
type section struct {
	Name   string // for links within the page
	Title  string
	Own    bool // begins on a new page
	Whole  bool // no picture of the section before it comes between its words
	Blocks []block
}

// block is one thing set below the other.
type block interface{ block() }

type (
	// lead is the answer, in large letters.
	lead string
	// subtitle heads part of a section.
	subtitle string
	// paragraph is plain text; note is a small one, under a table.
	paragraph string
	note      string
	// list is set with dashes.
	list []string
	// fine is a list in small letters.
	fine []string
	// blanks are lines to fill in by hand.
	blanks []string
	// listing is a file as it stands, line by line.
	listing []string
	// picture is one drawing, and the shares of its height that it is drawn at on
	// paper: its usual, and the least so as to end on the page in hand.
	picture struct {
		ink.Figure
		Usual, Least float64
	}
	// gallery is photographs side by side.
	gallery []Photo
)

// table is rows of words and figures under heads.
type table struct {
	Columns []column
	Rows    [][]string
	Strong  map[int]bool // rows in bold
	Small   bool         // many columns: the smallest lettering
	Tight   bool         // much text: the smallest lettering, the first column narrow
}

// column of a table. Figures stand to the right, words to the left.
type column struct {
	Head  string
	Words bool
}

func (lead) block()      {}
func (subtitle) block()  {}
func (paragraph) block() {}
func (note) block()      {}
func (list) block()      {}
func (fine) block()      {}
func (blanks) block()    {}
func (listing) block()   {}
func (picture) block()   {}
func (gallery) block()   {}
func (*table) block()    {}

func words(head string) column  { return column{head, true} }
func figure(head string) column { return column{head, false} }

func (t *table) add(cells ...string) { t.Rows = append(t.Rows, cells) }

// strong adds a row in bold.
func (t *table) strong(cells ...string) {
	if t.Strong == nil {
		t.Strong = map[int]bool{}
	}
	t.Strong[len(t.Rows)] = true
	t.add(cells...)
}
