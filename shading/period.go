package shading

import (
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
	"github.com/southyard/southyard/sun"
)

// Period is a run of days of one month through which no tree changes: every
// leaf share is constant.
type Period struct {
	Month   time.Month
	First   int // first day of the year, 1..365
	Days    int
	leafDay int // a day whose leaf shares stand for the period's
}

// periodsOf cuts the year wherever a month ends or a tree's leaf share steps.
func periodsOf(blockers []Blocker) []Period {
	distinct := map[model.Leafing]bool{}
	for i := range blockers {
		if o := blockers[i].Optics; !o.Evergreen {
			distinct[o.Leafing] = true
		}
	}
	var out []Period
	for day := 1; day <= 365; day++ {
		month, _ := sun.Month((day - 1) * 24)
		if n := len(out); n > 0 && out[n-1].Month == month && sameLeaf(distinct, day, day-1) {
			out[n-1].Days++
			continue
		}
		out = append(out, Period{Month: month, First: day, Days: 1, leafDay: day})
	}
	return out
}

func sameLeaf(leafings map[model.Leafing]bool, a, b int) bool {
	for l := range leafings {
		if species.LeafShare(l, a) != species.LeafShare(l, b) {
			return false
		}
	}
	return true
}

// On is the transmissivity on a day of the year.
func (o Optics) On(day int) float64 {
	if o.Evergreen || o.InLeaf == o.Bare {
		return o.InLeaf
	}
	return o.Bare + (o.InLeaf-o.Bare)*species.LeafShare(o.Leafing, day)
}
