package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// sheetMargin is bare paper round a picture that has a sheet to itself, points.
const sheetMargin = 54.0

// taller is by how much a chart is drawn higher on a sheet of its own.
const taller = 1.4

// OnSheet is a picture alone on a sheet of paper, upright or turned, as wide
// as the paper allows and as high as it needs; before and after stand one above
// the other where that draws them larger.
func OnSheet(p Picture, paper ink.Sheet, turned bool) ink.Figure {
	f := p.Figure()
	width, height := paper.Width, paper.Height
	if turned {
		width, height = height, width
	}
	room := ink.Box{X0: sheetMargin, Y0: sheetMargin, X1: width - sheetMargin, Y1: height - sheetMargin}
	switch q := p.(type) {
	case Pair:
		p = q.fit(room.W(), room.H())
	case ShadowDay:
		p = q.fit(room.W(), room.H())
	}
	high := f.Height * max(1, room.W()/f.Width)
	if q, ok := p.(sized); ok {
		high = q.heightAt(room.W(), room.H())
	}
	switch p.(type) {
	case AccessTable, BudgetCurve, Outlook, Bars: // their heights stand for nothing
		high *= taller
	}
	room.Y1 = min(room.Y1, room.Y0+math.Ceil(high))
	f.Width, f.Height = width, height
	f.Draw = func(page ink.Page) error { return p.Draw(ink.Inset(page, room)) }
	return f
}
