package sky

import (
	"math"

	"github.com/golang/geo/s1"
)

// HourOfDayGlobal is the share of a day's global that falls in the hour around
// an hour angle: Collares-Pereira, M. & Rabl, A., Solar Energy 22 (1979)
// 155–164 (Duffie & Beckman 2.13.2). The day adds up to 1 within 1 %
// for sunset hour angles of 60° to 120° and within 5 % beyond: scale the hours
// where the sum matters. 0 with the sun down.
func HourOfDayGlobal(hourAngle, sunset s1.Angle) float64 {
	ws := sunset.Radians()
	a := 0.409 + 0.5016*math.Sin(ws-math.Pi/3)
	b := 0.6609 - 0.4767*math.Sin(ws-math.Pi/3)
	return max(0, a+b*math.Cos(hourAngle.Radians())) * HourOfDayDiffuse(hourAngle, sunset)
}

// HourOfDayDiffuse is the same for the diffuse light, which follows the
// extraterrestrial sun: Liu, B.Y.H. & Jordan, R.C., Solar Energy 4 (1960) 1–19
// (Duffie & Beckman 2.13.4).
func HourOfDayDiffuse(hourAngle, sunset s1.Angle) float64 {
	ws := sunset.Radians()
	if ws <= 0 || math.Abs(hourAngle.Radians()) >= ws {
		return 0
	}
	return math.Pi / 24 * (math.Cos(hourAngle.Radians()) - math.Cos(ws)) /
		(math.Sin(ws) - ws*math.Cos(ws))
}
