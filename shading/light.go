package shading

import (
	"sync"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// Light is a year of sun under a sky made ready for casting: all that depends
// on which way a plane looks, and on nothing that stands before it. What it
// works out for a plane it keeps, for any number of casts, also at once.
type Light struct {
	moments *moments
	model   sky.Model
	guard   sync.Mutex
	planes  map[r3.Vector]*planeLight // by normal
}

// planeLight is a year of light on an open plane, by hour, kWh/m².
type planeLight struct {
	normal       r3.Vector
	moments      *moments
	open, ground []float64 // all of it; of that the ground-reflected part
	direct       []float64 // beam and circumsolar
	dome, band   []float64 // an even sky; the band above the horizon
	ahead        []bool    // whether the sun stands ahead of the plane at any moment of the hour
}

// NewLight makes a year ready. The year must not change any more.
func NewLight(year *sun.Year, model sky.Model) *Light {
	return &Light{moments: momentsOf(year), model: model, planes: map[r3.Vector]*planeLight{}}
}

// on is the light on a plane with a normal.
func (l *Light) on(normal r3.Vector) *planeLight {
	l.guard.Lock()
	defer l.guard.Unlock()
	p := l.planes[normal]
	if p == nil {
		p = l.moments.on(normal, l.model)
		l.planes[normal] = p
	}
	return p
}

func (m *moments) on(normal r3.Vector, model sky.Model) *planeLight {
	n := len(m.year.Hours)
	p := &planeLight{normal: normal, moments: m, ahead: make([]bool, n)}
	for _, values := range []*[]float64{&p.open, &p.ground, &p.direct, &p.dome, &p.band} {
		*values = make([]float64, n)
	}
	for i := range m.year.Hours {
		_, sum := m.beam(i, normal)
		p.ahead[i] = sum > 0
		h := &m.year.Hours[i]
		if h.Global <= 0 && h.Beam <= 0 && h.Diffuse <= 0 {
			continue
		}
		on := sky.OnPlane(*h, normal, model)
		p.open[i], p.ground[i] = on.Sum()/1000, on.Ground/1000
		p.direct[i] = (on.Beam + on.Circumsolar) / 1000
		p.dome[i], p.band[i] = on.Dome/1000, on.Horizon/1000
	}
	return p
}

// rays appends the count directions that hour i is cast in; see moments.rays.
func (p *planeLight) rays(i, turn, count int, out []ray) []ray {
	if !p.ahead[i] {
		return out
	}
	return p.moments.rays(i, turn, count, p.normal, out)
}

// in adds up the light of a period.
func (p *planeLight) in(period Period) (sky lightIn, ground float64) {
	for i := 24 * (period.First - 1); i < 24*(period.First-1+period.Days); i++ {
		sky.dome += p.dome[i]
		sky.band += p.band[i]
		ground += p.ground[i]
	}
	return sky, ground
}

// cast calls to with every direction the direct light of a period is cast in
// and the energy that comes from there. Runs of at most every days share the
// directions of their middle day, hour by hour, as in CastThinned.
func (p *planeLight) cast(sc *Scene, period Period, every int, to func(direction r3.Vector, energy float64)) {
	var rays []ray
	hour := func(i, turn int, energy float64) {
		rays = p.rays(i, turn, raysAnHour, rays[:0])
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
			shared := 0.0
			for i := 24*run.first + h; i < 24*run.end; i += 24 {
				switch {
				case p.direct[i] <= 0:
				case p.ahead[24*middle+h]:
					shared += p.direct[i]
				default: // the middle day's sun does not reach the plane
					hour(i, turn, p.direct[i])
				}
			}
			if shared > 0 {
				hour(24*middle+h, turn, shared)
			}
		}
	}
}
