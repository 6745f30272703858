package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// sheetMargin is bare paper round a picture that has a sheet to itself, points.
const sheetMargin = 54.0

// OnSheet is a picture alone on a sheet of paper, upright or turned, as wide
// as the paper allows and as high as it needs.
func OnSheet(p Picture, paper ink.Sheet, turned bool) ink.Figure {
	f := p.Figure()
	width, height := paper.Width, paper.Height
	if turned {
		width, height = height, width
	}
	room := ink.Box{X0: sheetMargin, Y0: sheetMargin, X1: width - sheetMargin, Y1: height - sheetMargin}
	high := f.Height * max(1, room.W()/f.Width)
	if q, ok := p.(sized); ok {
		high = q.heightAt(room.W())
	}
	room.Y1 = min(room.Y1, room.Y0+math.Ceil(high))
	f.Width, f.Height = width, height
	f.Draw = func(page ink.Page) error { return p.Draw(ink.Inset(page, room)) }
	return f
}
