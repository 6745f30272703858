package fieldsheet

import (
	"fmt"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// steps of the walk, in an order that needs each corner once.
var steps = []string{
	"Choose a corner of the lot you can find again as 0, 0 and stretch the tape along a lot line: that line is up on your sketch.",
	"North: lay the compass along that line, away from cars and steel, and read where it points. Note the declination from the county's map.",
	"The house: every corner, right and up from 0, 0; walls from the ground to where the roof meets them; pitch, ridge and overhang of the roof.",
	"Windows on the sunny side: from the wall's left end, seen from outside; sill above the ground; width and height of the opening. Vents, skylights, doors and meters, which no collector may cover, likewise; those on the roof from the ground.",
	"Every tree whose shade may reach the house, the neighbours' and the street's too: tie a tag with its id to your own, then place, height, spread, crown base.",
	"Spread: pace under the crown from edge to edge, twice, crosswise. Crown base: the lowest leaves above the ground, not the lowest dead branch.",
	"Houses, sheds and fences that stand before the sunny side: corners and heights. Wires: where, how high, whose.",
	"The skyline far off, where it stands higher than a fist at arm's length: the top, and where it comes down to level on either side. Where the lot is not level: heights of its corners and of banks, with a water level, up or down from the house.",
	"Write down how each thing was measured: tape, clinometer, stick, pacing or guess. A guess is worth more when it says so.",
}

var safety = []string{
	"Nobody climbs: no tree, no roof, no ladder for this sheet.",
	"Stay 10 ft (3 m) from any wire, with the tape and the stick too. A wire on the ground: keep away, call 911 and the utility.",
	"Two people, one of them watching traffic while you pace along the street.",
	"Ask before you step on a neighbour's lot or touch a tree that is not yours.",
	"Stand clear of dead limbs and leaning trunks; go home in wind and thunder.",
	"Never look at the sun, and never along the clinometer toward it.",
	"An empty house: no floor, stair or cellar without the one who leads the crew.",
}

// front is the lot: names, what to measure, buildings, sketch.
func front(f *form) {
	f.Begin("Field sheet, the lot", "A form to fill in by hand: the lot, what to measure, buildings, a grid for the sketch.")
	defer f.End()
	t := bold(16)
	f.Text(edge, f.y+t.Size, "Field sheet", t)
	f.Text(edge+ink.Width("Field sheet", t.Size, t.Face)+10, f.y+t.Size, "heads of columns are the keys of the site file; leave out what you do not have", text(8))
	f.y += 21
	f.line(edge, f.y, f.right(), f.y, render.Heavy, render.Black)
	f.blanks(blank{"name", 0.46}, blank{"date", 0.2}, blank{"measured by", 0.34})
	f.blanks(blank{"latitude", 0.23}, blank{"longitude", 0.24}, blank{"elevation", 0.22}, blank{"units (feet or metres)", 0.31})
	f.blanks(blank{"north: up points", 0.34}, blank{"measured (magnetic or true)", 0.36}, blank{"declination", 0.30})
	f.y += 9

	left := f.width()*0.6 - 10
	x := edge + left + 20
	top := f.y
	f.Text(edge, top+10, "What to measure, in this order", bold(10))
	ends := f.list(edge, top+15, left, func(i int) string { return fmt.Sprint(i + 1) }, steps)
	f.Text(x, top+10, "Safety", bold(10))
	f.y = max(ends, f.list(x, top+15, f.right()-x, func(int) string { return "–" }, safety)) + 7
	f.line(x-10, top, x-10, f.y-7, render.Medium, render.Black)

	f.heading("Buildings", "house by its parts, then porches, sheds, garages, neighbours; footprint corners go on the sketch")
	f.table(buildingHeads, 4)
	f.heading("Fences and overhead wires", "line: ends and corners, such as 0, 115 – 40, 115; lets through: share of the sun, 0 for boards")
	f.table(fenceHeads, 3)
	f.heading("Sketch", "up is the tape's line; mark 0, 0; draw the north arrow; number corners, trees and windows; a deep lot lies along the page")
	f.sketch()
	f.foot("Distances right and up from 0, 0. Then: southyard new --ask asks the same, southyard check shows what was understood.")
}

var buildingHeads = []head{{"id", 1.3}, {"wall height", 1.2}, {"roof kind", 1.2}, {"ridge", 1}, {"down", 1}, {"pitch", 0.9}, {"overhang", 1}, {"remarks", 2.4}}

var fenceHeads = []head{{"id", 1}, {"fence or wire", 1}, {"line", 3}, {"height", 0.8}, {"base", 0.8}, {"lets through", 1}, {"owner", 0.8}, {"remarks", 1.6}}

// sketch is a grid of squares of a fifth of an inch, every fifth line stronger.
func (f *form) sketch() {
	const square = 14.4
	const foot = 14.0
	columns := int(f.width() / square)
	rows := int((f.bottom() - foot - f.y) / square)
	x0 := edge + (f.width()-float64(columns)*square)/2
	y1 := f.y + float64(rows)*square
	for i := range columns + 1 {
		x := x0 + float64(i)*square
		f.line(x, f.y, x, y1, strength(i), render.Faint)
	}
	for j := range rows + 1 {
		y := y1 - float64(j)*square
		f.line(x0, y, x0+float64(columns)*square, y, strength(j), render.Faint)
	}
	f.y = y1 + 11
	t := text(8)
	f.Text(x0, f.y, "one square is", t)
	f.line(x0+ink.Width("one square is", t.Size, t.Face)+4, f.y+2, x0+140, f.y+2, render.Light, render.Black)
}

func strength(i int) float64 {
	if i%5 == 0 {
		return render.Medium
	}
	return render.Hair
}
