package heat

import "math"

// LiquidFraction is the solar share of a month's load for liquid systems: f =
// 1.029Y − 0.065X − 0.245Y² + 0.0018X² + 0.0215Y³ (Klein, Beckman & Duffie
// 1976), for X in 0…18 and Y in 0…3, held to 0…1. Beyond that range X and Y,
// which both grow with the area, are taken as of the largest area within it:
// what lies beyond is worth nothing rather than guessed (ours).
func LiquidFraction(x, y float64) float64 {
	x, y = withinChart(x, y)
	return clamp(1.029*y-0.065*x-0.245*y*y+0.0018*x*x+0.0215*y*y*y, 0, 1)
}

func withinChart(x, y float64) (float64, float64) {
	x, y = max(0, x), max(0, y)
	if over := max(x/18, y/3, 1); over > 1 {
		return x / over, y / over
	}
	return x, y
}

// HotWaterLosses corrects X for systems that only heat water: (11.6 + 1.18Tw
// + 3.86Tmains − 2.32Ta)/(100 − Ta), °C (Duffie & Beckman ch. 20).
func HotWaterLosses(hot, mains, air float64) float64 {
	return (11.6 + 1.18*hot + 3.86*mains - 2.32*air) / (100 - air)
}

// StorageLosses corrects X for a store of litresPerM2 of collector, held to
// 37.5–300: (V/75)^−0.25 (Duffie & Beckman ch. 20).
func StorageLosses(litresPerM2 float64) float64 {
	return math.Pow(clamp(litresPerM2, 37.5, 300)/75, -0.25)
}

func clamp(x, low, high float64) float64 { return max(low, min(high, x)) }
