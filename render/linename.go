package render

import (
	"math"

	"github.com/southyard/southyard/render/ink"
)

// lineName is the name of a fence or a wire, with what it has to keep off.
type lineName struct {
	words  string
	line   ink.Path // what is seen of it
	drawn  ink.Path // all lines that words hide if they lie on them, line among them
	solid  ink.Path // buildings and trunks: words on them would name them
	crowns ink.Path // crossed as little as can be
}

// place is where words are centred and how far they turn.
type place struct {
	at   ink.Point
	turn float64 // degrees, anticlockwise
}

// letter puts the name along its line, close beside it, where nothing drawn
// runs through it; on a line too short for that, level beside it or beyond its
// ends; else off it with a leader.
func (n lineName) letter(s *sheet, bounds ink.Box) {
	t := haloed(centred(italic(small())))
	w := ink.Width(n.words, t.Size, t.Face)
	var longest ink.Run
	for _, r := range n.line {
		if long(r) > long(longest) {
			longest = r
		}
	}
	if len(longest.Points) < 2 {
		return
	}
	const gap, up, down = 2.2, 5.2, 1.8 // points: off the line; of a letter above and below its foot
	var turned, level []place
	for k := range 21 { // from the middle outwards
		share := 0.5 + float64((k+1)/2)/21*float64(1-2*(k%2))
		q, dx, dy := along(longest, share), 0.0, 0.0
		if a, b := along(longest, max(0, share-0.02)), along(longest, min(1, share+0.02)); a != b {
			d := math.Hypot(b.X-a.X, b.Y-a.Y)
			dx, dy = (b.X-a.X)/d, (b.Y-a.Y)/d
		}
		if dx < 0 || dx == 0 && dy > 0 { // to be read from the left, or from below
			dx, dy = -dx, -dy
		}
		turn := -math.Atan2(dy, dx) * 180 / math.Pi
		for _, lift := range []float64{gap + down, -gap - up} { // foot of the letters over the line, under it
			turned = append(turned, place{ink.Point{X: q.X + lift*dy, Y: q.Y - lift*dx}, turn})
		}
		reach := gap + w/2*math.Abs(dy) + (up+down)/2*math.Abs(dx) // of the level words' middle from the line
		for _, side := range []float64{1, -1} {
			level = append(level, place{ink.Point{X: q.X + side*reach*dy, Y: q.Y - side*reach*dx + (up-down)/2}, 0})
		}
	}
	for _, q := range []ink.Point{longest.Points[0], longest.Points[len(longest.Points)-1]} { // beyond its ends
		for _, side := range []float64{1, -1} {
			level = append(level, place{ink.Point{X: q.X + side*(w/2+5), Y: q.Y + 2.5}, 0})
		}
	}
	if long(longest) < w+8 {
		turned = nil
	}
	for _, keep := range []ink.Path{n.drawn, n.line} { // clear of all that is drawn, of the line alone
		for _, places := range [][]place{turned, level} {
			if at, ok := n.best(s, places, keep, t, bounds); ok {
				t.Turn = at.turn
				s.text(at.at.X, at.at.Y, n.words, t)
				return
			}
		}
	}
	q := along(longest, 0.5)
	s.label(q.X, q.Y-6, n.words, t, bounds)
}

// best is the place of some that crosses crowns least, if there is one clear of
// what is to be kept off.
func (n lineName) best(s *sheet, places []place, keep ink.Path, t ink.Type, bounds ink.Box) (place, bool) {
	least, best := math.Inf(1), place{}
	for _, at := range places {
		t.Turn = at.turn
		if !s.free(grown(ink.TextBox(at.at.X, at.at.Y, n.words, t), 0.7), bounds) {
			continue
		}
		t.Turn = 0
		b := grown(ink.TextBox(0, 0, n.words, t), 0.5)
		if len(ink.ClipLines(at.level(keep), b)) > 0 || len(ink.ClipArea(at.level(n.solid), b)) > 0 {
			continue
		}
		crossed := 0.0
		for _, r := range ink.ClipLines(at.level(n.crowns), b) {
			crossed += long(r)
		}
		if crossed < least {
			least, best = crossed, at
		}
	}
	return best, !math.IsInf(least, 1)
}

// level is a path as it lies about the words once they are turned back to the
// level, their place the origin.
func (l place) level(p ink.Path) ink.Path {
	sin, cos := math.Sincos(l.turn * math.Pi / 180)
	out := make(ink.Path, len(p))
	for i, r := range p {
		out[i] = ink.Run{Closed: r.Closed, Points: make([]ink.Point, len(r.Points))}
		for j, q := range r.Points {
			x, y := q.X-l.at.X, q.Y-l.at.Y
			out[i].Points[j] = ink.Point{X: x*cos - y*sin, Y: x*sin + y*cos}
		}
	}
	return out
}

func long(r ink.Run) (sum float64) {
	for i := 1; i < len(r.Points); i++ {
		sum += math.Hypot(r.Points[i].X-r.Points[i-1].X, r.Points[i].Y-r.Points[i-1].Y)
	}
	return sum
}

// along is the point at a share of a line's length.
func along(r ink.Run, share float64) ink.Point {
	left := share * long(r)
	for i := 1; i < len(r.Points); i++ {
		a, b := r.Points[i-1], r.Points[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		if d >= left && d > 0 {
			return ink.Point{X: a.X + (b.X-a.X)*left/d, Y: a.Y + (b.Y-a.Y)*left/d}
		}
		left -= d
	}
	return r.Points[len(r.Points)-1]
}
