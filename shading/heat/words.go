package heat

import (
	"fmt"

	"github.com/southyard/southyard/model/measure"
)

// percent without false digits.
func percent(share float64) string { return measure.FormatPercent(share, 0) }

// Dollars with two significant digits: what an estimate deserves.
func Dollars(x float64) string { return measure.FormatMoneyExact(measure.Significant(x, 2)) }

// heatWords is an amount of heat with two digits, in both units of the trade.
func heatWords(kWh float64) string {
	return fmt.Sprintf("%s kWh (%s million Btu)", measure.FormatSignificant(kWh, 2), measure.FormatSignificant(kWh/KWhPerMMBtu, 2))
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
