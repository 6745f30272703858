package heat

import "math"

// WaterMonth is what the monthly method of EN 15316-4-3 needs for one month.
type WaterMonth struct {
	Load  float64 // heat wanted, kWh
	Sun   float64 // mean over the whole month on the panel, W/m²
	Air   float64 // °C
	Cold  float64 // mains, °C
	Hours float64
}

// Figures of the method: loop efficiency, and the hot-water temperature of
// its reference temperature.
const (
	loopEfficiency = 0.9
	methodHot      = 40.0 // °C
)

// pipeLoss is the loss of the loop's pipes a m² of collector, W/m²·K: (5 +
// 0.5A)/A (EN 15316-4-3:2007, default).
func pipeLoss(area float64) float64 { return (5 + 0.5*area) / area }

// Solar is the month's solar heat to hot water, kWh: EN 15316-4-3:2007 method
// B (2017 method 2), with its factors X and Y. area is aperture m², store the
// litres that only the sun heats. Below about half a panel the fixed pipe
// loss of the method leaves nothing.
func (w WaterMonth) Solar(c Collector, area, store float64) (kWh, x, y float64) {
	if w.Load <= 0 || area <= 0 || store <= 0 {
		return 0, 0, 0
	}
	loop := c.A1 + 40*c.A2 + pipeLoss(area)
	dt := 11.6 + 1.18*methodHot + 3.86*w.Cold - 2.32*w.Air
	x = area * loop * loopEfficiency * dt * math.Pow(75*area/store, 0.25) * w.Hours / (1000 * w.Load)
	y = area * c.IAM * c.Eta0 * loopEfficiency * w.Sun * w.Hours / (1000 * w.Load)
	return LiquidFraction(x, y) * w.Load, x, y
}
