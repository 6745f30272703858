package sun

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
)

// Angles are the altitude of a direction and its azimuth clockwise from true
// north, in [0, 2π).
func Angles(direction r3.Vector) (altitude, azimuth s1.Angle) {
	altitude = s1.Angle(math.Atan2(direction.Z, math.Hypot(direction.X, direction.Y)))
	a := math.Atan2(direction.X, direction.Y)
	if a < 0 {
		a += 2 * math.Pi
	}
	return altitude, s1.Angle(a)
}
