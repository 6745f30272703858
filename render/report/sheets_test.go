package report

import (
	"strings"
	"testing"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

func TestWordsOnPaperNeitherOverlapNorLeaveNorShrink(t *testing.T) {
	for name, r := range everyReport(t) {
		for _, paper := range ink.Sheets() {
			pages := append(r.sheets(paper), r.committee(paper))
			for n, page := range pages {
				rec := &ink.Record{W: paper.Width, H: paper.Height}
				if err := page.Draw(rec); err != nil {
					t.Fatalf("%s, page %d: %v", name, n+1, err)
				}
				checkPage(t, name+" on "+paper.Name, n+1, rec)
			}
		}
	}
}

func TestNothingOnTheCommitteesPageIsCutShort(t *testing.T) {
	r := example(t)
	for _, paper := range ink.Sheets() {
		rec := &ink.Record{W: paper.Width, H: paper.Height}
		if err := r.committee(paper).Draw(rec); err != nil {
			t.Fatal(err)
		}
		for _, text := range rec.Texts {
			if strings.Contains(text.S, "…") {
				t.Errorf("%s: %q", paper.Name, text.S)
			}
		}
	}
}

func checkPage(t *testing.T, name string, page int, rec *ink.Record) {
	t.Helper()
	bounds := ink.Box{X0: 36, Y0: 24, X1: rec.W - 36, Y1: rec.H - 20}
	for i, a := range rec.Texts {
		if a.T.Size < render.SmallSize {
			t.Errorf("%s, page %d: %q is lettered at %.1f points", name, page, a.S, a.T.Size)
		}
		if !a.Box.Inside(bounds) {
			t.Errorf("%s, page %d: %q leaves the page: %.0f", name, page, a.S, a.Box)
		}
		for _, b := range rec.Texts[i+1:] {
			x, y := shrunk(a.Box), shrunk(b.Box)
			if x.Meets(y) && a.S != b.S {
				t.Errorf("%s, page %d: %q and %q overlap", name, page, a.S, b.S)
			}
		}
	}
}

// shrunk takes a point off a box: letters may all but touch.
func shrunk(b ink.Box) ink.Box {
	return ink.Box{X0: b.X0 + 1, Y0: b.Y0 + 1, X1: b.X1 - 1, Y1: b.Y1 - 1}
}

func TestTableNarrowsWordsBeforeFigures(t *testing.T) {
	x := &table{Columns: []column{words("tree"), words("remarks"), figure("kWh"), figure("cost")}}
	x.add("T1", "a long remark about wires, roots, the neighbour's consent and the state of the trunk, which goes on and on", "12,345", "$1,250")
	s := measureTable(x, 200)
	if total(s.widths, s.gap) > 200.5 {
		t.Errorf("the table is %.0f points wide, want 200", total(s.widths, s.gap))
	}
	if n := len(s.lines("12,345", 2, false)); n != 1 {
		t.Errorf("a figure takes %d lines", n)
	}
	if n := len(s.lines(x.Rows[0][1], 1, false)); n < 2 {
		t.Errorf("the remark takes %d lines", n)
	}
}

func TestCommitteeGetsThreeFigures(t *testing.T) {
	r := example(t)
	if got := r.figures(); len(got) != 3 {
		t.Errorf("got %d figures: %v", len(got), got)
	}
}
