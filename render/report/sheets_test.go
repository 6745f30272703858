package report

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
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

func TestPicturesBeginAtTheTextsMargin(t *testing.T) {
	r := example(t)
	r.Full = true
	for _, paper := range ink.Sheets() {
		for n, page := range append(r.sheets(paper), r.committee(paper)) {
			rec := &ink.Record{W: paper.Width, H: paper.Height}
			if err := page.Draw(rec); err != nil {
				t.Fatal(err)
			}
			for _, text := range rec.Texts {
				if text.Box.X0 < side-0.5 {
					t.Errorf("%s, page %d: %q begins %.1f points left of the margin", paper.Name, n+1, text.S, side-text.Box.X0)
				}
			}
		}
	}
}

// pair is before and after, as a report sets them.
func pair(t *testing.T, height float64) picture {
	t.Helper()
	p := drawn(portfolio.Picture{Name: "plan-1", Picture: render.Pair{Left: render.Bars{}, Right: render.Bars{}}})
	p.Figure = ink.Figure{Width: render.PageWidth, Height: height, Title: fmt.Sprintf("pair %.0f high", height), Draw: func(p ink.Page) error { p.Text(9, 9, "drawn", noteType); return nil }}
	return p
}

func TestTwoPairsGoOnAPageWhereTheyFit(t *testing.T) {
	for _, c := range []struct{ height, pages float64 }{{300, 2}, {400, 2}, {480, 2}, {640, 4}} {
		f := &flow{paper: ink.Sheets()[0]}
		f.turn()
		for range 4 {
			f.picture(pair(t, c.height))
		}
		f.flush()
		if got := float64(len(f.pages)); got != c.pages {
			t.Errorf("four pairs %.0f points high take %.0f pages, want %.0f", c.height, got, c.pages)
		}
	}
}

func TestRowsAndLowFacesWithCollectorsAreDrawnWhole(t *testing.T) {
	face := render.FaceMap{Outline: orb.MultiPolygon{{{{0, 0}, {8, 0}, {8, 3}, {0, 3}, {0, 0}}}}, Ground: math.NaN()}
	taped := face
	taped.Collectors = []render.Collector{{ID: "heater 1", FromLeft: "2 m", Up: "0.2 m"}}
	for _, c := range []struct {
		name  string
		p     render.Picture
		whole bool
	}{{"rows", render.Removals{}, true}, {"doubts", render.Tornado{}, true}, {"collectors", taped, true}, {"face", face, false}} {
		if d := drawn(portfolio.Picture{Picture: c.p}); (d.Usual == 1 && d.Least == 1) != c.whole {
			t.Errorf("%s: drawn at %.2f of %.0f points, %.2f at least", c.name, d.Usual, d.Height, d.Least)
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

func TestTitleOfTheSiteFileStandsWithItsLines(t *testing.T) {
	paper := ink.Sheets()[0]
	for _, used := range []float64{100, 300, 400, 450, 500, 550, 600, 650} {
		f := &flow{paper: paper}
		f.turn()
		f.y = used
		rows := make(listing, 120)
		for i := range rows {
			rows[i] = "key: value"
		}
		f.section(section{Title: "The site file", Blocks: []block{paragraph("All above follows from these lines."), rows}})
		for n, page := range f.pages {
			rec := &ink.Record{W: paper.Width, H: paper.Height}
			for _, mark := range page.marks {
				if err := mark(rec); err != nil {
					t.Fatal(err)
				}
			}
			said := map[string]bool{}
			for _, w := range rec.Texts {
				said[w.S] = true
			}
			if said["The site file"] && !said["key: value"] {
				t.Errorf("from %.0f points down: page %d has the title without a line", used, n+1)
			}
		}
	}
}

func TestPagesOfPicturesAreFilled(t *testing.T) {
	r := example(t)
	r.Full = true
	paper := ink.Sheets()[0]
	pages := r.sheets(paper)
	bare := 0
	for _, page := range pages {
		rec := &ink.Record{W: paper.Width, H: paper.Height}
		if err := page.Draw(rec); err != nil {
			t.Fatal(err)
		}
		if low := lowest(rec, paper); low < 0.76*paper.Height {
			bare++
		}
	}
	if bare > 2 { // at the end of a section or of the file
		t.Errorf("%d of %d pages leave a quarter of the paper bare", bare, len(pages))
	}
}

// lowest is how far down the words of a page reach above its foot.
func lowest(rec *ink.Record, paper ink.Sheet) (low float64) {
	for _, w := range rec.Texts {
		if w.Box.Y1 < paper.Height-foot+6 {
			low = max(low, w.Box.Y1)
		}
	}
	return low
}
