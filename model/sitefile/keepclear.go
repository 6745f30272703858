package sitefile

import (
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// Room kept round a patch where the file says none, metres: 6 in on a roof, 5
// in on a wall for trim. Common practice, no source; the local code rules.
const (
	roomOnRoof = 6 * 0.0254
	roomOnWall = 5 * 0.0254
)

// keepClear reads the patches of walls and roof planes no collector may hang
// on.
func (r *reader) keepClear(top *object) {
	top.each("- {id: plumbing vent, on: roof-south, left: 12 ft, up: 6 ft, width: 4 in, height: 4 in}", func(i int, o *object) {
		k := model.KeepClear{ID: "clear " + measure.Number(float64(i+1), 0)}
		if o != nil {
			k.ID = r.id(o, k.ID)
			if k.On = o.text("on"); k.On == "" {
				o.missing("on", "on: roof-south (a roof plane or a wall; check lists them)")
			}
			k.Left = o.needed("left", "left: 12 ft (from the plane's left end, seen from outside)", 0, 300)
			k.Up = o.needed("up", "up: 6 ft (from the eave up the slope, or from the wall's base)", 0, 300)
			k.Width = o.needed("width", "width: 4 in", 0.005, 30)
			k.Height = o.needed("height", "height: 4 in (up the slope)", 0.005, 30)
			if room, ok := o.size(0, 10, "room"); ok {
				k.Margin = room
			} else if !o.has("room") {
				k.Margin = roomOnWall
				if strings.HasPrefix(plainKey(k.On), "roof") {
					k.Margin = roomOnRoof
				}
				r.assume(k.ID, "room round it", measure.FormatLength(k.Margin, r.unit), "common practice, no source")
			}
		}
		r.site.KeepClear = append(r.site.KeepClear, k)
	}, "keep clear")
}
