package sky

import "math"

// kappa of the clearness, per cubic radian (Perez et al. 1990, eq. 1). Code
// that follows ISO 52010-1 has 1.104 instead.
const kappa = 1.041

// perezBin has the coefficients of one class of sky clearness below its upper
// edge.
type perezBin struct {
	below                        float64
	f11, f12, f13, f21, f22, f23 float64
}

// perezBins: Perez et al. 1990, tables 1 and 6, in the 7-digit set found in
// many public programs; the paper prints them to 3 digits.
var perezBins = [...]perezBin{
	{1.065, -0.0083117, 0.5877285, -0.0620636, -0.0596012, 0.0721249, -0.0220216},
	{1.23, 0.1299457, 0.6825954, -0.1513752, -0.0189325, 0.065965, -0.0288748},
	{1.5, 0.3296958, 0.4868735, -0.2210958, 0.055414, -0.0639588, -0.0260542},
	{1.95, 0.5682053, 0.1874525, -0.295129, 0.1088631, -0.1519229, -0.0139754},
	{2.8, 0.873028, -0.3920403, -0.3616149, 0.2255647, -0.4620442, 0.0012448},
	{4.5, 1.1326077, -1.2367284, -0.4118494, 0.2877813, -0.8230357, 0.0558651},
	{6.2, 1.0601591, -1.5999137, -0.3589221, 0.2642124, -1.127234, 0.1310694},
	{math.Inf(1), 0.677747, -0.3272588, -0.2504286, 0.1561313, -1.3765031, 0.2506212},
}

// perez gives the circumsolar coefficient F1, kept in 0..1, and the horizon
// coefficient F2, which may be negative, from the ratio of beam (normal) to
// diffuse, the zenith angle in radians and the sky's brightness Δ.
func perez(beamToDiffuse, zenith, brightness float64) (f1, f2 float64) {
	cube := kappa * zenith * zenith * zenith
	clearness := (1 + beamToDiffuse + cube) / (1 + cube)
	bin := perezBins[len(perezBins)-1]
	for _, b := range perezBins {
		if clearness < b.below {
			bin = b
			break
		}
	}
	f1 = bin.f11 + bin.f12*brightness + bin.f13*zenith
	f2 = bin.f21 + bin.f22*brightness + bin.f23*zenith
	return min(1, max(0, f1)), f2
}
