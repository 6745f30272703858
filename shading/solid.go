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
// are the maxima of g·z + √Q(z) with Q quadratic: one square root each, for
// every crown shape.

// solidBody is a solid as one receiver sees it.
type solidBody struct {
	blocker  int32
	solid    model.Solid
	m00, m01 float64 // rows of the map from plan offsets to unit-circle space
	m10, m11 float64
	centre   r3.Vector // of the box around the solid
	half     r3.Vector // its half sizes, z by height; x and y by extent
}

func newSolidBody(blocker int32, s model.Solid) solidBody {
	sin, cos := math.Sincos(s.Twist)
	// A twist clockwise seen from above turns the x axis toward the south.
	b := solidBody{blocker: blocker, solid: s}
	b.m00, b.m01 = cos/s.SemiX, -sin/s.SemiX
	b.m10, b.m11 = sin/s.SemiY, cos/s.SemiY
	b.centre = r3.Vector{X: s.At[0], Y: s.At[1], Z: (s.Bottom + s.Top) / 2}
	b.half = r3.Vector{
		X: math.Hypot(s.SemiX*cos, s.SemiY*sin),
		Y: math.Hypot(s.SemiX*sin, s.SemiY*cos),
		Z: (s.Top - s.Bottom) / 2,
	}
	return b
}

// reach is the greatest value of the linear form f·p over the upright
// elliptical cylinder around the solid, relative to its centre.
func (b *solidBody) reach(f r3.Vector) float64 {
	// |f| over the ellipse: map f by the inverse transpose of m.
	sin, cos := math.Sincos(b.solid.Twist)
	fx := (f.X*cos - f.Y*sin) * b.solid.SemiX
	fy := (f.X*sin + f.Y*cos) * b.solid.SemiY
	return math.Sqrt(fx*fx+fy*fy) + math.Abs(f.Z)*b.half.Z
}

// beamed is a solid prepared for one receiver and one sun direction. The
// chord at height z on the row at v is centred at −(c0 + cv·v + c1·z)/length
// and its half-width is √(r²(z) − (e0 + ev·v + e1·z)²)/length.
type beamed struct {
	blocker        int32
	vLow, vHigh    float64 // rows outside are not touched
	uLow, uHigh    float64
	bottom, top    float64
	a, b, c        float64
	c0, cv, c1     float64
	e0, ev, e1     float64
	invLength      float64
	q2             float64
	inv2q2, gScale float64
}

// aim prepares the solid for sun direction s (s.Z > 0) on the plate p, whose
// slopes a = s·U/s·N and bb = s·V/s·N are given. It reports false when the
// shadow misses the plate.
func (b *solidBody) aim(out *beamed, p *plate, s r3.Vector, ua, vb float64, kx, ky float64) bool {
	rel := b.centre.Sub(p.face.Origin)
	n := p.face.N
	fu := p.face.U.Sub(n.Mul(ua))
	cu := rel.Dot(fu)
	ru := b.reach(fu)
	if cu+ru < p.uMin || cu-ru > p.uMax {
		return false
	}
	fv := p.face.V.Sub(n.Mul(vb))
	cv := rel.Dot(fv)
	rv := b.reach(fv)
	if cv+rv < p.vMin || cv-rv > p.vMax {
		return false
	}
	out.blocker = b.blocker
	out.uLow, out.uHigh = cu-ru, cu+ru
	out.vLow, out.vHigh = cv-rv, cv+rv
	out.bottom, out.top = b.solid.Bottom, b.solid.Top
	out.a, out.b, out.c = b.solid.A, b.solid.B, b.solid.C

	// In unit-circle space: the row's direction, the row's foot as a function
	// of v with heights counted from z = 0, and the drift per metre of height.
	ux := b.m00*p.face.U.X + b.m01*p.face.U.Y
	uy := b.m10*p.face.U.X + b.m11*p.face.U.Y
	length := math.Sqrt(ux*ux + uy*uy)
	inv := 1 / length
	ux *= inv
	uy *= inv
	ox, oy := p.face.Origin.X-b.solid.At[0], p.face.Origin.Y-b.solid.At[1]
	fx, fy := ox-p.face.Origin.Z*kx, oy-p.face.Origin.Z*ky
	gx, gy := p.face.V.X-p.face.V.Z*kx, p.face.V.Y-p.face.V.Z*ky
	px, py := b.m00*fx+b.m01*fy, b.m10*fx+b.m11*fy
	vx, vy := b.m00*gx+b.m01*gy, b.m10*gx+b.m11*gy
	zx, zy := b.m00*kx+b.m01*ky, b.m10*kx+b.m11*ky
	out.c0, out.e0 = ux*px+uy*py, ux*py-uy*px
	out.cv, out.ev = ux*vx+uy*vy, ux*vy-uy*vx
	out.c1, out.e1 = ux*zx+uy*zy, ux*zy-uy*zx
	out.invLength = inv
	out.q2 = out.c - out.e1*out.e1
	if math.Abs(out.q2) < 1e-12 {
		out.q2 = -1e-12 // a line of chords that neither widens nor narrows
	}
	out.inv2q2 = 1 / (2 * out.q2)
	out.gScale = out.c1 * out.c1 / (out.c1*out.c1 - out.q2)
	return true
}

// span is the shadow on the row at v, whose points stand at height z: an
// interval of u. It reports false when the row is not touched.
func (b *beamed) span(v, z float64) (low, high float64, ok bool) {
	zLow, zHigh := max(b.bottom, z), b.top // only what lies ahead along the ray
	if zLow >= zHigh {
		return 0, 0, false
	}
	e := b.e0 + b.ev*v
	q1 := b.b - 2*e*b.e1
	q0 := b.a - e*e
	d := q1*q1 - 4*b.q2*q0
	if d <= 0 {
		return 0, 0, false
	}
	c := b.c0 + b.cv*v
	if b.q2 < 0 {
		// y = Q'(z) at the two extremes; Q = (y² − d)/(4·q2).
		y := math.Sqrt(d * b.gScale)
		if b.c1 < 0 {
			y = -y
		}
		// Upper end: maximise −c1·z + √Q, so Q' = 2·c1·√Q has the sign of c1.
		zu := (y - q1) * b.inv2q2
		zl := (-y - q1) * b.inv2q2
		if zu >= zLow && zu <= zHigh && zl >= zLow && zl <= zHigh {
			root := math.Sqrt(max(0, (y*y-d)*b.inv2q2*0.5))
			return (-c - b.c1*zl - root) * b.invLength, (-c - b.c1*zu + root) * b.invLength, true
		}
		// Cut by the ground of the row, the crown base or the crown's top.
		r := math.Sqrt(d)
		near, far := (-q1+r)*b.inv2q2, (-q1-r)*b.inv2q2 // inv2q2 < 0: near is the lower root
		zLow, zHigh = max(zLow, near), min(zHigh, far)
		if zLow > zHigh {
			return 0, 0, false
		}
		zu, zl = min(max(zu, zLow), zHigh), min(max(zl, zLow), zHigh)
		ru := math.Sqrt(max(0, (b.q2*zu+q1)*zu+q0))
		rl := math.Sqrt(max(0, (b.q2*zl+q1)*zl+q0))
		return (-c - b.c1*zl - rl) * b.invLength, (-c - b.c1*zu + ru) * b.invLength, true
	}
	// Rays steeper than a cone's side: the lower branch of a hyperbola ends at
	// the smaller root, above which the rays have left the cone.
	zHigh = min(zHigh, (-q1-math.Sqrt(d))*b.inv2q2)
	if zLow > zHigh {
		return 0, 0, false
	}
	top := func(g float64) float64 { // max of g·z + √Q on [zLow, zHigh]
		at := zLow
		if g > 0 && g*g > b.q2 {
			y := -math.Sqrt(d * b.gScale)
			at = min(max((y-q1)*b.inv2q2, zLow), zHigh)
		}
		return g*at + math.Sqrt(max(0, (b.q2*at+q1)*at+q0))
	}
	return (-c - top(b.c1)) * b.invLength, (-c + top(-b.c1)) * b.invLength, true
}
