package model

import (
	"fmt"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

func (c *checker) trees() {
	s := c.site
	if !c.few("trees", "trees", len(s.Trees), maxTrees) {
		return
	}
	lot := tidy(s.Lot)
	seen := map[string]string{}
	places := map[[2]int64]string{}
	for i, t := range s.Trees {
		path := fmt.Sprintf("trees[%d]", i)
		c.id(seen, path+".id", "tree", t.ID)
		c.tree(path, t)
		if !c.near(path+".at", "the tree", t.At) {
			continue
		}
		c.treeClearOfHouse(path, t)
		if t.Owner == OwnerLot && len(lot) > 3 && !inRing(lot, t.At) {
			c.warn(path+".owner", "neighbour or street, or a place inside the lot line", "tree %s is said to be the lot's and stands outside it", t.ID)
		}
		place := [2]int64{int64(t.At[0] * 20), int64(t.At[1] * 20)}
		if other, taken := places[place]; taken {
			c.warn(path+".at", "a place of its own", "tree %s stands where tree %s stands", t.ID, other)
		}
		places[place] = t.ID
	}
}

// tree checks the tree's own values.
func (c *checker) tree(path string, t Tree) {
	high := c.length(path+".height", t.Height, usualTree)
	c.length(path+".spread", t.SpreadX, usualSpread)
	if t.SpreadY != t.SpreadX {
		c.length(path+".spread", t.SpreadY, usualSpread)
	}
	c.length(path+".trunk", t.Trunk, usualTrunk)
	switch {
	case !(t.CrownBase >= 0):
		c.wrong(path+".crown base", "0 or more: the height of the lowest leaves above the ground", "crown base is %s", c.long(t.CrownBase))
	case high && t.CrownBase >= t.Height:
		c.wrong(path+".crown base", fmt.Sprintf("less than the tree's height, %s", c.long(t.Height)), "crown base is %s, at or above the top of the tree", c.long(t.CrownBase))
	}
	if !(t.Ground > -300 && t.Ground < 300) {
		c.wrong(path+".ground", "the height of its ground above the ground at the house", "the tree's ground is %s", c.long(t.Ground))
	}
	if _, known := profiles[t.Shape]; !known {
		c.wrong(path+".shape", "ellipsoid, half-ellipsoid, paraboloid, cone or cylinder", "crown shape %q is not known", t.Shape)
	}
	c.share(path+".in leaf", "the share of sun that passes in leaf", t.InLeaf)
	c.share(path+".bare", "the share of sun that passes when bare", t.Bare)
	if !t.Evergreen && t.Bare < t.InLeaf {
		c.warn(path+".bare", "more than in leaf; perhaps the two are swapped", "tree %s lets less sun through bare (%s) than in leaf (%s)",
			t.ID, measure.Number(t.Bare, 2), measure.Number(t.InLeaf, 2))
	}
	if t.CostKnown {
		c.money(path+".cost", "the cost of felling", t.Cost)
	}
}

func (c *checker) treeClearOfHouse(path string, t Tree) {
	inside := func(b Building) bool {
		for _, p := range b.Parts {
			if len(p.Footprint) <= maxCorners+1 && !p.Open && inRing(closedIfAny(p.Footprint), t.At) {
				return true
			}
		}
		return false
	}
	if inside(c.site.House) {
		c.wrong(path+".at", "a place outside the walls; check the point or bearing it was measured from", "tree %s stands inside the house, at %s", t.ID, c.spot(t.At))
	}
	for _, group := range [][]Building{c.site.Neighbours, c.site.Porches} {
		for _, b := range group[:min(len(group), maxBuildings)] {
			if inside(b) {
				c.warn(path+".at", "a place outside the walls", "tree %s stands inside %s", t.ID, b.ID)
			}
		}
	}
}

func closedIfAny(r orb.Ring) orb.Ring {
	if len(r) == 0 {
		return r
	}
	return closed(r)
}
