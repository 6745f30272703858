package model

import (
	"fmt"
	"sort"
	"strings"

	"github.com/paulmach/orb"
)

// KeepClear is a patch of a wall or roof plane on which no collector may hang:
// a plumbing vent, a skylight, a door, a meter. It is read off as the places of
// collectors are, and casts no shadow.
type KeepClear struct {
	ID     string
	On     string  // wall or roof plane; see FindBoard
	Left   float64 // m from the face's left end seen from outside, to the patch
	Up     float64 // m from the wall's base, or from the eave up the slope
	Width  float64
	Height float64 // up the wall or the slope
	Margin float64 // m of room to keep round it
}

// Bound of the patch in its face's own coordinates, without the margin.
func (k KeepClear) Bound(f Face) orb.Bound {
	corner := f.Outline.Bound().Min
	low := orb.Point{corner[0] + k.Left, corner[1] + k.Up}
	return orb.Bound{Min: low, Max: orb.Point{low[0] + k.Width, low[1] + k.Height}}
}

// FindBoard finds the wall or roof plane a writer means among a building's
// faces: a roof plane by its id, a wall as FindWall does. A name that fits none
// is an error that lists the names to choose from.
func FindBoard(faces []Face, name string) (Face, error) {
	var roofs []string
	for _, f := range faces {
		if f.Kind != RoofFace {
			continue
		}
		if plainKey(f.ID) == plainKey(name) {
			return f, nil
		}
		roofs = append(roofs, f.ID)
	}
	f, err := FindWall(faces, name)
	if err == nil || len(roofs) == 0 {
		return f, err
	}
	sort.Strings(roofs)
	if strings.HasPrefix(plainKey(name), "roof") {
		return Face{}, fmt.Errorf("there is no roof plane %q: the roof planes are %s", name, strings.Join(roofs, ", "))
	}
	return Face{}, fmt.Errorf("%w; the roof planes are %s", err, strings.Join(roofs, ", "))
}

// keepClear checks the patches against the faces of the house.
func (c *checker) keepClear(faces []Face) {
	if !c.few("keep clear", "patches to keep clear", len(c.site.KeepClear), maxWindows) {
		return
	}
	const off = 0.05 // m a tape may be off at the far edge
	seen := map[string]string{}
	for i, k := range c.site.KeepClear {
		path := fmt.Sprintf("keep clear[%d]", i)
		c.id(seen, path+".id", "patch", k.ID)
		var board Face
		if len(faces) > 0 {
			var err error
			if board, err = FindBoard(faces, k.On); err != nil {
				c.wrong(path+".on", "", "%s", err)
			}
		}
		if !(k.Width >= 0.005 && k.Height >= 0.005 && k.Width < 60 && k.Height < 60 && k.Left >= 0 && k.Left < 1e4 && k.Up >= 0 && k.Up < 1e4 && k.Margin >= 0 && k.Margin < 20) {
			c.wrong(path, "left and up from 0, a width and a height such as 4 in, room up to 60 ft", "the patch is %s wide and %s high, %s from the left and %s up", c.long(k.Width), c.long(k.Height), c.long(k.Left), c.long(k.Up))
			continue
		}
		if board.ID == "" {
			continue
		}
		face, r := board.Outline.Bound(), k.Bound(board)
		switch {
		case r.Max[0] > face.Max[0]+off:
			c.wrong(path+".left", fmt.Sprintf("left plus width at most %s", c.long(face.Max[0]-face.Min[0])), "%s ends %s past the right end of %s", k.ID, c.long(r.Max[0]-face.Max[0]), board.ID)
		case r.Max[1] > face.Max[1]+off:
			c.wrong(path+".up", fmt.Sprintf("up plus height at most %s", c.long(face.Max[1]-face.Min[1])), "%s ends %s above the top of %s", k.ID, c.long(r.Max[1]-face.Max[1]), board.ID)
		}
	}
}
