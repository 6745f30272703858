package ink

import (
	"math"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"
)

// stroke adds the outline of a path inked with a pen, to be filled by winding.
// place turns points of the paper into places on the sheet, scale their lengths.
func stroke(out raster.Adder, p Path, s Style, scale float64, place func(Point) fixed.Point26_6) {
	caps := raster.ButtCapper
	if s.Round {
		caps = raster.RoundCapper
	}
	var lines raster.Path
	for _, run := range dashed(p, s.Dash) {
		if len(run.Points) < 2 {
			continue
		}
		pts := run.Points
		if run.Closed { // from halfway along its first line and back, so that every corner is joined
			half := Point{(pts[0].X + pts[1].X) / 2, (pts[0].Y + pts[1].Y) / 2}
			pts = append(append([]Point{half}, pts[1:]...), pts[0], half)
		}
		at := place(pts[0])
		lines.Clear()
		lines.Start(at)
		for _, q := range pts[1:] {
			to := place(q)
			// Steps of under an eighth of a dot have no sure direction.
			if d := to.Sub(at); max(d.X, -d.X)+max(d.Y, -d.Y) > sub/8 {
				lines.Add1(to)
				at = to
			}
		}
		raster.Stroke(out, lines, fixed.Int26_6(s.Width*scale*sub), caps, raster.RoundJoiner)
	}
}

// dashed cuts a path into its dashes; lengths on, off, ... in points. Lengths
// that add up to nothing leave the line whole.
func dashed(p Path, lengths []float64) Path {
	sum := 0.0
	for _, l := range lengths {
		sum += max(l, 0)
	}
	if !(sum > 0) || math.IsInf(sum, 0) {
		return p
	}
	var out Path
	for _, r := range p {
		pts := r.Points
		if r.Closed && len(pts) > 0 {
			pts = append(pts[:len(pts):len(pts)], pts[0])
		}
		if len(pts) < 2 {
			continue
		}
		at, part, left := pts[0], 0, max(lengths[0], 0)
		run := []Point{at}
		end := func() {
			if part%2 == 0 && len(run) > 1 {
				out = append(out, Run{Points: run})
			}
		}
		for _, q := range pts[1:] {
			for {
				d := math.Hypot(q.X-at.X, q.Y-at.Y)
				if d <= left {
					left -= d
					break
				}
				at = Point{at.X + left/d*(q.X-at.X), at.Y + left/d*(q.Y-at.Y)}
				run = append(run, at)
				end()
				part++
				run, left = []Point{at}, max(lengths[part%len(lengths)], 0)
			}
			at = q
			run = append(run, at)
		}
		end()
	}
	return out
}
