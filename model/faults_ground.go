package model

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// ground checks slope and spot heights.
func (c *checker) ground() {
	t := c.site.Terrain
	if !(math.Abs(t.SlopeRise) <= 1) {
		c.wrong("terrain", "a rise of at most 1 a metre", "the ground rises %.4g a metre", t.SlopeRise)
	}
	if len(t.Spots) == 0 {
		return
	}
	if t.SlopeRise != 0 {
		c.wrong("terrain.spots", "the slope left out, and a spot or two more where the ground follows it", "the ground is told twice, as one slope and by spot heights")
	}
	if !c.few("terrain.spots", "spots", len(t.Spots), maxSpots) {
		return
	}
	sound := true
	for i, s := range t.Spots {
		path := fmt.Sprintf("terrain.spots[%d]", i)
		if !(math.Abs(s.Up) <= highestSpot) {
			c.wrong(path, "how far up or down from the ground at the house", "the ground stands %s from the house's", c.long(s.Up))
			sound = false
		}
		sound = c.near(path, "a spot", s.At) && c.spotAlone(path, i) && c.spotOutside(path, s) && sound
	}
	if sound {
		c.cliffs()
		c.treesOffGround()
	}
}

// treesOffGround warns of trees whose stated ground is not the spots'.
func (c *checker) treesOffGround() {
	const far = 3 * 0.3048
	g := c.site.Ground()
	for i, t := range c.site.Trees[:min(maxTrees, len(c.site.Trees))] {
		if z := g.At(t.At); math.Abs(z-t.Ground) > far {
			c.warn(fmt.Sprintf("trees[%d].ground", i), "the ground left out, or a spot by the tree", "its ground is stated as %s, and between the spot heights it is %s", c.upOrDown(t.Ground), c.upOrDown(z))
		}
	}
}

// spotAlone reports a spot where another was given.
func (c *checker) spotAlone(path string, i int) bool {
	s := c.site.Terrain.Spots[i]
	for j, q := range c.site.Terrain.Spots[:i] {
		switch {
		case !(distance(s.At, q.At) < onePlace):
		case math.Abs(s.Up-q.Up) < 0.01:
			c.wrong(path, "it once", "this spot was given before, as spot %d", j+1)
			return false
		default:
			c.wrong(path, fmt.Sprintf("one height a place; the top and the foot of a retaining wall %s apart or more", c.long(onePlace)),
				"this is the place of spot %d, which is %s and not %s", j+1, c.upOrDown(q.Up), c.upOrDown(s.Up))
			return false
		}
	}
	return true
}

func (c *checker) upOrDown(z float64) string {
	if z < 0 {
		return c.long(-z) + " down"
	}
	return c.long(z) + " up"
}

// spotOutside reports a spot under the house.
func (c *checker) spotOutside(path string, s Spot) bool {
	for _, p := range c.site.House.Parts[:min(maxParts, len(c.site.House.Parts))] {
		if foot, err := footprint(p.Footprint); err == nil && !p.Open && inRing(foot, s.At) && offRing(foot, s.At) > atHouse {
			c.wrong(path, "spots round the house; under it the ground is 0", "this spot lies under the house, at %s", c.spot(s.At))
			return false
		}
	}
	return true
}

// steepest is the rise of ground, per level metre, past which a second look is
// asked for where it is also higher than a retaining wall: 45°.
const (
	steepest      = 1.0
	retainingWall = 6 * 0.3048 // metres; common practice, no source
)

// cliffs warns of neighbouring spots between which the ground is steeper than
// earth stands.
func (c *checker) cliffs() {
	spots := c.site.Terrain.Spots
	number := map[orb.Point]int{}
	for i, s := range spots {
		number[s.At] = i + 1
	}
	name := func(p orb.Point) string {
		if n := number[p]; n > 0 {
			return fmt.Sprintf("spot %d", n)
		}
		return "the house"
	}
	g := c.site.Ground()
	told := map[int]bool{}
	for _, t := range g.triangles {
		for i := range t {
			a, b := g.corners[t[i]], g.corners[t[(i+1)%3]]
			if number[flat(a)] < number[flat(b)] {
				a, b = b, a
			}
			n, rise, run := number[flat(a)], a.Z-b.Z, distance(flat(a), flat(b))
			if n == 0 || told[n] || math.Abs(rise) < retainingWall || math.Abs(rise) <= steepest*run {
				continue
			}
			told[n] = true
			c.warn(fmt.Sprintf("terrain.spots[%d]", n-1), "measure again, unless it is a cliff or a high wall",
				"between this spot and %s the ground rises %s over %s", name(flat(b)), c.long(math.Abs(rise)), c.long(run))
		}
	}
}
