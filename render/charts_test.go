package render

import (
	"math"
	"slices"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

func TestCourseThatEndsAtTheLimitKeepsItsOwnName(t *testing.T) {
	d := Outlook{Words: Words{Title: "Near the limit"}, Unit: "%", Years: []float64{0, 20}, Threshold: 75, ThresholdName: "75 %, often asked", Top: 100,
		Lines: []OutlookLine{{Name: "best set", Values: []float64{80, 75.1}}}}
	said := lettered(t, d)
	for _, name := range []string{"best set", "75 %, often asked"} {
		if !slices.Contains(said, name) {
			t.Errorf("%q is not lettered by itself: %q", name, said)
		}
	}
}

func TestHourWearsTheColourOfTheFigureOnIt(t *testing.T) {
	var d AccessTable
	for m := range d.Share {
		for h := range d.Share[m] {
			d.Share[m][h] = math.NaN()
		}
	}
	d.Share[0][10], d.Share[0][11] = 0.896, 0.904 // both are lettered 90
	p := &fills{Record: ink.Record{W: PageWidth, H: 260}}
	if err := d.Draw(p); err != nil {
		t.Fatal(err)
	}
	breaks := make([]float64, 11)
	if n := p.count[classColour(8, breaks)]; n != 1 { // the legend's own
		t.Errorf("%d cells in the colour of 80 to 90, want none beside the legend's", n)
	}
	if n := p.count[classColour(9, breaks)]; n != 3 {
		t.Errorf("%d cells in the colour of 90 to 100, want two and the legend's", n)
	}
}

// fills counts areas by colour.
type fills struct {
	ink.Record
	count map[ink.Colour]int
}

func (f *fills) Path(p ink.Path, s ink.Style) {
	if f.count == nil {
		f.count = map[ink.Colour]int{}
	}
	f.count[s.Fill]++
	f.Record.Path(p, s)
}

func TestTreeThatGivesTheSameFirstAndLastShowsBothSigns(t *testing.T) {
	if ringRadius < 2.4+light {
		t.Error("the ring does not hold the diamond")
	}
	d := Removals{Words: Words{Title: "Signs"}, Unit: "kWh", Rows: []RemovalRow{{ID: "T1", Alone: 2184, Fair: 2184, Last: 2184, Low: 1600, High: 2600, Cost: "$900"}}}
	if said := lettered(t, d); !slices.Contains(said, "2,180") {
		t.Errorf("the fair share is not lettered: %q", said)
	}
	d.Rows[0].High = 2990 // to the end of the axis: lettered in the bar
	if said := lettered(t, d); !slices.Contains(said, "2,180") {
		t.Errorf("the fair share of a range to the axis' end is not lettered: %q", said)
	}
}

func TestStepsTooNearToTellApartAreNotNamed(t *testing.T) {
	d := BudgetCurve{Words: Words{Title: "Near steps"}, Unit: "kWh", Budget: 9000, Steps: []BudgetStep{
		{Cost: 1000, Gain: 100, Set: "first"}, {Cost: 4000, Gain: 500, Set: "apart"},
		{Cost: 6950, Gain: 830, Set: "lower twin"}, {Cost: 7150, Gain: 870, Set: "upper twin"},
		{Cost: 9000, Gain: 1200, Set: "last"},
	}}
	said := lettered(t, d)
	for _, name := range []string{"first", "apart", "last: best within budget"} {
		if !slices.Contains(said, name) {
			t.Errorf("%q is not lettered: %q", name, said)
		}
	}
	if slices.Contains(said, "upper twin") {
		t.Error("a name stands beside two steps")
	}
}

func TestRowsFillALargerSheet(t *testing.T) {
	d := Removals{Words: Words{Title: "Rows"}, Unit: "kWh", Rows: []RemovalRow{{ID: "T1", Fair: 9, Cost: "$1"}, {ID: "T2", Fair: 8, Cost: "$2"}}}
	gap := func(height float64) float64 {
		rec := &ink.Record{W: PageWidth, H: height}
		if err := d.Draw(rec); err != nil {
			t.Fatal(err)
		}
		y := map[string]float64{}
		for _, w := range rec.Texts {
			y[w.S] = w.Y
		}
		return y["T2"] - y["T1"]
	}
	usual := d.Figure().Height
	if a, b := gap(usual+30), gap(usual+300); a < removalRow || b < 1.9*removalRow {
		t.Errorf("rows are %.1f apart at the usual height, %.1f on a tall sheet", a, b)
	}
}

func TestWhatIsNotDrawnNeitherStretchesTheAxisNorGoesUncounted(t *testing.T) {
	d := Removals{Words: Words{Title: "Rows"}, Unit: "kWh",
		Rows:     []RemovalRow{{ID: "T1", Alone: 180, Fair: 200, Last: 210, Cost: "$1"}, {ID: "T2", Fair: 150, Cost: "$2"}},
		Blockers: []RemovalRow{{ID: "barn", Fair: 1900}, {ID: "mill", Fair: 1100}}}
	usual := d.Figure().Height
	for _, c := range []struct {
		name   string
		height float64
		left   string // "" where all is drawn
		far    bool   // the axis reaches the longest blocker
	}{
		{"all", usual, "", true},
		{"one blocker", usual - blockerRow, "1 more in the table", true},
		{"trees alone", usual - 2*blockerRow, "2 more in the table", false},
		{"one tree", usual - 2*blockerRow - blockerHead - removalRow, "3 more in the table", false},
	} {
		rec := &ink.Record{W: PageWidth, H: c.height}
		if err := d.Draw(rec); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		var said []string
		for _, w := range rec.Texts {
			said = append(said, w.S)
		}
		if got := slices.Contains(said, "2,000"); got != c.far {
			t.Errorf("%s: axis to 2,000: %v, want %v; %q", c.name, got, c.far, said)
		}
		for _, n := range []string{"1", "2", "3", "4"} {
			words := n + " more in the table"
			if got := slices.Contains(said, words); got != (words == c.left) {
				t.Errorf("%s: %q lettered: %v", c.name, words, got)
			}
		}
	}
}

func TestDoubtsThatAreNotDrawnAreCounted(t *testing.T) {
	d := demoTornado()
	usual := d.Figure().Height
	for left := range 3 {
		rec := &ink.Record{W: PageWidth, H: usual - float64(left)*tornadoRow}
		if err := d.Draw(rec); err != nil {
			t.Fatal(err)
		}
		said := map[string]bool{}
		for _, w := range rec.Texts {
			said[w.S] = true
		}
		for n := 1; n < 4; n++ {
			words := figures(float64(n), 1) + " weaker not drawn"
			if said[words] != (n == left) {
				t.Errorf("%d rows left out: %q lettered: %v", left, words, said[words])
			}
		}
		if last := d.Rows[len(d.Rows)-1].Name; said[last] != (left == 0) {
			t.Errorf("%d rows left out: the last row lettered: %v", left, said[last])
		}
	}
}
