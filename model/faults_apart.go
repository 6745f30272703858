package model

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// Two buildings measured from one sketch may reach a hand's breadth into each
// other where they share a wall; more is worth a second look, and a good part
// of the smaller one is a slip. Common practice, no source.
const (
	overlapSeen    = 1.0 // m²
	overlapRefused = 0.1 // of the smaller footprint
	chimneyApart   = 1.0 // metres a chimney's middle may stand off the eave
)

// chimneysAtHand reports chimneys that stand away from their building.
func (c *checker) chimneysAtHand(path string, b Building) {
	for i, ch := range b.Chimneys {
		off := math.Inf(1)
		for _, p := range b.Parts {
			foot, err := footprint(p.Footprint)
			switch {
			case err != nil:
			case inRing(foot, ch.At):
				off = 0
			default:
				off = min(off, offRing(foot, ch.At)-max(ch.Width, ch.Depth)/2-p.Roof.Overhang)
			}
		}
		if off > chimneyApart && !math.IsInf(off, 1) {
			c.wrong(fmt.Sprintf("%s.chimneys[%d].at", path, i), "a place on the roof or against a wall",
				"%s stands %s beyond the eaves, at %s", chimneyName(ch.ID, i), c.long(off), c.spot(ch.At))
		}
	}
}

func chimneyName(id string, i int) string {
	switch {
	case id == "":
		return fmt.Sprintf("chimney %d", i+1)
	case strings.HasPrefix(strings.ToLower(id), "chimney"):
		return id
	}
	return "chimney " + id
}

// overHouse reports buildings drawn through the house. Porches stand open, and
// lie under its roof as often as not.
func (c *checker) overHouse(field string, list []Building) {
	house := solidFeet(c.site.House)
	if len(house) == 0 {
		return
	}
	size := areaOf(union(house))
	for i, b := range list[:min(len(list), maxBuildings)] {
		feet := solidFeet(b)
		if len(feet) == 0 || !meets(house, feet) {
			continue
		}
		own := areaOf(union(feet))
		both := areaOf(within(union(house), feet))
		if !(both > overlapSeen) {
			continue
		}
		at := fmt.Sprintf("%s[%d]", field, i)
		if len(b.Parts) == 1 {
			at += ".parts[0].footprint"
		}
		share := both / min(size, own)
		tell := c.warn
		if share > overlapRefused {
			tell = c.wrong
		}
		tell(at, "the two beside each other, wall against wall at the closest; measure both again",
			"%s covers %s of the house's ground", named(b.ID, "it"), measure.FormatArea(both, c.unit))
	}
}

func named(id, otherwise string) string {
	if id == "" {
		return otherwise
	}
	return id
}

// solidFeet are the sound footprints of a building's closed parts.
func solidFeet(b Building) []orb.Ring {
	var feet []orb.Ring
	for _, p := range b.Parts[:min(maxParts, len(b.Parts))] {
		if p.Open || len(p.Footprint) > maxCorners+1 {
			continue
		}
		if foot, err := footprint(p.Footprint); err == nil {
			feet = append(feet, foot)
		}
	}
	return feet
}

// meets reports whether the boxes about two groups of rings overlap.
func meets(a, b []orb.Ring) bool {
	bound := func(rings []orb.Ring) orb.Bound {
		out := rings[0].Bound()
		for _, r := range rings[1:] {
			out = out.Union(r.Bound())
		}
		return out
	}
	return bound(a).Intersects(bound(b))
}
