package model

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

func (c *checker) place() {
	p := c.site.Place
	if lat := p.Latitude(); !(math.Abs(lat) <= 90) {
		c.wrong("place.latitude", "between -90 and 90, north positive", "latitude is %.4g", lat)
	}
	if lon := p.Longitude(); !(math.Abs(lon) <= 180) {
		c.wrong("place.longitude", "between -180 and 180, east positive (the Americas are negative)", "longitude is %.4g", lon)
	}
	for i, p := range c.site.Terrain.Skyline {
		if !(p.Altitude > -20*s1.Degree && p.Altitude < 90*s1.Degree) {
			c.wrong(fmt.Sprintf("terrain.skyline[%d]", i), "an altitude between -20° and 90°", "the skyline stands at %.4g°", p.Altitude.Degrees())
		}
	}
	c.skylineGaps()
}

// skylineGaps looks for land that nobody read: a hill of which only the top was
// noted stands that high all the way to the next reading, and one alone all
// round.
func (c *checker) skylineGaps() {
	const (
		wide = 90 * s1.Degree
		high = 3 * s1.Degree // on the mean: lower land takes little sun
	)
	points := c.site.Terrain.Skyline
	for i, a := range points {
		b := points[(i+1)%len(points)]
		gap := b.Azimuth - a.Azimuth
		if gap <= 0 {
			gap += 2 * math.Pi
		}
		if !(gap > wide && (a.Altitude+b.Altitude)/2 >= high) {
			continue
		}
		c.warn(fmt.Sprintf("terrain.skyline[%d]", i), "read too where the land comes down to level, on either side of the hill, such as {bearing: S 15° E, altitude: 0°}",
			"from %s round to %s nothing was read: the land is taken to stand %s high there, straight on to %s", measure.FormatBearing(a.Azimuth), measure.FormatBearing(b.Azimuth), measure.FormatAngle(a.Altitude, 0), measure.FormatAngle(b.Altitude, 0))
	}
}

func (c *checker) lot() {
	if len(c.site.Lot) == 0 {
		return
	}
	lot := c.ring("lot", "lot", c.site.Lot, maxLotPoints)
	if lot == nil {
		return
	}
	b := lot.Bound()
	c.length("lot", max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]), usualLot)
}

// houseOnLot warns where the house reaches over the lot line.
func (c *checker) houseOnLot() {
	lot := tidy(c.site.Lot)
	if len(lot) < 4 || len(lot) > maxLotPoints {
		return
	}
	if _, bad := crossing(lot); bad {
		return
	}
	for i, p := range c.site.House.Parts[:min(maxParts, len(c.site.House.Parts))] {
		foot, err := footprint(p.Footprint)
		if err != nil {
			continue
		}
		whole := signedArea(foot)
		if over := areaOf(difference([]orb.Ring{foot}, []orb.Ring{lot})); over > 0.02 {
			at := fmt.Sprintf("house.parts[%d].footprint", i)
			if over > 0.99*whole {
				c.wrong(at, "both from the same corner of the sketch, each point [to the right, up]", "this part of the house lies wholly outside the lot")
				continue
			}
			c.warn(at, "the house inside the lot line, unless it really reaches over; check both",
				"%s of this part's footprint lies outside the lot", measure.FormatPercent(over/whole, 0))
		}
	}
}

func (c *checker) fences() {
	if !c.few("fences", "fences", len(c.site.Fences), maxFences) {
		return
	}
	for i, f := range c.site.Fences {
		c.fence(fmt.Sprintf("fences[%d]", i), f)
	}
}

func (c *checker) fence(path string, f Fence) {
	if c.few(path+".line", "points", len(f.Line), maxLotPoints) && c.near(path+".line", "a point of the fence", f.Line...) && len(f.Screens()) == 0 && f.Height > 0 {
		c.wrong(path+".line", "two points or more, some way apart", "the fence has no length")
	}
	c.length(path+".height", f.Height, usualFence)
	c.share(path+".transmissivity", "the share of sun that passes", f.Transmissivity)
}

func (c *checker) points() {
	names := make([]string, 0, len(c.site.Points))
	for name := range c.site.Points {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		c.near("points."+name, "point "+name, c.site.Points[name])
	}
}

// wishes checks targets, budget, collectors and what they keep clear of.
func (c *checker) wishes() {
	if b := c.site.Budget; b != 0 {
		c.money("budget", "the budget", b)
	}
	seen := map[string]string{}
	for i, t := range c.site.Targets {
		path := fmt.Sprintf("targets[%d]", i)
		c.id(seen, path+".name", "target", t.Name)
		var parts []string
		for part := range t.Parts {
			parts = append(parts, part)
		}
		sort.Strings(parts)
		for _, part := range parts {
			if w := t.Parts[part]; !(w >= 0 && w < 1e6) {
				c.wrong(path, "a weight of 0 or more", "the weight of %s is %.4g", part, w)
			}
		}
	}
	faces, err := c.site.House.Faces()
	var ids []string
	for _, f := range faces {
		ids = append(ids, f.ID)
	}
	c.keepClear(faces)
	for i, w := range c.site.Collectors {
		path := fmt.Sprintf("collectors[%d]", i)
		if !(w.Width > 0 && w.Height > 0) {
			c.wrong(path, fmt.Sprintf("a width and a height above 0, such as %s and %s", c.long(4*0.3048), c.long(8*0.3048)), "a collector is %s by %s", c.long(w.Width), c.long(w.Height))
		}
		if w.On != "" && err == nil && !slices.Contains(ids, w.On) {
			if _, err := FindWall(faces, w.On); err != nil {
				c.wrong(path+".on", "one of "+list(ids), "there is no wall or roof plane %q", w.On)
			}
		}
		c.money(path+".cost", "a collector's cost", w.Cost)
	}
}

// list writes names for a message, the first dozen.
func list(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	if len(names) > 12 {
		return strings.Join(names[:12], ", ") + fmt.Sprintf(" and %d more", len(names)-12)
	}
	return strings.Join(names, ", ")
}
