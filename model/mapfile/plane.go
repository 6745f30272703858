package mapfile

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
)

// The ellipsoid of the World Geodetic System 1984, which RFC 7946 section 4
// prescribes: semi-major axis in metres and flattening (NIMA TR8350.2).
const (
	semiMajor    = 6378137.0
	flattening   = 1 / 298.257223563
	eccentricity = flattening * (2 - flattening) // squared
)

// plane is the level plane that touches the ellipsoid at its origin, with x
// east and y north there. Points of the ellipsoid are dropped square onto it.
//
// At a distance d from the origin the plane shortens lengths by the factor
// d²/(2·R²), R about 6,370 km, so that a point 1 km off lies 0.004 mm too near
// and one 3 km off 0.11 mm; the plane's north and the true north of a point d
// east of the origin differ by d·tan(latitude)/R, which is 0.009° at 1 km and
// 45°. Heights above the ellipsoid are left out: a lot at 1,500 m is drawn
// smaller than it is by one part in 4,200 (7 mm in 30 m).
type plane struct {
	origin           r3.Vector // in the earth's own axes, metres
	east, north, out r3.Vector
}

func planeAt(at s2.LatLng) plane {
	sinLat, cosLat := math.Sincos(at.Lat.Radians())
	sinLng, cosLng := math.Sincos(at.Lng.Radians())
	return plane{
		origin: onEllipsoid(at),
		east:   r3.Vector{X: -sinLng, Y: cosLng},
		north:  r3.Vector{X: -sinLat * cosLng, Y: -sinLat * sinLng, Z: cosLat},
		out:    r3.Vector{X: cosLat * cosLng, Y: cosLat * sinLng, Z: sinLat},
	}
}

// onEllipsoid is a place at height zero in the earth's own axes.
func onEllipsoid(at s2.LatLng) r3.Vector {
	sinLat, cosLat := math.Sincos(at.Lat.Radians())
	sinLng, cosLng := math.Sincos(at.Lng.Radians())
	n := semiMajor / math.Sqrt(1-eccentricity*sinLat*sinLat)
	return r3.Vector{X: n * cosLat * cosLng, Y: n * cosLat * sinLng, Z: n * (1 - eccentricity) * sinLat}
}

// drop is where a place lies on the plane, metres.
func (p plane) drop(at s2.LatLng) orb.Point {
	d := onEllipsoid(at).Sub(p.origin)
	return orb.Point{d.Dot(p.east), d.Dot(p.north)}
}

// lift is the place whose drop is q. It finds the point of the ellipsoid
// above q by intersecting the upright line through q with it, and its
// latitude in closed form, since the height is zero.
func (p plane) lift(q orb.Point) s2.LatLng {
	foot := p.origin.Add(p.east.Mul(q[0])).Add(p.north.Mul(q[1]))
	// With z stretched by 1/(1-f) the ellipsoid is a sphere.
	stretched := func(v r3.Vector) r3.Vector { return r3.Vector{X: v.X, Y: v.Y, Z: v.Z / (1 - flattening)} }
	f, d := stretched(foot), stretched(p.out)
	a, b, c := d.Dot(d), f.Dot(d), f.Dot(f)-semiMajor*semiMajor
	up := 0.0
	if root := b*b - a*c; root >= 0 {
		up = -c / (b + math.Sqrt(root)) // the near intersection, without cancellation
	}
	v := foot.Add(p.out.Mul(up))
	return s2.LatLng{
		Lat: s1.Angle(math.Atan2(v.Z, (1-eccentricity)*math.Hypot(v.X, v.Y))),
		Lng: s1.Angle(math.Atan2(v.Y, v.X)),
	}
}
