package fieldsheet

import "github.com/southyard/southyard/render/ink"

// Title of the document.
const Title = "Field sheet: a lot and its sun"

// Pages are the two sides of the form on a paper.
func Pages(paper ink.Sheet) []ink.Figure {
	page := func(title string, draw func(*form)) ink.Figure {
		return ink.Figure{Width: paper.Width, Height: paper.Height, Title: title, Draw: func(p ink.Page) error {
			f := &form{Page: p, w: paper.Width, h: paper.Height, y: edge}
			draw(f)
			return nil
		}}
	}
	return []ink.Figure{page("Field sheet, the lot", front), page("Field sheet, trees and windows", back)}
}
