package render

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render/ink"
)

const longWords = "a name that somebody wrote out in full because nobody told them it should be short, with a second half"

// awkwardPictures are what people bring: nothing at all, far too much, names
// that do not end, lots of a farm and houses of a shed.
func awkwardPictures() map[string]Picture {
	long := Words{Title: longWords, Caption: strings.Repeat(longWords+". ", 4)}
	out := map[string]Picture{}

	bare := demoPlan()
	bare.Trees = nil
	out["plan without trees"] = bare
	out["plan of nothing"] = LotPlan{}
	many := demoPlan()
	many.Trees = nil
	for i := range 60 {
		many.Trees = append(many.Trees, PlanTree{ID: id("T", i+1), At: orb.Point{float64(i%6) * 2.1, float64(i/6) * 3.3}, SpreadX: 5, SpreadY: 4, Evergreen: i%3 == 0, Removed: i%4 == 0, Owner: []model.Owner{model.OwnerLot, model.OwnerStreet, model.OwnerNeighbour}[i%3]})
	}
	out["plan with sixty trees"] = many
	heap := demoPlan()
	for i := range heap.Trees {
		heap.Trees[i].At, heap.Trees[i].ID = orb.Point{3, 3}, longWords
	}
	heap.Words = long
	out["plan with all trees in one place"] = heap
	spotted := bankPlan()
	for i := range 400 {
		spotted.Land.Spots = append(spotted.Land.Spots, PlanSpot{At: orb.Point{float64(i%20) - 3, 2*float64(i/20) - 4}, Text: fmt.Sprintf("−%d ft 11 in", i)})
	}
	out["plan with four hundred heights"] = spotted
	huge := demoPlan()
	huge.Lot = rect(-400, -700, 500, 900)
	out["plan of a farm"] = huge
	wide := demoPlan()
	wide.Lot = rect(0, 0, 600, 12)
	out["plan of a strip"] = wide
	tiny := demoPlan()
	tiny.Lot, tiny.Trees = rect(0, 0, 3, 3), nil
	tiny.Buildings = []PlanBuilding{{Name: longWords, Kind: House, Walls: []orb.Ring{rect(1, 1, 1.5, 1.5)}}}
	out["plan of a hut"] = tiny

	out["face of nothing"] = FaceMap{Ground: math.NaN()}
	f := demoFace()
	f.Words, f.Left, f.Right, f.Unit = long, longWords, longWords, longWords
	f.Openings, f.Collectors = nil, nil
	for i := range 30 {
		x := 0.2 * float64(i)
		f.Openings = append(f.Openings, Opening{ID: id("window ", i), Ring: rect(x, 1, x+0.15, 1.2)})
		f.Collectors = append(f.Collectors, Collector{ID: id("collector ", i), Ring: rect(x, 3, x+0.18, 4), FromLeft: fmt.Sprintf("%d ft 11¾ in", i), Up: fmt.Sprintf("%d ft", i), Width: "3 in", Height: "3 ft"})
	}
	out["face full of windows"] = f
	flat := demoFace()
	flat.Sun = sunGrid(0, 0, 0.2, 30, 30, func(x, y float64) float64 { return 100 })
	out["face of one value"] = flat
	hole := demoFace()
	hole.Sun = sunGrid(0, 0, 0.2, 30, 30, func(x, y float64) float64 {
		if x > 2 {
			return math.NaN()
		}
		return math.Inf(1)
	})
	out["face of no numbers"] = hole
	strip := demoFace()
	strip.Outline = orb.MultiPolygon{{rect(0, 0, 60, 2)}}
	out["face like a strip"] = strip

	dark := AccessTable{Words: long, Clock: longWords}
	for m := range dark.Share {
		for h := range dark.Share[m] {
			dark.Share[m][h] = math.NaN()
		}
	}
	out["access without sun"] = dark
	out["access round the clock"] = AccessTable{Words: long}

	out["removals of nothing"] = Removals{}
	r := Removals{Words: long, Unit: longWords}
	for i := range 40 {
		row := RemovalRow{ID: id("tree ", i), Name: longWords, Cost: longWords, Note: longWords, Alone: -5, Fair: float64(1e6 * i), Last: math.NaN()}
		r.Rows, r.Blockers = append(r.Rows, row), append(r.Blockers, row)
	}
	out["removals without end"] = r
	out["budget of nothing"] = BudgetCurve{Words: long}
	b := BudgetCurve{Words: long, Unit: longWords, Budget: 1e9}
	for i := range 50 {
		b.Steps = append(b.Steps, BudgetStep{Cost: float64(i * i), Gain: math.Sqrt(float64(i)), Set: longWords, Knee: i == 25})
	}
	out["budget of fifty steps"] = b
	out["outlook of nothing"] = Outlook{Threshold: math.NaN()}
	o := demoOutlook()
	o.Words, o.ThresholdName = long, longWords
	for i := range 20 {
		o.Lines = append(o.Lines, OutlookLine{Name: fmt.Sprint(longWords, i), Values: o.Lines[0].Values})
	}
	out["outlook of one course many times"] = o
	out["tornado of nothing"] = Tornado{}
	out["tornado of odd values"] = Tornado{Words: long, Unit: longWords, Base: 1, Rows: []TornadoRow{{longWords, math.NaN(), math.Inf(1), longWords, longWords}, {"x", 5, -5, "a", "b"}}}
	out["bars of nothing"] = Bars{}
	bars := Bars{Words: long, Unit: longWords, Values: true}
	for range 24 {
		bars.Groups = append(bars.Groups, longWords)
	}
	for k := range 6 {
		q := Series{Name: longWords}
		for i := range 24 {
			q.Values = append(q.Values, float64(i-5)*math.Pow(10, float64(k)))
		}
		bars.Series = append(bars.Series, q)
	}
	out["bars in a crowd"] = bars
	out["day of nothing"] = ShadowDay{}
	day := demoDay()
	day.Words, day.Plan = long, wide
	for i := range day.Hours {
		day.Hours[i].Name, day.Hours[i].Sun = longWords, longWords
	}
	out["day on a strip"] = day
	out["sky of nothing"] = SkyView{}
	sky := demoSky()
	sky.Words, sky.Facing = long, 0
	for i := range 60 {
		c := sky.Crowns[0]
		c.ID = id("T", i)
		sky.Crowns = append(sky.Crowns, c)
	}
	out["sky with sixty trees, facing north"] = sky
	out["eye on nothing"] = EyeView{}
	for _, h := range []float64{-10, 0, 2, 45, 90} {
		e := demoEye(true)
		e.Height, e.From, e.Words = h, 7*h, long
		out[fmt.Sprintf("eye at %g°", h)] = e
	}
	out["pair of unlike ones"] = Pair{Words: long, Left: many, Right: demoAccess(), Breaks: []float64{0, 1, 2}, Unit: longWords}
	return out
}

func everyPicture() map[string]Picture {
	all := demoPictures()
	for n, p := range awkwardPictures() {
		all[n] = p
	}
	return all
}

func TestWordsNeverOverlapLeaveThePageOrShrink(t *testing.T) {
	for name, pic := range everyPicture() {
		t.Run(name, func(t *testing.T) { wordsStandClear(t, name, pic.Figure(), 0) })
	}
}

func TestPicturesFillSheetsUprightAndTurned(t *testing.T) {
	for name, pic := range everyPicture() {
		for _, paper := range ink.Sheets() {
			for _, turned := range []bool{false, true} {
				t.Run(fmt.Sprint(name, " on ", paper.Name, " turned ", turned), func(t *testing.T) {
					f := OnSheet(pic, paper, turned)
					if (f.Width > f.Height) != turned || min(f.Width, f.Height) != paper.Width {
						t.Errorf("the sheet is %g × %g", f.Width, f.Height)
					}
					wordsStandClear(t, name, f, sheetMargin-0.5)
				})
			}
		}
	}
}

// wordsStandClear checks that no words overlap, come nearer to the page's edge
// than a margin, or shrink.
func wordsStandClear(t *testing.T, name string, f ink.Figure, bare float64) {
	t.Helper()
	rec := &ink.Record{W: f.Width, H: f.Height}
	if err := f.Draw(rec); err != nil {
		if name == "pair of unlike ones" && errors.Is(err, errSmallPage) {
			return // half a page is too narrow for 24 hours: said, not drawn
		}
		t.Fatal(err)
	}
	page := grown(ink.Box{X1: f.Width, Y1: f.Height}, -bare)
	for i, a := range rec.Texts {
		if a.T.Size < 7 {
			t.Errorf("%q is lettered at %g pt", a.S, a.T.Size)
		}
		if !a.Box.Inside(page) {
			t.Errorf("%q leaves the page: %.1f in %.1f", a.S, a.Box, page)
		}
		for _, b := range rec.Texts[:i] {
			if grown(a.Box, -0.8).Meets(grown(b.Box, -0.8)) {
				t.Errorf("%q lies on %q: %.1f, %.1f", a.S, b.S, a.Box, b.Box)
			}
		}
	}
	for _, b := range rec.Inked {
		if math.IsNaN(b.X0 + b.Y0 + b.X1 + b.Y1) {
			t.Errorf("a line without a place: %v", b)
		}
	}
}

func TestEveryPictureIsDrawnByEveryBackend(t *testing.T) {
	pdftoppm, missing := exec.LookPath("pdftoppm")
	if missing != nil {
		t.Log("pdftoppm is not installed: PDF files are written but not opened")
	}
	dir := t.TempDir()
	var pages []ink.Figure
	for name, pic := range demoPictures() {
		f := pic.Figure()
		if f.Title == "" {
			t.Errorf("%s has no title", name)
		}
		pages = append(pages, f)
		if err := ink.WritePNG(io.Discard, f, 60); err != nil {
			t.Errorf("%s as PNG: %v", name, err)
		}
		var svg bytes.Buffer
		if err := ink.WriteSVG(&svg, f); err != nil {
			t.Errorf("%s as SVG: %v", name, err)
		}
		d := xml.NewDecoder(&svg)
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Errorf("%s as SVG: %v", name, err)
				break
			}
		}
	}
	file := filepath.Join(dir, "all.pdf")
	save(t, file, func(o *os.File) error { return ink.WritePDF(o, "all", pages...) })
	if missing == nil {
		if out, err := exec.Command(pdftoppm, "-r", "20", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("pdftoppm: %v %s", err, out)
		}
		if got, _ := filepath.Glob(filepath.Join(dir, "page*.png")); len(got) != len(pages) {
			t.Errorf("%d pages of %d can be opened", len(got), len(pages))
		}
	}
}

func TestSamePictureGivesSameBytes(t *testing.T) {
	for name := range demoPictures() {
		var a, b bytes.Buffer
		for _, w := range []*bytes.Buffer{&a, &b} {
			if err := ink.WriteSVG(w, demoPictures()[name].Figure()); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s differs from one drawing to the next", name)
		}
	}
}

func TestTooSmallAPageIsRefusedNotOverfilled(t *testing.T) {
	for name, pic := range everyPicture() {
		for _, size := range [][2]float64{{0, 0}, {20, 20}, {99, 500}, {500, 59}, {120, 70}, {150, 100}, {math.NaN(), 100}, {math.Inf(1), 100}} {
			rec := &ink.Record{W: size[0], H: size[1]}
			if err := pic.Draw(rec); err == nil {
				for _, a := range rec.Texts {
					if a.Box.X1 > size[0]+0.01 && a.Box.W() < size[0] || a.Box.Y1 > size[1]+0.01 {
						t.Errorf("%s on %g × %g: %q leaves the page", name, size[0], size[1], a.S)
						break
					}
				}
			}
		}
	}
}

// recorded is what a picture draws on a page of its usual size, and that page
// as it stands when only the words of a picture are on it.
func recorded(t *testing.T, p Picture, words Words) (*ink.Record, *sheet) {
	t.Helper()
	f := p.Figure()
	rec := &ink.Record{W: f.Width, H: f.Height}
	if err := f.Draw(rec); err != nil {
		t.Fatal(err)
	}
	s, err := begin(&ink.Record{W: f.Width, H: f.Height}, words)
	if err != nil {
		t.Fatal(err)
	}
	return rec, s
}

func lettered(t *testing.T, p Picture) []string {
	t.Helper()
	f := p.Figure()
	rec := &ink.Record{W: f.Width, H: f.Height}
	if err := f.Draw(rec); err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, w := range rec.Texts {
		out = append(out, w.S)
	}
	return out
}

func TestYearsAreWhole(t *testing.T) {
	for _, last := range []float64{1, 2, 4, 7, 12, 20, 25, 30, 50} {
		d := Outlook{Years: []float64{0, last}, Lines: []OutlookLine{{Name: "as it is", Values: []float64{1000, 2000}}}, Threshold: math.NaN()}
		for _, w := range lettered(t, d) {
			if strings.Contains(w, ".") {
				t.Errorf("over %g years the axis says %q", last, w)
			}
		}
	}
}

func TestCoursesThatEndTogetherShareOneName(t *testing.T) {
	got := joined([]ending{{50, []string{"b"}}, {49.5, []string{"a"}}, {80, []string{"c"}}})
	if fmt.Sprint(got) != "[{49.5 [a = b]} {80 [c]}]" {
		t.Errorf("%v", got)
	}
}

func TestStatedResultHasNoFalseDigits(t *testing.T) {
	for _, c := range []struct {
		base, lo, hi float64
		unit, want   string
	}{
		{25, 17, 32, "%", "as stated: about 25 %"},
		{25.04, 17, 32, "% of open sky, all year", "as stated: about 25 % of open sky"},
		{1034, 940, 1105, "kWh a season", "as stated: about 1,030 kWh a season"},
		{0.523, 0.5, 0.56, "", "as stated: about 0.523"},
	} {
		d := Tornado{Unit: c.unit, Base: c.base, Rows: []TornadoRow{{Name: "x", Low: c.lo, High: c.hi}}}
		if got := strings.Join(lettered(t, d), "|"); !strings.Contains(got+"|", c.want+"|") || strings.Contains(got, "17.5") {
			t.Errorf("want %q in %s", c.want, got)
		}
	}
}

func TestDayNamesOnlySignsItUses(t *testing.T) {
	d := demoDay()
	if !strings.Contains(d.signs(), "cross") || !strings.Contains(d.signs(), "bare") {
		t.Error(d.signs())
	}
	for i := range d.Plan.Trees {
		d.Plan.Trees[i].Removed = false
	}
	if strings.Contains(d.signs(), "cross") {
		t.Error(d.signs())
	}
}

func TestCollectorsKeepTheirSizeAndClearTheirFrames(t *testing.T) {
	for _, width := range []float64{0.3, 0.6, 1.2, 2.4} {
		d := demoFace()
		d.Collectors = []Collector{{ID: "roof panel 1", Ring: rect(2.4, 2.5, 2.4+width, 4.9), Width: "4 ft 0 in", Height: "8 ft 0 in"}}
		f := d.Figure()
		rec := &ink.Record{W: f.Width, H: f.Height}
		if err := f.Draw(rec); err != nil {
			t.Fatal(err)
		}
		var all string
		for _, w := range rec.Texts {
			all += " " + w.S
		}
		if !strings.Contains(all, "4 ft 0 in ×") || !strings.Contains(all, "8 ft 0 in") || !strings.Contains(all, "roof panel 1") {
			t.Errorf("%g m wide: name or size is missing: %s", width, all)
		}
	}
}

func TestLongTreeNamesTakeFreeRoomOfTheRow(t *testing.T) {
	d := demoRemovals()
	d.Rows[0].Name = "silver maple at the south corner"
	if all := strings.Join(lettered(t, d), "|"); !strings.Contains(all, "silver maple at the south corner") {
		t.Error(all)
	}
}

func TestPairAtOneScaleHasOneScaleBar(t *testing.T) {
	bars := func(p Picture) (n int) {
		for _, w := range lettered(t, p) {
			if strings.HasSuffix(w, " m") && len(w) < 6 {
				n++
			}
		}
		return n
	}
	if n := bars(demoPlanPair()); n != 1 {
		t.Errorf("plans: %d bars", n)
	}
	if n := bars(demoPair()); n != 1 {
		t.Errorf("faces: %d bars", n)
	}
	unlike := demoPlanPair()
	big := unlike.Right.(LotPlan)
	big.Lot = rect(0, 0, 40, 80)
	unlike.Right = big
	if n := bars(unlike); n != 2 {
		t.Errorf("at two scales: %d bars", n)
	}
}

func TestBudgetNamesKneeBestAndEndsOffTheCurve(t *testing.T) {
	d := demoBudget()
	all := strings.Join(lettered(t, d), "|")
	for _, want := range []string{"T1 + T2 + T5: the knee", "T1 + T2: best within budget", "T9", "all five"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not named: %s", want, all)
		}
	}
	d.Budget = 0
	if all := strings.Join(lettered(t, d), "|"); strings.Contains(all, "within budget") {
		t.Error(all)
	}
}

func TestNeedleOfTheEyeStandsInAMargin(t *testing.T) {
	for _, size := range [][2]float64{{468, 300}, {220, 200}, {150, 400}, {600, 120}} {
		d := demoEye(true)
		rec := &ink.Record{W: size[0], H: size[1]}
		s, err := begin(rec, d.Words)
		if err != nil {
			t.Fatal(err)
		}
		box, c := d.fitted(s)
		n := len(rec.Inked)
		d.compass(s, c)
		for _, b := range rec.Inked[n:] {
			if b.Meets(box) {
				t.Errorf("on %g × %g the needle %.0f lies on the view %.0f", size[0], size[1], b, box)
			}
		}
	}
}

func TestLinesOfOneHalfAreLinesOfTheOther(t *testing.T) {
	p := demoPair()
	a, b := p.Left.(FaceMap), p.Right.(FaceMap)
	flat := *a.Sun
	flat.Values = append([]float64(nil), flat.Values...)
	for i := range flat.Values { // within two classes, the other half spans many
		flat.Values[i] = 200 + 0.3*(flat.Values[i]-200)
	}
	a.Sun = &flat
	if halfway(a.Sun, a.Breaks, false) == nil || halfway(b.Sun, b.Breaks, false) != nil {
		t.Fatal("the halves are alike before they are drawn")
	}
	left, right := sameLines(a, b)
	if !left.(FaceMap).halves || !right.(FaceMap).halves {
		t.Error("only one half has lines halfway")
	}
}
