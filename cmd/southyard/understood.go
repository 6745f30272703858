package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/paulmach/orb/planar"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// understood prints what a site file says, as the program understands it.
type understood struct {
	w    io.Writer
	site *model.Site
	unit measure.Unit
}

func (u understood) write() {
	if u.site.Name == "" && len(u.site.House.Parts) == 0 {
		return // nothing was understood
	}
	u.head()
	switch faces, err := u.site.House.Faces(); {
	case len(u.site.House.Parts) == 0:
	case err != nil:
		fmt.Fprintln(u.w, "\nHouse: its walls and roof cannot be worked out before its faults are mended.")
	default:
		u.house(faces)
	}
	u.others()
	u.trees()
	u.plans()
	u.wishes()
	u.assumed()
}

func (u understood) length(m float64) string { return measure.FormatLength(m, u.unit) }
func (u understood) area(m2 float64) string  { return measure.FormatArea(m2, u.unit) }

// table writes rows in columns under a heading.
func (u understood) table(title string, heads []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	fmt.Fprintf(u.w, "\n%s\n", title)
	t := tabwriter.NewWriter(u.w, 0, 4, 2, ' ', 0)
	fmt.Fprintln(t, "  "+strings.Join(heads, "\t"))
	for _, r := range rows {
		fmt.Fprintln(t, "  "+strings.Join(r, "\t"))
	}
	t.Flush()
}

func (u understood) head() {
	s := u.site
	name := s.Name
	if name == "" {
		name = "(no name)"
	}
	fmt.Fprintln(u.w, name)
	if s.Place.LatLng.IsValid() && s.Place.LatLng.Lat != 0 {
		place := fmt.Sprintf("%s, %s", sided(s.Place.Latitude(), "N", "S"), sided(s.Place.Longitude(), "E", "W"))
		if !math.IsNaN(s.Place.Elevation) {
			place += ", " + measure.FormatFeet(s.Place.Elevation, u.unit, 0) + " above the sea"
		}
		fmt.Fprintf(u.w, "  place      %s, time zone %s\n", place, s.Place.Zone)
	}
	fmt.Fprintf(u.w, "  north      %s; the sketch is turned %s clockwise to true north\n", s.NorthNote, turnText(s.Turn.Degrees()))
	if n := len(s.Lot); n > 0 {
		var sides []string
		for i := 0; i+1 < n && i < 8; i++ {
			sides = append(sides, u.length(math.Hypot(s.Lot[i+1][0]-s.Lot[i][0], s.Lot[i+1][1]-s.Lot[i][1])))
		}
		fmt.Fprintf(u.w, "  lot        %s, sides %s\n", u.area(math.Abs(planar.Area(s.Lot))), strings.Join(sides, ", "))
	}
	if s.Terrain.SlopeRise > 0 {
		fmt.Fprintf(u.w, "  ground     rises %s toward %s\n", measure.FormatPercent(s.Terrain.SlopeRise, 1), measure.FormatBearing(s.Terrain.SlopeUphill))
	}
	if len(s.Terrain.Spots) > 0 {
		u.spots()
	}
	if n := len(s.Terrain.Skyline); n > 0 {
		fmt.Fprintf(u.w, "  skyline    %s: %s\n", measure.Count(n, "reading"), skylineWords(s.Terrain.Skyline))
	}
}

// spots prints how far the ground goes up and down.
func (u understood) spots() {
	low, high := 0.0, 0.0
	for _, spot := range u.site.Terrain.Spots {
		low, high = min(low, spot.Up), max(high, spot.Up)
	}
	var reach []string
	if low < 0 {
		reach = append(reach, u.length(-low)+" below")
	}
	if high > 0 {
		reach = append(reach, u.length(high)+" above")
	}
	if len(reach) == 0 {
		reach = []string{"none above or below"}
	}
	fmt.Fprintf(u.w, "  ground     %s, to %s the ground at the house; flat triangles between them\n", measure.Count(len(u.site.Terrain.Spots), "spot height"), strings.Join(reach, " and "))
}

func sided(degrees float64, plus, minus string) string {
	if degrees < 0 {
		plus = minus
	}
	return measure.Number(math.Abs(degrees), 2) + "° " + plus
}

func turnText(degrees float64) string {
	return measure.Number(math.Remainder(degrees, 360), 1) + "°"
}

func (u understood) house(faces []model.Face) {
	var walls, roofs [][]string
	windows := map[string][]model.Window{}
	var rows [][]string
	for _, w := range u.site.Windows {
		wall, err := model.FindWall(faces, w.Wall)
		if err == nil {
			windows[wall.ID] = append(windows[wall.ID], w)
		} else {
			wall.ID = w.Wall + "?"
		}
		glazing := w.Glazing
		if glazing == "" {
			glazing = "single"
		}
		rows = append(rows, []string{w.ID, wall.ID, u.tape(w.Left), u.tape(w.Sill), u.tape(w.Width) + " × " + u.tape(w.Height), u.area(w.Width * w.Height), glazing})
	}
	for _, f := range faces {
		switch f.Kind {
		case model.WallFace:
			glass, n := 0.0, windows[f.ID]
			for _, w := range n {
				glass += w.Width * w.Height
			}
			open := "none"
			if len(n) > 0 {
				open = fmt.Sprintf("%d, %s", len(n), u.area(glass))
			}
			walls = append(walls, []string{f.ID, f.Part, measure.FormatAzimuth(f.Azimuth(), 0) + " (" + measure.FormatBearing(f.Azimuth()) + ")", u.length(f.Width()), u.length(f.Height()), u.area(f.Area), open})
		case model.RoofFace:
			toward := measure.FormatAzimuth(f.Azimuth(), 0) + " (" + measure.FormatBearing(f.Azimuth()) + ")"
			if f.Tilt().Degrees() < 0.05 {
				toward = "up"
			}
			roofs = append(roofs, []string{f.ID, f.Part, toward, measure.FormatPitch(f.Tilt()), u.area(f.Area)})
		}
	}
	fmt.Fprintf(u.w, "\nHouse: footprint %s, highest point of the roof %s above the ground\n", u.area(u.site.House.FootprintArea()), u.length(u.site.House.RidgeHeight()))
	u.table("Walls (as exposed; windows included)", []string{"wall", "part", "looks toward, true", "length", "height", "area", "windows"}, walls)
	u.table("Roof planes", []string{"plane", "part", "falls toward, true", "pitch", "area"}, roofs)
	u.table("Windows", []string{"id", "wall", "left", "sill", "width × height", "area", "glazing"}, rows)
}

func (u understood) tape(m float64) string { return measure.FormatTape(m, u.unit) }

func (u understood) others() {
	var rows [][]string
	for _, b := range append(append([]model.Building(nil), u.site.Neighbours...), u.site.Porches...) {
		covered := 0.0
		for _, p := range b.Parts {
			covered += math.Abs(planar.Area(p.Footprint))
		}
		rows = append(rows, []string{b.ID, string(b.Owner), "covers " + u.area(covered), "highest point " + u.length(b.RidgeHeight())})
	}
	for _, f := range u.site.Fences {
		rows = append(rows, []string{f.ID, string(f.Owner), "fence, " + u.length(planar.Length(f.Line)) + " long", u.length(f.Height) + " high"})
	}
	for _, w := range u.site.Wires {
		var says []string
		if w.Height > 0 {
			says = append(says, u.length(w.Height)+" high")
		}
		if w.Note != "" {
			says = append(says, w.Note)
		}
		rows = append(rows, []string{w.ID, "", "wire, " + u.length(planar.Length(w.Line)) + " long", strings.Join(says, "; ")})
	}
	u.table("What else stands there", []string{"id", "owner", "size", ""}, rows)
}

// round is a tree's height, or a size taken from a table, to the foot or the
// tenth of a metre: nobody knows it closer.
func (u understood) round(m float64) string {
	if u.unit == measure.Metres {
		return measure.FormatFeet(m, u.unit, 1)
	}
	return measure.FormatFeet(m, u.unit, 0)
}

// trees prints each tree with how sure its height is: two times in three the
// height lies within the ± stated.
func (u understood) trees() {
	assumed := map[[2]string]bool{}
	for _, a := range u.site.Assumed {
		assumed[[2]string{a.Subject, a.Field}] = true
	}
	var rows [][]string
	for _, t := range u.site.Trees {
		h := t.Measured[model.QHeight]
		size := func(m float64, field string) string {
			if assumed[[2]string{"tree " + t.ID, field}] {
				return u.round(m)
			}
			return u.length(m)
		}
		spread := size(t.SpreadX, "spread")
		if t.SpreadX != t.SpreadY {
			spread += " × " + size(t.SpreadY, "spread")
		}
		cost := measure.FormatMoneyExact(t.Cost)
		if !t.CostKnown {
			cost += " assumed"
		}
		if t.Keep {
			cost = "to keep"
		}
		rows = append(rows, []string{t.ID, t.Species, u.round(t.Height), "± " + u.round(h.SD), h.Method, spread, size(t.CrownBase, "crown base"), string(t.Owner), cost})
	}
	u.table("Trees (± : two times in three the height lies within)", []string{"id", "kind", "height", "", "by", "spread", "crown base", "owner", "removal"}, rows)
}

// skylineWords says what lies between the readings, which nobody thinks of who
// reads one hill.
func skylineWords(points []model.SkylinePoint) string {
	byHeight := func(a, b model.SkylinePoint) int { return cmp.Compare(a.Altitude, b.Altitude) }
	low, high := slices.MinFunc(points, byHeight).Altitude, slices.MaxFunc(points, byHeight).Altitude
	if low == high {
		return fmt.Sprintf("the land stands %s high all round", measure.FormatAngle(high, 0))
	}
	return fmt.Sprintf("%s to %s high, straight from each to the next and right round", measure.FormatAngle(low, 0), measure.FormatAngle(high, 0))
}
