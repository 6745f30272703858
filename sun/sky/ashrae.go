package sky

import "math"

// TauEdition of the ASHRAE Handbook of Fundamentals, chapter 14, whose air-mass
// exponents are used. They must be of the edition the τ figures are from.
type TauEdition int

// The editions with their own exponents.
const (
	Tau2009 TauEdition = 2009
	Tau2013 TauEdition = 2013 // and later
)

// ASHRAEClearSky is the direct normal and diffuse horizontal irradiance under a
// clear sky, W/m², from the sine of the sun's altitude, the extraterrestrial
// normal irradiance and a month's pseudo-optical depths τb and τd: ASHRAE
// Handbook of Fundamentals, chapter 14, eqs. 17 and 18. 0 with the sun below
// the horizon.
func ASHRAEClearSky(sinAltitude, extra, taub, taud float64, edition TauEdition) (beam, diffuse float64) {
	if sinAltitude <= 0 {
		return 0, 0
	}
	ab, ad := tauExponents(taub, taud, edition)
	m := AirMass(sinAltitude)
	return extra * math.Exp(-taub*math.Pow(m, ab)), extra * math.Exp(-taud*math.Pow(m, ad))
}

func tauExponents(taub, taud float64, edition TauEdition) (ab, ad float64) {
	both := taub * taud
	if edition == Tau2009 {
		return 1.219 - 0.043*taub - 0.151*taud - 0.204*both,
			0.202 + 0.852*taub - 0.007*taud - 0.357*both
	}
	return 1.454 - 0.406*taub - 0.268*taud + 0.021*both,
		0.507 + 0.205*taub - 0.080*taud - 0.190*both
}
