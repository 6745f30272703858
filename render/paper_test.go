package render

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/render/ink"
)

func TestPairStandsUprightWhereThatDrawsItLarger(t *testing.T) {
	letter := ink.Sheets()[0]
	low := demoPair() // two walls of one storey
	for _, half := range []*Picture{&low.Left, &low.Right} {
		f := (*half).(FaceMap)
		f.Outline, f.Edges = orb.MultiPolygon{{feet(rect(0, 0, 22, 10))}}, nil
		*half = f
	}
	upright := low.fit(letter.Width-2*sheetMargin, letter.Height-2*sheetMargin)
	turned := low.fit(letter.Height-2*sheetMargin, letter.Width-2*sheetMargin)
	if !upright.stacked || turned.stacked {
		t.Errorf("two walls: one above the other upright %v, turned %v", upright.stacked, turned.stacked)
	}
	if p := demoPlanPair().fit(letter.Height-2*sheetMargin, letter.Width-2*sheetMargin); p.stacked {
		t.Error("two deep lots stand one above the other on a turned sheet")
	}
}

func TestPlansOfADayAreNoSmallerOnASheet(t *testing.T) {
	for _, turned := range []bool{false, true} {
		w, h := ink.LetterWidth-2*sheetMargin, ink.LetterHeight-2*sheetMargin
		if turned {
			w, h = h, w
		}
		scale := func(d ShadowDay) float64 {
			b, c := d.Plan.bound(), float64(d.columns())
			rows := math.Ceil(float64(len(d.Hours)) / c)
			high := min(h, d.heightAt(w, h)) - d.above() - d.below(w) - dayFoot - 2*margin
			return min((w/c-8)/(b.Max[0]-b.Min[0]), (high/rows-29)/(b.Max[1]-b.Min[1]))
		}
		if usual, fitted := scale(demoDay()), scale(demoDay().fit(w, h)); fitted < usual {
			t.Errorf("turned %v: %.3f points a metre, in the usual rows %.3f", turned, fitted, usual)
		}
	}
}

// Between the drawings and the caption there is room for scale bar and legend,
// and no more.
func TestNoWhiteBandBetweenPairAndCaption(t *testing.T) {
	for _, turned := range []bool{false, true} {
		f := OnSheet(demoPair(), ink.Sheets()[0], turned)
		rec := &ink.Record{W: f.Width, H: f.Height}
		if err := f.Draw(rec); err != nil {
			t.Fatal(err)
		}
		ends, caption := 0.0, 0.0
		for _, w := range rec.Texts {
			if w.S == "west end" {
				ends = max(ends, w.Box.Y1)
			}
			if strings.HasPrefix(w.S, "Heating season") {
				caption = w.Box.Y0
			}
		}
		if gap := caption - ends; !(gap > 0) || gap > faceFoot+demoPair().legendRoom()+30 {
			t.Errorf("turned %v: %.0f points between the drawings and the caption", turned, gap)
		}
	}
}
