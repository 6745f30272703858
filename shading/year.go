package shading

import (
	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/sun"
)

// YearLedger is the ledger of a whole year: one line for every hour, followed
// by one for every patch of the sky.
type YearLedger struct {
	Ledger
	Patches []Patch
	Which   []int // surface numbers of the scene, in the order of Ledger.Surfaces
}

// Hour is the line of surface s (in the ledger's order) for hour i.
func (l *YearLedger) Hour(s, i int) []Entry { return l.Surfaces[s].Lines[i] }

// Patch is the line of surface s for sky patch i.
func (l *YearLedger) Patch(s, i int) []Entry { return l.Surfaces[s].Lines[sun.HoursAYear+i] }

// CastYear casts every sun-up hour of the year and every patch of the sky for
// the given surfaces; nil means all.
func (sc *Scene) CastYear(year *sun.Year, surfaces []int, how Casting) *YearLedger {
	if surfaces == nil {
		surfaces = make([]int, len(sc.Surfaces))
		for i := range surfaces {
			surfaces[i] = i
		}
	}
	patches := Dome()
	aim := func(surface, i int) (r3.Vector, bool) {
		if i >= sun.HoursAYear {
			return patches[i-sun.HoursAYear].Direction, true
		}
		return ray(&year.Hours[i], sc.Surfaces[surface].Face.N)
	}
	return &YearLedger{*sc.Cast(surfaces, sun.HoursAYear+len(patches), aim, how), patches, surfaces}
}

// ray is the one direction an hour is cast in on a plane with normal n: the
// middle of the sun-up part of the hour or, when the sun comes round the plane
// within the hour, the mean of the quarters in which it is ahead, weighted by
// what they bring.
func ray(h *sun.Hour, n r3.Vector) (r3.Vector, bool) {
	if h.Up <= 0 {
		return r3.Vector{}, false
	}
	var mean r3.Vector
	ahead := 0
	for _, s := range h.Steps {
		if c := s.Dot(n); c > 0 && s.Z > 0 {
			mean = mean.Add(s.Mul(c))
			ahead++
		}
	}
	switch {
	case ahead == 0:
		return r3.Vector{}, false
	case ahead == len(h.Steps) && h.Sun.Z > 0:
		return h.Sun, true
	}
	return mean.Normalize(), true
}
