package sky

// Parts is the energy on a plane in one hour, Wh/m², by where it comes from.
// Each is non-negative. Beam and Circumsolar come from the sun's direction;
// Dome comes from the whole sky evenly; Horizon from the band just above the
// horizon; Ground from below.
//
// Where the model's horizon term is negative (an overcast sky darkens toward
// the horizon) it is taken from Dome and Horizon is 0, so that every part can
// be shaded on its own without shade ever adding energy.
type Parts struct {
	Beam, Circumsolar, Dome, Horizon, Ground float64
}

// Sum of all parts.
func (p Parts) Sum() float64 { return p.Beam + p.Circumsolar + p.Dome + p.Horizon + p.Ground }
