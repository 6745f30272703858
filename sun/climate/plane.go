package climate

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// Normal of a plane tilted from the horizontal toward an azimuth (clockwise
// from true north): x east, y north, z up. Tilt 0 looks up, 90° is a wall.
func Normal(tilt, azimuth s1.Angle) r3.Vector {
	sinT, cosT := math.Sincos(tilt.Radians())
	sinA, cosA := math.Sincos(azimuth.Radians())
	return r3.Vector{X: sinT * sinA, Y: sinT * cosA, Z: cosT}
}

// PlaneSun is the unobstructed energy that a year brings to a plane with unit
// normal n, month by month, kWh/m² a month.
func PlaneSun(y sun.Year, n r3.Vector, model sky.Model) [12]sky.Parts {
	var months [12]sky.Parts
	for i, h := range y.Hours {
		month, _ := sun.Month(i)
		p := sky.OnPlane(h, n, model)
		sum := &months[month-1]
		sum.Beam += p.Beam / 1000
		sum.Circumsolar += p.Circumsolar / 1000
		sum.Dome += p.Dome / 1000
		sum.Horizon += p.Horizon / 1000
		sum.Ground += p.Ground / 1000
	}
	return months
}
