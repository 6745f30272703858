package model

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"github.com/golang/geo/r3"
)

var winds = [8]string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}

// wind names the nearest of the eight winds a face looks toward.
func wind(n r3.Vector) string {
	eighth := int(math.Round(azimuth(n).Degrees()/45-1e-6)) % 8
	return winds[(eighth+8)%8]
}

// nameFaces gives every wall and roof plane its id. A wall is called after the
// nearest of the eight winds it looks toward: south. A roof plane likewise:
// roof-south; a level roof is called roof. Where several share a name they
// are numbered from left to right as seen from outside (level roofs from west
// to east), the nearer to the viewer first where one stands behind the other:
// south-1, south-2. Only exposed faces count.
func nameFaces(faces []Face) {
	shared := map[string][]int{}
	for i, f := range faces {
		if f.ID == "" {
			shared[plainName(f)] = append(shared[plainName(f)], i)
		}
	}
	for name, list := range shared {
		if len(list) == 1 {
			faces[list[0]].ID = name
			continue
		}
		right, out := viewAxes(faces[list[0]])
		sort.SliceStable(list, func(a, b int) bool {
			fa, fb := faces[list[a]], faces[list[b]]
			la, lb := leftEnd(fa, right), leftEnd(fb, right)
			if math.Abs(la-lb) > samePlane {
				return la < lb
			}
			return fa.Origin.Dot(out) > fb.Origin.Dot(out)+samePlane
		})
		for k, i := range list {
			faces[i].ID = fmt.Sprintf("%s-%d", name, k+1)
		}
	}
}

func plainName(f Face) string {
	switch {
	case f.Kind == WallFace:
		return wind(f.N)
	case f.Kind == RoofFace && f.N.Z >= 1-1e-9:
		return "roof"
	case f.Kind == RoofFace:
		return "roof-" + wind(f.N)
	}
	return "cheek-" + wind(f.N)
}

// viewAxes are level unit vectors to the right of and toward a viewer who
// looks square at the wind that f is named after.
func viewAxes(f Face) (right, out r3.Vector) {
	eighth := math.Round(azimuth(f.N).Degrees()/45 - 1e-6)
	sin, cos := math.Sincos(eighth * math.Pi / 4)
	return r3.Vector{X: -cos, Y: sin}, r3.Vector{X: sin, Y: cos}
}

func leftEnd(f Face, right r3.Vector) float64 {
	least := math.Inf(1)
	for _, poly := range f.Outline {
		for _, c := range poly[0] {
			least = min(least, f.At(c[0], c[1]).Dot(right))
		}
	}
	return least
}

// FindWall finds the wall a writer means among a building's faces: by its id
// (south, south-2) or by part and wind (ell/south, ell south). Capitals, and blanks or a
// missing hyphen in place of the hyphen, do not matter. A name that fits no
// wall or more than one is an error that lists the names to choose from.
func FindWall(faces []Face, name string) (Face, error) {
	part, side, hasPart := strings.Cut(name, "/")
	if !hasPart {
		part, side = "", name
	}
	want := plainKey(side)
	var fits []Face
	var all []string
	parts := map[string]bool{}
	for _, f := range faces {
		if f.Kind == WallFace {
			parts[f.Part] = true
		}
	}
	for _, f := range faces {
		if f.Kind != WallFace {
			continue
		}
		if len(parts) > 1 && f.Part != "" {
			all = append(all, f.ID+" ("+f.Part+")")
		} else {
			all = append(all, f.ID)
		}
		if hasPart && plainKey(f.Part) != plainKey(part) {
			continue
		}
		if plainKey(f.ID) == want {
			return f, nil
		}
		if side := plainKey(wind(f.N)); side == want || !hasPart && f.Part != "" && plainKey(f.Part)+side == want {
			fits = append(fits, f)
		}
	}
	switch {
	case len(fits) == 1:
		return fits[0], nil
	case len(fits) > 1:
		var names []string
		for _, f := range fits {
			of := ""
			if f.Part != "" && len(parts) > 1 {
				of = " of " + f.Part
			}
			names = append(names, fmt.Sprintf("%s%s, %s long", f.ID, of, bothUnits(f.Width())))
		}
		return Face{}, fmt.Errorf("wall %q may be any of %s: name one of them", name, strings.Join(names, " or "))
	}
	sort.Strings(all)
	return Face{}, fmt.Errorf("there is no wall %q: the walls are %s", name, strings.Join(all, ", "))
}

func plainKey(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	return strings.NewReplacer("-", "", " ", "", "_", "").Replace(s)
}
