package study

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// When a tree is worth more standing. Own rules, no source; shade on west and
// east walls and windows is what a house-side tree is good for (Heisler 1986:
// a well-placed tree's whole effect on a house's yearly energy is at most about
// a fifth to a quarter).
const (
	largeTree      = 25 * 0.3048 // height from which a tree counts as large
	shadeSector    = 60.0        // degrees either side of west, east or the pole's side
	leastShade     = 60.0        // kWh a cooling season kept off walls and windows
	shadeOverCost  = 2.0         // summer shade at least this many times the winter sun it costs any target
	mostWinterCost = 0.05        // of a target's open sun, for a shade tree
	mostWindbreak  = 0.01        // the same for an evergreen on the pole's side
)

// Advice is why a tree is better left, with the figures it rests on: kWh on
// the target it costs most, in its season, and kWh kept off walls and windows
// in the cooling season.
type Advice struct {
	Tree   string  `json:"tree"`
	Why    string  `json:"why"`
	Winter float64 `json:"costs_kwh"`
	Summer float64 `json:"shade_kwh_in_cooling_season"`
}

// shadeWalls are the walls and windows that summer sun heats: those that look
// to the sun's side, east and west.
func (st *Study) shadeWalls() demand {
	d := demand{name: "summer walls and windows", Demand: shading.Demand{Weights: make([]float64, len(st.Scene.Surfaces)), Months: st.Cooling}}
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		if s.Kind != model.RoofFace && (faces(s, st.SunSide()) || faces(s, "east") || faces(s, "west")) {
			d.Weights[i] = s.Face.Area
		}
	}
	return d
}

// KeepAdvice names the trees to leave standing. A tree whose notes speak of
// rot, lean or death is never praised; nobody here has looked at its health.
func (st *Study) KeepAdvice() []Advice {
	if len(st.Targets) == 0 {
		return nil
	}
	walls, today := st.shadeWalls(), st.Account.Today()
	now := 0.0
	if len(st.Cooling) > 0 {
		now = st.reach(walls, today)
	}
	var out []Advice
	for _, tree := range st.Site.Trees {
		if unsound(tree.Notes) {
			continue
		}
		gone := st.Account.Without(today, tree.ID)
		a := Advice{Tree: tree.ID}
		share := 0.0
		for i := range st.Targets {
			t := &st.Targets[i]
			costs := max(0, st.reach(t.demand, gone)-t.Now)
			a.Winter = max(a.Winter, costs)
			if t.Open > 0 {
				share = max(share, costs/t.Open)
			}
		}
		if len(st.Cooling) > 0 {
			a.Summer = max(0, st.reach(walls, gone)-now)
		}
		if a.Why = st.worth(tree, a, share); a.Why != "" {
			out = append(out, a)
		}
	}
	return out
}

func (st *Study) worth(tree model.Tree, a Advice, share float64) string {
	side := st.sideOf(tree)
	switch {
	case tree.Evergreen && side == st.poleSide() && share <= mostWindbreak:
		return fmt.Sprintf("evergreen to the %s: shelter from winter wind for %s of the sun of any target", side, lessThan(share))
	case !tree.Evergreen && tree.Height >= largeTree && (side == "west" || side == "east") &&
		share <= mostWinterCost && a.Summer >= leastShade && a.Summer >= shadeOverCost*a.Winter:
		return fmt.Sprintf("large shade tree to the %s: keeps %s kWh off walls and windows in %s for %s of the sun of any target", side, measure.FormatSignificant(a.Summer, 2), MonthsText(st.Cooling), lessThan(share))
	}
	return ""
}

func lessThan(share float64) string {
	if share < 0.005 {
		return "less than 1 %"
	}
	return "at most " + measure.FormatPercent(math.Ceil(100*share)/100, 0)
}

func (st *Study) poleSide() string {
	if st.SunSide() == "south" {
		return "north"
	}
	return "south"
}

// sideOf is the side of the house a tree stands on, seen from the middle of
// its footprints, or "" where it stands on none squarely.
func (st *Study) sideOf(tree model.Tree) string {
	var x, y, n float64
	for _, p := range st.Site.House.Parts {
		for _, c := range p.Footprint {
			x, y, n = x+c[0], y+c[1], n+1
		}
	}
	if n == 0 {
		return ""
	}
	azimuth := math.Atan2(tree.At[0]-x/n, tree.At[1]-y/n) * 180 / math.Pi
	best, nearest := "", shadeSector
	for side, at := range sides {
		d := math.Abs(math.Mod(azimuth-at+540, 360) - 180)
		// West and east first: that is where low summer sun comes from.
		if side == "west" || side == "east" {
			d -= 1
		}
		if d < nearest {
			best, nearest = side, d
		}
	}
	return best
}

// unsound tells whether notes speak against a tree's health.
func unsound(notes []string) bool {
	for _, n := range notes {
		n = strings.ToLower(n)
		for _, word := range []string{"dead", "dying", "hollow", "rot", "decay", "lean", "split", "cracked", "fungus", "borer", "diseas", "hazard"} {
			if strings.Contains(n, word) {
				return true
			}
		}
	}
	return false
}

// SummerCSV writes what removals and plans let onto each wall and window in
// the cooling season: one line for every tree alone, plan and best set, and
// surface.
func (st *Study) SummerCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"removed_or_plan", "surface", "kind", "faces", "season", "now_kwh", "more_kwh"})
	today := st.Account.Today()
	line := func(name string, s shading.State) {
		for i, r := range st.Account.Read(s) {
			surface := &st.Scene.Surfaces[i]
			if surface.Kind == model.RoofFace || len(st.Cooling) == 0 {
				continue
			}
			a := surface.Face.Area
			_, azimuth := sun.Angles(surface.Face.N)
			out.Write([]string{name, surface.ID, string(surface.Kind), measure.CompassWord(azimuth), MonthsText(st.Cooling),
				num(a*st.Today[i].Total(st.Cooling...), 1), num(a*(r.Total(st.Cooling...)-st.Today[i].Total(st.Cooling...)), 1)})
		}
	}
	for _, t := range st.Site.Trees {
		line(t.ID, st.Account.Without(today, t.ID))
	}
	for _, p := range st.Plans {
		line("plan "+p.Name, p.State)
	}
	if len(st.Targets) > 0 {
		line(BestSet, st.BestState(0))
	}
	line(NoTreesAtAll, st.Account.Without(today, st.treeIDs()...))
	out.Flush()
	return out.Error()
}
