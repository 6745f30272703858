package study

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading"
)

// demand is a target put in numbers: weights in m² by surface.
type demand struct {
	name string
	shading.Demand
}

// SunSide is the name of the side that looks toward the equator.
func (st *Study) SunSide() string {
	if st.Site.Place.Latitude() < 0 {
		return "north"
	}
	return "south"
}

var sides = map[string]float64{"north": 0, "east": 90, "south": 180, "west": 270}

// faces reports whether a surface looks toward a side, within 45°.
func faces(s *shading.Surface, side string) bool {
	d := math.Mod(math.Abs(s.Face.Azimuth().Degrees()-sides[side]), 360)
	return min(d, 360-d) <= 45.001
}

// group are the numbers of the surfaces a target's part names: a surface's
// id, or a group such as "south windows", "south walls", "roof" (the planes
// that look within 90° of the equator or lie flat), "windows", "walls".
func (st *Study) group(name string) ([]int, error) {
	if i := st.Scene.SurfaceNamed(name); i >= 0 {
		return []int{i}, nil
	}
	words := strings.Fields(strings.ToLower(name))
	side, kind := "", ""
	for _, w := range words {
		w = strings.TrimSuffix(w, "s")
		if _, ok := sides[w]; ok {
			side = w
		}
		switch w {
		case "window", "wall", "roof":
			kind = w
		}
	}
	if kind == "" {
		return nil, fmt.Errorf("%q is no surface; write a wall, window or roof plane by its id, or a group such as \"south windows\", \"south walls\" or \"roof\"", name)
	}
	var out []int
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		if string(s.Kind) != kind {
			continue
		}
		if kind == "roof" && side == "" {
			if st.ToEquator(s) < -1e-6 {
				continue
			}
		} else if side != "" && !faces(s, side) {
			continue
		}
		out = append(out, i)
	}
	return out, nil
}

// ToEquator is how far a surface leans toward the equator: the level part of
// its normal in that direction, −1..1.
func (st *Study) ToEquator(s *shading.Surface) float64 {
	if st.SunSide() == "north" {
		return s.Face.N.Y
	}
	return -s.Face.N.Y
}

// demands are the site's targets; without any, the sun-side walls and windows
// together, the sun-side windows alone, and the roof, in the heating season.
func (st *Study) demands() ([]demand, error) {
	side := st.SunSide()
	list := st.Site.Targets
	if len(list) == 0 {
		list = []model.Target{
			{Name: side + " wall and windows", Parts: map[string]float64{side + " walls": 1, side + " windows": 1}},
			{Name: side + " windows", Parts: map[string]float64{side + " windows": 1}},
			{Name: "roof", Parts: map[string]float64{"roof": 1}},
		}
	}
	var out []demand
	for _, t := range list {
		d := demand{name: t.Name, Demand: shading.Demand{Weights: make([]float64, len(st.Scene.Surfaces)), Months: t.Season}}
		if len(d.Months) == 0 {
			d.Months = st.Heating
		}
		names := make([]string, 0, len(t.Parts))
		for part := range t.Parts {
			names = append(names, part)
		}
		sort.Strings(names)
		any := false
		for _, part := range names {
			surfaces, err := st.group(part)
			if err != nil {
				return nil, fmt.Errorf("target %s: %w", t.Name, err)
			}
			for _, i := range surfaces {
				d.Weights[i] += t.Parts[part] * st.Scene.Surfaces[i].Face.Area
				any = true
			}
		}
		if any || len(st.Site.Targets) > 0 {
			out = append(out, d)
		}
	}
	return out, nil
}

// summer is the sun nobody wants: the windows that look south, east or west
// (north where the sun stands there) in the cooling season.
func (st *Study) summer() demand {
	d := demand{name: "summer windows", Demand: shading.Demand{Weights: make([]float64, len(st.Scene.Surfaces)), Months: st.Cooling}}
	for i := range st.Scene.Surfaces {
		s := &st.Scene.Surfaces[i]
		if s.Kind == model.WindowFace && (faces(s, st.SunSide()) || faces(s, "east") || faces(s, "west")) {
			d.Weights[i] = s.Face.Area
		}
	}
	return d
}

// MonthsText names months as a season: "Oct–Apr".
func MonthsText(months []time.Month) string {
	if len(months) == 0 {
		return "none"
	}
	if len(months) == 12 {
		return "the year"
	}
	run := true
	for i := 1; i < len(months); i++ {
		run = run && months[i] == months[i-1]%12+1
	}
	if run && len(months) > 1 {
		return months[0].String()[:3] + "–" + months[len(months)-1].String()[:3]
	}
	var names []string
	for _, m := range months {
		names = append(names, m.String()[:3])
	}
	return strings.Join(names, ", ")
}
