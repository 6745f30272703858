package portfolio

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/sun"
)

// Cells of the lot, in metres, and how many at most on its longer side: more
// than that are smaller than a dot of the picture's lines.
const (
	groundCell  = 0.4
	groundCells = 300
)

// lot is the plan without light on it.
func (s set) lot() render.LotPlan {
	site := s.st.Site
	d := render.LotPlan{Lot: site.Lot}
	d.Buildings = append(d.Buildings, planBuilding(site.House, render.House))
	for _, b := range site.Neighbours {
		d.Buildings = append(d.Buildings, planBuilding(b, render.Neighbour))
	}
	for _, b := range site.Porches {
		d.Buildings = append(d.Buildings, planBuilding(b, render.Porch))
	}
	for _, f := range site.Fences {
		d.Fences = append(d.Fences, render.PlanLine{Name: f.ID, Line: f.Line})
	}
	for _, w := range site.Wires {
		d.Wires = append(d.Wires, render.PlanLine{Name: w.ID, Line: w.Line})
	}
	best := map[string]bool{}
	if len(s.st.Targets) > 0 {
		for _, id := range s.st.Targets[0].Best.IDs {
			best[id] = true
		}
	}
	for _, t := range site.Trees {
		d.Trees = append(d.Trees, render.PlanTree{
			ID: t.ID, At: t.At, SpreadX: t.SpreadX, SpreadY: t.SpreadY, Twist: t.Twist,
			Evergreen: t.Evergreen, Removed: best[t.ID], Owner: t.Owner,
		})
	}
	return d
}

func planBuilding(b model.Building, kind render.BuildingKind) render.PlanBuilding {
	out := render.PlanBuilding{Name: b.Name, Kind: kind}
	if out.Name == "" {
		out.Name = b.ID
	}
	for _, p := range b.Parts {
		out.Walls = append(out.Walls, p.Footprint)
	}
	for _, f := range b.Screens() {
		if f.Kind != model.RoofFace {
			continue
		}
		for _, polygon := range f.Outline {
			var eave orb.Ring
			for _, q := range polygon[0] {
				at := f.At(q[0], q[1])
				eave = append(eave, orb.Point{at.X, at.Y})
			}
			out.Eaves = append(out.Eaves, eave)
		}
	}
	return out
}

func (s set) bestWords() string {
	if len(s.st.Targets) == 0 || len(s.st.Targets[0].Best.IDs) == 0 {
		return ""
	}
	return " Crossed and dashed: " + s.bestNamed() + "."
}

// bestNamed says for what and for how much the best set is, and what is in it.
func (s set) bestNamed() string {
	t, money := &s.st.Targets[0], ""
	if s.st.Site.Budget > 0 {
		money = " within " + measure.FormatMoney(s.st.Site.Budget)
	}
	return "the best set to remove for " + t.Name + money + " (" + strings.Join(t.Best.IDs, ", ") + ")"
}

// lotShadows is the plan with the shadows of a moment.
func (s set) lotShadows(m Moment) render.LotPlan {
	d := s.lot()
	direction := s.sunAt(m.Month, m.Day, m.Minutes)
	altitude, azimuth := sun.Angles(direction)
	when := fmt.Sprintf("%d %s at %d:%02d local standard time", m.Day, m.Month, m.Minutes/60, m.Minutes%60)
	d.Title = fmt.Sprintf("%s: shadows on %s", s.st.Site.Name, when)
	if altitude > 0 {
		d.Shadows, d.Light = s.shadows(direction, dayOfYear(m.Month, m.Day), nil)
		d.Land = s.planLand()
		d.Caption = fmt.Sprintf("Shadows %s of everything that stands today; bare crowns let part of the sun through. Sun %.0f° high in the %s, %.0f° clockwise from true north.%s%s", s.onGround(), altitude.Degrees(), wind(direction), azimuth.Degrees(), s.bestWords(), s.assumed())
	} else {
		d.Caption = "The sun is down at this moment." + s.bestWords()
	}
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// lotSun is the plan with a year of sun on the ground.
func (s set) lotSun() render.LotPlan {
	d := s.lot()
	ring := s.st.Site.Lot
	if len(ring) > 3 {
		b := ring.Bound()
		cell := max(groundCell, (b.Max[0]-b.Min[0])/groundCells, (b.Max[1]-b.Min[1])/groundCells)
		d.Sun = grid(s.st.Scene.GroundSun(ring, cell, s.st.Light, s.st.Account.Today()))
		d.Unit = "kWh/m² a year"
		_, most := d.Sun.Range()
		d.Breaks = render.Breaks(0, most, 8)
	}
	d.Title = s.st.Site.Name + ": a year of sun on the ground"
	d.Caption = "A whole typical year " + s.onGround() + ", trees as they stand today, in leaf in summer and bare in winter." + s.bestWords() + " " + s.source()
	d.Alt = d.Title + ". " + d.Caption
	return d
}
