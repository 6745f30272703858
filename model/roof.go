package model

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// slope is a sloping plane: z = a + b·x + c·y.
type slope struct{ a, b, c float64 }

func (s slope) at(p orb.Point) float64 { return s.a + s.b*p[0] + s.c*p[1] }

func (s slope) same(t slope) bool {
	return math.Abs(s.b-t.b) < 1e-7 && math.Abs(s.c-t.c) < 1e-7 && math.Abs(s.a-t.a) < 1e-4
}

// normal is the unit vector straight up out of the slope.
func (s slope) normal() r3.Vector {
	return r3.Vector{X: -s.b, Y: -s.c, Z: 1}.Normalize()
}

// steepness is the rise per level metre.
func (s slope) steepness() float64 { return math.Hypot(s.b, s.c) }

// bay is a stretch of roof that is nowhere hollow: over its plan the roof
// stands at the least of its slopes. A roof is the highest of its bays.
type bay struct {
	over   orb.Ring // plan with the overhang, convex, counter-clockwise
	core   orb.Ring // plan within the walls, convex; nil: overhang only
	slopes []slope
}

// roofPlane is one plane of a roof before other parts are cut away.
type roofPlane struct {
	slope slope
	plan  orb.MultiPolygon // with the overhang
}

// roofing is the roof of one part.
type roofing struct {
	bays   []bay
	planes []roofPlane
	cheeks [][]r3.Vector // upright explicit planes, such as the sides of a dormer
}

const (
	maxPitch      = 80 * s1.Degree
	maxCorners    = 200 // of a footprint
	maxHipCorners = 40
	squareTurn    = 2 * s1.Degree // how far a corner may be off square under a gable or hip roof
)

// roofing works out a part's bays and roof planes from its tidied footprint.
func (p Part) roofing(foot orb.Ring) (roofing, error) {
	if p.Roof.Kind == Plane {
		return explicitRoof(p, foot)
	}
	if pitch := p.Roof.Pitch; !(pitch >= 0 && pitch <= maxPitch) {
		return roofing{}, faultOf("roof.pitch", "a pitch between 0 and 80° (a roof of 12/12 is 45°)", "roof pitch is %.4g°", pitch.Degrees())
	}
	if o := p.Roof.Overhang; !(o >= 0 && o <= 20) {
		return roofing{}, faultOf("roof.overhang", "0 or more, usually about 1 ft (0.3 m)", "roof overhang is %s", bothUnits(o))
	}
	for key, a := range map[string]s1.Angle{"roof.ridge": p.Roof.Ridge, "roof.down": p.Roof.Down} {
		if !(math.Abs(a.Radians()) <= 100) {
			return roofing{}, faultOf(key, "a direction such as east-west or S 15° E", "the direction is not a number")
		}
	}
	var bays []bay
	var err error
	switch p.Roof.Kind {
	case Flat, Shed:
		bays = onePlaneBays(p, foot)
	case Gable:
		bays, err = gableBays(p, foot)
	case Hip:
		bays, err = hipBays(p, foot)
	default:
		return roofing{}, faultOf("roof.kind", "gable, hip, shed, flat or plane", "roof kind %q is not known", p.Roof.Kind)
	}
	if err != nil {
		return roofing{}, err
	}
	r := roofing{bays: bays, planes: planesOf(bays)}
	if p.Roof.Kind == Hip {
		r.planes = onePerEave(r.planes)
	}
	return r, nil
}

// eave is the height of the wall top at the eaves.
func (p Part) eave() float64 { return p.Base + p.WallHeight }

// planesOf draws each distinct slope of the bays where it is the roof.
func planesOf(bays []bay) []roofPlane {
	var distinct []slope
	for _, b := range bays {
		for _, s := range b.slopes {
			if !hasSlope(distinct, s) {
				distinct = append(distinct, s)
			}
		}
	}
	var out []roofPlane
	for _, s := range distinct {
		var shown, hidden []orb.Ring
		for _, b := range bays {
			ring := b.over
			if hasSlope(b.slopes, s) {
				for _, other := range b.slopes {
					ring = belowOther(ring, s, other)
				}
				shown = appendRing(shown, ring)
				continue
			}
			for _, other := range b.slopes {
				ring = belowOther(ring, s, other)
			}
			hidden = appendRing(hidden, ring)
		}
		if plan := difference(shown, hidden); len(plan) > 0 {
			out = append(out, roofPlane{s, plan})
		}
	}
	return out
}

// belowOther cuts a convex ring down to where s is no higher than other.
func belowOther(ring orb.Ring, s, other slope) orb.Ring {
	if s.same(other) {
		return ring
	}
	a, b, c := s.b-other.b, s.c-other.c, other.a-s.a
	if math.Hypot(a, b) < 1e-9 { // parallel slopes, one above the other
		if c < 0 {
			return nil
		}
		return ring
	}
	return clipped(ring, a, b, c)
}

func hasSlope(list []slope, s slope) bool {
	for _, t := range list {
		if s.same(t) {
			return true
		}
	}
	return false
}

func appendRing(rings []orb.Ring, r orb.Ring) []orb.Ring {
	if len(r) < 4 || math.Abs(signedArea(r)) < 1e-9 {
		return rings
	}
	return append(rings, r)
}

// onePerEave splits planes that eaves in one line share into connected ones:
// under a hip roof the plane over one eave is in one piece.
func onePerEave(planes []roofPlane) []roofPlane {
	var out []roofPlane
	for _, p := range planes {
		for _, poly := range p.plan {
			out = append(out, roofPlane{p.slope, orb.MultiPolygon{poly}})
		}
	}
	return out
}

// onePlaneBays roofs any simple footprint with one plane that falls toward
// Down and meets the wall top at the lowest corner. A Down within 22.5° of
// square to a wall is taken as square to it, so that the eave is level.
func onePlaneBays(p Part, foot orb.Ring) []bay {
	down := squaredDown(p.Roof.Down, foot)
	sin, cos := math.Sincos(down.Radians())
	m := math.Tan(p.Roof.Pitch.Radians())
	low := math.Inf(-1)
	for _, c := range foot {
		low = max(low, c[0]*sin+c[1]*cos)
	}
	s := slope{p.eave() + m*low, -m * sin, -m * cos}
	var bays []bay
	for _, piece := range convexPieces(foot) {
		bays = append(bays, bay{piece, piece, []slope{s}})
	}
	if p.Roof.Overhang > 0 {
		for _, poly := range grown(foot, p.Roof.Overhang) {
			for _, piece := range convexPieces(poly[0]) {
				bays = append(bays, bay{piece, nil, []slope{s}})
			}
		}
	}
	return bays
}

func squaredDown(down s1.Angle, foot orb.Ring) s1.Angle {
	best, least := down, 22.5*s1.Degree
	for i := 0; i+1 < len(foot); i++ {
		a, b, _ := edgeLine(foot[i], foot[i+1])
		normal := s1.Angle(math.Atan2(a, b))
		if off := (down - normal).Normalized().Abs(); off < least-1e-9 {
			best, least = normal, off
		}
	}
	return best
}

// frame is a level pair of axes turned with a building.
type frame struct{ ex, ey orb.Point }

func (f frame) in(p orb.Point) orb.Point {
	return orb.Point{p[0]*f.ex[0] + p[1]*f.ex[1], p[0]*f.ey[0] + p[1]*f.ey[1]}
}

func (f frame) out(p orb.Point) orb.Point {
	return orb.Point{p[0]*f.ex[0] + p[1]*f.ey[0], p[0]*f.ex[1] + p[1]*f.ey[1]}
}

// slopeUp is the slope that stands at z on the line where direction·p = at
// and rises by m a metre along the direction.
func slopeUp(direction orb.Point, at, z, m float64) slope {
	return slope{z - m*at, m * direction[0], m * direction[1]}
}

func (f frame) box(x0, y0, x1, y1 float64) orb.Ring {
	r := orb.Ring{f.out(orb.Point{x0, y0}), f.out(orb.Point{x1, y0}), f.out(orb.Point{x1, y1}), f.out(orb.Point{x0, y1})}
	return append(r, r[0])
}

// squareFrame is the frame along the longest edge; it fails where an edge is
// more than squareTurn off both axes.
func squareFrame(foot orb.Ring) (frame, error) {
	longest := 0.0
	var f frame
	for i := 0; i+1 < len(foot); i++ {
		if d := distance(foot[i], foot[i+1]); d > longest*(1+1e-9) {
			longest = d
			f.ex = orb.Point{(foot[i+1][0] - foot[i][0]) / d, (foot[i+1][1] - foot[i][1]) / d}
		}
	}
	f.ey = orb.Point{-f.ex[1], f.ex[0]}
	for i := 0; i+1 < len(foot); i++ {
		a, b := f.in(foot[i]), f.in(foot[i+1])
		turn := math.Abs(math.Remainder(math.Atan2(b[1]-a[1], b[0]-a[0]), math.Pi/2))
		if turn > squareTurn.Radians() {
			return f, fmt.Errorf("the wall of %s is %.1f° off square", bothUnits(distance(a, b)), turn*180/math.Pi)
		}
	}
	return f, nil
}

// gableBays roofs a rectangle with two planes that meet at a ridge. The ridge
// runs along whichever pair of walls Roof.Ridge is nearer to.
func gableBays(p Part, foot orb.Ring) ([]bay, error) {
	f, err := squareFrame(foot)
	if err != nil {
		return nil, faultOf("footprint", "a rectangle, or a roof of explicit planes", "under a gable roof the footprint must be a rectangle, and %v", err)
	}
	if len(foot) != 5 {
		return nil, faultOf("footprint", "split it into parts that are rectangles and run on inside each other (an L is two), each with its own gable; or use a hip roof",
			"under a gable roof the footprint must be a rectangle, and this one has %d corners", len(foot)-1)
	}
	sin, cos := math.Sincos(p.Roof.Ridge.Radians())
	ridge := orb.Point{sin, cos}
	if along := f.in(ridge); math.Abs(along[1]) > math.Abs(along[0]) {
		f = frame{f.ey, orb.Point{-f.ex[0], -f.ex[1]}}
	}
	x0, y0, x1, y1 := f.spread(foot)
	m, o := math.Tan(p.Roof.Pitch.Radians()), p.Roof.Overhang
	slopes := []slope{
		slopeUp(f.ey, y0, p.eave(), m),
		slopeUp(orb.Point{-f.ey[0], -f.ey[1]}, -y1, p.eave(), m),
	}
	if m == 0 {
		slopes = slopes[:1]
	}
	return []bay{{f.box(x0-o, y0-o, x1+o, y1+o), foot, slopes}}, nil
}

// spread is the footprint's bounding box in the frame.
func (f frame) spread(foot orb.Ring) (x0, y0, x1, y1 float64) {
	x0, y0 = math.Inf(1), math.Inf(1)
	x1, y1 = math.Inf(-1), math.Inf(-1)
	for _, c := range foot {
		q := f.in(c)
		x0, x1 = min(x0, q[0]), max(x1, q[0])
		y0, y1 = min(y0, q[1]), max(y1, q[1])
	}
	return x0, y0, x1, y1
}
