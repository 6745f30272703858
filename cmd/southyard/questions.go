package main

import (
	"fmt"
	"strings"
)

// question is one value to ask for.
type question struct {
	key, text, usual string
	must             bool
}

func (a *asker) fields(indent string, questions []question) error {
	for _, q := range questions {
		if _, err := a.field(indent, q.key, q.text, q.usual, q.must); err != nil {
			return err
		}
	}
	return nil
}

func (a *asker) heading(text string) { fmt.Fprintf(a.out, "\n%s\n", text) }

func (a *asker) lot() error {
	a.heading("The lot")
	if _, err := a.field("", "name", "name", "My lot", true); err != nil {
		return err
	}
	units, err := a.field("", "units", "units of bare numbers, feet or metres", "feet", true)
	if err != nil {
		return err
	}
	a.metric = strings.HasPrefix(strings.ToLower(units), "m")
	a.text.WriteString("place:\n")
	if err := a.fields("  ", []question{
		{"latitude", "latitude in degrees, north positive", "", true},
		{"longitude", "longitude in degrees, west negative", "", true},
		{"elevation", "elevation above the sea", "", false},
		{"time zone", "time zone", "America/New_York", false},
	}); err != nil {
		return err
	}
	if err := a.north(); err != nil {
		return err
	}
	fmt.Fprintln(a.out, "Places are [right, up] on your sketch, from one corner you choose as [0, 0].")
	_, err = a.field("", "lot", "lot corners in order, such as "+a.either("[[0, 0], [40, 0], [40, 115], [0, 115]]", "[[0, 0], [12, 0], [12, 35], [0, 35]]"), "", false)
	return err
}

func (a *asker) north() error {
	compass, err := a.yes("Were bearings taken with a compass?", true)
	if err != nil {
		return err
	}
	a.text.WriteString("north:\n")
	if !compass {
		return a.fields("  ", []question{{"up points", "bearing from true north in which up on the sketch points", "N 0 E", true}})
	}
	a.put("  ", "measured", "magnetic")
	return a.fields("  ", []question{
		{"declination", "declination: how far the needle points from true north, such as 7° W", "", true},
		{"up points", "what the compass reads looking up the sketch", "", true},
	})
}

func (a *asker) house() error {
	a.heading("The house")
	a.text.WriteString("house:\n")
	return a.building("  ")
}

// building asks for a footprint, a wall height and a roof.
func (a *asker) building(indent string) error {
	if err := a.fields(indent, []question{
		{"footprint", "footprint corners in order, such as " + a.either("[[8, 46], [31, 46], [31, 74], [8, 74]]", "[[2.5, 14], [9.5, 14], [9.5, 22.5], [2.5, 22.5]]"), "", true},
		{"wall height", "wall height, from the ground to where the roof meets the wall", "", true},
	}); err != nil {
		return err
	}
	a.text.WriteString(indent + "roof:\n")
	indent += "  "
	kind, err := a.field(indent, "kind", "roof kind: gable, hip, shed or flat", "gable", true)
	if err != nil {
		return err
	}
	kind = strings.ToLower(kind)
	if kind == "gable" {
		if _, err := a.field(indent, "ridge", "ridge as drawn: east-west or north-south", "", false); err != nil {
			return err
		}
	}
	if kind == "shed" {
		if _, err := a.field(indent, "down", "side toward which the roof falls, such as south", "", true); err != nil {
			return err
		}
	}
	if kind != "flat" {
		if _, err := a.field(indent, "pitch", "roof pitch, such as 9/12 or 37°", "", true); err != nil {
			return err
		}
	}
	_, err = a.field(indent, "overhang", "overhang of the eave", a.either("12 in", "30 cm"), false)
	return err
}

// list asks for things until there are no more of them. Each has a number.
func (a *asker) list(indent, key, what string, usual bool, one func(indent string, n int) error) error {
	for n := 1; ; n++ {
		question := "Is there a " + what + "?"
		if n > 1 {
			question, usual = "Is there another "+what+"?", false
		}
		more, err := a.yes(question, usual)
		if err != nil || !more {
			return err
		}
		if n == 1 {
			a.text.WriteString(indent + key + ":\n")
		}
		a.text.WriteString(indent + "  -\n")
		if err := one(indent+"    ", n); err != nil {
			return err
		}
	}
}

func (a *asker) windows() error {
	a.heading("Windows: left and sill to the opening; left is seen from outside")
	return a.list("  ", "windows", "window", true, func(indent string, n int) error {
		return a.fields(indent, []question{
			{"id", "id", fmt.Sprintf("W%d", n), true},
			{"wall", "wall", "south", true},
			{"left", "left: from the wall's left end", "", true},
			{"sill", "sill: above the foot of the wall", "", true},
			{"width", "width", "", true},
			{"height", "height", "", true},
			{"glazing", "glazing: single, single + storm, double", "single", false},
			{"frame", "frame: its share of the opening, such as 25 %", "", false},
			{"reveal", "reveal: depth of the glass behind the wall", "", false},
		})
	})
}

// keepClear asks for what collectors must leave room for.
func (a *asker) keepClear() error {
	a.heading("What collectors must leave room for on walls and roof: left as for windows; up from the eave, or the wall's foot")
	return a.list("", "keep clear", "vent, skylight, door, meter or outlet to keep clear", false, func(indent string, n int) error {
		return a.fields(indent, []question{
			{"id", "id", fmt.Sprintf("clear %d", n), true},
			{"on", "on: wall or roof plane, such as south or roof-south", "", true},
			{"left", "left: from the left end, seen from outside", "", true},
			{"up", "up: from the eave up the slope, or from the foot of the wall", "", true},
			{"width", "width", "", true},
			{"height", "height: up the wall or the slope", "", true},
			{"room", "room to keep round it; empty: " + a.either("6 in on a roof, 5 in on a wall", "15 cm on a roof, 13 cm on a wall"), "", false},
		})
	})
}

func (a *asker) others() error {
	a.heading("Porches, sheds, garages, neighbours' houses, fences and wires")
	for _, kind := range []struct{ key, what, id string }{
		{"porches", "porch of the house", "porch"}, {"sheds", "shed that could shade", "shed"},
		{"garages", "garage that could shade", "garage"}, {"neighbours", "neighbour's house that could shade", "neighbour"},
	} {
		if err := a.list("", kind.key, kind.what, false, func(indent string, n int) error {
			if err := a.fields(indent, []question{{"id", "id", fmt.Sprintf("%s %d", kind.id, n), true}}); err != nil {
				return err
			}
			return a.building(indent)
		}); err != nil {
			return err
		}
	}
	if err := a.list("", "fences", "fence that could shade", false, func(indent string, n int) error {
		return a.fields(indent, []question{
			{"id", "id", fmt.Sprintf("fence %d", n), true},
			{"line", "line: ends and corners, such as " + a.either("[[0, 115], [40, 115]]", "[[0, 35], [12, 35]]"), "", true},
			{"height", "height", "", true},
			{"base", "base: height of its foot above the ground at the house", "", false},
			{"lets through", "lets through: share of the sun, 0 for boards", "0", false},
			{"owner", "owner: lot, neighbour or street", "", false},
		})
	}); err != nil {
		return err
	}
	return a.list("", "wires", "wire overhead", false, func(indent string, n int) error {
		return a.fields(indent, []question{
			{"id", "id", fmt.Sprintf("wire %d", n), true},
			{"line", "line, such as " + a.either("[[2, -6], [8, 47]]", "[[0.6, -2], [2.5, 14.5]]"), "", true},
			{"height", "height", "", false},
			{"note", "note", "", false},
		})
	})
}

// terrain asks for the skyline and the lie of the land; with neither, nothing
// is written.
func (a *asker) terrain() error {
	a.heading("Skyline and ground")
	before := a.text.String()
	a.text.WriteString("terrain:\n")
	open := a.text.Len()
	if err := a.list("  ", "skyline", "point of a skyline higher than a fist at arm's length (of a hill the top, and where it comes down to level on either side)", false, func(indent string, _ int) error {
		return a.fields(indent, []question{
			{"bearing", "bearing from the middle of the sunny wall, such as S 30° E", "", true},
			{"altitude", "altitude: angle above level", "", true},
		})
	}); err != nil {
		return err
	}
	if err := a.list("  ", "spots", "spot higher or lower than the ground at the house", false, func(indent string, _ int) error {
		if _, err := a.field(indent, "at", "at: place such as [0, 0]", "", true); err != nil {
			return err
		}
		up, err := a.field(indent, "up", "up: how much higher than at the house; empty: lower", "", false)
		if err != nil || up != "" {
			return err
		}
		_, err = a.field(indent, "down", "down: how much lower", "", true)
		return err
	}); err != nil {
		return err
	}
	if a.text.Len() == open {
		a.text.Reset()
		a.text.WriteString(before)
	}
	return nil
}

func (a *asker) trees() error {
	a.heading("Trees: leave out what you could not measure")
	return a.list("", "trees", "tree", true, func(indent string, n int) error {
		if err := a.fields(indent, []question{
			{"id", "id, as on its tag", fmt.Sprintf("T%d", n), true},
			{"species", "species, or unknown, or unknown evergreen", "", true},
		}); err != nil {
			return err
		}
		if err := a.position(indent); err != nil {
			return err
		}
		if err := a.height(indent); err != nil {
			return err
		}
		return a.fields(indent, []question{
			{"spread", "spread of the crown", "", false},
			{"crown base", "crown base: lowest leaves above the ground", "", false},
			{"trunk", "trunk thickness at " + a.either("4 ft 6 in", "1.4 m"), "", false},
			{"measured by", "measured by: tape, clinometer, stick, pacing or guess", "", false},
			{"owner", "owner: lot, neighbour or street", "lot", true},
			{"cost", "cost of removal, if quoted", "", false},
			{"keep", "keep it whatever it gives: yes or no", "", false},
			{"notes", "notes, such as wires near by", "", false},
		})
	})
}

func (a *asker) position(indent string) error {
	at, err := a.field(indent, "at", "at: place such as "+a.either("[18, 14]", "[5.5, 4.3]")+"; empty for bearing and distance", "", false)
	if err != nil || at != "" {
		return err
	}
	return a.fields(indent, []question{
		{"from", "from: point to measure from, such as house south-east corner", "", true},
		{"bearing", "bearing from there to the trunk", "", true},
		{"distance", "distance to the middle of the trunk", "", true},
	})
}

// height takes a height, or works one up from angles.
func (a *asker) height(indent string) error {
	height, err := a.field(indent, "height", "height; empty for angles or unknown", "", false)
	if err != nil || height != "" {
		return err
	}
	angles, err := a.yes("Was it sighted with angles?", false)
	if err != nil || !angles {
		return err
	}
	a.text.WriteString(indent + "height:\n")
	if err := a.fields(indent+"  ", []question{
		{"distance", "distance from the eye to the trunk, level", "", true},
		{"top angle", "top angle, up to the top", "", true},
	}); err != nil {
		return err
	}
	base, err := a.field(indent+"  ", "base angle", "base angle, such as 4° down; empty on level ground", "", false)
	if err != nil || base != "" {
		return err
	}
	_, err = a.field(indent+"  ", "eye height", "eye height above the tree's ground", a.either("5 ft 4 in", "1.63 m"), false)
	return err
}

func (a *asker) money() error {
	a.heading("Money and season")
	if _, err := a.field("", "budget", "budget for tree work", "", false); err != nil {
		return err
	}
	_, err := a.field("", "season", "heating season, such as October to April; empty: from the climate", "", false)
	return err
}
