package climate

import (
	"fmt"
	"sort"
	"strings"

	"github.com/golang/geo/s2"
)

// earthRadius is the IUGG mean radius of the earth, m.
const earthRadius = 6371008.8

// Near is a station seen from a place.
type Near struct {
	Station
	Distance float64 // along the great circle, m
	Weight   float64 // its share in a blend, 0..1; 0 where no blend was made
}

// Nearest lists the n stations nearest to a place, nearest first; fewer where
// the table is shorter.
func Nearest(place s2.LatLng, n int) []Near {
	all := Stations()
	near := make([]Near, len(all))
	for i, s := range all {
		near[i] = Near{Station: s, Distance: distance(place, s.LatLng)}
	}
	sort.SliceStable(near, func(i, j int) bool { return near[i].Distance < near[j].Distance })
	return near[:max(0, min(n, len(near)))]
}

func distance(a, b s2.LatLng) float64 { return earthRadius * a.Distance(b).Radians() }

// Find gives the stations a name means. Case, punctuation and the order of
// words do not matter; an id or a name with its state ("Toledo OH") is
// understood. One exact answer is returned alone. With no answer the error
// names the stations whose names come closest.
func Find(name string) ([]Station, error) {
	asked := words(name)
	if len(asked) == 0 {
		return nil, fmt.Errorf("no station name given; southyard knows %d stations, for example %q", len(Stations()), "Toledo Express")
	}
	var found []Station
	for _, s := range Stations() {
		if strings.EqualFold(s.ID, strings.TrimSpace(name)) {
			return []Station{s}, nil
		}
		own := words(s.Name + " " + s.State + " " + s.Country)
		if equal(asked, words(s.Name)) || equal(asked, words(s.Label())) {
			return []Station{s}, nil
		}
		if everyBegins(own, asked) {
			found = append(found, s)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	return nil, fmt.Errorf("no station is called %q; nearest in spelling: %s", name, strings.Join(suggestions(asked), "; "))
}

func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127)
	})
}

func equal(a, b []string) bool { return strings.Join(a, " ") == strings.Join(b, " ") }

// everyBegins: each asked word begins some word of the name.
func everyBegins(name, asked []string) bool {
	for _, a := range asked {
		ok := false
		for _, n := range name {
			if strings.HasPrefix(n, a) {
				ok = true
			}
		}
		if !ok {
			return false
		}
	}
	return true
}

// suggestions are the three stations with a word fewest letters away from
// the longest word asked for.
func suggestions(asked []string) []string {
	longest := asked[0]
	for _, w := range asked {
		if len(w) > len(longest) {
			longest = w
		}
	}
	type guess struct {
		label string
		far   int
	}
	var guesses []guess
	for _, s := range Stations() {
		best := len(longest) + 1
		for _, w := range words(s.Name) {
			best = min(best, edits(longest, w))
		}
		guesses = append(guesses, guess{s.Label(), best})
	}
	sort.SliceStable(guesses, func(i, j int) bool { return guesses[i].far < guesses[j].far })
	var names []string
	for _, g := range guesses[:min(3, len(guesses))] {
		names = append(names, g.label)
	}
	return names
}

// edits is the Levenshtein distance between two words.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			next := min(row[j]+1, row[j-1]+1, diagonal+cost)
			diagonal, row[j] = row[j], next
		}
	}
	return row[len(b)]
}
