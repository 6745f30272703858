package study

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
)

// American units outside parentheses, where a reader of metres would meet them
// first. A rule published in feet is quoted as published.
var (
	american  = regexp.MustCompile(`\b[0-9][0-9.,]* ?(in|ft|ft²|sq ft|cu ft|gal|lb|lb/ft²|°F|mi)\b|°F|Btu|\bR[ -][0-9]`)
	bracketed = regexp.MustCompile(`\([^()]*\)`)
	published = strings.NewReplacer("20 ft² (1.9 m²) or more", "", "Fall protection from 6 ft (1.8 m)", "")
)

func TestReaderOfMetresMeetsMetresFirst(t *testing.T) {
	site := heatLot(42)
	site.Metric = true
	st := heatOf(t, site)
	var out bytes.Buffer
	st.Answer(&out)
	st.TreesText(&out)
	st.HeatText(&out)
	if list, err := st.CrewList(""); err != nil {
		t.Error(err)
	} else {
		list.Text(&out)
	}
	bare := bracketed.ReplaceAllString(published.Replace(strings.Join(strings.Fields(out.String()), " ")), "")
	for _, at := range american.FindAllStringIndex(bare, -1) {
		t.Errorf("first in American units: …%s…", bare[max(0, at[0]-60):min(len(bare), at[1]+30)])
	}
	if !strings.Contains(out.String(), "3 m (10 ft)") || !strings.Contains(out.String(), "¢ a kWh of useful heat") {
		t.Errorf("not a metric lot's text:\n%s", out.String())
	}
}
