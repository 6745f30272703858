package board

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

func square(x, y, w, h float64) orb.Ring {
	return orb.Ring{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}, {x, y}}
}

func page(n int) Page {
	d := Page{Words: render.Words{Title: "Candidate lots", Caption: strings.Repeat("What is shown and what was assumed. ", 8)}}
	for i := range n {
		c := Card{
			Rank: fmt.Sprint(i + 1), Name: fmt.Sprint(10+2*i, " Tanner Street"), Under: "tanner/lot.yaml", Verdict: "good after work",
			Now: 0.4, After: 0.8, Bare: 0.9, Lines: []string{"295, then 422 kWh/m², Oct–Apr", "roof 65 % now, 85 % after", "$4,500: remove T2, T3, T7, T8"},
			Plan: render.LotPlan{PlainTrees: true, Lot: square(0, 0, 12, 35), Buildings: []render.PlanBuilding{{Kind: render.House, Walls: []orb.Ring{square(2, 14, 7, 9)}}}},
		}
		for k := range i % 5 {
			c.Plan.Trees = append(c.Plan.Trees, render.PlanTree{At: orb.Point{3 * float64(k), 4}, SpreadX: 7, SpreadY: 6, Removed: k%2 == 0, Evergreen: k == 1, Owner: "street"})
		}
		d.Cards = append(d.Cards, c)
	}
	return d
}

func awkward() Page {
	d := page(13) // one more than there is room for
	d.Cards[0].Name = strings.Repeat("A very long name of a lot ", 10)
	d.Cards[1].Under = strings.Repeat("folder/", 60) + "lot.yaml"
	d.Cards[2].Lines = []string{strings.Repeat("remove T1, ", 60), strings.Repeat("x", 500), "third", "fourth", "fifth", "sixth", "seventh"}
	d.Cards[3].Rank = "10000"
	d.Cards[4].Plan = render.LotPlan{}
	d.Cards[5].Now, d.Cards[5].After, d.Cards[5].Bare = math.NaN(), 7, -3
	d.Cards[6].Plan.Lot = square(0, 0, 4000, 3)
	d.Cards[7].NotDrawn = 4850
	d.Cards[8].Name, d.Cards[8].Under, d.Cards[8].Lines = "", "", nil
	return d
}

func TestNoWordsOverlapOrLeaveTheBoard(t *testing.T) {
	for name, d := range map[string]Page{"one lot": page(1), "a page": page(12), "awkward lots": awkward(), "none": page(0)} {
		f := d.Figure()
		r := &ink.Record{W: f.Width, H: f.Height}
		if err := d.Draw(r); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(d.Cards) > 0 && len(r.Texts) < 5*min(12, len(d.Cards))-5 {
			t.Errorf("%s: only %d lines of text", name, len(r.Texts))
		}
		sheet := ink.Box{X0: -0.01, Y0: -0.01, X1: f.Width + 0.01, Y1: f.Height + 0.01}
		for i, a := range r.Texts {
			if !a.Box.Inside(sheet) {
				t.Errorf("%s: %q leaves the page", name, a.S)
			}
			for _, b := range r.Texts[:i] {
				if a.Box.Meets(b.Box) {
					t.Errorf("%s: %q and %q overlap", name, a.S, b.S)
				}
			}
		}
		for _, b := range r.Inked {
			if !b.Inside(ink.Box{X0: -1, Y0: -1, X1: f.Width + 1, Y1: f.Height + 1}) {
				t.Errorf("%s: ink leaves the page: %+v", name, b)
			}
		}
	}
}

func TestBoardFitsALetterSheetAndA4(t *testing.T) {
	f := page(Columns * Rows).Figure()
	if f.Width > ink.A4Width-72 || f.Height > ink.LetterHeight-72 {
		t.Errorf("%.0f × %.0f points", f.Width, f.Height)
	}
}

func TestSameBoardSameBytes(t *testing.T) {
	draw := func() []byte {
		var b bytes.Buffer
		if err := ink.WritePNG(&b, page(12).Figure(), 72); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	if !bytes.Equal(draw(), draw()) {
		t.Error("two drawings differ")
	}
}

func TestBoardRefusesASmallPage(t *testing.T) {
	if err := page(3).Draw(&ink.Record{W: 200, H: 200}); err == nil {
		t.Error("drawn on a page that is too small")
	}
}

func TestPathsKeepTheirEnd(t *testing.T) {
	got := fitTail("/a/long/way/down/to/alder-row/site.yaml", 90, letters(7))
	if !strings.HasPrefix(got, "…") || !strings.HasSuffix(got, "/site.yaml") || ink.Width(got, 7, ink.Regular) > 90 {
		t.Errorf("%q", got)
	}
	if got := fitTail("site.yaml", 90, letters(7)); got != "site.yaml" {
		t.Errorf("%q", got)
	}
}
