package shading

import (
	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// fall is a year of light on an open plane, ready for casting, kWh/m².
type fall struct {
	normal r3.Vector
	hours  *moments
	direct []float64 // by hour: beam and circumsolar
	lights []light   // by period
	ground []float64 // by period
}

func fallOn(normal r3.Vector, year *sun.Year, model sky.Model, periods []Period) *fall {
	f := &fall{normal: normal, hours: momentsOf(year), direct: make([]float64, len(year.Hours))}
	f.lights, f.ground = make([]light, len(periods)), make([]float64, len(periods))
	for p, period := range periods {
		for i := 24 * (period.First - 1); i < 24*(period.First-1+period.Days); i++ {
			h := &year.Hours[i]
			if h.Global <= 0 && h.Beam <= 0 && h.Diffuse <= 0 {
				continue
			}
			on := sky.OnPlane(*h, normal, model)
			f.direct[i] = max(0, on.Beam+on.Circumsolar) / 1000
			f.lights[p].dome += on.Dome / 1000
			f.lights[p].band += on.Horizon / 1000
			f.ground[p] += on.Ground / 1000
		}
	}
	return f
}

// cast calls to with every direction the direct light of a period is cast in
// and the energy that comes from there. Runs of at most every days share the
// directions of their middle day, hour by hour, as in CastThinned.
func (f *fall) cast(sc *Scene, period Period, every int, to func(direction r3.Vector, energy float64)) {
	var rays []ray
	hour := func(i, turn int, energy float64) {
		rays = f.hours.rays(i, turn, f.normal, rays[:0])
		for _, r := range rays {
			if !sc.hidden(r.direction) {
				to(r.direction, energy*r.share)
			}
		}
	}
	first := period.First - 1
	for _, run := range (days{first, first + period.Days}).runs(every) {
		middle, turn := run.middle(), run.middle()/every
		for h := range 24 {
			_, ahead := f.hours.beam(24*middle+h, f.normal)
			shared := 0.0
			for i := 24*run.first + h; i < 24*run.end; i += 24 {
				switch {
				case f.direct[i] <= 0:
				case ahead > 0:
					shared += f.direct[i]
				default: // the middle day's sun does not reach the plane
					hour(i, turn, f.direct[i])
				}
			}
			if shared > 0 {
				hour(24*middle+h, turn, shared)
			}
		}
	}
}
