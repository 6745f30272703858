package climate

import "github.com/southyard/southyard/sun"

// Our own rule for snow on the ground, fitted to the 936 station-months of
// the table that carry days with snow cover (root mean square 0.12 of the
// month): the ground is bare at or above 5 °C and covered all month at or
// below −6 °C, on the line between, for a temperature made of 0.7 of the
// month's mean and 0.3 of the month's before, since snow comes and goes late.
const (
	bareAbove    = 5.0
	coveredBelow = -6.0
	lagShare     = 0.3
)

// snowAlbedo is that of ground under snow: within the 0.4 to 0.7 of Liu &
// Jordan 1963 (from memory), below fresh snow because streets and roofs shed.
const snowAlbedo = 0.6

// snowShare is the share of each month with snow on the ground, 0..1, from
// the monthly mean temperatures in °C.
func snowShare(mean [12]float64) [12]float64 {
	var share [12]float64
	for m, t := range mean {
		felt := (1-lagShare)*t + lagShare*mean[(m+11)%12]
		share[m] = min(1, max(0, (bareAbove-felt)/(bareAbove-coveredBelow)))
	}
	return share
}

// SnowAlbedo is the ground's albedo by month: that of bare or grassed ground,
// raised toward 0.6 by the share of the month with snow (see snowShare).
func SnowAlbedo(mean [12]float64) [12]float64 {
	albedo := snowShare(mean)
	for m, share := range albedo {
		albedo[m] = sun.GrassAlbedo + share*(snowAlbedo-sun.GrassAlbedo)
	}
	return albedo
}
