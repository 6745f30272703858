package study

import (
	"bytes"
	"strings"
	"testing"
)

// The fullest of the examples: nine trees, five plans, two kinds of collector.
func TestFirstScreenFitsAWindowAndAnswersTheQuestions(t *testing.T) {
	st := decidedAlder(t)
	var text bytes.Buffer
	st.Answer(&text)
	lines := strings.Split(strings.TrimRight(text.String(), "\n"), "\n")
	if len(lines) > 43 {
		t.Errorf("%d lines", len(lines))
	}
	for _, line := range lines {
		if n := len([]rune(line)); n > screenWide+4 {
			t.Errorf("%d signs: %s", n, line)
		}
	}
	for _, part := range []string{"This house can get sun", "Trees in the way", "Best set within $4,500", "Order of work", "Also in the way, and staying", "plans", "Heat and money a year",
		"Collectors", "left edge", "What would change the answer", "Measure first", "Sun from", "Call before you dig"} {
		if !strings.Contains(text.String(), part) {
			t.Errorf("nothing of %q in\n%s", part, text.String())
		}
	}
}

func TestLotWithoutTreesSaysSoAndPrintsNoEmptyTable(t *testing.T) {
	site := heatLot(42)
	site.Trees = nil
	st := heatOf(t, site)
	var text bytes.Buffer
	st.Answer(&text)
	st.TreesText(&text)
	if !strings.Contains(text.String(), "no trees on this lot") || strings.Contains(text.String(), "fair share (range)") {
		t.Error(text.String())
	}
}

// A wood of trees is not listed to the last one in a sentence.
func TestLongListsAreCutInSentences(t *testing.T) {
	ids := make([]string, mostListed+1)
	for i := range ids {
		ids[i] = "T"
	}
	if got := listText(ids); strings.Count(got, "T") != mostListed+1 || strings.Contains(got, "more") {
		t.Errorf("one over the most is not worth cutting: %s", got)
	}
	if got := listText(append(ids, "T", "T")); strings.Count(got, "T") != mostListed || !strings.HasSuffix(got, " and 3 more") {
		t.Errorf("a long list reads %q", got)
	}
	if listText(nil) != "none" {
		t.Error("no list is none")
	}
}
