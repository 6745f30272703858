package heat

import "math"

// YearlyWater is the solar heat to hot water in a year, kWh, by the UK
// government's procedure (SAP 2009–2012 Appendix H): a second opinion beside
// the monthly method. area aperture m²; sun kWh/m² on the panel a year after
// shade; store and dailyDraw in litres; demand in kWh.
func YearlyWater(c Collector, area, sun, store, dailyDraw, demand float64) float64 {
	if !(area > 0 && sun > 0 && store > 0 && dailyDraw > 0 && demand > 0) {
		return 0
	}
	r := 0.892 * (c.A1 + 45*c.A2) / c.Eta0
	performance := 0.693 - 0.0108*r
	if r < 20 {
		performance = 0.97 - 0.0367*r + 0.0006*r*r
	}
	energy := area * c.Eta0 * sun
	utilisation := 1 - math.Exp(-demand/energy)
	volume := clamp(1+0.2*math.Log(store/dailyDraw), 0, 1)
	return energy * utilisation * max(0, performance) * volume
}
