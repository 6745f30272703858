package model

import (
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// hipBays roofs a footprint with right angles so that every eave is level and
// every plane has one pitch. Such a roof stands over a point as high as the
// pitch times its distance, measured along the walls' directions, from the
// nearest wall line; for a footprint with right angles that is the highest of
// the simple hip roofs over the largest rectangles that fit inside it. (The
// wavefront of a straight skeleton, Aichholzer et al. 1995, moves with right
// angles here and so equals the growing square about the point.)
func hipBays(p Part, foot orb.Ring) ([]bay, error) {
	if n := len(foot) - 1; n > maxHipCorners {
		return nil, faultOf("footprint", fmt.Sprintf("at most %d; split the footprint into parts", maxHipCorners), "the footprint has %d corners under one hip roof", n)
	}
	f, err := squareFrame(foot)
	if err != nil {
		return nil, faultOf("footprint", "right angles only, or a roof of explicit planes", "under a hip roof the footprint must have right angles, and %v", err)
	}
	ring := squared(foot, f)
	m, o := math.Tan(p.Roof.Pitch.Radians()), p.Roof.Overhang
	west, south := orb.Point{-f.ex[0], -f.ex[1]}, orb.Point{-f.ey[0], -f.ey[1]}
	var bays []bay
	for _, r := range largestRectangles(ring) {
		slopes := []slope{
			slopeUp(f.ex, r[0], p.eave(), m), slopeUp(west, -r[2], p.eave(), m),
			slopeUp(f.ey, r[1], p.eave(), m), slopeUp(south, -r[3], p.eave(), m),
		}
		bays = append(bays, bay{
			over:   f.box(r[0]-o, r[1]-o, r[2]+o, r[3]+o),
			core:   f.box(r[0], r[1], r[2], r[3]),
			slopes: slopes,
		})
	}
	if len(bays) == 0 {
		return nil, faultOf("footprint", inOrder, "no rectangle fits inside the footprint")
	}
	return bays, nil
}

// squared is the ring in the frame with every edge laid along an axis.
func squared(foot orb.Ring, f frame) orb.Ring {
	n := len(foot) - 1
	out := make(orb.Ring, n, n+1)
	for i := range n {
		out[i] = f.in(foot[i])
	}
	for i := range n {
		a, b := f.in(foot[i]), f.in(foot[i+1])
		next := (i + 1) % n
		if math.Abs(b[0]-a[0]) > math.Abs(b[1]-a[1]) {
			y := (a[1] + b[1]) / 2
			out[i][1], out[next][1] = y, y
		} else {
			x := (a[0] + b[0]) / 2
			out[i][0], out[next][0] = x, x
		}
	}
	return append(out, out[0])
}

// largestRectangles lists the rectangles {x0, y0, x1, y1} inside a ring with
// edges along the axes that cannot grow on any side.
func largestRectangles(ring orb.Ring) [][4]float64 {
	var xs, ys []float64
	for _, c := range ring {
		xs, ys = append(xs, c[0]), append(ys, c[1])
	}
	xs, ys = distinct(xs), distinct(ys)
	nx, ny := len(xs)-1, len(ys)-1
	// full[i][j] counts the cells below and left of (i, j) that are inside.
	full := make([][]int, nx+1)
	full[0] = make([]int, ny+1)
	for i := range nx {
		full[i+1] = make([]int, ny+1)
		for j := range ny {
			in := 0
			if inRing(ring, orb.Point{(xs[i] + xs[i+1]) / 2, (ys[j] + ys[j+1]) / 2}) {
				in = 1
			}
			full[i+1][j+1] = in + full[i][j+1] + full[i+1][j] - full[i][j]
		}
	}
	inside := func(i0, j0, i1, j1 int) bool {
		if i0 < 0 || j0 < 0 || i1 > nx || j1 > ny {
			return false
		}
		return full[i1][j1]-full[i0][j1]-full[i1][j0]+full[i0][j0] == (i1-i0)*(j1-j0)
	}
	var out [][4]float64
	for i0 := range nx {
		for i1 := i0 + 1; i1 <= nx; i1++ {
			for j0 := range ny {
				for j1 := j0 + 1; j1 <= ny; j1++ {
					if inside(i0, j0, i1, j1) &&
						!inside(i0-1, j0, i1, j1) && !inside(i0, j0, i1+1, j1) &&
						!inside(i0, j0-1, i1, j1) && !inside(i0, j0, i1, j1+1) {
						out = append(out, [4]float64{xs[i0], ys[j0], xs[i1], ys[j1]})
					}
				}
			}
		}
	}
	return out
}

// distinct sorts values and drops those within a millimetre of the one before.
func distinct(v []float64) []float64 {
	sort.Float64s(v)
	out := v[:0]
	for _, x := range v {
		if len(out) == 0 || x-out[len(out)-1] > 1e-3 {
			out = append(out, x)
		}
	}
	return out
}
