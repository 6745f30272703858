package report

import (
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/shading/study"
)

// Report is what a document is made from.
type Report struct {
	Study    *study.Study
	Pictures []portfolio.Picture
	Photos   []Photo
	Full     bool   // every picture and table; otherwise those a committee needs
	File     string // the site file's name, for the appendix
	Text     []byte // the site file as it was read
}
