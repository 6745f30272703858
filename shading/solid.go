package shading

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model"
)

// A crown or trunk is a solid whose level cross-section at height z is an
// ellipse scaled by r(z), with r² a quadratic in z (model.Solid). Rows of a
// receiver are level, so all rays of one row that share a sun direction meet
// the solid at height z in a level line parallel to the row: a chord of that
// ellipse. The shadow on the row is the hull of these chords, and its two ends
// are the maxima of g·z + √Q(z) with Q quadratic. Where neither the crown's
// base nor its top cuts them they lie evenly about a line, at a distance that
// is one square root of a quadratic in the row's v: for every crown shape the
// shadow of the whole quadric is an ellipse or a hyperbola.

// solidBody is a solid as one receiver sees it, with all that does not depend
// on the sun's direction.
type solidBody struct {
	blocker            int32
	solid              model.Solid
	m00, m01           float64 // rows of the map from plan offsets to unit-circle space
	m10, m11           float64
	semi               [4]float64 // the map from a plan gradient to unit-circle space
	rel                r3.Vector  // middle of the solid, from the receiver's origin
	halfZ              float64    // half its height
	ux, uy, invLength  float64    // the row's direction in unit-circle space
	px, py             float64    // the receiver's origin there
	vx, vy             float64    // the receiver's V there
	originZ, upwardsVZ float64
}

func newSolidBody(blocker int32, s model.Solid, face *model.Face) solidBody {
	sin, cos := math.Sincos(s.Twist)
	// A twist clockwise seen from above turns the x axis toward the south.
	b := solidBody{blocker: blocker, solid: s}
	b.m00, b.m01 = cos/s.SemiX, -sin/s.SemiX
	b.m10, b.m11 = sin/s.SemiY, cos/s.SemiY
	b.semi = [4]float64{cos * s.SemiX, -sin * s.SemiX, sin * s.SemiY, cos * s.SemiY}
	b.rel = r3.Vector{X: s.At[0], Y: s.At[1], Z: (s.Bottom + s.Top) / 2}.Sub(face.Origin)
	b.halfZ = (s.Top - s.Bottom) / 2
	b.ux = b.m00*face.U.X + b.m01*face.U.Y
	b.uy = b.m10*face.U.X + b.m11*face.U.Y
	b.invLength = 1 / math.Sqrt(b.ux*b.ux+b.uy*b.uy)
	b.ux *= b.invLength
	b.uy *= b.invLength
	ox, oy := face.Origin.X-s.At[0], face.Origin.Y-s.At[1]
	b.px, b.py = b.m00*ox+b.m01*oy, b.m10*ox+b.m11*oy
	b.vx, b.vy = b.m00*face.V.X+b.m01*face.V.Y, b.m10*face.V.X+b.m11*face.V.Y
	b.originZ, b.upwardsVZ = face.Origin.Z, face.V.Z
	return b
}

// reach is the greatest value of the linear form f·p over the upright
// elliptical cylinder around the solid, relative to its middle.
func (b *solidBody) reach(f r3.Vector) float64 {
	fx := f.X*b.semi[0] + f.Y*b.semi[1]
	fy := f.X*b.semi[2] + f.Y*b.semi[3]
	return math.Sqrt(fx*fx+fy*fy) + math.Abs(f.Z)*b.halfZ
}

// beamed is a solid prepared for one receiver and one sun direction. The
// chord at height z on the row at v is centred at −(c0 + cv·v + c1·z)/length
// and its half-width is √Q(z)/length, Q = r²(z) − (e0 + ev·v + e1·z)².
type beamed struct {
	blocker     int32
	vLow, vHigh float64 // rows outside are not touched
	bottom, top float64
	a, b        float64
	c0, cv, c1  float64
	e0, ev, e1  float64
	invLength   float64
	q2, inv2q2  float64    // Q = q0 + q1·z + q2·z²
	d           [3]float64 // q1² − 4·q0·q2 by powers of e = e0 + ev·v
	// The ends of the shadow of the whole quadric, where q2 < 0, stand at
	// heights middle ∓ lift·√d and halfWidth·√d from the middle's chord.
	lift, halfWidth float64
}

// beam is one sun direction on one plate.
type beam struct {
	fu, fv r3.Vector // gradients in space of the u and v a point's shadow has
	kx, ky float64   // how far level a ray runs for every metre it rises
}

// aim prepares the solid for a sun above the horizon. It reports false when
// the shadow misses the plate.
func (b *solidBody) aim(out *beamed, p *plate, s *beam) bool {
	cu, ru := b.rel.Dot(s.fu), b.reach(s.fu)
	if cu+ru < p.uMin || cu-ru > p.uMax {
		return false
	}
	cv, rv := b.rel.Dot(s.fv), b.reach(s.fv)
	if cv+rv < p.vMin || cv-rv > p.vMax {
		return false
	}
	out.blocker = b.blocker
	out.vLow, out.vHigh = cv-rv, cv+rv
	out.bottom, out.top = b.solid.Bottom, b.solid.Top
	out.a, out.b = b.solid.A, b.solid.B

	// In unit-circle space: the row's foot as a function of v with heights
	// counted from z = 0, and the drift per metre of height.
	zx, zy := b.m00*s.kx+b.m01*s.ky, b.m10*s.kx+b.m11*s.ky
	px, py := b.px-b.originZ*zx, b.py-b.originZ*zy
	vx, vy := b.vx-b.upwardsVZ*zx, b.vy-b.upwardsVZ*zy
	ux, uy := b.ux, b.uy
	out.c0, out.e0 = ux*px+uy*py, ux*py-uy*px
	out.cv, out.ev = ux*vx+uy*vy, ux*vy-uy*vx
	out.c1, out.e1 = ux*zx+uy*zy, ux*zy-uy*zx
	out.invLength = b.invLength
	out.q2 = b.solid.C - out.e1*out.e1
	if math.Abs(out.q2) < 1e-12 {
		out.q2 = -1e-12 // a line of chords that neither widens nor narrows
	}
	out.inv2q2 = 1 / (2 * out.q2)
	out.d = [3]float64{out.b*out.b - 4*out.q2*out.a, -4 * out.b * out.e1, 4 * (out.q2 + out.e1*out.e1)}
	if out.q2 < 0 {
		w := math.Sqrt(out.c1*out.c1 - out.q2)
		out.lift = out.c1 / w * out.inv2q2
		out.halfWidth = -w * out.inv2q2
	}
	return true
}

// span is the shadow on the row at v, whose points stand at height z: an
// interval of u. It reports false when the row is not touched.
func (b *beamed) span(v, z float64) (low, high float64, ok bool) {
	e := b.e0 + b.ev*v
	d := b.d[0] + e*(b.d[1]+e*b.d[2])
	zLow, zHigh := b.bottom, b.top
	if zLow < z { // only what lies ahead along the ray
		zLow = z
	}
	if d <= 0 || zLow >= zHigh {
		return 0, 0, false
	}
	root := math.Sqrt(d)
	q1 := b.b - 2*e*b.e1
	middle := -q1 * b.inv2q2
	c := b.c0 + b.cv*v
	if b.q2 > 0 {
		return b.steep(root, q1, b.a-e*e, c, zLow, zHigh)
	}
	// Q is positive between these heights. They, the ground of the row, the
	// crown's base and its top may cut off an end.
	if q := middle + root*b.inv2q2; zLow < q {
		zLow = q
	}
	if q := middle - root*b.inv2q2; zHigh > q {
		zHigh = q
	}
	if zLow > zHigh {
		return 0, 0, false
	}
	at, half := -c-b.c1*middle, b.halfWidth*root
	low, high = at-half, at+half
	zu, zl := middle+b.lift*root, middle-b.lift*root
	// Comparisons in place of min and max, which look for NaN too: a tenth of
	// all casting.
	if zu < zLow {
		high = -c - b.c1*zLow + b.half(zLow, q1, e)
	} else if zu > zHigh {
		high = -c - b.c1*zHigh + b.half(zHigh, q1, e)
	}
	if zl < zLow {
		low = -c - b.c1*zLow - b.half(zLow, q1, e)
	} else if zl > zHigh {
		low = -c - b.c1*zHigh - b.half(zHigh, q1, e)
	}
	return low * b.invLength, high * b.invLength, true
}

// half is half of the chord at height z, √Q.
func (b *beamed) half(z, q1, e float64) float64 {
	q := (b.q2*z+q1)*z + b.a - e*e
	if q < 0 {
		return 0
	}
	return math.Sqrt(q)
}

// steep is the span of rays steeper than a cone's side: the lower branch of a
// hyperbola ends at the smaller root of Q, above which the rays have left the
// cone.
func (b *beamed) steep(root, q1, q0, c, zLow, zHigh float64) (low, high float64, ok bool) {
	zHigh = min(zHigh, (-q1-root)*b.inv2q2)
	if zLow > zHigh {
		return 0, 0, false
	}
	top := func(g float64) float64 { // max of g·z + √Q on [zLow, zHigh]
		at := zLow
		if g > 0 && g*g > b.q2 {
			y := -root * g / math.Sqrt(g*g-b.q2)
			at = min(max((y-q1)*b.inv2q2, zLow), zHigh)
		}
		return g*at + math.Sqrt(max(0, (b.q2*at+q1)*at+q0))
	}
	return (-c - top(b.c1)) * b.invLength, (-c + top(-b.c1)) * b.invLength, true
}
