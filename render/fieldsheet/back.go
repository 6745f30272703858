package fieldsheet

import (
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
)

// back is how to take heights, the trees and the windows.
func back(f *form) {
	f.Begin("Field sheet, trees and windows", "How to take a tree's height with a clinometer or a stick; tables for trees, windows, what is to be kept clear, the skyline and the lie of the land.")
	defer f.End()
	f.heading("The height of a tree", "two ways; take it from two sides where you can, and note both")
	half := (f.width() - 20) / 2
	top := f.y
	a := f.howto(edge, top, half, clinometer, "With a clinometer", []string{
		"Stand about as far off as the tree is high, level with its foot if you can. Tape the distance to the trunk.",
		"Sight the top: top angle, read on the scale of degrees, not percent. Sight the foot: base angle, down, or up if it lies above your eye.",
		"Level ground and the foot hidden: write the eye height in place of the base angle. The site file does the sums.",
		"A leaning or broad tree: the distance to the point below its highest leaf, not to the trunk.",
	})
	x := edge + half + 20
	b := f.howto(x, top, half, stick, "With a stick", []string{
		"Take a straight stick as long as from your fist to your eye, arm stretched. Hold it upright, as much above the fist as the arm is long.",
		"Walk back on level ground until the stick just covers the tree: fist at its foot, tip at its top.",
		"The tree is as high as you stand away from it: tape that distance. Write it under height, and stick under measured by.",
		"On a slope walk along the slope, not up or down it.",
	})
	f.y = max(a, b) + 8

	f.heading("Trees", "two lines a tree; below, height by stick or tape, or the four columns of a sighting")
	const tableTop, tableEnd = 28.0, 9.0 // heading and heads, and the gap after
	room := f.bottom() - f.y - 24 - 3*(tableTop+tableEnd) - float64(windowRows+clearRows+groundRows)*rowHigh
	f.trees(max(4, int(room/(2*rowHigh))))
	f.heading("Windows", "left: from the wall's left end, seen from outside; sill above the wall's foot; reveal: depth of the glass behind the wall")
	f.table(windowHeads, windowRows)
	f.heading("Keep clear for collectors", "vents, skylights, doors, meters, on any wall or roof plane; up: from the wall's foot, or from the eave up the slope")
	f.table(clearHeads, clearRows)
	f.heading("Skyline and spot heights", "skyline from the middle of the sunny wall, down to level at both ends; spots up or down from the ground at the house")
	f.table(groundHeads, groundRows)
	f.foot("owner: lot, neighbour or street. trunk: at 4 ft 6 in (1.4 m). measured by: tape, clinometer, stick, pacing, guess. More trees: print this side again. Trainees do not fell.")
}

const (
	windowRows = 5
	clearRows  = 2
	groundRows = 3
)

// Two points of the skyline and two spots of the ground on a line.
var groundHeads = []head{{"bearing", 1}, {"altitude", 0.9}, {"bearing", 1}, {"altitude", 0.9}, {"", 0.15}, {"at", 1}, {"up", 0.8}, {"down", 0.8}, {"at", 1}, {"up", 0.8}, {"down", 0.8}}

var windowHeads = []head{{"id", 0.7}, {"wall", 1.1}, {"left", 1}, {"sill", 1}, {"width", 1}, {"height", 1}, {"glazing", 1.4}, {"frame", 0.8}, {"reveal", 0.8}, {"remarks", 1.8}}

// Two patches on a line.
var clearHeads = []head{{"id", 1.3}, {"on", 1.3}, {"left", 1}, {"up", 1}, {"width", 1}, {"height", 1}, {"", 0.15}, {"id", 1.3}, {"on", 1.3}, {"left", 1}, {"up", 1}, {"width", 1}, {"height", 1}}

// The two lines of a tree; the first and the last column run over both.
var (
	treeFirst  = []head{{"species", 2}, {"at", 1}, {"bearing", 1}, {"distance", 1}, {"from", 1}, {"owner", 1}, {"trunk", 1.15}, {"cost", 0.9}}
	treeSecond = []head{{"height", 1}, {"distance", 1}, {"top angle", 1}, {"base angle", 1}, {"eye height", 1}, {"spread", 1}, {"crown base", 1}, {"measured by", 1.15}, {"keep", 0.9}}
)

const (
	treeID    = 0.75
	treeNotes = 1.6
)

// trees is the table of trees.
func (f *form) trees(count int) {
	unit := treeID + treeNotes
	for _, h := range treeFirst {
		unit += h.Share
	}
	unit = f.width() / unit
	left, right := edge+treeID*unit, f.right()-treeNotes*unit
	t := text(7.5)
	top := f.y
	f.Text(edge+3, top+21, "id", t)
	f.Text(right+3, top+21, "notes", t)
	high := 24 + 2*rowHigh*float64(count)
	for n, row := range [][]head{treeFirst, treeSecond} {
		x := left
		for i, h := range row {
			f.Text(x+3, top+9+12*float64(n), ink.Fit(h.Key, h.Share*unit-4, t), t)
			if i > 0 {
				f.line(x, top+12*float64(n), x, top+12*float64(n+1), render.Hair, render.Pencil)
				for k := range count {
					y := top + 24 + rowHigh*float64(2*k+n)
					f.line(x, y, x, y+rowHigh, render.Hair, render.Pencil)
				}
			}
			x += h.Share * unit
		}
	}
	f.line(left, top+12, right, top+12, render.Hair, render.Faint)
	for k := range count {
		y := top + 24 + 2*rowHigh*float64(k)
		f.line(edge, y, f.right(), y, render.Medium, render.Black)
		f.line(left, y+rowHigh, right, y+rowHigh, render.Hair, render.Pencil)
	}
	f.line(edge, top+high, f.right(), top+high, render.Medium, render.Black)
	for _, x := range []float64{edge, left, right, f.right()} {
		f.line(x, top, x, top+high, render.Light, render.Black)
	}
	f.y = top + high + 9
}
