package sky

import "math"

// AirMass is the relative length of air the sun's rays cross at sea level for
// a sine of the altitude: Kasten, F. & Young, A.T., Revised optical air mass
// tables and approximation formula, Applied Optics 28 (1989) 4735–4738. It is
// 1 with the sun overhead and 38 on the horizon; below the horizon the
// horizon's value is kept.
func AirMass(sinAltitude float64) float64 {
	sine := min(1, max(0, sinAltitude))
	altitude := math.Asin(sine) * 180 / math.Pi
	return 1 / (sine + 0.50572*math.Pow(altitude+6.07995, -1.6364))
}
