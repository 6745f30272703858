package model

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
)

// Toward is the unit vector with the given altitude and azimuth.
func Toward(altitude, azimuth s1.Angle) r3.Vector {
	sinA, cosA := math.Sincos(altitude.Radians())
	sinZ, cosZ := math.Sincos(azimuth.Radians())
	return r3.Vector{X: cosA * sinZ, Y: cosA * cosZ, Z: sinA}
}

func tilt(n r3.Vector) s1.Angle {
	return s1.Angle(math.Acos(max(-1, min(1, n.Z))))
}

func azimuth(n r3.Vector) s1.Angle {
	if math.Hypot(n.X, n.Y) < 1e-9 {
		return math.Pi
	}
	a := math.Atan2(n.X, n.Y)
	if a < 0 {
		a += 2 * math.Pi
	}
	return s1.Angle(a)
}
