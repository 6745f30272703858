package portfolio

import (
	"math"
	"slices"
	"strconv"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
)

// onGround says on what ground a picture's shadows and sun fall.
func (s set) onGround() string {
	switch t := s.st.Site.Terrain; {
	case s.st.Site.Ground().Level():
		return "on level ground"
	case len(t.Spots) > 0:
		return "on the ground between the spot heights"
	default:
		decimals := 1
		if math.Abs(100*t.SlopeRise-math.Round(100*t.SlopeRise)) < 0.05 {
			decimals = 0
		}
		return "on ground that rises " + measure.FormatPercent(t.SlopeRise, decimals) + " toward " + measure.FormatBearing(t.SlopeUphill)
	}
}

// heightStep is the round step between lines of height that gives the lot a
// handful of them, metres; 0 where it has none.
func (s set) heightStep() float64 {
	const most = 12
	ground := s.st.Site.Ground()
	if ground.Level() || len(s.st.Site.Lot) < 4 {
		return 0
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, piece := range ground.Pieces(1000) {
		if f, ok := piece.Under(s.st.Site.Lot); ok {
			for _, q := range f.Outline[0][0] {
				z := f.At(q[0], q[1]).Z
				low, high = min(low, z), max(high, z)
			}
		}
	}
	steps := []float64{0.5, 1, 2, 5, 10, 20, 50, 100, 200}
	if s.unit() == measure.Metres {
		steps = []float64{0.2, 0.5, 1, 2, 5, 10, 20, 50}
	}
	for _, step := range steps {
		if step = measure.FromUnit(step, s.unit()); (high-low)/step <= most {
			return step
		}
	}
	return 0
}

// heightWords explain the lines of height in the view, and the mounds.
func (s set) heightWords() string {
	words, land := "", s.st.Site.Ground()
	if step := s.heightStep(); step > 0 {
		apart := measure.FormatLength(step, s.unit())
		if s.st.Site.Metric {
			apart = strconv.FormatFloat(step, 'f', -1, 64) + " m"
		}
		words = " Thin lines on the ground: one height each, " + apart + " apart."
	}
	if slices.ContainsFunc(s.st.Site.Trees, func(t model.Tree) bool { return math.Abs(t.Ground-land.At(t.At)) > 0.1 }) {
		words += " Rays round a trunk: its ground was stated higher or lower than the land beside it."
	}
	return words
}

// planLand is the spots and the lines of height between them; nothing where no
// spot was read.
func (s set) planLand() render.PlanLand {
	spots := s.st.Site.Terrain.Spots
	if len(spots) == 0 {
		return render.PlanLand{}
	}
	l := render.PlanLand{Ground: s.st.Site.Ground(), Step: s.heightStep(), Metric: s.st.Site.Metric}
	for _, spot := range spots {
		text := measure.FormatLength(spot.Up, s.unit())
		switch {
		case spot.Up == 0:
			text = "0"
		case spot.Up > 0:
			text = "+" + text
		}
		l.Spots = append(l.Spots, render.PlanSpot{At: spot.At, Text: text})
	}
	return l
}

// unit of lengths the site is written in.
func (s set) unit() measure.Unit {
	if s.st.Site.Metric {
		return measure.Metres
	}
	return measure.Feet
}

// land is what of the ground and of the far skyline stands before the sky,
// seen from a point, on the side to which a surface with the given normal looks.
func (s set) land(from, normal r3.Vector, facing float64) []render.SkySolid {
	terrain := s.st.Site.Terrain
	ground := s.st.Site.Ground().Horizon(from)
	skyline := func(azimuth s1.Angle) s1.Angle { return shading.Skyline(terrain.Skyline, azimuth) }
	var out []render.SkySolid
	for _, l := range []struct {
		name string
		high func(s1.Angle) s1.Angle
	}{{"land", ground}, {"skyline", skyline}} {
		const half, least = 120, 0.5 // degrees
		var top []render.SkyPoint
		highest := 0.0
		done := func() {
			if n := len(top); n > 1 && highest >= least {
				outline := append(top, render.SkyPoint{Azimuth: top[n-1].Azimuth}, render.SkyPoint{Azimuth: top[0].Azimuth})
				out = append(out, render.SkySolid{Name: l.name, Outline: outline, Away: math.Inf(1)})
			}
			top, highest = nil, 0
		}
		for off := -half; off <= half; off++ {
			azimuth := math.Mod(facing+float64(off)+720, 360)
			sin, cos := math.Sincos(azimuth * math.Pi / 180)
			altitude := l.high(s1.Angle(azimuth) * s1.Degree).Degrees()
			if altitude <= 0 || normal.X*sin+normal.Y*cos < -0.02 {
				done()
				continue
			}
			top = append(top, render.SkyPoint{Azimuth: azimuth, Altitude: altitude})
			highest = max(highest, altitude)
		}
		done()
	}
	return out
}
