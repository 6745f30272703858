package heat

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/model/measure"
)

// percent without false digits.
func percent(share float64) string { return measure.FormatPercent(share, 0) }

// Dollars with two significant digits and no cents: what an estimate of money
// deserves. Prices of a unit of heat are not for it. The page's script rounds
// alike.
func Dollars(x float64) string {
	return measure.FormatMoneyExact(math.Round(measure.Significant(x, 2)))
}

// KWh is heat with two digits, three from 100 up, and none finer than a kWh.
func KWh(x float64) string { return heatFigure(x, 3, 0) }

// MMBtu is heat in kWh, written in million Btu with two digits, three from 100
// up, and none finer than a hundredth (3 kWh).
func MMBtu(kWh float64) string { return heatFigure(kWh/KWhPerMMBtu, 3, 2) }

// heatWords is an amount of heat with two digits, in both units of the trade.
func heatWords(kWh float64) string {
	return fmt.Sprintf("%s kWh (%s million Btu)", heatFigure(kWh, 2, 0), heatFigure(kWh/KWhPerMMBtu, 2, 2))
}

// heatFigure has two digits, so many from 100 up, and so many places at most.
func heatFigure(x float64, large, places int) string {
	digits := 2
	if math.Abs(x) >= 100 {
		digits = large
	}
	r := measure.Significant(x, digits)
	if size := math.Abs(r); size >= 0.5*math.Pow10(-places) && !math.IsInf(r, 0) {
		return measure.Number(r, min(places, max(0, 1-int(math.Floor(math.Log10(size))))))
	}
	if math.Abs(r) < 1 { // NaN and infinities are dashes
		r = 0
	}
	return measure.Number(r, 0)
}

// years of a payback: whole from 3 up, and no figure beyond a century.
func years(x float64) string {
	switch {
	case x > 100:
		return "more than 100 years"
	case x < 3:
		return measure.FormatSignificant(x, 2) + " years"
	}
	return measure.Number(x, 0) + " years"
}
