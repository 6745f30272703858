package report

import (
	"fmt"
	"math"
	"strings"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/study"
)

// facts are the lot, the house and the trees as they were understood, with
// marks where a value was assumed.
func (r Report) facts() section {
	site := r.Study.Site
	s := section{Name: "lot", Title: "The lot, the house and the trees"}
	put := func(b ...block) { s.Blocks = append(s.Blocks, b...) }

	t := &table{Columns: []column{words("lot and house"), words("as understood")}}
	t.add("place", study.PlaceText(site.Place)+r.elevation()+zone(site.Place))
	t.add("north", northWords(site))
	t.add("lot", measure.FormatArea(math.Abs(planar.Area(site.Lot)), r.unit()))
	if g := groundWords(site.Terrain); g != "" {
		t.add("ground", g)
	}
	if n := len(site.Terrain.Skyline); n > 0 {
		t.add("skyline", fmt.Sprintf("%s, up to %s above level", measure.Count(n, "reading"), measure.FormatAngle(highest(site.Terrain.Skyline), 0)))
	}
	t.add("house on the ground", measure.FormatArea(site.House.FootprintArea(), r.unit()))
	for _, p := range site.House.Parts {
		t.add("part "+p.ID, fmt.Sprintf("walls %s to the eave, %s roof", measure.FormatLength(p.WallHeight, r.unit()), p.Roof.Kind))
	}
	if n := len(site.Neighbours); n > 0 {
		t.add("houses beside it", fmt.Sprint(n))
	}
	for _, f := range site.Fences {
		t.add("fence: "+f.ID, fmt.Sprintf("%s long, %s high", measure.FormatLength(planar.Length(f.Line), r.unit()), measure.FormatLength(f.Height, r.unit())))
	}
	for _, w := range site.Wires {
		what := w.Note
		if what == "" {
			what = "overhead wire"
		}
		t.add("wire: "+w.ID, what)
	}
	if site.Budget > 0 {
		t.add("budget for tree work", measure.FormatMoneyExact(site.Budget))
	}
	put(t)

	put(subtitle("Surfaces that were studied"))
	f := &table{Columns: []column{words("surface"), words("kind"), figure("area"), figure("tilt"), figure("faces"), words("glass")}}
	for _, x := range r.Study.Results().Surfaces {
		f.add(x.ID, x.Kind, measure.FormatArea(x.Area, r.unit()), measure.Number(x.Tilt, 0)+"°", measure.Number(x.Azimuth, 0)+"°", glazing(site, x.ID))
	}
	put(f, note("Tilt from level; “faces” is the azimuth clockwise from true north."))

	put(subtitle("Trees"))
	if len(site.Trees) == 0 {
		put(paragraph("No tree is in the site file."))
	} else {
		put(r.trees(), note("* assumed, not measured (listed below). In leaf and bare: the share of the sun the crown lets through. Keep: not offered for removal."))
	}
	put(r.assumed()...)
	return s
}

// groundWords say how the ground lies; nothing of level ground.
func groundWords(t model.Terrain) string {
	switch {
	case len(t.Spots) > 0:
		return measure.Count(len(t.Spots), "spot height") + ", flat triangles between them and the house"
	case t.SlopeRise > 0:
		return "rises " + measure.FormatPercent(t.SlopeRise, 1) + " toward " + measure.FormatBearing(t.SlopeUphill)
	}
	return ""
}

func highest(skyline []model.SkylinePoint) s1.Angle {
	top := skyline[0].Altitude
	for _, p := range skyline {
		top = max(top, p.Altitude)
	}
	return top
}

func (r Report) elevation() string {
	e := r.Study.Site.Place.Elevation
	if math.IsNaN(e) || e == 0 {
		return ""
	}
	return ", " + measure.FormatFeet(e, r.unit(), 0) + " above the sea"
}

func zone(p model.Place) string {
	if p.Zone == "" {
		return ""
	}
	return ", clocks of " + p.Zone
}

func northWords(site *model.Site) string {
	turned := "up on the sketch is " + measure.Number(math.Mod(site.Turn.Degrees()+360, 360), 1) + "° from true north"
	if site.NorthNote == "" {
		return turned
	}
	return site.NorthNote + " (" + turned + ")"
}

func glazing(site *model.Site, id string) string {
	for _, w := range site.Windows {
		if w.ID == id {
			return w.Glazing
		}
	}
	return ""
}

// trees is the table of trees; a star marks what nobody measured.
func (r Report) trees() *table {
	t := &table{Columns: []column{words("tree"), words("kind"), words("owner"), figure("height"), figure("spread"), figure("crown base"), figure("trunk"), figure("in leaf"), figure("bare"), figure("removal"), words("remarks")}}
	for _, x := range r.Study.Site.Trees {
		guess := map[string]bool{}
		for _, a := range r.Study.Site.Assumed {
			if a.Subject == "tree "+x.ID {
				guess[a.Field] = true
			}
		}
		mark := func(text string, fields ...string) string {
			for _, f := range fields {
				if guess[f] {
					return text + "*"
				}
			}
			return text
		}
		spread := (x.SpreadX + x.SpreadY) / 2
		trunk := "–"
		if x.Trunk > 0 {
			trunk = mark(measure.FormatLength(x.Trunk, r.unit()), "trunk")
		}
		notes := x.Notes
		if x.Keep {
			notes = append([]string{"keep"}, notes...)
		}
		t.add(x.ID, mark(x.Species, "species"), string(x.Owner),
			mark(measure.FormatFeet(x.Height, r.unit(), 0), "height"), mark(measure.FormatFeet(spread, r.unit(), 0), "spread"),
			mark(measure.FormatFeet(x.CrownBase, r.unit(), 0), "crown base"), trunk,
			mark(percent(x.InLeaf), "in leaf", "transmissivity in leaf", "transmissivity"), mark(percent(x.Bare), "bare", "transmissivity bare", "transmissivity"),
			money(x.Cost, !x.CostKnown), strings.Join(notes, "; "))
	}
	return t
}

// assumed lists every value nobody measured, what one source gave together.
func (r Report) assumed() []block {
	out := []block{subtitle("Values that were assumed, not measured")}
	var sources []string
	values := map[string]string{}
	subject := map[string]string{} // last named, by source
	add := func(source, about, value string) {
		switch {
		case values[source] == "":
			sources = append(sources, source)
			values[source] = about + ": " + value
		case subject[source] == about:
			values[source] += ", " + value
		default:
			values[source] += "; " + about + ": " + value
		}
		subject[source] = about
	}
	for _, a := range r.Study.Site.Assumed {
		add(a.Source, a.Subject, a.Field+" "+a.Value)
	}
	if h := r.Study.Heat; h != nil {
		for _, d := range h.Assumed {
			add(d.Source, d.Name, d.Value)
		}
	}
	if len(sources) == 0 {
		return append(out, paragraph("None: every value was stated."))
	}
	t := &table{Tight: true, Columns: []column{words("from"), words("value taken")}}
	for _, source := range sources {
		t.add(source, values[source])
	}
	return append(out, t)
}
