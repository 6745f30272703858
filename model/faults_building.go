package model

import (
	"fmt"
	"math"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model/measure"
)

// buildings checks the neighbours' buildings or the porches.
func (c *checker) buildings(field string, list []Building) {
	if !c.few(field, field, len(list), maxBuildings) {
		return
	}
	for i, b := range list {
		c.building(fmt.Sprintf("%s[%d]", field, i), b)
	}
}

// building checks one building, part by part and then as a whole.
func (c *checker) building(path string, b Building) {
	if len(b.Parts) == 0 {
		c.wrong(joined(path, "parts"), "at least one part with a footprint, a wall height and a roof", "there is no part")
		return
	}
	if !c.few(joined(path, "parts"), "parts", len(b.Parts), maxParts) || !c.few(joined(path, "chimneys"), "chimneys", len(b.Chimneys), maxParts) {
		return
	}
	before := len(c.faults)
	seen := map[string]string{}
	for i, p := range b.Parts {
		at := fmt.Sprintf("%s.parts[%d]", path, i)
		if p.ID != "" {
			c.id(seen, at+".id", "part", p.ID)
		}
		c.part(at, p)
	}
	for _, f := range c.faults[before:] {
		if f.Severity == FaultError {
			return
		}
	}
	faces, err := b.Faces()
	if err != nil {
		c.faults = append(c.faults, asFault(err).at(path))
		return
	}
	c.hidden(path, b, faces)
	c.chimneysAtHand(path, b)
}

func (c *checker) part(path string, p Part) {
	foot := c.ring(path+".footprint", "footprint", p.Footprint, maxCorners)
	fine := true
	if !p.Open && p.Roof.Kind != Plane || p.WallHeight != 0 {
		fine = c.length(path+".wall height", p.WallHeight, usualWall)
		if fine && p.WallHeight <= 0 && !p.Open {
			c.wrong(path+".wall height", "the height from the foot of the wall to the eave", "wall height is 0")
			fine = false
		}
	}
	if !(math.Abs(p.Base) <= 300) {
		c.wrong(path+".base", "the height of the walls' foot above the ground at the house", "base is %s", c.long(p.Base))
		fine = false
	}
	if p.Roof.Kind != Plane {
		fine = c.length(path+".roof.overhang", p.Roof.Overhang, usualOverhang) && fine
	}
	if foot == nil {
		return
	}
	for i := 0; i+1 < len(foot); i++ {
		if side := distance(foot[i], foot[i+1]); side > usualSide.high {
			c.length(path+".footprint", side, usualSide)
			break
		}
	}
	if b := foot.Bound(); max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) < usualSide.low {
		c.length(path+".footprint", max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]), usualSide)
	}
	if !fine {
		return
	}
	roof, err := p.roofing(foot)
	if err != nil {
		c.faults = append(c.faults, asFault(err).at(path))
		return
	}
	c.roof(path+".roof", p, foot, roof)
}

// roof warns of roofs that can be built but were hardly meant.
func (c *checker) roof(path string, p Part, foot orb.Ring, roof roofing) {
	switch p.Roof.Kind {
	case Gable, Hip, Shed:
		if p.Roof.Pitch < 0.5*s1.Degree {
			c.warn(path+".pitch", "a pitch such as 6/12, or kind: flat", "the pitch of a %s roof is 0", p.Roof.Kind)
		}
		if p.Roof.Pitch > 62*s1.Degree {
			c.warn(path+".pitch", "usually up to 20/12 (59°); measure again", "the pitch is %s, which is unusual", measure.FormatPitch(p.Roof.Pitch))
		}
	case Plane:
		var plans []orb.Ring
		for _, plane := range roof.planes {
			for _, poly := range plane.plan {
				plans = append(plans, poly[0])
			}
		}
		if bare := areaOf(difference([]orb.Ring{foot}, plans)) / signedArea(foot); bare > 0.01 {
			c.warn(path+".planes", "planes that together cover the footprint", "%s of the footprint has no roof plane over it", measure.FormatPercent(bare, 0))
		}
	}
	if p.Roof.Kind == Gable {
		if f, err := squareFrame(foot); err == nil {
			sin, cos := math.Sincos(p.Roof.Ridge.Radians())
			along := f.in(orb.Point{sin, cos})
			if off := math.Abs(math.Remainder(math.Atan2(along[1], along[0]), math.Pi/2)); off > 20*math.Pi/180 {
				c.warn(path+".ridge", "the direction of the walls the ridge runs along", "the ridge is %.0f° off the nearest walls; it is taken to run along them", off*180/math.Pi)
			}
		}
	}
}

// hidden warns of parts and chimneys of which nothing shows.
func (c *checker) hidden(path string, b Building, faces []Face) {
	shown := map[string]bool{}
	tops := map[string]bool{}
	for _, f := range faces {
		shown[f.Part] = true
		tops[f.ID] = true
	}
	for i, p := range b.Parts {
		if p.ID != "" && !shown[p.ID] {
			c.warn(fmt.Sprintf("%s.parts[%d]", path, i), "leave it out, or check its footprint and heights", "part %s lies wholly inside the others", p.ID)
		}
	}
	for i, ch := range b.Chimneys {
		id := ch.ID
		if id == "" {
			id = fmt.Sprintf("chimney-%d", i+1)
		}
		if !tops[id+"-top"] {
			c.warn(fmt.Sprintf("%s.chimneys[%d].top", path, i), "the height of its top above the ground at the house", "%s ends under the roof, at %s", chimneyName(ch.ID, i), c.long(ch.Top))
		}
	}
}

// windows checks the house's windows one by one and against each other.
func (c *checker) windows() {
	s := c.site
	if !c.few("house.windows", "windows", len(s.Windows), maxWindows) {
		return
	}
	faces, err := s.House.Faces()
	seen := map[string]string{}
	for _, f := range faces {
		seen[strings.ToLower(f.ID)] = "a wall or roof plane"
	}
	walls := make([]*Face, len(s.Windows))
	for i, w := range s.Windows {
		path := fmt.Sprintf("house.windows[%d]", i)
		c.id(seen, path+".id", "window", w.ID)
		fine := c.length(path+".width", w.Width, usualOpening)
		fine = c.length(path+".height", w.Height, usualOpening) && fine
		c.share(path+".frame", "the frame's share", w.Frame)
		if err != nil {
			continue
		}
		wall, err := FindWall(faces, w.Wall)
		if err != nil {
			c.wrong(path+".wall", "", "%s", err)
		}
		if err != nil || !fine {
			continue
		}
		if f, off := windowOff(w, wall, c.long); off {
			c.faults = append(c.faults, f.at(path))
			continue
		}
		walls[i] = &wall
		for j := range i {
			if walls[j] == nil || walls[j].ID != wall.ID {
				continue
			}
			v := s.Windows[j]
			across := min(w.Left+w.Width, v.Left+v.Width) - max(w.Left, v.Left)
			up := min(w.Sill+w.Height, v.Sill+v.Height) - max(w.Sill, v.Sill)
			switch both := across * up; {
			case across <= 1e-3 || up <= 1e-3:
			case both > 0.9*max(w.Width*w.Height, v.Width*v.Height):
				c.wrong(path, "its own left edge, or leave one of the two out", "window %s lies in the place of window %s, as a line copied and not changed does", w.ID, v.ID)
			default:
				c.wrong(path, "windows that stand clear of each other; measure the left edges again",
					"window %s overlaps window %s by %s across and %s up", w.ID, v.ID, c.long(across), c.long(up))
			}
		}
	}
}
