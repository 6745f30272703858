package climate

import (
	"math"
	"math/rand/v2"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// cleanAir is the Linke turbidity of the cleanest sky: no synthesised hour is
// brighter where the month's sum allows it.
const cleanAir = 2.0

// shapeOfDay is the mean clearness of an hour over the day's clearness, up to
// a factor: Collares-Pereira & Rabl's share of the day over the
// extraterrestrial's own. An hour cut by sunrise is taken at its edge.
func shapeOfDay(hourAngle, sunset s1.Angle) float64 {
	at := min(hourAngle.Abs(), sunset*0.97)
	above := sky.HourOfDayDiffuse(at, sunset)
	if above <= 0 {
		return 0
	}
	return sky.HourOfDayGlobal(at, sunset) / above
}

// spreadDay shares a day's global energy, Wh/m², among its hours. The mean
// shape is Collares-Pereira, M. & Rabl, A., The average distribution of solar
// radiation, Solar Energy 22 (1979) 155–164; about it the hours scatter after
// Aguiar, R. & Collares-Pereira, M., TAG: a time-dependent, autoregressive,
// Gaussian model for generating synthetic hourly radiation, Solar Energy 49
// (1992) 167–174 (from memory): the clearness of an hour strays by
// σ = A e^(B(1 − sin h)) times a normal deviate, A = 0.14 e^(−20(K − 0.35)²),
// B = 3(K − 0.45)² + 16 K⁵, where K is the day's clearness and h the sun's
// altitude. No hour exceeds its limit and the day keeps its sum.
func spreadDay(day []sun.Hour, limits []float64, global float64, deviates [24]float64) {
	above, noon, sunset := shapeOf(day)
	var energies [24]float64
	if above > 0 {
		shape := func(i int) float64 {
			return shapeOfDay(s1.Angle(15*(float64(i)+0.5-noon))*s1.Degree, sunset)
		}
		norm := 0.0
		for i, h := range day {
			norm += outside(h) * shape(i)
		}
		k := global / above
		a := 0.14 * math.Exp(-20*(k-0.35)*(k-0.35))
		b := 3*(k-0.45)*(k-0.45) + 16*math.Pow(k, 5)
		for i, h := range day {
			if h.Up == 0 {
				continue
			}
			mean := global / norm * max(0.05, shape(i))
			stray := a * math.Exp(b*(1-h.Incidence(up)))
			energies[i] = outside(h) * max(0.15*mean, mean+stray*deviates[i])
		}
		fitSum(energies[:], limits, global)
	}
	for i := range day {
		day[i].Global = energies[i]
	}
}

// shapeOf a day of hours: the extraterrestrial energy on the horizontal,
// Wh/m², the hour of solar noon and the hour angle of sunset.
func shapeOf(day []sun.Hour) (above, noon float64, sunset s1.Angle) {
	light := 0.0
	for i, h := range day {
		o := outside(h)
		above += o
		noon += o * (float64(i) + 0.5)
		light += h.Up
	}
	if above > 0 {
		noon /= above
	}
	return above, noon, s1.Angle(7.5*light) * s1.Degree
}

// hourlyDeviates are a day's normal deviates, each following the hour's
// before by φ = 0.38 + 0.06 cos(7.4 K − 2.5) (Aguiar & Collares-Pereira 1992,
// from memory).
func hourlyDeviates(clearness float64, random *rand.Rand) (z [24]float64) {
	phi := 0.38 + 0.06*math.Cos(7.4*clearness-2.5)
	previous := random.NormFloat64()
	for i := range z {
		previous = phi*previous + math.Sqrt(1-phi*phi)*random.NormFloat64()
		z[i] = previous
	}
	return z
}

// mirrored turns a day's deviates round solar noon, in hours: as likely a day
// as the first, and with it neither morning nor afternoon is favoured.
func mirrored(z [24]float64, noon float64) (turned [24]float64) {
	last := int(math.Round(2*noon)) - 1
	for i := range z {
		turned[i] = z[((last-i)%24+24)%24]
	}
	return turned
}

// splitMonth gives every hour of a month its diffuse part and the beam that
// is left. The share is that of Erbs, Klein & Duffie, Solar Energy 28 (1982)
// 293–302, raised to the one power that makes the month's diffuse energy come
// out at target, Wh/m²; no beam exceeds its limit, so that what is left over
// stays diffuse. The diffuse energy reached is returned.
func splitMonth(hours []sun.Hour, beamLimits []float64, target float64) float64 {
	shares, heights := make([]float64, len(hours)), make([]float64, len(hours))
	for i, h := range hours {
		if above := outside(h); above > 0 && h.Global > 0 {
			shares[i] = math.Log(sky.HourlyDiffuseShare(h.Global / above))
			heights[i] = h.Incidence(up)
		}
	}
	split := func(power float64) float64 {
		sum := 0.0
		for i := range hours {
			h := &hours[i]
			h.Diffuse, h.Beam = 0, 0
			if heights[i] == 0 {
				continue
			}
			h.Beam = min(beamLimits[i], h.Global*-math.Expm1(power*shares[i])/heights[i])
			h.Diffuse = h.Global - h.Beam*heights[i]
			sum += h.Diffuse
		}
		return sum
	}
	low, high := 0.0, 12.0 // power 0: all diffuse
	for range 50 {
		if middle := (low + high) / 2; split(middle) > target {
			low = middle
		} else {
			high = middle
		}
	}
	return split((low + high) / 2)
}
