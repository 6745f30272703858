package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/study"
)

// title of the whole.
func (r Report) title() string {
	if name := strings.TrimSpace(r.Study.Site.Name); name != "" {
		return name
	}
	return "A lot without a name"
}

// place, climate and season in one line.
func (r Report) where() string {
	st := r.Study
	return fmt.Sprintf("%s, heating season %s", study.PlaceText(st.Site.Place), study.MonthsText(st.Heating))
}

// sections of the report in their order.
func (r Report) sections() []section {
	out := []section{r.summary(), r.facts(), r.method(), r.access(), r.plans(), r.ranking()}
	if r.Study.Heat != nil {
		out = append(out, r.worth())
	}
	out = r.illustrate(out)
	if len(r.Photos) > 0 {
		out = slices.Insert(out, 1, r.photos())
	}
	return append(out, r.cautions(), r.appendix())
}

func (r Report) unit() measure.Unit {
	if r.Study.Site.Metric {
		return measure.Metres
	}
	return measure.Feet
}

func (r Report) appendix() section {
	s := section{Name: "site-file", Title: "The site file"}
	if len(r.Text) == 0 {
		s.Blocks = append(s.Blocks, paragraph("The site file was not handed over with the study."))
		return s
	}
	name := r.File
	if name == "" || name == "-" {
		name = "standard input"
	}
	s.Blocks = append(s.Blocks, paragraph("Everything above follows from these lines ("+name+"), the climate named in “How it was worked out”, and the values listed as assumed."))
	text := strings.ReplaceAll(strings.TrimRight(strings.ToValidUTF8(string(r.Text), "?"), "\r\n "), "\r", "")
	s.Blocks = append(s.Blocks, listing(strings.Split(strings.ReplaceAll(text, "\t", "    "), "\n")))
	return s
}

// percent of a share.
func percent(share float64) string { return measure.FormatPercent(share, 0) }

// money with a mark where part of it was assumed.
func money(dollars float64, guess bool) string {
	if guess {
		return measure.FormatMoney(dollars) + "*"
	}
	return measure.FormatMoney(dollars)
}

func listed(ids []string) string {
	if len(ids) == 0 {
		return "none"
	}
	return strings.Join(ids, ", ")
}
