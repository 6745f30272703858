package render

import (
	"strings"
	"testing"
)

func TestEveryHeightReadIsLetteredOffTrunksAndBuildings(t *testing.T) {
	d := bankPlan()
	rec, s := recorded(t, d, d.Words)
	keep := d.keepOff(viewOf(d.bound(), d.box(s)))
	found := map[string]int{}
	for _, w := range rec.Texts {
		found[w.S]++
		for _, spot := range d.Land.Spots {
			if w.S == spot.Text && meetsAny(w.Box, keep) {
				t.Errorf("%q lies on a trunk or a building", w.S)
			}
		}
	}
	for _, spot := range d.Land.Spots {
		if found[spot.Text] == 0 {
			t.Errorf("%q at %v is not lettered", spot.Text, spot.At)
		}
	}
	for _, want := range []string{"+1 ft", "+2 ft", "+3 ft", "−1 ft", "line of one height"} {
		if found[want] == 0 {
			t.Errorf("%q is not lettered", want)
		}
	}
}

func TestHeightsThatFindNoRoomAreCounted(t *testing.T) {
	if all := strings.Join(lettered(t, awkwardPictures()["plan with four hundred heights"]), "|"); !strings.Contains(all, "heights not lettered") {
		t.Error("nobody says that heights are missing")
	}
}

func TestPlanWithoutSpotsSaysNothingOfHeights(t *testing.T) {
	for _, w := range lettered(t, shadowPlan()) {
		if strings.Contains(w, "height") {
			t.Errorf("%q", w)
		}
	}
}
