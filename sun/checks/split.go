package checks

import (
	"fmt"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

func split() ([]Check, error) {
	l := list{group: "Diffuse share and shape of the day"}
	l.from("Erbs, Klein & Duffie 1982, hourly, plain arithmetic", computed)
	for _, c := range [][2]float64{{.1, .9910}, {.22, .9802}, {.3, .9486}, {.4, .8400}, {.5, .6591}, {.6, .4395}, {.7, .2440}, {.8, .1653}} {
		l.add(fmt.Sprintf("hour, clearness %g", c[0]), c[1], sky.HourlyDiffuseShare(c[0]), 6e-5, "")
	}
	l.from("Erbs, Klein & Duffie 1982, daily, plain arithmetic", computed)
	for _, c := range [][3]float64{{.4, .7583, .7584}, {.5, .5688, .6083}, {.6, .3534, .4323}, {.7, .1641, .2357}} {
		l.add(fmt.Sprintf("day, clearness %g, sunset at 75°", c[0]), c[1], sky.DailyDiffuseShare(c[0], degrees(75)), 6e-5, "")
		l.add(fmt.Sprintf("day, clearness %g, sunset at 95°", c[0]), c[2], sky.DailyDiffuseShare(c[0], degrees(95)), 6e-5, "")
	}
	l.from("Erbs, Klein & Duffie 1982, monthly, plain arithmetic", computed)
	for _, c := range [][3]float64{{.3, .6423, .6637}, {.4, .5005, .5340}, {.5, .3911, .4291}, {.6, .3014, .3382}, {.7, .2186, .2502}, {.8, .1298, .1543}} {
		l.add(fmt.Sprintf("month, clearness %g, sunset at 75°", c[0]), c[1], sky.MonthlyDiffuseShare(c[0], degrees(75)), 6e-5, "")
		l.add(fmt.Sprintf("month, clearness %g, sunset at 95°", c[0]), c[2], sky.MonthlyDiffuseShare(c[0], degrees(95)), 6e-5, "")
	}

	l.from("Duffie & Beckman 2013, ex. 2.11.1 (chart: about 0.26)", fromMemory)
	sunset := sun.SunsetHourAngle(degrees(38.6), sun.CooperDeclination(246))
	clearness := 23.0e6 / sky.DailyExtraterrestrial(degrees(38.6), 246, sky.HandbookConstant)
	l.add("diffuse share of 23.0 MJ/m², 38.6° N, 3 September", 0.26, sky.DailyDiffuseShare(clearness, sunset), 0.01, "")
	l.from("Duffie & Beckman 2013, ex. 2.12.1, data from memory, plain arithmetic", computed)
	sunset = sun.SunsetHourAngle(degrees(43), sun.CooperDeclination(162))
	clearness = 23.0e6 / sky.DailyExtraterrestrial(degrees(43), 162, sky.HandbookConstant)
	l.add("monthly clearness, Madison in June", 0.5506, clearness, 0.0005, "")
	l.add("diffuse share", 0.382, sky.MonthlyDiffuseShare(clearness, sunset), 0.001, "")

	l.from("Collares-Pereira & Rabl 1979; Liu & Jordan 1960, plain arithmetic", computed)
	for _, c := range []struct {
		sunset          float64
		global, diffuse [4]float64
	}{
		{70, [4]float64{.1742, .1504, .1081, .0567}, [4]float64{.1629, .1460, .1132, .0669}},
		{90, [4]float64{.1400, .1270, .1033, .0731}, [4]float64{.1298, .1209, .1038, .0797}},
		{110, [4]float64{.1188, .1107, .0957, .0759}, [4]float64{.1093, .1038, .0931, .0780}},
	} {
		for i, w := range [4]float64{7.5, 22.5, 37.5, 52.5} {
			what := fmt.Sprintf("hour at %g°, sunset at %g°", w, c.sunset)
			l.add("share of global, "+what, c.global[i], sky.HourOfDayGlobal(degrees(w), degrees(c.sunset)), 6e-5, "")
			l.add("share of diffuse, "+what, c.diffuse[i], sky.HourOfDayDiffuse(degrees(w), degrees(c.sunset)), 6e-5, "")
		}
	}
	l.from("Duffie & Beckman 2013, ex. 2.13.1", fromMemory)
	sunset = sun.SunsetHourAngle(degrees(-38), sun.CooperDeclination(17))
	l.add("share of the hour 8–9, Melbourne in January", 0.076, sky.HourOfDayGlobal(degrees(-52.5), sunset), 0.0006, "")
	return l.checks, nil
}
