package sitefile

import (
	"fmt"
	"math"
	"time"

	"github.com/southyard/southyard/sun"
)

// mostApart is how far standard time may stand from the sun's own hours before
// a time zone is asked about. Clocks of the lower 48 states and of all Canadian
// provinces stay within 1 h 20 min of the sun (western Saskatchewan is the
// farthest), and two zones too far is 1 h 28 min in Ohio. Parts of Alaska and
// the Yukon, Patagonia, Galicia and western China are 1 h 40 min to 3 hours off
// and right, so it is asked, never refused. Offsets from memory.
const mostApart = 1.4

// clocks asks about a time zone that does not go with the longitude; at is
// where the zone is written.
func (r *reader) clocks(at spot, longitude float64, zone string) {
	location, err := time.LoadLocation(zone)
	if err != nil {
		return
	}
	here := longitude / 15
	apart := math.Remainder(sun.StandardOffset(location, 2023).Hours()-here, 24)
	if math.Abs(apart) <= mostApart {
		return
	}
	way := "ahead of"
	if apart < 0 {
		way = "behind"
	}
	r.remark(at, true, fmt.Sprintf("the longitude suggests %s; right as it is only where clocks really run so, as in much of Alaska", zonesNear(here)),
		"standard time in %s is %.1f hours %s the sun at this longitude", zone, math.Abs(apart), way)
}

// zonesNear names the whole-hour zones about an offset in hours: the nearest,
// and the next where the offset lies between.
func zonesNear(hours float64) string {
	near := int(math.Round(hours))
	text := fmt.Sprintf("UTC%+d", near)
	switch off := hours - float64(near); {
	case off > 0.25:
		text += fmt.Sprintf(" or UTC%+d", near+1)
	case off < -0.25:
		text += fmt.Sprintf(" or UTC%+d", near-1)
	}
	return text
}
