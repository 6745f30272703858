package study

import (
	"math"

	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun/sky"
)

// BestPlane is the yearly sun, kWh/m², on the best of the fixed planes that
// look toward the equator in an open field, to the nearest 10° of tilt. It is
// what tilt and turn of a roof are held against.
func (st *Study) BestPlane() float64 {
	azimuth := math.Pi
	if st.SunSide() == "north" {
		azimuth = 0
	}
	most := 0.0
	for tilt := 10.0; tilt <= 60; tilt += 10 {
		n := model.Toward(s1.Angle((90-tilt)*math.Pi/180), s1.Angle(azimuth))
		sum := 0.0
		for i := range st.Year.Hours {
			sum += sky.OnPlane(st.Year.Hours[i], n, st.Sky).Sum() / 1000
		}
		most = max(most, sum)
	}
	return most
}
