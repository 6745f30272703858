package portfolio

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
)

// midwinter is the day of the year with the lowest noon: 21 December, south of
// the equator 21 June.
func (s set) midwinter() (month time.Month, day int) {
	if s.st.SunSide() == "north" {
		return time.June, 21
	}
	return time.December, 21
}

// sunAt is the sun at a local standard time of the year's calendar.
func (s set) sunAt(month time.Month, day, minutes int) r3.Vector {
	y := s.st.Year
	zone := time.FixedZone("", int(y.Offset.Seconds()))
	at := time.Date(y.Calendar, month, day, 0, minutes, 0, 0, zone)
	return sun.At(at, s.st.Site.Place.LatLng, max(0, y.Elevation)).Vector()
}

// shadows are the outlines on the ground, without those of things gone; light
// are those of crowns that are mostly bare on the day of the year.
func (s set) shadows(direction r3.Vector, day int, gone []string) (dark, light []orb.Polygon) {
	bare := map[string]bool{}
	for _, t := range s.st.Site.Trees {
		bare[t.ID] = !t.Evergreen && species.LeafShare(t.Leafing, day) < 0.5
	}
	for _, shade := range s.st.Scene.Shadows(direction) {
		if slices.Contains(gone, shade.Thing) {
			continue
		}
		for _, ring := range shade.Outlines {
			if shade.Kind == shading.Crown && bare[shade.Thing] {
				light = append(light, orb.Polygon{ring})
			} else {
				dark = append(dark, orb.Polygon{ring})
			}
		}
	}
	return dark, light
}

// dayOfYear of a day of the typical year, 1..365.
func dayOfYear(month time.Month, day int) int {
	for m := time.January; m < month; m++ {
		day += sun.DaysIn(m)
	}
	return day
}

// shortWind is the nearest of the sixteen winds in letters.
func shortWind(v r3.Vector) string {
	_, azimuth := sun.Angles(v)
	names := strings.Fields("N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW")
	return names[int(math.Round(azimuth.Degrees()/22.5))%16]
}

// daylight are the full hours of a day while the sun is worth a picture, the
// eight about the highest at most; where it hardly rises those about noon.
func (s set) daylight(month time.Month, day int) []int {
	const low, most, least = 5, 8, 3 // degrees, hours
	height := func(hour int) float64 {
		altitude, _ := sun.Angles(s.sunAt(month, day, hour*60))
		return altitude.Degrees()
	}
	first := 0
	for hour := range 24 {
		if height(hour) > height(first) {
			first = hour
		}
	}
	last := first
	for last-first+1 < most {
		before, after := height(first-1), height(last+1)
		if max(before, after) < low && last-first+1 >= least {
			break
		}
		if before > after {
			first--
		} else {
			last++
		}
	}
	var out []int
	for hour := first; hour <= last; hour++ {
		out = append(out, hour)
	}
	return out
}

// shadowDay is the sheet of shadows through midwinter day.
func (s set) shadowDay() render.ShadowDay {
	month, day := s.midwinter()
	d := render.ShadowDay{Plan: s.lot()}
	for i := range d.Plan.Trees {
		d.Plan.Trees[i].Removed = false
	}
	for _, hour := range s.daylight(month, day) {
		v := s.sunAt(month, day, hour*60)
		altitude, azimuth := sun.Angles(v)
		words := "sun down"
		if altitude > 0 {
			words = fmt.Sprintf("sun %.0f° up, %s, %.0f°", altitude.Degrees(), shortWind(v), azimuth.Degrees())
		}
		at := render.ShadowHour{Name: fmt.Sprintf("%d:00", hour), Sun: words}
		at.Shadows, at.Light = s.shadows(v, dayOfYear(month, day), nil)
		d.Hours = append(d.Hours, at)
	}
	d.Title = fmt.Sprintf("%s: shadows through %d %s", s.st.Site.Name, day, month)
	d.Caption = "Shadows " + s.onGround() + " at the hours of local standard time (" + offsetText(s.st.Year.Offset) + "), clouds left out; the sun's direction in degrees clockwise from true north. Everything as it stands today. Bare crowns still let part of the sun through." + s.assumed()
	d.Alt = d.Title + ". " + d.Caption
	return d
}

// eye is the lot as seen from the sun side, in midwinter sun.
func (s set) eye(gone []string, title string) render.EyeView {
	month, day := s.midwinter()
	land := s.st.Site.Ground()
	d := render.EyeView{From: s.eyeFrom(), Height: 27, Lot: s.st.Site.Lot, Land: land, Step: s.heightStep()}
	d.Sun = s.sunAt(month, day, 11*60)
	d.Faces = render.EyeFaces(append(s.st.Site.House.Screens(), s.st.Site.House.Footing(land)...), false)
	for i := range s.st.Scene.Surfaces {
		if f := &s.st.Scene.Surfaces[i]; f.Kind == model.WindowFace {
			d.Faces = append(d.Faces, render.EyeFaces([]model.Face{f.Face}, false)...)
		}
	}
	for _, b := range s.st.Site.Porches {
		d.Faces = append(d.Faces, render.EyeFaces(append(b.Screens(), b.Footing(land)...), false)...)
	}
	for _, b := range s.st.Site.Neighbours {
		d.Faces = append(d.Faces, render.EyeFaces(append(b.Screens(), b.Footing(land)...), true)...)
	}
	for _, t := range s.st.Site.Trees {
		d.Trees = append(d.Trees, render.EyeTree{
			ID: t.ID, At: t.At, Ground: t.Ground, Height: t.Height, CrownBase: t.CrownBase, SpreadX: t.SpreadX, SpreadY: t.SpreadY,
			Shape: t.Shape, Evergreen: t.Evergreen, Bare: !t.Evergreen, Removed: slices.Contains(gone, t.ID),
		})
	}
	d.Shadows, d.Light = s.shadows(d.Sun, dayOfYear(month, day), gone)
	d.Title = title
	return d
}

// eyePair is the lot today and with the best set gone, from the same eye.
func (s set) eyePair() render.Picture {
	month, day := s.midwinter()
	gone, twice := s.best(), ""
	if len(gone) > 0 {
		twice = ", both from the same spot"
	}
	caption := fmt.Sprintf("Seen from the sun side (%s)%s, at 11:00 local standard time on %d %s. See-through crowns: trees bare in winter. Shadows only %s, lighter of bare crowns.%s",
		s.from(), twice, day, month, s.onGround(), s.heightWords())
	if len(gone) == 0 {
		d := s.eye(nil, s.st.Site.Name+": the lot today")
		d.Caption = caption + s.assumed()
		d.Alt = d.Title + ". " + d.Caption
		return d
	}
	named := "the best set"
	if len(gone) <= 6 {
		named = strings.Join(gone, ", ")
	}
	title := s.st.Site.Name + ": today, and without " + named
	caption += " Dashed, with a stump: " + s.bestNamed() + "." + s.assumed()
	return render.Pair{Words: render.Words{Title: title, Caption: caption, Alt: title + ". " + caption}, Left: s.eye(nil, "today"), Right: s.eye(gone, "without "+named)}
}

// eyeFrom is the azimuth from which the lot is seen, degrees.
func (s set) eyeFrom() float64 {
	if s.st.SunSide() == "north" {
		return 25
	}
	return 155
}

// from is eyeFrom in words.
func (s set) from() string {
	return fmt.Sprintf("from %.0f°, between %s", s.eyeFrom(), map[bool]string{true: "north and north-east", false: "south-east and south"}[s.st.SunSide() == "north"])
}

func (s set) best() []string {
	if len(s.st.Targets) == 0 {
		return nil
	}
	return s.st.Targets[0].Best.IDs
}
