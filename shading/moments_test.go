package shading

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// sunAfter is the sun after a part, 0..1, of the hour's sun-up time: its place
// in the middle turned about the pole, 15° an hour. It shares nothing with the
// caster's own moments.
func sunAfter(h *sun.Hour, latitude, part float64) r3.Vector {
	sin, cos := math.Sincos(latitude * math.Pi / 180)
	pole := r3.Vector{Y: cos, Z: sin}
	s, c := math.Sincos(-(part - 0.5) * h.Up * 15 * math.Pi / 180)
	return h.Sun.Mul(c).Add(pole.Cross(h.Sun).Mul(s)).Add(pole.Mul(pole.Dot(h.Sun) * (1 - c)))
}

// evenly casts an hour in so many directions evenly through its sun-up part,
// each with the beam it brings under a clear sky.
func evenly(year *sun.Year, rays int) func(i int, n r3.Vector, out []ray) []ray {
	return func(i int, n r3.Vector, out []ray) []ray {
		h := &year.Hours[i]
		if h.Up <= 0 {
			return out
		}
		first, sum := len(out), 0.0
		for k := range rays {
			s := sunAfter(h, year.Latitude, (float64(k)+0.5)/float64(rays))
			if w := s.Dot(n) * sky.BeamThrough(s.Z, sky.DefaultLinke); w > 0 {
				out = append(out, ray{s, w})
				sum += w
			}
		}
		for k := range out[first:] {
			out[first+k].share /= sum
		}
		return out
	}
}

// middles casts an hour in the middles of so many equal parts of its sun-up
// time, each with the beam its part brings.
func middles(year *sun.Year, rays int) func(i int, n r3.Vector, out []ray) []ray {
	const fine = 12
	even := evenly(year, fine)
	return func(i int, n r3.Vector, out []ray) []ray {
		h := &year.Hours[i]
		all := even(i, n, nil)
		for k := range rays {
			low, high := k*fine/rays, (k+1)*fine/rays
			r := ray{direction: sunAfter(h, year.Latitude, (float64(k)+0.5)/float64(rays))}
			var mean r3.Vector
			for j := low; j < high; j++ {
				s := sunAfter(h, year.Latitude, (float64(j)+0.5)/fine)
				for _, one := range all {
					if one.direction == s {
						r.share += one.share
						mean = mean.Add(s.Mul(one.share))
					}
				}
			}
			if r.share == 0 {
				continue
			}
			if r.direction.Dot(n) < 1e-3 || r.direction.Z <= 0 {
				r.direction = mean.Normalize()
			}
			out = append(out, r)
		}
		return out
	}
}

// castBy is an account of the year cast in the given directions.
func (sc *Scene) castBy(year *sun.Year, which []int, rays func(i int, n r3.Vector, out []ray) []ray) *Account {
	l := sc.castYear(which, sun.HoursAYear, Dome(), func(surface, i int, out []ray) []ray {
		return rays(i, sc.Surfaces[surface].Face.N, out)
	}, Casting{})
	return sc.NewAccount(l, lightOf(year))
}

// normals look all ways.
var normals = []r3.Vector{
	{X: 1}, {X: -1}, {Y: -1}, {Y: 1}, {Z: 1},
	r3.Vector{X: 0.3, Y: -0.8, Z: 0.4}.Normalize(), r3.Vector{X: 0.9, Y: 0.3, Z: -0.2}.Normalize(),
}

func TestRaysOfAnHourShareItsBeamEvenly(t *testing.T) {
	for _, latitude := range []float64{0, 42, -42, 68, 89} {
		year := testYear(latitude)
		m := momentsOf(year)
		for _, n := range normals {
			for i := range year.Hours {
				h := &year.Hours[i]
				for turn := range phases {
					rays := m.rays(i, turn, raysAnHour, n, nil)
					if (len(rays) > 0) != (h.Incidence(n) > 0) {
						t.Fatalf("%v°, hour %d, normal %v: %d rays, incidence %g", latitude, i, n, len(rays), h.Incidence(n))
					}
					sum := 0.0
					for _, r := range rays {
						sum += r.share
						nearest := math.Pi
						for _, s := range h.Steps {
							nearest = min(nearest, r.direction.Angle(s).Radians())
						}
						if !(r.direction.Z > 0 && r.direction.Dot(n) > 0 && math.Abs(r.direction.Norm()-1) < 1e-9 && nearest < 2*math.Pi/180) {
							t.Fatalf("%v°, hour %d, normal %v: ray %v is not of the sun %v", latitude, i, n, r.direction, h.Steps)
						}
					}
					if len(rays) > 0 && math.Abs(sum-1) > 1e-12 {
						t.Fatalf("%v°, hour %d: shares add up to %v", latitude, i, sum)
					}
				}
			}
		}
	}
}

func TestSunBetweenQuartersIsOnItsCourse(t *testing.T) {
	year := testYear(42)
	worst := 0.0
	for i := range year.Hours {
		h := &year.Hours[i]
		if h.Up < 1 {
			continue
		}
		for _, part := range []float64{0.02, 0.125, 0.3, 0.5, 0.6, 0.875, 0.98} {
			worst = max(worst, between(&h.Steps, 4*part).Angle(sunAfter(h, 42, part)).Degrees())
		}
	}
	if !(worst < 0.05) {
		t.Errorf("the sun stands up to %.3f° off its course", worst)
	}
}

// In the first hour of a winter's day nearly all beam comes at its end.
func TestHourOfSunriseIsLitFromItsEnd(t *testing.T) {
	year := testYear(42)
	m := momentsOf(year)
	east := r3.Vector{X: 1}
	for i := range year.Hours {
		h := &year.Hours[i]
		if i%24 > 11 || h.Up < 0.5 || h.Up == 1 {
			continue
		}
		for turn := range phases {
			for _, r := range m.rays(i, turn, raysAnHour, east, nil) {
				if r.direction.Z <= h.Steps[0].Z {
					t.Fatalf("hour %d: a ray at height %.4f, the first quarter's sun stands at %.4f", i, r.direction.Z, h.Steps[0].Z)
				}
			}
		}
	}
}

// Nothing in the way: every line is whole, so that moments change no open sun.
func TestMomentsLoseNothingInAnOpenField(t *testing.T) {
	year := testYear(42)
	sc := receiver(southWall(-3, 0, 3, 3, 0))
	for name, l := range map[string]*YearLedger{"whole": sc.CastYear(lightOf(year), nil, Casting{}), "thinned": sc.CastThinned(lightOf(year), nil, 8, Casting{})} {
		for i := range year.Hours {
			sum := 0.0
			for _, e := range l.Hour(0, i) {
				sum += e.Share
			}
			if year.Hours[i].Incidence(sc.Surfaces[0].Face.N) > 0 && math.Abs(sum-1) > 1e-9 {
				t.Fatalf("%s, hour %d: shares add up to %v", name, i, sum)
			}
		}
	}
}

// Two days in turn see an hour at four times, one after the other, with a
// quarter of its beam between each and the next.
func TestDaysTakeTurnsWithinTheHour(t *testing.T) {
	year := testYear(42)
	m, south := momentsOf(year), r3.Vector{Y: -1}
	hours := 0
	for i := range year.Hours {
		h := &year.Hours[i]
		if h.Up < 1 || h.Sun.Z < 0.35 || h.Sun.Dot(south) < 0.35 {
			continue
		}
		hours++
		a, b := m.rays(i, 0, 2, south, nil), m.rays(i, 1, 2, south, nil)
		// With the sun 20° up and well ahead of the plane the beam is nearly even, so
		// that a quarter of it takes about a quarter of an hour: 3.75° about the pole.
		for k, pair := range [][2]ray{{a[0], b[0]}, {b[0], a[1]}, {a[1], b[1]}} {
			pole := r3.Vector{Y: math.Cos(42 * math.Pi / 180), Z: math.Sin(42 * math.Pi / 180)}
			from, to := pair[0].direction, pair[1].direction
			level := func(v r3.Vector) r3.Vector { return v.Sub(pole.Mul(v.Dot(pole))).Normalize() }
			turn := math.Atan2(pole.Dot(level(to).Cross(level(from))), level(from).Dot(level(to))) * 180 / math.Pi
			if turn < 2.5 || turn > 5 {
				t.Fatalf("hour %d: from ray %d to the next in turn the sun goes %.2f°, want about 3.75°", i, k, turn)
			}
		}
	}
	if hours < 500 {
		t.Errorf("only %d hours were looked at", hours)
	}
}
