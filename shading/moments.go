package shading

import (
	"math"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// raysAnHour is in how many directions an hour is cast, unless told. Each brings
// the same part of the hour's beam.
const raysAnHour = 2

// phases are where in its part of the hour's beam a ray stands, 0..1. One day
// takes one, the next the other, so that over a month an hour is seen in four
// directions for the price of two, and an edge the sun crosses at the same
// time every day is not found on the same wrong side of it every day.
var phases = [2]float64{0.25, 0.75}

// ray is a direction to cast, with the share of its line's sun that comes from
// there.
type ray struct {
	direction r3.Vector
	share     float64
}

// moments are the hours of a year made ready for casting.
type moments struct {
	year    *sun.Year
	through [][4]float64 // by hour and quarter: what the air lets through of the beam
}

// momentsOf works out how the beam's strength runs through every hour: as
// under a clear sky of ordinary haze, whose path through the air changes with
// the sun's height. Only the course within the hour is taken from there, so
// that an hour of sunrise is lit mostly from where the sun stands at its end;
// how much beam the hour has is the year's.
func momentsOf(year *sun.Year) *moments {
	m := &moments{year, make([][4]float64, len(year.Hours))}
	for i := range year.Hours {
		if year.Hours[i].Up <= 0 {
			continue
		}
		for q, s := range year.Hours[i].Steps {
			if s.Z > 0 {
				m.through[i][q] = sky.BeamThrough(s.Z, sky.DefaultLinke)
			}
		}
	}
	return m
}

// beam is what each quarter of hour i brings to a plane with normal n, on no
// particular scale, and their sum: 0 where the sun is never ahead of it.
func (m *moments) beam(i int, n r3.Vector) (quarters [4]float64, sum float64) {
	h := &m.year.Hours[i]
	if h.Up <= 0 {
		return quarters, 0
	}
	for q, s := range h.Steps {
		quarters[q] = max(0, s.Dot(n)) * m.through[i][q]
		sum += quarters[q]
	}
	return quarters, sum
}

// rays appends the count directions hour i is cast in on a plane with normal n.
// The beam that the hour brings the plane is cut into equal parts, one after the
// other, and a ray stands for each. Days alternate in their turn.
func (m *moments) rays(i, turn, count int, n r3.Vector, out []ray) []ray {
	quarters, sum := m.beam(i, n)
	if sum <= 0 {
		return out
	}
	steps := &m.year.Hours[i].Steps
	for k := range count {
		after := sum * (float64(k) + phases[turn%len(phases)]) / float64(count)
		q := 0
		for q < len(quarters)-1 && after > quarters[q] {
			after -= quarters[q]
			q++
		}
		for quarters[q] == 0 { // rounding has led past the last of the beam
			q--
			after = quarters[q]
		}
		d := between(steps, float64(q)+after/quarters[q])
		if d.Dot(n) < 1e-3 || d.Z <= 0 { // the sun comes round the plane, or rises, within the quarter
			d = steps[q]
		}
		out = append(out, ray{d, 1 / float64(count)})
	}
	return out
}

// between is the sun after so many quarters of an hour's sun-up part, on the
// chord of the middles of two quarters: off by less than 0.04°.
func between(steps *[4]r3.Vector, quarters float64) r3.Vector {
	at := quarters - 0.5
	q := min(2, max(0, int(math.Floor(at))))
	return steps[q].Add(steps[q+1].Sub(steps[q]).Mul(at - float64(q))).Normalize()
}
