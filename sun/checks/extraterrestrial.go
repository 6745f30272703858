package checks

import (
	"fmt"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

func extraterrestrial() ([]Check, error) {
	l := list{group: "Extraterrestrial sun and air mass"}
	const mega = 1e6
	daily := func(latitude float64, n int) float64 {
		return sky.DailyExtraterrestrial(degrees(latitude), n, sky.HandbookConstant) / mega
	}
	l.from("Duffie & Beckman 2013, ex. 1.10.1", read)
	l.add("day, 43° N, 15 April", 33.8, daily(43, 105), 0.05, "MJ/m²")
	l.from("Duffie & Beckman 2013, ex. 1.10.2", fromMemory)
	l.add("hour 10–11 of that day", 3.79, sky.HourlyExtraterrestrial(degrees(43), 105, degrees(-30), degrees(-15), sky.HandbookConstant)/mega, 0.005, "MJ/m²")
	l.from("Duffie & Beckman 2013, ex. 2.12.1", read)
	l.add("day, 43° N, 11 June", 41.8, daily(43, 162), 0.05, "MJ/m²")
	l.from("Duffie & Beckman 2013, ex. 2.11.1", read)
	l.add("day, 38.6° N, 3 September", 33.0, daily(38.6, 246), 0.7, "MJ/m²")

	l.from("Duffie & Beckman 2013, table 1.10.1", read)
	for _, row := range []struct {
		latitude float64
		months   [12]float64
	}{
		{30, [12]float64{21.3, 25.7, 31.5, 36.8, 40.0, 41.1, 40.4, 37.8, 33.2, 27.4, 22.2, 19.9}},
		{15, [12]float64{29.6, 32.6, 35.9, 38.0, 38.5, 38.4, 38.3, 38.0, 36.4, 33.4, 30.1, 28.5}},
		{0, [12]float64{36.2, 37.4, 37.8, 36.7, 34.8, 33.5, 34.0, 35.7, 37.2, 37.3, 36.3, 35.7}},
	} {
		for i, want := range row.months {
			m := time.Month(i + 1)
			l.add(fmt.Sprintf("mean day of %s, latitude %g", m, row.latitude), want, daily(row.latitude, sun.MeanDay(m)), 0.3, "MJ/m²")
		}
	}

	l.from("Kasten & Young 1989, formula by plain arithmetic", computed)
	for _, c := range [][2]float64{{0, 0.9997}, {30, 1.1540}, {45, 1.4126}, {60, 1.9943}, {75, 3.8129}, {85, 10.306}, {90, 37.92}} {
		l.add(fmt.Sprintf("air mass at zenith %g°", c[0]), c[1], sky.AirMass(sine(c[0])), 0.0006*c[1], "")
	}
	return l.checks, nil
}
