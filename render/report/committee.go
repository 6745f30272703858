package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/shading/study"
)

// Committee writes the one page for those who decide: question, answer, the
// lot, three figures, the plans, what is assumed, what to mind.
func (r Report) Committee(w io.Writer, paper ink.Sheet) error {
	return writePDF(w, r.title()+": one page for the committee", []ink.Figure{r.committee(paper)})
}

// most lines of what may be long.
const (
	mostPlans    = 4
	mostCautions = 5
	mostWords    = 6 // lines under a figure
)

func (r Report) committee(paper ink.Sheet) ink.Figure {
	return ink.Figure{Width: paper.Width, Height: paper.Height, Title: r.title(), Draw: func(p ink.Page) error { return r.drawCommittee(p, paper) }}
}

// drawCommittee sets what is above the picture from the top down, what is
// beneath it from the foot up, and gives the picture what is left.
func (r Report) drawCommittee(p ink.Page, paper ink.Sheet) error {
	f := &flow{paper: paper}
	f.turn()
	f.y = 40
	head := render.Letter(19, ink.Bold)
	f.letter(side, f.y+head.Size, ink.Fit(r.title(), f.width(), head), head)
	f.y += 25
	f.lines(r.where(), 0, 11, render.Letter(8, ink.Regular))
	f.y += 4
	f.rule(side, paper.Width-side, f.y, render.Heavy, render.Black)
	f.y += 7
	f.lines("Can this house get sun, what stands in the way, and is it worth the money?", 0, bodyLead, render.Letter(bodySize, ink.Italic))
	f.y += 2
	f.some(r.answer(), 4, 16, render.Letter(13, ink.Bold))
	f.y += 6
	upper := f.y

	beneath := &flow{paper: ink.Sheet{Name: paper.Name, Width: paper.Width, Height: 1e5}}
	beneath.turn()
	beneath.y = 0
	r.beneath(beneath)
	lower := paper.Height - 34 - beneath.y

	if drawing, ok := r.onePicture(); ok && lower-upper > 90 {
		box := ink.Box{X0: side - render.Margin, Y0: upper, X1: paper.Width - side - strip - 14, Y1: lower - 10}
		if plan, ok := drawing.(render.LotPlan); ok {
			drawing = whollyNamed(plan, box)
		}
		f.put(func(p ink.Page) error { return drawing.Draw(ink.Inset(p, box)) })
	}
	r.figuresAt(f, paper.Width-side-strip, upper, lower)
	for _, m := range f.pages[0].marks {
		if err := m(p); err != nil {
			return fmt.Errorf("committee's page: %w", err)
		}
	}
	low := ink.Inset(p, ink.Box{X0: 0, Y0: lower, X1: paper.Width, Y1: paper.Height})
	for _, m := range beneath.pages[0].marks {
		if err := m(low); err != nil {
			return fmt.Errorf("committee's page: %w", err)
		}
	}
	return nil
}

// strip beside the picture, points wide.
const strip = 158.0

// figuresAt letters the three figures and, beneath, what is assumed, in a
// column from x, as far down as there is room.
func (r Report) figuresAt(f *flow, x, y, bottom float64) {
	words := render.Letter(8.5, ink.Regular)
	for _, k := range r.figures() {
		lines := atMost(k.Words, strip, mostWords, words)
		if y+32+10.5*float64(len(lines)) > bottom {
			return
		}
		f.rule(x, x+strip, y+2, render.Medium, render.Black)
		size := 22.0
		for size > 12 && ink.Width(k.Value, size, ink.Bold) > strip {
			size--
		}
		f.letter(x, y+26, ink.Fit(k.Value, strip, render.Letter(size, ink.Bold)), render.Letter(size, ink.Bold))
		y += 31
		for _, l := range lines {
			f.letter(x, y+8.5, l, words)
			y += 10.5
		}
		y += 8
	}
	small := render.Letter(8, ink.Regular)
	room := int((bottom - y - 30) / 10)
	if room < 3 {
		return
	}
	f.rule(x, x+strip, y+2, render.Medium, render.Black)
	f.letter(x, y+14, "What is assumed", render.Letter(8.5, ink.Bold))
	y += 18
	for _, l := range atMost(r.assumption(), strip, room, small) {
		f.letter(x, y+8, l, small)
		y += 10
	}
}

// atMost wraps words; what goes beyond the last line is left out at the end of
// a sentence where there is one.
func atMost(text string, width float64, most int, t ink.Type) []string {
	lines := ink.Wrap(text, width, t)
	for len(lines) > most {
		end := strings.LastIndex(strings.TrimRight(text, ". "), ". ")
		if end < 0 {
			return append(lines[:most-1:most-1], ink.Fit(strings.Join(lines[most-1:], " "), width, t))
		}
		text = text[:end+1]
		lines = ink.Wrap(text, width, t)
	}
	return lines
}

// some letters at most so many lines; the last is shortened.
func (f *flow) some(text string, most int, lead float64, t ink.Type) {
	lines := atMost(text, f.width(), most, t)
	for _, l := range lines {
		f.letter(side, f.y+t.Size, l, t)
		f.y += lead
	}
}

// onePicture is the plan of the lot; without one, the first picture.
func (r Report) onePicture() (render.Picture, bool) {
	for _, p := range r.Pictures {
		if plan, ok := p.Picture.(render.LotPlan); ok && p.Name == "lot-shadows" {
			title := strings.TrimPrefix(plan.Title, r.Study.Site.Name+": ")
			if strings.HasPrefix(title, "shadows") {
				title = "Shadows" + strings.TrimPrefix(title, "shadows")
			}
			plan.Caption = title + ". " + plan.Caption
			plan.Title = ""
			return plan, true
		}
	}
	if len(r.Pictures) > 0 {
		return r.Pictures[0].Picture, true
	}
	return nil, false
}

// whollyNamed leaves out names of buildings that would have to be cut short in
// a box.
func whollyNamed(plan render.LotPlan, box ink.Box) render.LotPlan {
	rec := &ink.Record{W: box.X1 - box.X0, H: box.Y1 - box.Y0}
	if plan.Draw(rec) != nil {
		return plan
	}
	plan.Buildings = slices.Clone(plan.Buildings)
	for _, text := range rec.Texts {
		for i := range plan.Buildings {
			if short, cut := strings.CutSuffix(text.S, "…"); cut && strings.HasPrefix(plan.Buildings[i].Name, short) {
				plan.Buildings[i].Name = ""
			}
		}
	}
	return plan
}

// beneath is the lower part: plans, cautions, names.
func (r Report) beneath(f *flow) {
	st := r.Study
	if len(st.Targets) > 0 {
		t := &table{Columns: []column{words("for the " + st.Targets[0].Name), figure("sun, kWh"), figure("of open"), figure("more, kWh"), figure("cost"), figure("summer on glass")}}
		var rows []study.PlanRow
		for _, row := range st.PlanTable() {
			if row.Target == st.Targets[0].Name {
				rows = append(rows, row)
			}
		}
		left := 0
		for i, row := range rows {
			if i >= mostPlans && i < len(rows)-2 { // the best set and no trees stay
				left++
				continue
			}
			price := "–"
			if row.Cost != nil {
				price = money(*row.Cost, row.Assumed)
			}
			t.add(strings.Join(atMost(row.Plan, 200, 2, render.Letter(cellSize, ink.Bold)), " "), whole(row.Sun), percent(row.Access), signed(row.Gain), price, signed(row.Summer))
		}
		f.table(t)
		f.y -= 5
		text := "Sun in " + study.MonthsText(st.Targets[0].Months) + " on all of it together; summer on glass is the price in the cooling season. * assumed in part."
		if left > 0 {
			text += fmt.Sprintf(" %s more in the report.", counted(left, "plan", "plans"))
		}
		f.some(text, 1, noteLead, render.Letter(7, ink.Regular))
		f.y += 5
	}
	small := render.Letter(8, ink.Regular)
	f.letter(side, f.y+8, "Before anybody starts work", render.Letter(8.5, ink.Bold))
	f.y += 12.5
	for _, c := range r.fewCautions() {
		f.letter(side, f.y+8, "–", small)
		for _, l := range atMost(c, f.width()-10, 3, small) {
			f.letter(side+10, f.y+8, l, small)
			f.y += 10
		}
	}
	f.y += 12
	half := (f.width() - 18) / 2
	for i, item := range []string{"Prepared by", "Date"} {
		x := side + float64(i)*(half+18)
		f.letter(x, f.y+8, item, small)
		f.rule(x+ink.Width(item, 8, ink.Regular)+6, x+half, f.y+10, render.Light, render.Black)
	}
	f.y += 12
}
