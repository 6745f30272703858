package shading

import (
	"github.com/southyard/southyard/sun"
)

// YearLedger is the ledger of a whole year: one line for every hour, followed
// by one for every patch of the sky. An hour is cast in several directions,
// each with its share of the hour's beam on the surface; the share of an entry
// is that of the beam's energy, and of the area where the directions agree.
type YearLedger struct {
	Ledger
	Patches []Patch
	Which   []int     // surface numbers of the scene, in the order of Ledger.Surfaces
	hours   int       // lines of hours
	stands  [][]int32 // by surface: the line of every hour of the year; nil where hour i has line i
}

// Hour is the line of surface s (in the ledger's order) for hour i.
func (l *YearLedger) Hour(s, i int) []Entry {
	if l.stands != nil {
		i = int(l.stands[s][i])
	}
	return l.Surfaces[s].Lines[i]
}

// Patch is the line of surface s for sky patch i.
func (l *YearLedger) Patch(s, i int) []Entry { return l.Surfaces[s].Lines[l.hours+i] }

// CastYear casts every sun-up hour of the year and every patch of the sky for
// the given surfaces; nil means all.
func (sc *Scene) CastYear(light *Light, surfaces []int, how Casting) *YearLedger {
	surfaces = sc.orAll(surfaces)
	planes := sc.planes(light)
	return sc.castYear(surfaces, sun.HoursAYear, Dome(), func(surface, i int, out []ray) []ray {
		return planes[surface].rays(i, i/24, how.rays(), out)
	}, how)
}

// planes are the light on every surface.
func (sc *Scene) planes(light *Light) []*planeLight {
	out := make([]*planeLight, len(sc.Surfaces))
	for i := range out {
		out[i] = light.on(sc.Surfaces[i].Face.N)
	}
	return out
}

// orAll are the given surfaces, or all where they are nil.
func (sc *Scene) orAll(surfaces []int) []int {
	if surfaces == nil {
		surfaces = make([]int, len(sc.Surfaces))
		for i := range surfaces {
			surfaces[i] = i
		}
	}
	return surfaces
}

// castYear casts so many hours as told and after them the patches.
func (sc *Scene) castYear(surfaces []int, hours int, patches []Patch, aimed aims, how Casting) *YearLedger {
	aim := func(surface, i int, out []ray) []ray {
		if i >= hours {
			return append(out, ray{patches[i-hours].Direction, 1})
		}
		return aimed(surface, i, out)
	}
	return &YearLedger{Ledger: *sc.castLines(surfaces, hours+len(patches), aim, how), Patches: patches, Which: surfaces, hours: hours}
}
