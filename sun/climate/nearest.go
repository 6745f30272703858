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
// names stations whose names are spelt much like it.
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
	if like := suggestions(asked); len(like) > 0 {
		return nil, fmt.Errorf("no station is called %q; spelt like it: %s", name, strings.Join(like, "; "))
	}
	if there := ofState(asked[len(asked)-1]); len(asked) > 1 && len(there) > 0 {
		return nil, fmt.Errorf("no station is called %q; in that state: %s", name, strings.Join(there, "; "))
	}
	return nil, fmt.Errorf("no station is called %q, or anything spelt like it", name)
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

// ofState are the first few stations of a state or province, by its two letters.
func ofState(letters string) []string {
	const most = 6
	var there []string
	for _, s := range Stations() {
		if !strings.EqualFold(s.State, letters) {
			continue
		}
		if len(there) == most {
			return append(there, "and more")
		}
		there = append(there, s.Label())
	}
	return there
}

// generic words stand in the names of many stations and tell none of them.
var generic = map[string]bool{"airport": true, "arpt": true, "intl": true, "international": true, "regional": true, "municipal": true, "muni": true, "field": true, "county": true, "city": true}

// suggestions are up to three stations that have a word spelt much like one
// that was asked for: a third of its letters may differ, a fifth where the
// first does, since few people miss the first. None where nothing is like it.
func suggestions(asked []string) []string {
	type guess struct {
		label string
		far   int
	}
	var guesses []guess
	for _, s := range Stations() {
		best := -1
		for _, a := range asked {
			if generic[a] {
				continue
			}
			for _, w := range words(s.Name) {
				most := len(a) / 5
				if w[0] == a[0] {
					most = len(a) / 3
				}
				if far := edits(a, w); len(w) > 2 && far <= most && (best < 0 || far < best) {
					best = far
				}
			}
		}
		if best >= 0 {
			guesses = append(guesses, guess{s.Label(), best})
		}
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
