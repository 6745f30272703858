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
	Which   []int // surface numbers of the scene, in the order of Ledger.Surfaces
}

// Hour is the line of surface s (in the ledger's order) for hour i.
func (l *YearLedger) Hour(s, i int) []Entry { return l.Surfaces[s].Lines[i] }

// Patch is the line of surface s for sky patch i.
func (l *YearLedger) Patch(s, i int) []Entry { return l.Surfaces[s].Lines[sun.HoursAYear+i] }

// CastYear casts every sun-up hour of the year and every patch of the sky for
// the given surfaces; nil means all.
func (sc *Scene) CastYear(year *sun.Year, surfaces []int, how Casting) *YearLedger {
	surfaces = sc.orAll(surfaces)
	hours := momentsOf(year)
	return sc.castYear(surfaces, Dome(), func(surface, i int, out []ray) []ray {
		return hours.rays(i, i/24, sc.Surfaces[surface].Face.N, out)
	}, how)
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

// castYear casts the hours as told and after them the patches.
func (sc *Scene) castYear(surfaces []int, patches []Patch, hours aims, how Casting) *YearLedger {
	aim := func(surface, i int, out []ray) []ray {
		if i >= sun.HoursAYear {
			return append(out, ray{patches[i-sun.HoursAYear].Direction, 1})
		}
		return hours(surface, i, out)
	}
	return &YearLedger{*sc.castLines(surfaces, sun.HoursAYear+len(patches), aim, how), patches, surfaces}
}
