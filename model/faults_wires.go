package model

import (
	"fmt"
	"sort"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// A service drop ends at the wall it meets, give or take a tape's slip, or at a
// mast by the eave; a wire may be drawn along the wall it is fixed to. Common
// practice, no source.
const (
	wireIn    = 1.0 // m a wire may run on behind a wall
	wireDepth = 0.3 // m from the wall line, within which it runs along the wall
)

func (c *checker) wires() {
	if !c.few("wires", "wires", len(c.site.Wires), maxFences) {
		return
	}
	solid := solidBays(c.site.House)
	for i, w := range c.site.Wires {
		path := fmt.Sprintf("wires[%d]", i)
		sound := c.few(path+".line", "points", len(w.Line), maxLotPoints) && c.near(path+".line", "a point of the wire", w.Line...)
		if sound && len(w.Line) < 2 {
			c.wrong(path+".line", "two points or more", "the wire has %s", measure.Count(len(w.Line), "point"))
		}
		if w.Height != 0 && c.length(path+".height", w.Height, usualWire) && sound {
			c.throughHouse(path+".line", w, solid)
		}
	}
}

// solidBays are the roofs of a building's closed parts over what stands within
// their walls, with the footprint about each.
func solidBays(b Building) []solidBay {
	var out []solidBay
	for _, p := range b.Parts[:min(maxParts, len(b.Parts))] {
		if p.Open || len(p.Footprint) > maxCorners+1 {
			continue
		}
		foot, err := footprint(p.Footprint)
		if err != nil {
			continue
		}
		roof, err := p.roofing(foot)
		if err != nil {
			continue
		}
		for _, bay := range roof.bays {
			if bay.core != nil {
				out = append(out, solidBay{bay, foot})
			}
		}
	}
	return out
}

type solidBay struct {
	bay
	foot orb.Ring
}

// throughHouse looks again at a wire drawn through the house, under its roof.
func (c *checker) throughHouse(path string, w Wire, solid []solidBay) {
	longest := 0.0
	for k := 0; k+1 < len(w.Line); k++ {
		a, b := w.Line[k], w.Line[k+1]
		length := distance(a, b)
		if !(length > 0) {
			continue
		}
		for _, in := range stretchesUnder(a, b, w.Height, solid) {
			middle := between(a, b, (in[0]+in[1])/2)
			deep := false
			for _, s := range solid {
				deep = deep || inRing(s.foot, middle) && offRing(s.foot, middle) > wireDepth
			}
			if run := (in[1] - in[0]) * length; deep && run > longest {
				longest = run
			}
		}
	}
	if longest > wireIn {
		c.warn(path, "a service drop ends where it meets the wall; a wire over the roof has the height at which it crosses it",
			"the wire runs %s through the house, %s up and under the roof", c.long(longest), c.long(w.Height))
	}
}

// stretchesUnder are the stretches of a line at height z that lie within the
// walls and below the roof, as shares of its length, joined where they touch.
// Each bay is convex and stands at the least of its slopes, so it holds one
// stretch.
func stretchesUnder(a, b orb.Point, z float64, solid []solidBay) [][2]float64 {
	var all [][2]float64
	for _, s := range solid {
		from, to := 0.0, 1.0
		cut := func(atA, atB float64) { // keeps where a value that runs from atA to atB is 0 or less
			switch {
			case atA > 0 && atB > 0:
				from, to = 1, 0
			case atA > 0:
				from = max(from, atA/(atA-atB))
			case atB > 0:
				to = min(to, atA/(atA-atB))
			}
		}
		for i := 0; i+1 < len(s.core); i++ {
			x, y, off := edgeLine(s.core[i], s.core[i+1])
			cut(x*a[0]+y*a[1]-off, x*b[0]+y*b[1]-off)
		}
		for _, roof := range s.slopes {
			cut(z-roof.at(a), z-roof.at(b))
		}
		if from < to {
			all = append(all, [2]float64{from, to})
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i][0] < all[j][0] })
	var joined [][2]float64
	for _, s := range all {
		if n := len(joined); n > 0 && s[0] <= joined[n-1][1]+1e-6 {
			joined[n-1][1] = max(joined[n-1][1], s[1])
		} else {
			joined = append(joined, s)
		}
	}
	return joined
}
