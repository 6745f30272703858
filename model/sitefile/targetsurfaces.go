package sitefile

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model"
)

// targetSurfaces reports targets that name no surface of the house: neither a
// wall, roof plane or window by its id nor a group of them, such as south
// windows.
func (r *reader) targetSurfaces() {
	faces, err := r.site.House.Faces()
	if err != nil || len(faces) == 0 || r.faultyUnder("house") {
		return
	}
	var ids []string
	for _, f := range faces {
		if f.Kind == model.WallFace || f.Kind == model.RoofFace {
			ids = append(ids, f.ID)
		}
	}
	for _, w := range r.site.Windows {
		ids = append(ids, w.ID)
	}
	for i, t := range r.site.Targets {
		for name := range t.Parts {
			if slices.Contains(ids, name) || namesGroup(name) {
				continue
			}
			at := r.spotOf(fmt.Sprintf("targets[%d].surfaces", i))
			if weighed, ok := r.places[join(at.path, name)]; ok {
				at = weighed
			}
			right := nearest(plainKey(name), ids)
			if right == "" {
				right = "one of " + listed(ids) + ", or a group such as south windows, south walls, roof"
			}
			r.fault(at, right, "%q is no wall, window or roof plane of the house", short(name))
		}
	}
}

// namesGroup tells whether a name holds the word for a kind of surface.
func namesGroup(name string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(name)), func(word string) bool {
		return slices.Contains([]string{"window", "wall", "roof"}, strings.TrimSuffix(word, "s"))
	})
}
