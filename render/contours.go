package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// halfway are levels in the middle of classes, drawn as dotted lines where the
// values lie in so few of the classes that their form would not show, or always.
func halfway(g *Grid, breaks []float64, always bool) []float64 {
	const few = 4
	lo, hi := g.Range()
	var inside, out []float64
	for i, b := range breaks {
		if b > lo && b < hi {
			inside = append(inside, b)
		}
		if i > 0 {
			if m := (breaks[i-1] + b) / 2; m > lo && m < hi {
				out = append(out, m)
			}
		}
	}
	if len(inside)+1 > few && !always {
		return nil
	}
	return out
}

const speck = 20.0 // points: a dotted line within less is left out

// dotted keeps the middle of every piece of a line, and leaves out lines that
// wander over no more than a few cells: they would be read as specks.
func dotted(edge ink.Path) ink.Path {
	var out ink.Path
	for _, r := range longer(edge, speck) {
		a, b := r.Points[0], r.Points[len(r.Points)-1]
		dx, dy := 0.35*(b.X-a.X), 0.35*(b.Y-a.Y)
		out = append(out, ink.Line(a.X+dx, a.Y+dy, b.X-dx, b.Y-dy)...)
	}
	return out
}

// longer are the pieces of lines, each line joined from pieces that share an
// end, whose bounds are longer than a length.
func longer(edge ink.Path, least float64) ink.Path {
	type spot [2]int
	at := func(p ink.Point) spot { return spot{int(math.Round(p.X * 64)), int(math.Round(p.Y * 64))} }
	line := make([]int, len(edge)) // the line of each piece, by the first piece known to be of it
	first := map[spot]int{}
	var root func(i int) int
	root = func(i int) int {
		if line[i] != i {
			line[i] = root(line[i])
		}
		return line[i]
	}
	for i, r := range edge {
		line[i] = i
		for _, q := range []spot{at(r.Points[0]), at(r.Points[len(r.Points)-1])} {
			if j, ok := first[q]; ok {
				line[root(i)] = root(j)
			} else {
				first[q] = i
			}
		}
	}
	joined := map[int]ink.Path{}
	for i, r := range edge {
		joined[root(i)] = append(joined[root(i)], r)
	}
	var out ink.Path
	for i, r := range edge {
		if x0, y0, x1, y1 := joined[root(i)].Bounds(); max(x1-x0, y1-y0) > least {
			out = append(out, r)
		}
	}
	return out
}

// contourNames letters class limits on their lines where there is room, no
// other line of the drawing runs through and it is allowed. Call it after
// everything else is lettered.
func (s *sheet) contourNames(g *Grid, breaks []float64, halves bool, to func(x, y float64) ink.Point, box ink.Box, lines ink.Path, allowed func(ink.Box) bool) {
	if !g.valid() || len(breaks) < 3 {
		return
	}
	z, cols, rows := g.padded()
	if math.IsNaN(z[0]) {
		return
	}
	at := func(c, r float64) ink.Point {
		return to(g.middle(c, r))
	}
	inner := grown(box, -2)
	half := halfway(g, breaks, halves)
	levels := append(append([]float64(nil), breaks[1:len(breaks)-1]...), half...)
	edges, ran := make([]ink.Path, len(levels)), tracks{}
	for i, level := range levels {
		_, edges[i] = above(z, cols, rows, level, at)
		if i >= len(levels)-len(half) {
			edges[i] = longer(edges[i], speck)
		}
		ran.mark(i, edges[i])
	}
	step := breaks[1] - breaks[0]
	if len(half) > 0 {
		step /= 2
	}
	var named []ink.Box // limits lettered so far
	for k, edge := range edges {
		words := figures(levels[k], step)
		t := haloed(centred(small()))
		clear := func(b ink.Box) bool {
			apart := ink.Box{X0: b.X0 - 4, Y0: b.Y0, X1: b.X1 + 4, Y1: b.Y1} // two side by side would read as one figure
			return allowed(b) && !meetsAny(apart, named) && !ran.others(k, b) && len(ink.ClipLines(lines, grown(b, 1.5))) == 0
		}
		stride := max(1, len(edge)/60)
	search:
		for _, air := range []float64{5, 0} { // off other words, where there is room
			for i := 0; i < len(edge); i += stride {
				q := edge[(len(edge)/3+i)%len(edge)].Points[0]
				b := ink.TextBox(q.X, q.Y+2.5, words, t)
				if clear(b) && (air == 0 || s.free(grown(b, air), box)) && s.try(q.X, q.Y+2.5, words, t, inner) {
					named = append(named, b)
					break search
				}
			}
		}
	}
}

// tracks remembers by squares of the page which of up to 64 lines run there.
type tracks map[[2]int]uint64

const trackSquare = 4.0 // points

func (t tracks) mark(line int, p ink.Path) {
	if line > 63 {
		return
	}
	for _, r := range p {
		for i := 1; i < len(r.Points); i++ {
			a, b := r.Points[i-1], r.Points[i]
			n := 1 + int(math.Hypot(b.X-a.X, b.Y-a.Y)/trackSquare)
			for j := range n + 1 {
				f := float64(j) / float64(n)
				t[[2]int{int(math.Floor((a.X + f*(b.X-a.X)) / trackSquare)), int(math.Floor((a.Y + f*(b.Y-a.Y)) / trackSquare))}] |= 1 << line
			}
		}
	}
}

// others tells whether a line other than the one named runs through a box.
func (t tracks) others(line int, b ink.Box) bool {
	for x := int(math.Floor(b.X0 / trackSquare)); x <= int(math.Floor(b.X1/trackSquare)); x++ {
		for y := int(math.Floor(b.Y0 / trackSquare)); y <= int(math.Floor(b.Y1/trackSquare)); y++ {
			if t[[2]int{x, y}]&^(1<<line) != 0 {
				return true
			}
		}
	}
	return false
}

// above gives the area where the values reach a level, in pieces of one
// turning that abut, and the lines along its edge. Values run straight
// between cell centres.
func above(z []float64, cols, rows int, level float64, at func(c, r float64) ink.Point) (fill, edge ink.Path) {
	for r := range rows - 1 {
		from := -1 // start of a run of squares wholly above
		flush := func(c int) {
			if from >= 0 {
				x0, x1, y := float64(from), float64(c), float64(r)
				fill = append(fill, ink.Run{Points: []ink.Point{at(x0, y), at(x1, y), at(x1, y+1), at(x0, y+1)}, Closed: true})
				from = -1
			}
		}
		for c := range cols - 1 {
			v := [4]float64{z[r*cols+c], z[r*cols+c+1], z[(r+1)*cols+c+1], z[(r+1)*cols+c]}
			n := 0
			for _, x := range v {
				if x >= level {
					n++
				}
			}
			if n == 4 {
				if from < 0 {
					from = c
				}
				continue
			}
			flush(c)
			if n == 0 {
				continue
			}
			var ring, cross []ink.Point
			var up []bool // the crossing goes into the area
			corner := [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
			for i := range 4 {
				j := (i + 1) % 4
				a, b := v[i], v[j]
				if a >= level {
					ring = append(ring, at(float64(c)+corner[i][0], float64(r)+corner[i][1]))
				}
				if (a >= level) != (b >= level) {
					t := (level - a) / (b - a)
					q := at(float64(c)+corner[i][0]+t*(corner[j][0]-corner[i][0]), float64(r)+corner[i][1]+t*(corner[j][1]-corner[i][1]))
					ring = append(ring, q)
					cross = append(cross, q)
					up = append(up, b >= level)
				}
			}
			fill = append(fill, ink.Run{Points: ring, Closed: true})
			switch {
			case len(cross) == 2:
				edge = append(edge, ink.Run{Points: cross})
			case len(cross) == 4 && up[0]: // a saddle: the two areas are joined
				edge = append(edge, ink.Run{Points: []ink.Point{cross[1], cross[2]}}, ink.Run{Points: []ink.Point{cross[3], cross[0]}})
			case len(cross) == 4:
				edge = append(edge, ink.Run{Points: []ink.Point{cross[0], cross[1]}}, ink.Run{Points: []ink.Point{cross[2], cross[3]}})
			}
		}
		flush(cols - 1)
	}
	return fill, edge
}
