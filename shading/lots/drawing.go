package lots

import (
	"slices"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// Drawing is a lot from above, no more than a small plan shows. Lengths are
// metres, rounded to the centimetre.
type Drawing struct {
	Lot       orb.Ring   `json:"lot,omitempty"`
	House     []orb.Ring `json:"house"`
	Porches   []orb.Ring `json:"porches,omitempty"`
	Others    []orb.Ring `json:"neighbours,omitempty"`
	Trees     []Crown    `json:"trees,omitempty"`
	LeftTrees int        `json:"trees_not_drawn,omitempty"`
}

// Crown is a tree from above.
type Crown struct {
	At        orb.Point   `json:"at"`
	SpreadX   float64     `json:"spread_x"`
	SpreadY   float64     `json:"spread_y"`
	Twist     float64     `json:"twist,omitempty"` // radians clockwise
	Evergreen bool        `json:"evergreen,omitempty"`
	Owner     model.Owner `json:"owner"`
	Removed   bool        `json:"removed,omitempty"` // by the plan
	Planted   bool        `json:"planted,omitempty"` // by the plan
}

// mostCrowns keeps a wood from swelling the record.
const mostCrowns = 150

func draw(site *model.Site, plan choice) Drawing {
	d := Drawing{Lot: ring(site.Lot), House: rings(site.House)}
	for _, b := range site.Porches {
		d.Porches = append(d.Porches, rings(b)...)
	}
	for _, b := range site.Neighbours {
		d.Others = append(d.Others, rings(b)...)
	}
	add := func(t *model.Tree, removed, planted bool) {
		if len(d.Trees) == mostCrowns {
			d.LeftTrees++
			return
		}
		d.Trees = append(d.Trees, Crown{
			At: point(t.At), SpreadX: round(t.SpreadX, 2), SpreadY: round(t.SpreadY, 2), Twist: round(t.Twist, 3),
			Evergreen: t.Evergreen, Owner: t.Owner, Removed: removed, Planted: planted,
		})
	}
	for i := range site.Trees {
		add(&site.Trees[i], slices.Contains(plan.removed, site.Trees[i].ID), false)
	}
	for _, s := range plan.steps {
		if s.NewTree != nil {
			add(s.NewTree, false, true)
		}
	}
	return d
}

func rings(b model.Building) []orb.Ring {
	var out []orb.Ring
	for _, p := range b.Parts {
		out = append(out, ring(p.Footprint))
	}
	return out
}

func ring(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[i] = point(p)
	}
	return out
}

func point(p orb.Point) orb.Point { return orb.Point{round(p[0], 2), round(p[1], 2)} }
