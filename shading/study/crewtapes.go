package study

import (
	"fmt"
	"math"
	"slices"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"github.com/southyard/southyard/model/measure"
)

// Tie is a level tape distance from a named corner of the house to the middle
// of the trunk.
type Tie struct {
	Corner   string  `json:"corner"`
	Distance float64 `json:"distance_m"`
	at       orb.Point
}

// longTape is the longest tape most crews carry.
const longTape = 100 * 0.3048

// corners are the corners of the house that have a name of their own: the
// farthest of each part toward north-east, south-east, south-west and
// north-west, where another part does not cover it.
func (st *Study) corners() []Tie {
	var out []Tie
	parts := st.Site.House.Parts
	for i, p := range parts {
		who := "house"
		if len(parts) > 1 && p.ID != "" {
			who = p.ID
		} else if len(parts) > 1 {
			who = fmt.Sprintf("part %d", i+1)
		}
		for _, wind := range []float64{45, 135, 225, 315} {
			sin, cos := math.Sincos(wind * math.Pi / 180)
			var best orb.Point
			most := math.Inf(-1)
			for _, c := range p.Footprint {
				if d := c[0]*sin + c[1]*cos; d > most+1e-9 {
					best, most = c, d
				}
			}
			covered := math.IsInf(most, -1)
			for k, other := range parts {
				covered = covered || k != i && len(other.Footprint) > 3 && planar.RingContains(other.Footprint, best)
			}
			named := slices.ContainsFunc(out, func(o Tie) bool { return planar.Distance(o.at, best) < 0.1 })
			if !covered && !named {
				out = append(out, Tie{Corner: who + " " + measure.CompassWord(s1.Angle(wind)*s1.Degree) + " corner", at: best})
			}
		}
	}
	return out
}

// ties measures a point from the two corners of the house that fix it best: a
// tape can be drawn to both without crossing the house, neither is longer than
// a hundred feet where that can be had, and the tapes meet as squarely as can
// be. side is the side of the line between the corners the point is on.
func (st *Study) ties(at orb.Point) (ties []Tie, side string) {
	all := st.corners()
	for i := range all {
		all[i].Distance = planar.Distance(all[i].at, at)
	}
	best := math.Inf(-1)
	for i := range all {
		for k := i + 1; k < len(all); k++ {
			a, b := all[i], all[k]
			if a.Distance <= 0 || b.Distance <= 0 {
				continue
			}
			// Sine of the angle at which the tapes meet: 1 is the best fix.
			meet := math.Abs((a.at[0]-at[0])*(b.at[1]-at[1])-(a.at[1]-at[1])*(b.at[0]-at[0])) / (a.Distance * b.Distance)
			score := meet
			if st.throughHouse(a.at, b.at) {
				score-- // two corners of one wall are easier to tell apart
			}
			for _, t := range []Tie{a, b} {
				if st.throughHouse(t.at, at) {
					score -= 2
				}
				if t.Distance > longTape {
					score--
				}
			}
			if score > best {
				best, ties = score, []Tie{a, b}
			}
		}
	}
	if len(ties) == 2 {
		middle := orb.Point{(ties[0].at[0] + ties[1].at[0]) / 2, (ties[0].at[1] + ties[1].at[1]) / 2}
		// The side is named after the line's own normal, so that it is plain
		// even where the tree stands far along.
		nx, ny := -(ties[1].at[1] - ties[0].at[1]), ties[1].at[0]-ties[0].at[0]
		if nx*(at[0]-middle[0])+ny*(at[1]-middle[1]) < 0 {
			nx, ny = -nx, -ny
		}
		side = measure.CompassWord(s1.Angle(math.Atan2(nx, ny)))
	}
	return ties, side
}

// throughHouse tells whether a straight tape from a corner to a point would
// have to pass through the house.
func (st *Study) throughHouse(corner, at orb.Point) bool {
	const steps = 200
	for i := 1; i < steps; i++ {
		f := float64(i) / steps
		p := orb.Point{corner[0] + f*(at[0]-corner[0]), corner[1] + f*(at[1]-corner[1])}
		if planar.Distance(p, corner) < 0.05 {
			continue
		}
		for _, part := range st.Site.House.Parts {
			if len(part.Footprint) > 3 && planar.RingContains(part.Footprint, p) &&
				planar.DistanceFrom(orb.LineString(part.Footprint), p) > 0.02 {
				return true
			}
		}
	}
	return false
}
